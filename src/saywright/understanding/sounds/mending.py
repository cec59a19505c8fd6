"""Names heard a little wrong ("main chat", "float hide") → the sheet's name that sounds like them.

Only words that mean nothing else are mended, and what is said with a mended name asks.
"""

from __future__ import annotations

from dataclasses import replace

from saywright.understanding.bench_words import (
    FASTENERS,
    LETTERS,
    PART_NOUNS,
    PARTICLES,
    PLACES_ON_IT,
    TRANSITIVE,
    WORKSHOP,
)
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.meanings import NOTHING, Name
from saywright.understanding.naming.slots import name_may_stand
from saywright.understanding.naming.spacing import respaced
from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.sounds.by_sound import by_sound, done_by_sound
from saywright.understanding.sounds.consonants import letters_apart, likeness, sound_key
from saywright.understanding.sounds.heard_numerals import is_counted
from saywright.understanding.sounds.in_pieces import put_together
from saywright.understanding.sounds.known_words import HALF, LITTLE, UNKNOWN, bound_memory, loose_words
from saywright.understanding.sounds.little_words import LITTLE_WORDS, is_theirs
from saywright.understanding.sounds.phones import alike as alike_sounds
from saywright.understanding.sounds.said_alike import (
    inside_a_name,
    said_alike,
)
from saywright.understanding.sounds.same_sound import ends_heard, same_sound, tells_same
from saywright.understanding.sounds.side_sounds import put_right, sides_heard
from saywright.understanding.sounds.state_sounds import is_sure, state_of_part, surely_told
from saywright.understanding.sounds.subject_sounds import (
    beside_its_noun,
    subject_heard,
)
from saywright.understanding.sounds.unit_sounds import unit_heard
from saywright.understanding.tokens import BREAK, Token
from saywright.understanding.wordforms import plural, singular, verb_forms

_ALIKE_IN_NAME = 0.6  # one word of a longer name whose other words were heard right
_ALIKE_KNOWN = 0.66  # of a word that belongs to another name
_SOUNDS_SO = 0.8  # vowels too
_NO_NAMES = TRANSITIVE | PLACES_ON_IT | WORKSHOP | FASTENERS | PART_NOUNS
_DOERS = frozenset({"it", "he", "she", "they", "we", "i"})
_HEADS = frozenset({BREAK, "and", "then", "now", "just"})
_OBJECTS = frozenset({"the", "it", "them", "your", "this", "those"})
_LONGEST_NAME = 4  # words
_ALIKE_PLACE = 0.83
_ALIKE_ALONE = 0.7  # vowels too, of words with the same consonants: no "doing" for the tank
_SIDE_NOUNS = frozenset({"side", "end"})
_SHORTEST_ALONE = 4  # letters; a shorter word sounds like too many others


def mend(tokens: tuple[Token, ...], lexicon: Lexicon) -> tuple[tuple[Token, ...], frozenset[int]]:
    """The tokens with misheard names put right, and the indices of those whose word was another."""
    tokens, ended = ends_heard(tokens, lexicon)
    heard = sides_heard(ended, lexicon)
    mended, changed = _mend(heard, lexicon)
    return mended, changed if heard is tokens else changed | put_right(mended, heard, tokens)


def _mend(tokens: tuple[Token, ...], lexicon: Lexicon) -> tuple[tuple[Token, ...], frozenset[int]]:
    tokens = respaced(tokens, lexicon)
    texts = [token.text for token in tokens]
    loose = loose_words(texts, lexicon)
    if not loose:
        return tokens, frozenset()
    bound_memory(lexicon)
    tokens, pieces = _in_pieces(tokens, {texts[at] for at, known in loose if known == UNKNOWN}, lexicon)
    if pieces:
        texts = [token.text for token in tokens]
        loose = loose_words(texts, lexicon)
    changed: dict[int, str] = {at: texts[at] for at in pieces}
    for at, known in loose:
        text = texts[at]
        if (at and text in lexicon.units and texts[at - 1] in CLASSES) or text in lexicon.station_words:
            continue  # "one turn out", "head stage one"
        meant = said_alike(texts, at, lexicon) or (_letter(texts, at, lexicon) if text in LETTERS else "")
        if not meant and known != LITTLE:
            meant = subject_heard(texts, at, lexicon) or beside_its_noun(texts, at, lexicon)
        if meant:
            changed[at] = meant
            continue
        if known == LITTLE or at in changed or is_theirs(texts, at):
            continue
        if known != UNKNOWN:
            if known == HALF and not _in_a_name(texts, at, lexicon):
                changed.update(_in_name(texts, at, lexicon, _ALIKE_KNOWN) or by_sound(texts, at, lexicon))
            elif known != HALF and (state := state_of_part(texts, at, lexicon)):
                changed[at] = state
            continue
        changed.update(
            unit_heard(texts, at, lexicon)
            or done_by_sound(texts, at, lexicon)
            or _place_of_next(texts, at, lexicon)
            or surely_told(texts, at, lexicon)
            or _named_by_sound(texts, at, lexicon)
        )
    if not changed:
        return tokens, frozenset()
    mended = tuple(replace(t, text=changed[i]) if i in changed else t for i, t in enumerate(tokens))
    sure = {at for at in changed if at not in pieces and _is_sure(texts, at, changed[at], lexicon)}
    return mended, frozenset(changed.keys() - sure)


