""" "That can sit in the jar overnight", "it's had an hour in paraffin": soaked, in plain words. Pure.

What a part is left in soaks it: a stuff that loosens or cleans, or any jar where it is told how long.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from saywright.understanding.doings.roundabout import POINTS, ended, put_words
from saywright.understanding.meanings import NOTHING
from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.steps import Tokens, called_by
from saywright.understanding.tokens import BREAK

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

IN_STUFF: Final = frozenset({"in", "into", "sonic"})
_STUFFS: Final = (
    ("penetrating", "oil"), ("carb", "cleaner"), ("brake", "cleaner"), ("white", "spirit"), ("hot", "water"),
    ("soapy", "water"), ("rust", "remover"), ("citric", "acid"), ("vinegar",), ("paraffin",), ("petrol",),
    ("gasoline",), ("kerosene",), ("diesel",), ("thinners",), ("thinner",), ("meths",), ("acetone",),
    ("solvent",), ("degreaser",), ("turps",), ("cleaner",), ("dip",),
)  # fmt: skip
_BATHS: Final = frozenset({"bath", "tank", "dip", "solution", "mix"})  # of what stands before it
_BATH_KINDS: Final = frozenset(
    ["acid", "soda", "caustic", "citric", "vinegar", "descaler", "descaling", "cleaning", "solvent",
     "paraffin", "salt", "lye", "washing", "chemical", "degreasing", "rust"]
)  # fmt: skip
_JARS: Final = (("jar",), ("pot",), ("tub",), ("bucket",), ("tin",), ("jug",), ("beaker",), ("bath",))
_LONG: Final = frozenset(
    ["overnight", "night", "hour", "hours", "minutes", "minute", "day", "days", "while", "morning", "weekend"]
)
_TIME: Final = _LONG | frozenset(
    ["a", "an", "his", "her", "its", "their", "one", "two", "three", "five", "ten", "fifteen", "twenty",
     "thirty", "half", "couple", "of", "good", "few", "another", "about", "over", "all", "whole", "long"]
)  # fmt: skip
_COLOURS: Final = frozenset(
    ["the", "a", "some", "that", "warm", "hot", "neat", "old", "fresh", "clean", "my"]
)
_GO: Final = frozenset({"sit", "stand", "go", "goes", "stay", "stays", "lie", "live", "sits", "stands"})
_WENT: Final = frozenset({"sat", "stood", "stayed", "been", "had", "spent", "lain"})
_PUT: Final = frozenset({"drop", "chuck", "stick", "pop", "bung", "dump", "throw", "leave", "sling", "dunk"})
_PUT_SO: Final = frozenset(
    {"dropped", "chucked", "stuck", "popped", "bunged", "dumped", "threw", "left", "slung", "dunked"}
)
_MAY: Final = frozenset(
    {"can", "could", "will", "would", "should", "to", "needs", "need", "just", "is", "are"}
)
_HAS: Final = frozenset({"is", "are", "has", "have"})
_NOT: Final = frozenset({"not", "never", "was", "were", "if", "somebody", "found", "when", "no", "had"})
_SHOULD: Final = frozenset({"should", "could", "would", "might"})
_OTHERS: Final = frozenset({"he", "she", "they"})
_THEIR: Final = frozenset({"their", "its", "his", "her", "a"})
_TURNS: Final = frozenset({"bath", "soak", "dip", "swim"})
_MINUTES: Final = frozenset({"minutes", "minute", "degrees", "mins"})
_TURN: Final = _TURNS | {"tank", "ultrasonic", "give", "gave"}
_TIMES: Final = _TIME | frozenset(CLASSES) | {"at", "degrees", "for", "good", "degree", "mins"}
_STAND_ALONE: Final = frozenset({BREAK, "and", "is", "are", "took", "takes"})
_REACH: Final = 6  # tokens between the verb and what it is left in


@called_by(IN_STUFF | _TURN)
def left_in_stuff(tokens: Tokens, _: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* with the plain word for what is left in something, or was."""
    texts = [token.text for token in tokens]
    if not _TURN.isdisjoint(texts):
        tokens = _had_its_turn(tokens, texts, lexicon)
        texts = [token.text for token in tokens]
        if not _LONG.isdisjoint(texts) and not IN_STUFF.isdisjoint(texts):
            tokens = _so_long(tokens, texts)
            texts = [token.text for token in tokens]
    if IN_STUFF.isdisjoint(texts):
        return tokens
    if "sonic" in texts:
        tokens = _in_ultrasonic(tokens, texts, lexicon)
    texts = [token.text for token in tokens]
    if not lexicon.table.get(("soak",), NOTHING).acts:
        return tokens
    for at, text in enumerate(texts):
        end = _behind_stuff(texts, at, lexicon) if at and text in {"in", "into"} else 0
        if end:
            return _plainly(tokens, texts, at, end)
    return tokens


