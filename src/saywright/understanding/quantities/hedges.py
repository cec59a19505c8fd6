"""Hedges around a number: "about three", "three and a bit"; and what looks like one: "has come up to two".

Signs too that are none: "plus six o-rings", "forty under the glass".
"""

from __future__ import annotations

from typing import Final

from saywright.quantity import parse_value
from saywright.understanding.bench_words import SOURCES
from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.quantities.parts import Draft
from saywright.understanding.quantities.words import (
    BEFORE_ROUND,
    EXACT_AFTER,
    HEDGES_AFTER,
    HEDGES_AT_END,
    HEDGES_BEFORE,
    LONGEST_HEDGE,
)
from saywright.understanding.tokens import BREAK

_FLATS = frozenset({("blade",), ("head",), ("spot",), ("enough",), ("file",), ("washer",)})
_ROUND: Final = frozenset({"TEEN", "TENS"})
_HERE: Final = frozenset({("here",), ("there",)})
ARTICLES: Final = frozenset({("the",), ("my",), ("that",)})
_LIMITS: Final = frozenset(
    (w,) for w in ("limit", "limits", "spec", "max", "minimum", "maximum", "nominal", "size", "line", "top",
                   "book")
)  # fmt: skip
_CLAUSE_ENDS: Final = frozenset({(), (BREAK,), ("and",), ("but",), ("on",), ("so",), ("then",)})
_EXACT_HEADS: Final = frozenset(said[0] for said in EXACT_AFTER)
_HEDGE_HEADS: Final = frozenset(said[0] for said in HEDGES_AFTER | HEDGES_AT_END)
_HEDGE_ENDS: Final = frozenset(said[-1] for said in HEDGES_BEFORE) | {"round"}
_CLIMBED: Final = frozenset(
    ["come", "came", "comes", "gone", "went", "risen", "brought", "crept", "climbed", "pumped", "aired",
     "charged", "topped", "opened", "turned", "wound", "set", "pulled", "pulling", "pulls", "pull", "done",
     "taken", "took", "goes", "nipped", "tightened", "torqued"]
)  # fmt: skip
_STANDS: Final = frozenset({"is", "are", "am"})
# Between a value and what it is called at last.
LEADS_TO_CALL: Final = frozenset(
    [",", "so", "well", "and", "a", "hair", "touch", "bit", "more", "just", "under", "over", "shy"]
)
# Of several blades, jaws or needles: they "say", where one "says".
_INSTRUMENTS: Final = frozenset(
    ["these", "those",
     "feelers", "calipers", "callipers", "verniers", "gauges", "scales", "mikes", "micrometers", "dials",
     "dividers", "blades", "balances", "telescopics"]
)  # fmt: skip
_NO_SEVERAL: Final = frozenset(
    ["is", "was", "has", "its", "us", "yes", "this", "turns", "reads", "looks", "comes", "measures", "makes",
     "gives", "shows", "gets", "sits", "runs", "stands", "goes", "takes", "weighs", "pulls", "as", "others",
     "lads", "boys", "guys", "blokes", "chaps", "mates", "customers", "owners", "folks", "some"]
)  # fmt: skip
_TURN_IT: Final = frozenset({("turn",), ("turned",), ("spin",), ("spun",), ("flip",), ("swap",), ("other",)})
_LAID: Final = frozenset({"feeler", "feelers", "blade", "blades", "straightedge", "edge"})
_OTHER_UNIT: Final = 4  # times as much, or as little, is no value a bit over
_OBJECT_REACH: Final = 6  # tokens from a verb to "up to"


def hedge_behind(words: tuple[str, ...], draft: Draft) -> None:
    """Reads on behind the number."""
    if draft.end >= len(words):
        return
    draft.end += _exact_behind(words, draft)
    if draft.end >= len(words) or words[draft.end] not in _HEDGE_HEADS:
        return
    for length in range(LONGEST_HEDGE, 0, -1):
        phrase = words[draft.end : draft.end + length]
        of_something = words[draft.end + length : draft.end + length + 1] == ("of",)  # "and a bit of varnish"
        ends = words[draft.end + length : draft.end + length + 1] in _CLAUSE_ENDS
        if (phrase in HEDGES_AFTER and not of_something) or (phrase in HEDGES_AT_END and ends):
            draft.hedges.append(" ".join(phrase))
            draft.end += len(phrase)
            return