def _named_by_sound(texts: list[str], at: int, lexicon: Lexicon) -> dict[int, str]:
    """What the unknown word at *at* is by its sound; {} where it is no name, no place and no state.

    "Hang on" is a phrase that is known, and no hinge.
    """
    if _is_bidden(texts, at) or _in_a_name(texts, at, lexicon):
        return {}
    return (
        _in_name(texts, at, lexicon)
        or same_sound(texts, at, lexicon)
        or _alone(texts, at, lexicon)
        or _at_position(texts, at, lexicon)
        or _position(texts, at, lexicon)
        or by_sound(texts, at, lexicon)
    )


def _is_bidden(texts: list[str], at: int) -> bool:
    """ "fold the pair of them in": a verb at the head, with its object behind it, and no felt."""
    return texts[at + 1 : at + 2] != [] and texts[at + 1] in _OBJECTS and (not at or texts[at - 1] in _HEADS)


def _in_pieces(
    tokens: tuple[Token, ...], unknown: set[str], lexicon: Lexicon
) -> tuple[tuple[Token, ...], frozenset[int]]:
    """The tokens with names heard as two words in one, and the indices of those."""
    return put_together(
        tokens,
        lexicon.sounds,
        unknown,
        lambda said, first, last, name: name_may_stand(said, first, last, name, lexicon),
        heard=lexicon.heard,
    )


def _is_sure(texts: list[str], at: int, word: str, lexicon: Lexicon) -> bool:
    """True where *word* decides nothing, or is hardly wrong; what is said with any other asks."""
    heard = texts[at]
    if heard in LITTLE_WORDS:
        return not inside_a_name(texts, at, lexicon)
    state = _tells_state(heard, word, lexicon) or tells_same(heard, word, lexicon)
    return state or is_counted(texts, at) or _bent(heard, word)


def _tells_state(heard: str, word: str, lexicon: Lexicon) -> bool:
    """True for a word that decides no part and no value, and sounds like what was heard."""
    meant = lexicon.table.get((word,), NOTHING)
    state = bool(meant.conditions or meant.acts) and not meant.parts
    return state and is_sure(heard, word)


def _letter(texts: list[str], at: int, lexicon: Lexicon) -> str:
    """The letter that the word at *at* is the name of, where a name of the sheet has it there; else ""."""
    letter = LETTERS[texts[at]]
    return letter if _names_with(letter, texts, at, lexicon) else ""


def _bent(text: str, word: str) -> bool:
    """ "float dropped" for the float drop: another form of the word itself is no guess."""
    return text != word and text in {plural(word), singular(word), *verb_forms(word)}


def _names_with(letter: str, texts: list[str], at: int, lexicon: Lexicon) -> bool:
    """ "be screw" for the b screw: the name of a letter, heard as a word, in a name of the sheet."""
    if lexicon.names(tuple(texts), at).parts:
        return False
    names = lexicon.mendable.get(letter, ())
    return any(
        word == letter and at >= position and _others_stand(texts, at - position, name, position)
        for name in names
        for position, word in enumerate(name)
    )


def _in_a_name(texts: list[str], at: int, lexicon: Lexicon) -> bool:
    """True where the word at *at* stands inside a name or phrase that is known."""
    said = tuple(texts)
    for start in range(max(0, at - _LONGEST_NAME), at + 1):
        found = lexicon.match(said, start) if said[start] else None
        if found is not None and start + found[0] > at:
            return True
    return False


