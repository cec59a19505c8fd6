"""What a part is like, and what is on the bench: "sloppy as a wet sock", "the gauge is stuck"."""

from __future__ import annotations

from typing import Final

from saywright.understanding.facts import Fact, Told
from saywright.understanding.tokens import BREAK
from saywright.understanding.working import Working

_POINTS: Final = frozenset({"it", "they", "that", "this", "these", "those", "one", "both"})
_BE: Final = frozenset({"is", "was", "has", "had", "been", "not", "just", "only", "gone"})
_LET: Final = frozenset({"let", "lets", "letting", "turned"})
_CUTS: Final = frozenset({BREAK, "and", "so", "is", "are", "it", "but"})
_LET_REACH: Final = 5  # tokens from "let" to "loose"
_STUFF: Final = frozenset({"dirty", "gritty", "contaminated"})
_UNDER: Final = frozenset({"in", "on", "under", "off"})
_STANDS: Final = frozenset(
    ["vee", "vice", "vise", "chuck", "mandrel", "anvil", "lathe", "press", "jig", "mike", "micrometer",
     "scale", "scales", "blocks"]
)  # fmt: skip
_NEAR: Final = 6  # tokens from the dirt to where it is
_SIGNS: Final = frozenset(
    ["ring", "mark", "patch", "streak", "spot", "line", "trail", "puddle", "footprint"]
)  # fmt: skip
_LEAVES: Final = frozenset({"leaves", "left", "leaving", "leave"})


def is_likened(work: Working, told: Told, fact: Fact) -> bool:
    """ "dry as chips", "sloppy as a wet sock": what it is like, in a word that may be a fault."""
    start = fact.phrase.start
    thing = work.texts[start - 1 : start] in {("a",), ("an",)} and bool(work.texts[fact.phrase.end :])
    at = start - 1 - thing
    if at < 0 or work.texts[at] not in ({"as", "like"} if thing else {"as"}):
        return False
    told_before = any(f.kind == "finding" and f.phrase.end == at for f in told.facts)
    return told_before and (thing or not fact.participle)


def of_the_bench(work: Working, told: Told, fact: Fact) -> bool:
    """True where it is told of a tool, of where the part lies, or of the sign of what is told beside it."""
    return (
        _of_gauge(work, fact)
        or _let_loose(work, fact)
        or _lies_under_it(work, fact)
        or _is_sign(work, told, fact)
    )


def _let_loose(work: Working, fact: Fact) -> bool:
    """ "Somebody's let the grease gun loose in here": nothing is slack."""
    start = fact.phrase.start
    loose = work.texts[fact.phrase.end - 1] == "loose" and fact.phrase.end - start == 1
    before = work.texts[max(0, start - _LET_REACH) : start]
    at = next((i for i, text in enumerate(before) if text in _LET), len(before))
    said = before[at:]  # "let the grease gun loose"; not "the bolt turned, it's loose"
    if any(s.components and not s.pronoun for s in fact.subjects):
        return False  # "he let the valve go loose"
    return loose and bool(said) and (said[0] != "turned" or len(said) > 2) and _CUTS.isdisjoint(said)


def _lies_under_it(work: Working, fact: Fact) -> bool:
    """ "There's swarf under it in the vee block": on what it lies on."""
    if any(s.components and not s.pronoun for s in fact.subjects):
        return False  # "the rod is dirty on the lathe"
    if fact.participle or fact.phrase.meaning.conditions[-1] not in _STUFF:
        return False
    behind = work.texts[fact.phrase.end : fact.phrase.end + _NEAR]
    return any(
        text in _UNDER
        and behind[at + 1 : at + 2] in {("the",), ("my",), ("this",)}
        and not _STANDS.isdisjoint(behind[at + 2 : at + 3])
        for at, text in enumerate(behind)
    )


def _is_sign(work: Working, told: Told, fact: Fact) -> bool:
    """ "It leaks, leaves a wet ring on the tube": by what it shows."""
    start = fact.phrase.start
    led = work.texts[max(0, start - 2) : start]
    if not led or led[0] not in _LEAVES or work.texts[fact.phrase.end : fact.phrase.end + 1][:1] == ():
        return False
    leaks = any(f.kind == "finding" and "leaking" in f.phrase.meaning.conditions for f in told.facts)
    return leaks and work.texts[fact.phrase.end] in _SIGNS


def _of_gauge(work: Working, fact: Fact) -> bool:
    """ "the clock was sticking", "the gauge is stuck": of what it is measured with."""
    at = fact.phrase.start
    while at and work.texts[at - 1] in _BE:
        at -= 1
    if not at or any(s.start < at <= s.end and s.components for s in fact.subjects):
        return False
    if work.texts[at - 1] in _POINTS:
        return False  # "on the clock it is bent": the part is
    gauge = any("INSTRUMENT" in work.lexicon.names(work.texts[:at], i).tags for i in (at - 1, max(0, at - 2)))
    return gauge and at < fact.phrase.end and work.texts[at] in _BE