def _had_its_turn(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "They've had their bath", "it's had its soak": it was in the bath. "Ten minutes in the tank"."""
    for at in range(1, len(texts) - 1):
        if (
            texts[at - 1] in {"give", "gave"}
            and (given := _given_time(tokens, texts, at, lexicon)) is not tokens
        ):
            return given
        if (
            texts[at - 1] == "had"
            and texts[at] in _THEIR
            and texts[at + 1] in _TURNS
            and ended(texts, at + 2)
        ):
            bath = ("been", "in", "the", "bath") if texts[at + 1] == "bath" else ("had", "a", "soak")
            return put_words(tokens, at - 1, at + 2, *bath)
        tank = texts[at - 1 : at + 1] == ["the", "tank"] and texts[at + 1] not in {"of", "there", "is"}
        into = texts[max(0, at - 2)] in {"in", "into"} and not _MINUTES.isdisjoint(texts)
        if tank and into and _is_free(lexicon, "tank"):
            return put_words(tokens, at, at + 1, "ultrasonic")
    return tokens


def _given_time(tokens: Tokens, texts: list[str], at: int, lexicon: Lexicon) -> Tokens:
    """ "Gave it an hour in vinegar": it has been in it, so long; "give it a night …": it goes there."""
    end = next((i for i in range(at + 1, len(texts)) if texts[i] not in _TIMES), 0)
    if texts[at] not in POINTS or not end or texts[end - 1] not in _LONG or texts[end] not in IN_STUFF:
        return tokens
    begin = at - 1 - (texts[at - 2 : at - 1] in (["i"], ["we"]))
    plain = ("has", "been") if texts[at - 1] == "gave" else ("goes",)
    known = lexicon.match(tuple(texts), end)
    time = () if known is not None and known[1].acts else texts[at + 1 : end]
    return put_words(tokens, max(0, begin), end, texts[at], *plain, *time)


def _so_long(tokens: Tokens, texts: list[str]) -> Tokens:
    """ "They've had twenty minutes in the ultrasonic": they have been in it."""
    had = next((i for i in range(1, len(texts)) if texts[i] == "had" and texts[i - 1] in _HAS), 0)
    behind = next((i for i in range(had + 1, len(texts)) if texts[i] not in _TIMES), len(texts)) if had else 0
    if (
        had
        and behind > had + 1
        and texts[behind - 1] in _LONG
        and texts[behind : behind + 1] in (["in"], ["through"])
    ):
        return put_words(tokens, had, behind, "been")
    end = next((i for i in range(len(texts), 0, -1) if texts[i - 1] not in _TIMES), 0)
    if "ultrasonic" not in texts:
        return tokens
    heated = end < len(texts) and not _LONG.isdisjoint(texts[end:]) and end > 1
    return tokens[:end] if heated and texts[end - 1] not in _STAND_ALONE else tokens


def _is_free(lexicon: Lexicon, word: str) -> bool:
    """True where no part of the sheet is called so, and the sheet has the doing."""
    known = bool(lexicon.table.get(("in", "the", "ultrasonic"), NOTHING).acts)
    return known and not any(name[-1:] == (word,) and m.parts for name, m in lexicon.table.items())


def _in_ultrasonic(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "In the ultra sonic", "in the sonic tank": in the ultrasonic."""
    at = texts.index("sonic")
    begin = at - (texts[max(0, at - 1)] == "ultra")
    if texts[max(0, begin - 1)] != "the" or not lexicon.table.get(("in", "the", "ultrasonic"), NOTHING).acts:
        return tokens
    end = at + 1 + (texts[at + 1 : at + 2] != [] and texts[at + 1] in {"tank", "bath", "cleaner", "machine"})
    return put_words(tokens, begin, end, "ultrasonic")


def _behind_stuff(texts: list[str], at: int, lexicon: Lexicon) -> int:
    """The token behind the stuff that follows "in" at *at*; 0 where none does."""
    begin = at + 1
    kind = begin + (texts[begin : begin + 1] == ["the"])
    end = kind
    while end < len(texts) and texts[end] in _BATH_KINDS:
        end += 1
    if end > kind and texts[end : end + 1] != [] and texts[end] in _BATHS:
        return 0 if tuple(texts[at : end + 1]) in lexicon.table else end + 1
    jars = {(*one, "of") for one in _JARS}
    while begin < len(texts) and (texts[begin] in _COLOURS or tuple(texts[begin : begin + 2]) in jars):
        begin += 1 + (texts[begin] not in _COLOURS)
    for kinds in (_STUFFS, _JARS):
        said = next((one for one in kinds if tuple(texts[begin : begin + len(one)]) == one), None)
        if said is None or lexicon.table.get(said, NOTHING).parts:
            continue
        if tuple(texts[at : begin + len(said)]) in lexicon.table or (
            kinds is _JARS and _LONG.isdisjoint(texts)
        ):
            return 0  # the sheet, or the grammar, has a word for it
        if texts[begin + len(said) : begin + len(said) + 1] in (["tank"], ["can"], ["pipe"], ["pump"]):
            return 0  # "in the petrol tank": where it was
        return begin + len(said)
    return 0


def _plainly(tokens: Tokens, texts: list[str], at: int, end: int) -> Tokens:
    """ "X can sit in paraffin" → "X needs soaking"; "left it in paraffin" → "soaked it"."""
    verbs = _GO | _WENT | _PUT | _PUT_SO
    reach = range(at - 1, max(-1, at - 1 - _REACH), -1)
    verb = next((i for i in reach if texts[i] in verbs), None)
    if verb is None or BREAK in texts[verb:at] or not _NOT.isdisjoint(texts[max(0, verb - 3) : verb]):
        return tokens
    said, between = texts[verb], texts[verb + 1 : at]
    if said in _PUT_SO and not _SHOULD.isdisjoint(texts[max(0, verb - 2) : verb]):
        return tokens  # "I should have left it in the tub"
    if said in _GO | _WENT:
        found_so = said in _WENT and _LONG.isdisjoint(texts) and "since" not in texts
        if found_so or not _TIME.issuperset(between):
            return tokens  # "seal's been in diesel, so it's gone soft"
        begin = verb
        while begin and texts[begin - 1] in (_MAY if said in _GO else _HAS):
            begin -= 1
        words = ("needs", "soaking") if said in _GO else ("has", "been", "soaked")
        return put_words(tokens, begin, end, *words) if begin else tokens
    if (
        not between
        or not _OTHERS.isdisjoint(texts[max(0, verb - 2) : verb])
        or between[0] not in POINTS | {"the", "both", "all", "these"}
    ):
        return tokens
    past = said in _PUT_SO
    return put_words((*tokens[:at], *tokens[end:]), verb, verb + 1, "soaked" if past else "soak")