def _exact_behind(words: tuple[str, ...], draft: Draft) -> int:
    """How many words behind the number tell that nothing is over: "flat", "dead", "on the nose"."""
    if words[draft.end] == "flat":
        return int(_is_exact(words, draft))
    if words[draft.end] not in _EXACT_HEADS:
        return 0
    for said in EXACT_AFTER:
        end = draft.end + len(said)
        if words[draft.end : end] == said and words[end : end + 1] in _CLAUSE_ENDS:
            return len(said)
    return 0


def _is_exact(words: tuple[str, ...], draft: Draft) -> bool:
    """ "twenty two flat", "thirteen flat": and nothing over; not "quarter flat blade", nor one of a nut."""
    whole = draft.end - draft.start > 1 or CLASSES.get(words[draft.start], ("",))[0] in _ROUND
    return whole and words[draft.end + 1 : draft.end + 2] not in _FLATS


def hedge_length(words: tuple[str, ...], start: int, floor: int) -> int:
    """How many words before *start* make the number behind it no exact one; never past word *floor*."""
    if start == floor or words[start - 1] not in _HEDGE_ENDS:
        return 0
    for length in range(min(LONGEST_HEDGE, start - floor), 0, -1):
        if words[start - length : start] in HEDGES_BEFORE:
            exact = _climbed(words, start, floor) or _turned_round(words, start) or _is_shown(words, start)
            return 0 if exact or _is_pushed_under(words, start) else length
    near = start - floor > 1 and words[start - 1] == "round" and words[start - 2] in BEFORE_ROUND
    return int(near and not _turned_round(words, start))


def _climbed(words: tuple[str, ...], start: int, floor: int) -> bool:
    """ "has come up to two", "opened the mixture up to two": where it got to."""
    if words[start - 2 : start] != ("up", "to") or start - floor < 3:
        return False
    moved = words[max(floor, start - _OBJECT_REACH) : start - 3]
    got_it = words[start - 3] in {"it", "them", "that"} and "got" in moved
    return got_it or words[start - 3] in _CLIMBED or any(w.endswith("ed") or w in _CLIMBED for w in moved)


def stands_at(words: tuple[str, ...], start: int) -> bool:
    """ "the pressure is up to one point two": what it came to, unless it is a length: at most that."""
    return words[start : start + 2] == ("up", "to") and start > 0 and words[start - 1] in _STANDS


def _is_shown(words: tuple[str, ...], start: int) -> bool:
    """ "feelers say point one eight", "main jets both say one thirty": what is shown is read.

    Not what "drawings say", nor the lads.
    """
    if start < 2 or words[start - 1] != "say" or not SOURCES.isdisjoint(words):
        return False
    said = words[start - 2]
    several = said.endswith("s") and not said.endswith("ss") and said not in _NO_SEVERAL
    return said in _INSTRUMENTS or said in {"both", "they"} or several


def _is_pushed_under(words: tuple[str, ...], start: int) -> bool:
    """ "sliding the feelers under, oh point oh five": the feeler goes under it, not the value."""
    return words[start - 1] in {"under", "over", "above"} and words[max(0, start - 2)] in _LAID


def _turned_round(words: tuple[str, ...], start: int) -> bool:
    """ "ninety degrees around eleven point oh four six", "turn it round eight point one": where on it."""
    if start < 2 or words[start - 1] not in {"around", "round"}:
        return False
    turned = words[start - 2] == "it" and words[max(0, start - 3) : start - 2] in _TURN_IT
    return turned or words[start - 2] in {"degrees", "turn", "way", "turned"}


def adds_more(words: tuple[str, ...], draft: Draft) -> bool:
    """ "plus six o-rings" at the beginning: and as many more of something, no sign."""
    return draft.start == 1 and draft.unit_said is None and draft.end < len(words)


def is_place_behind(words: tuple[str, ...], at: int) -> bool:
    """ "forty under the glass", "eight over here": where it is; "over the limit" is a sign."""
    if words[at : at + 1] in _HERE:
        return True
    return words[at : at + 1] in ARTICLES and words[at + 1 : at + 2] not in _LIMITS


def is_far(first: str, called: str) -> bool:
    """ "half inch and a bit, call it thirteen point six": in another unit."""
    before, now = parse_value(first), parse_value(called)
    return bool(before) and not 1 < _OTHER_UNIT * now / before < _OTHER_UNIT**2


def without_ish(words: tuple[str, ...]) -> tuple[str, ...]:
    """The words with "twentyish" as "twenty"; the same tuple where there is none."""
    if "ish" not in " ".join(words):
        return words
    if not any(word.endswith("ish") and word[:-3] in CLASSES for word in words):
        return words
    return tuple(word[:-3] if word.endswith("ish") and word[:-3] in CLASSES else word for word in words)
