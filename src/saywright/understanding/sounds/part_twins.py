"""Words written for the parts of a sheet that sound like them: "casket came away", "seed under it's pitted".

A recogniser knows pistols, vowels and veins, and no sheet. Where the sheet has the part and not the word, and
the word can be no other thing there, the part was said. It is put in before anything is read, so that all
that is known of parts holds of it; what is told of it asks.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Final

from saywright.understanding.lexicon import Lexicon
from saywright.understanding.meanings import NOTHING
from saywright.understanding.numbers.words import CLASSES, ORDINALS
from saywright.understanding.tokens import BREAK, Token, text_at, words_of
from saywright.understanding.wordforms import plural

# Said ← heard, each in the singular: what is no thing on a bench.
_NEVER: Final = (
    ("gasket", "basket casket"), ("valve", "vowel"), ("piston", "pistol"), ("plunger", "plunder lunger"),
    ("seat", "seed"), ("bore", "boar"), ("key", "quay"), ("yoke", "yolk"), ("vane", "vein vain"),
    ("bearing", "baring"), ("ring", "wring"), ("lever", "leaver"), ("main", "mane"), ("axle", "axel"),
    ("caliper", "calliper caliber calibre"), ("shoe", "shoo"), ("diaphragm", "diagram"), ("drum", "strum"),
    ("impeller", "impala"), ("poppet", "puppet"), ("disc", "desk"), ("rotor", "rota"), ("seal", "ceil"),
    ("spindle", "swindle"), ("pedal", "peddle"), ("hose", "hoes"), ("needle", "noodle"), ("rear", "rare"),
)  # fmt: skip
# The same of what a bench may have as well: only where a noun stands of which something is told.
_PLACED: Final = (
    ("spring", "string sprint"), ("pin", "pen"), ("bolt", "bold"), ("bowl", "bold bull"), ("brake", "break"),
    ("shoe", "chew"), ("screw", "crew scream"), ("plug", "bug"), ("cap", "cab"), ("pad", "pat"),
    ("rod", "road rot"), ("bush", "push"), ("shim", "shin"), ("float", "flow"), ("wheel", "weal"),
    ("wiper", "viper"), ("strainer", "stranger"), ("seal", "steal"), ("slinger", "singer"), ("gland", "land"),
    ("choke", "joke"), ("circlip", "circle"), ("spool", "spoon"), ("pedal", "petal"),
)  # fmt: skip
_BEHIND: Final = words_of(
    "is are was has had off out on in under underneath behind inside came come comes went goes back looks "
    "feels and with at of needs wants lifts down up all both free"
) | {"", BREAK}
_BEFORE: Final = words_of(
    "the a this that its new old other both and then each every of left right no with his her these those "
    "under behind two three four"
) | {"", BREAK}
_MOVES: Final = words_of("is off on out in and")
_LIES_IN: Final = words_of("in on into onto off from to at by with")  # "in the basket", "on the desk"
_THINGS: Final = words_of(
    "basket desk diagram string pen singer circle land stranger joke spoon petal road crew"
)
_IN_NAMES: Final = words_of(
    "pen pens rot rots land lands road roads flow flows crew crews"
)  # alone, themselves
_KEPT: Final = words_of(
    "is are was were very how pretty quite so as parts wash coffee grass hay weed bird piece bit ball "
    "length like no"
)


def _with_plurals(rows: tuple[tuple[str, str], ...]) -> Mapping[str, tuple[str, ...]]:
    found: dict[str, tuple[str, ...]] = {}
    for said, all_heard in rows:
        for heard in all_heard.split():
            found[heard] = (*found.get(heard, ()), said)
            many = heard if heard.endswith("s") else plural(heard)
            if many != heard:
                found[many] = (*found.get(many, ()), plural(said))
    return found


_NEVER_SAID, _SAID_THERE = _with_plurals(_NEVER), _with_plurals(_PLACED)
_HEARD: Final = frozenset({*_NEVER_SAID, *_SAID_THERE})


def parts_heard(tokens: tuple[Token, ...], lexicon: Lexicon) -> tuple[tuple[Token, ...], frozenset[int]]:
    """*tokens* with the parts that were said, and the words that those came from."""
    texts = tuple([token.text for token in tokens])
    if _HEARD.isdisjoint(texts):
        return tokens, frozenset()
    heard = [(at, _part(texts, at, lexicon)) for at, text in enumerate(texts) if text in _HEARD]
    put = {at: said for at, said in heard if said}
    if not put:
        return tokens, frozenset()
    made = tuple([replace(t, text=put[at]) if at in put else t for at, t in enumerate(tokens)])
    return made, frozenset(made[at].word for at in put)


def in_doubt(tokens: tuple[Token, ...], words: frozenset[int]) -> frozenset[int]:
    """Which of *tokens* are parts that came from *words*."""
    return frozenset(at for at, t in enumerate(tokens) if t.word in words and t.text in _PARTS)


_PARTS: Final = frozenset(said for row in (*_NEVER_SAID.values(), *_SAID_THERE.values()) for said in row)


def _part(texts: Sequence[str], at: int, lexicon: Lexicon) -> str:
    """The word of a part that was said at *at*; "" where it is the one that was heard, or either of two."""
    text = texts[at]
    meant = (*_NEVER_SAID.get(text, ()), *_SAID_THERE.get(text, ()))
    able = [said for said in meant if said in lexicon.words or said in lexicon.positions]
    if len(able) != 1 or text_at(texts, at - 1) in _KEPT:
        return ""
    said = able[0]
    if _in_name(texts, at, said, lexicon) and not _in_name(texts, at, text, lexicon):
        return said
    own = lexicon.table.get((text,), NOTHING)
    if own.parts or own.aliases or text in lexicon.positions or text in lexicon.tool_words:
        return ""
    if text in lexicon.units or (text in lexicon.words and not _is_placed(texts, at, lexicon)):
        return ""
    if text in _THINGS and text_at(texts, at - 1) in {"the", "a"} and text_at(texts, at - 2) in _LIES_IN:
        return ""
    if text in _IN_NAMES or not (said in lexicon.positions or (said,) in lexicon.table):
        return ""
    return said if text in _NEVER_SAID or _is_told_of(texts, at, lexicon) else ""


def _is_placed(texts: Sequence[str], at: int, lexicon: Lexicon) -> bool:
    """ "leading chew three point one": what tells how a part is, where only one at a place can stand."""
    before, behind = text_at(texts, at - 1), text_at(texts, at + 1)
    placed = before in lexicon.positions and (behind in CLASSES or behind in _MOVES)
    return placed and bool(lexicon.table.get((texts[at],), NOTHING).conditions)


def _in_name(texts: Sequence[str], at: int, said: str, lexicon: Lexicon) -> bool:
    """ "bowl basket", "break hose": with it the words beside it are a name of two words or more."""
    whole = (*texts[:at], said, *texts[at + 1 :])
    for start in range(max(0, at - 3), at + 1):
        if not whole[start] or whole[start] == BREAK:
            continue
        found = lexicon.match(whole, start)
        if found is not None and found[0] > 1 and start + found[0] > at:
            return bool(found[1].parts or found[1].aliases or found[1].characteristics)
    return False


def _is_told_of(texts: Sequence[str], at: int, lexicon: Lexicon) -> bool:
    """True where a noun stands at *at*, and something is told of it right behind."""
    before, behind = text_at(texts, at - 1), text_at(texts, at + 1)
    led = before in _BEFORE or before in lexicon.positions or before in ORDINALS
    told = lexicon.names(tuple(texts), at + 1)
    value = behind in CLASSES and before not in CLASSES
    return led and (value or behind in _BEHIND or bool(told.conditions or told.acts))
