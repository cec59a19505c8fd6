"""Limits told by what comes of them: "four is scrap but this one's fine", "ten would be too much". Pure."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from saywright.understanding.bench_words import FASTENERS
from saywright.understanding.facts import Fact, Told
from saywright.understanding.tokens import BREAK
from saywright.units import get_unit

_BEGINS: Final = frozenset({BREAK, "and", "but", "so", "because", "since"})
_IS: Final = frozenset({"is", "are"})
_NO_USE: Final = frozenset({"scrap", "junk", "finished", "done"})
_SO: Final = frozenset({"so", "but", "and", "though", BREAK})
_THIS: Final = frozenset({"it", "this", "that", "these", "those", "they", "we", "he", "she", "mine", "ours"})
_WOULD_BE: Final = (("would", "be"), ("would", "have", "been"))
_TOO: Final = frozenset({"too", "to", "over", "under", "scrap", "out", "past", "fine", "enough", "plenty"})
_GOOD: Final = frozenset({"ok", "okay", "fine", "allowed", "alright", "acceptable", "permitted", "good"})
_HOLDS: Final = frozenset({"takes", "holds", "wants", "gets", "has", "makes", "gives"})
_DONE: Final = frozenset({"done", "scrap", "finished", "junk", "shot", "gone"})
_SO_IT: Final = {("so", "it"), ("so", "this"), ("so", "they"), ("so", "we")}
_TIGHTENED: Final = FASTENERS | {"gland", "nipple", "union", "bleeder", "plug", "all"}
SAID: Final = _NO_USE | _DONE | _GOOD | {"would", "when"}


def is_told_limit(fact: Fact, texts: Sequence[str]) -> bool:
    """True for a value that was not read: what is told of it is what comes of such a one."""
    start, behind = fact.phrase.start, tuple(texts[fact.phrase.end :])
    if start > 1 and texts[start - 1] == "at" and texts[start - 2] in _DONE:
        told = not _IS.isdisjoint(texts[max(0, start - 3) : start - 2])  # "they're done at two"
        return told and not _is_tightened(fact, texts)
    if _is_no_use(behind) and (not start or texts[start - 1] in _BEGINS):
        return not _is_told_of(fact, texts)
    for would in _WOULD_BE:
        if behind[: len(would)] == would and behind[len(would) : len(would) + 1] != ():
            return behind[len(would)] in _TOO
    measure = fact.phrase.measure
    if measure is not None and measure.hedge == "up to" and behind[:1] != () and behind[0] in _IS:
        return not _GOOD.isdisjoint(behind[1:2])
    when = behind[2:4] in {("when", "it"), ("when", "full"), ("when", "they")}
    return behind[:1] in {("it",), ("they",)} and not _HOLDS.isdisjoint(behind[1:2]) and when


def _is_tightened(fact: Fact, texts: Sequence[str]) -> bool:
    """ "Cover bolts are done at nine newton metres": to what they were tightened."""
    measure = fact.phrase.measure
    torque = measure is not None and measure.unit is not None and get_unit(measure.unit).kind == "torque"
    return torque or not _TIGHTENED.isdisjoint(texts[: fact.phrase.start])


def _is_told_of(fact: Fact, texts: Sequence[str]) -> bool:
    """ "Main jet, one hundred is scrap so it goes in the bin": what was read of the part named before it."""
    said = tuple(texts[fact.phrase.end + 2 :])
    if said[1:2] == ("that",) and said[:1] != ("but",):
        return True  # "three point four is scrap and that's that"
    named = any(s.components and not s.pronoun for s in fact.subjects) or bool(fact.characteristics)
    return named and said[:2] in _SO_IT


def is_of_limit(fact: Fact, told: Told, texts: Sequence[str]) -> bool:
    """True for the doing in "four is scrap but this one's fine", "scrap at four", "spec is flush"."""
    start, stop = fact.phrase.start, fact.phrase.end
    base = fact.phrase.meaning.acts[0].form == "base"
    if base and any("LIMIT" in m.tags and m.end == start and texts[start - 1] == "is" for m in told.marks):
        return True
    for value in told.facts:
        if value.kind != "value" or value.phrase.measure is None:
            continue
        begin, end = value.phrase.start, value.phrase.end
        if start == end and _is_no_use(texts[end:]) and (not begin or texts[begin - 1] in _BEGINS):
            return True
        if begin == stop + 1 and texts[stop] == "at" and texts[stop - 1] in _NO_USE:
            return texts[start] in _IS
    return False


def _is_no_use(behind: Sequence[str]) -> bool:
    """ "… is scrap so it scrapes by": what is told of this one stands behind."""
    told = behind[:1] != () and behind[0] in _IS and not _NO_USE.isdisjoint(behind[1:2])
    return told and not _SO.isdisjoint(behind[2:3]) and not _THIS.isdisjoint(behind[3:4])
