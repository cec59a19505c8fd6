"""Bounds that are quoted, not read: "at least four", "no thinner than ten", "the most it may be". Pure."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import Final

from saywright.understanding.facts import Fact
from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.tokens import BREAK

_OTHERS: Final = (("they",), ("the",), ("he",), ("you",), ("new",))  # who want or make it so
_UTMOST: Final = frozenset(
    ["most", "least", "highest", "lowest", "biggest", "smallest", "thinnest", "longest", "shortest",
     "thickest", "narrowest", "widest", "largest"]
)  # fmt: skip
_MAY_BE: Final = frozenset(
    ["should", "ought", "must", "may", "allow", "allows", "allowed", "want", "wants", "accept", "permitted",
     "permit", "permits", "acceptable"]
)  # fmt: skip
_MAY_BE_OF: Final = _MAY_BE | {"could", "can"}
_WHO: Final = frozenset({"i", "we", "you", "anyone", "anybody", "he", "book", "maker"})
_BOUNDS: Final = ("at least", "at most", "no less", "no more", "not less", "not more")
_WOULD_BE: Final = {("would", "be"), ("that", "is"), ("which", "is")}
_UTMOST_REACH: Final = 8  # tokens: "is the most that any of them should weigh"
_BESIDE: Final = frozenset({"under", "over", "above", "below"})
_PAST_THE: Final = {(beside, "the") for beside in (*_BESIDE, "past", "beyond", "within", "inside")}
_ENDS: Final = frozenset({BREAK, "and", "but", "so", "because", "though"})
_MODALS: Final = frozenset({"may", "must", "can", "should", "shall"})
_PASSES: Final = frozenset({"exceed", "pass", "reach"})
_SPEAKERS: Final = frozenset({"i", "we", "you"})
_FINDS: Final = frozenset({"get", "see", "find", "feel", "measure", "read", "make"})
_REACHES: Final = frozenset({"read", "reads", "measure", "measures", "go", "goes"})
_CAN: Final = frozenset({"will", "can", "only"})
_THAN: Final = 3  # tokens of "no thinner than"
_THE_LIMIT: Final = {("the", word) for word in ("limit", "minimum", "maximum", "min", "max")}
_BY_THE: Final = frozenset({("by", "the"), ("by", "his"), ("as", "the")})
_BOOKS: Final = frozenset({("book",), ("manual",), ("card",), ("sheet",), ("spec",)})
_IT_SHOULD_BE: Final = frozenset(  # "forty it should be"
    [(it, should, "be") for it in ("it", "they", "that") for should in ("should", "must")]
)
_SAYS: Final = frozenset({"says", "said", "reads", "gives"})
_PLATES: Final = frozenset(
    ["tag", "plate", "label", "sticker", "nameplate", "decal", "packet", "box", "card"]
)
_TELLS: Final = {("which", "is"), ("that", "is"), ("which", "makes"), ("that", "makes")}


def is_bound(fact: Fact, texts: tuple[str, ...]) -> bool:
    """ "at least four": a bound is quoted, not read."""
    start, end = fact.phrase.start, fact.phrase.end
    if texts[end + 1 : end + 2] == ("what",) and texts[end + 2 : end + 3] in _OTHERS:
        return True  # "fifteen eight seven five is what they make them to"
    past = texts[max(0, start - 2) : start] in _PAST_THE  # "the right's under the seven"
    if (
        past
        or _is_on_a_plate(fact, texts)
        or _so_it_should_be(texts, end)
        or _is_utmost(texts[end : end + _UTMOST_REACH])
        or texts[end : end + 2] in _THE_LIMIT
        or (texts[end : end + 2] in _BY_THE and texts[end + 2 : end + 3] in _BOOKS)
    ):
        return True
    measure = fact.phrase.measure
    hedge = (measure.hedge or "") if measure is not None else ""
    if hedge and any(words in hedge for words in _BOUNDS):
        return True
    before = _clause(texts, start)
    if before[-1:] and before[-1] in _FINDS and not _SPEAKERS.isdisjoint(before):
        return False  # "I could not get more than two tenths"
    if {"no", "not"} & set(before[-2:]) and hedge.startswith(("less than", "more than")):
        return True
    if before[-1:] in {("needs",), ("need",), ("wants",), ("want",)}:
        return True  # "needs eighty"
    relative = not _BESIDE.isdisjoint(hedge.split())
    if _of_the_utmost(before) or _is_no_more(before) or (before and _may_not(before, relative=relative)):
        return True
    named = any(s.components or s.which for s in fact.subjects)  # "offside's just under two oh four"
    return relative and not fact.characteristics and not named


def _so_it_should_be(texts: tuple[str, ...], end: int) -> bool:
    """ "Forty it should be"; not "it's forty it should be forty two"."""
    behind = texts[end + 3 : end + 4]
    return texts[end : end + 3] in _IT_SHOULD_BE and not (behind and behind[0] in {*CLASSES, "about"})


def _is_on_a_plate(fact: Fact, texts: Sequence[str]) -> bool:
    """ "The tag says four point oh": what it is made for; whole numbers there may be what it is called."""
    start, measure = fact.phrase.start, fact.phrase.measure
    said = start > 1 and texts[start - 1] in _SAYS and texts[start - 2] in _PLATES
    return said and measure is not None and not measure.readings[0].value.isdigit()


def _clause(texts: tuple[str, ...], start: int) -> tuple[str, ...]:
    """The words of its clause before the number at *start*."""
    at = start
    while at and texts[at - 1] not in _ENDS:
        at -= 1
    return texts[at:start]


def _is_utmost(behind: tuple[str, ...]) -> bool:
    """ "seven and a half is the most they should weigh", "… would be the most I could accept"."""
    be = 1 if behind[:1] == ("is",) else 2 if behind[:2] in _WOULD_BE else 0
    utmost = bool(be) and behind[be : be + 1] == ("the",) and behind[be + 1 : be + 2] != ()
    if not utmost or behind[be + 1] not in _UTMOST:
        return False
    would = any(
        who in _WHO and verb in {"would", "will"} for who, verb in pairwise(behind)
    )  # not "point two is the most it will move"
    return would or not _MAY_BE_OF.isdisjoint(behind[be + 1 :])


def _of_the_utmost(before: Sequence[str]) -> bool:
    """ "the most they may weigh is", "the smallest allowed is"; not "the most I could find was"."""
    if before[-1:] != ("is",) or _UTMOST.isdisjoint(before):
        return False
    at = next(i for i, text in enumerate(before) if text in _UTMOST)
    return not _MAY_BE.isdisjoint(before[at:])


def _is_no_more(before: Sequence[str]) -> bool:
    """ "must be no thinner than", "not wider than"."""
    if len(before) < _THAN or before[-1] != "than" or before[-3] not in {"no", "not"}:
        return False
    return before[-2].endswith("er") or before[-2] in {"less", "more"}


def _may_not(before: tuple[str, ...], *, relative: bool) -> bool:
    """ "may not go below", "must not exceed", "must not be smaller than", "must be under"."""
    if relative and before[-2:] in {("must", "be"), ("to", "be")}:
        return True
    denied = any(one in _MODALS and other in {"not", "never"} for one, other in pairwise(before))
    return denied and (relative or before[-1] in _PASSES | {"than"} or not _BESIDE.isdisjoint(before))


def is_range(fact: Fact, texts: tuple[str, ...]) -> bool:
    """ "the tester will read to three bar": how far it can read."""
    if not fact.measured or not fact.phrase.start:
        return False
    before = _clause(texts, fact.phrase.start)
    measure = fact.phrase.measure
    if measure is not None and measure.hedge == "up to":
        before = (*before, "to")
    if before[-1:] != ("to",) or _CAN.isdisjoint(before):
        return False
    verb = before[:-2] if before[-2:-1] == ("up",) else before[:-1]
    return bool(verb) and verb[-1] in _REACHES


def is_beside_limit(fact: Fact, texts: tuple[str, ...]) -> bool:
    """ "… which is two tenths under the minimum": how far the value before it is from something."""
    start, end = fact.phrase.start, fact.phrase.end
    if fact.characteristics or texts[max(0, start - 2) : start] not in _TELLS:
        return False
    return not _BESIDE.isdisjoint((*texts[end - 1 : end], *texts[end : end + 1]))