def _in_name(texts: list[str], at: int, lexicon: Lexicon, wanted: float = _ALIKE_IN_NAME) -> dict[int, str]:
    """One word of a name of two or more is wrong, the others stand beside it."""
    if texts[at].endswith("ed") and texts[at + 1 : at + 2] and texts[at + 1] in PARTICLES:
        return {}  # "caliper bolted up": what was done to it, no caliper bolt
    best: tuple[float, str] | None = None
    beside = {texts[i] for i in (at - 1, at + 1) if 0 <= i < len(texts)}
    names = dict.fromkeys(name for word in sorted(beside) for name in lexicon.mendable.get(word, ()))
    for name in names:
        for position, word in enumerate(name):
            start = at - position
            if start < 0 or not _others_stand(texts, start, name, position):
                continue
            alike = likeness(texts[at], word)
            alike = (
                max(alike, sounding) if (sounding := alike_sounds(texts[at], word)) >= _SOUNDS_SO else alike
            )
            if alike >= wanted and (best is None or alike > best[0]):
                best = (alike, word)
    return {at: best[1]} if best is not None else {}


def _others_stand(texts: list[str], start: int, name: Name, hole: int) -> bool:
    if start + len(name) > len(texts):
        return False
    return all(texts[start + i] == word for i, word in enumerate(name) if i != hole)


def _alone(texts: list[str], at: int, lexicon: Lexicon) -> dict[int, str]:
    """A word that sounds exactly like a part's one-word name."""
    text = texts[at]
    if at and texts[at - 1] in _DOERS:
        return {}  # "why it floods": a verb
    if len(text) < _SHORTEST_ALONE or text in _NO_NAMES:
        return {}
    heard = sound_key(text)
    like = [
        word
        for word, key in lexicon.sounding
        if key == heard
        and _begin_alike(word, text)
        and (len(key) > 2 or _one_letter(word, text))
        and alike_sounds(text, word) >= _ALIKE_ALONE
    ]
    best = min(like, key=lambda word: word[0] != text[0], default=None)
    return {at: best} if best is not None else {}


def _one_letter(word: str, text: str) -> bool:
    """ "bowel" for "bowl": short names are alike in their letters too."""
    return word[0] == text[0] and letters_apart(word, text) == 1


def _at_position(texts: list[str], at: int, lexicon: Lexicon) -> dict[int, str]:
    """ "inner pat": a short word behind a position that only one part so named has."""
    before = lexicon.table.get((texts[at - 1],)) if at else None
    if before is None or not before.positions:
        return {}
    for word, key in lexicon.sounding:
        parts = map(lexicon.sheet.get, lexicon.table[word,].parts)
        positions = [position for p in parts if p is not None for position in p.positions]
        placed = any(texts[at - 1] in position.split() for position in positions)
        if placed and key == sound_key(texts[at]) and _begin_alike(word, texts[at]):
            return {at: word}
    return {}


def _position(texts: list[str], at: int, lexicon: Lexicon) -> dict[int, str]:
    """ "air gap write one three five": what sounds like a position of the sheet, before a number."""
    following = texts[at + 1] if at + 1 < len(texts) else ""
    if following not in CLASSES and not (
        at and (texts[at - 1],) in lexicon.table and following in {"", "one"}
    ):
        return {}
    if texts[at] in lexicon.positions:
        return {}
    alike = [
        w
        for w in sorted(lexicon.positions)
        if sound_key(w) == sound_key(texts[at]) and _begin_alike(w, texts[at])
    ]
    return {at: alike[0]} if alike else {}


def _place_of_next(texts: list[str], at: int, lexicon: Lexicon) -> dict[int, str]:
    """ "section ball out": the position of the part named right behind that sounds like the word at *at*.

    Or one that most parts have, before its noun: "the asset side".
    """
    if at + 1 < len(texts) and texts[at + 1] in _SIDE_NOUNS:
        wide = (p for p in sorted(lexicon.positions) if len(p) >= _SHORTEST_ALONE)
        said = [p for p in wide if alike_sounds(texts[at], p, _ALIKE_PLACE) >= _ALIKE_PLACE]
        return {at: said[0]} if len(said) == 1 else {}
    named = lexicon.match(tuple(texts), at + 1) if at + 1 < len(texts) else None
    parts = [lexicon.sheet.get(c) for c in (*named[1].parts, *named[1].aliases)] if named is not None else []
    able = [p for p in lexicon.positions if parts and all(c is not None and p in c.positions for c in parts)]
    said = [p for p in sorted(able) if alike_sounds(texts[at], p, _ALIKE_PLACE) >= _ALIKE_PLACE]
    return {at: said[0]} if len(said) == 1 else {}


def _begin_alike(one: str, other: str) -> bool:
    """True for the same first letter, or two consonants (whose keys are compared elsewhere)."""
    return one[0] == other[0] or not {one[0], other[0]} & set("aeiou")
