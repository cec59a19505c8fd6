"""What is bled is the caliper or the cylinder: "bled both sides, left then right", whatever is in hand."""

from __future__ import annotations

from dataclasses import replace

from saywright.understanding.facts import Fact
from saywright.understanding.subjects.noun_phrases import Subject, subject_in_hand
from saywright.understanding.tokens import spoken_form
from saywright.understanding.working import Working


def bled_at(fact: Fact, action: str, work: Working) -> list[Subject]:
    """The subjects of a bleeding that names no part; [] for all else, or where nothing is there to be bled.

    Where the sheet has no caliper and no cylinder, or several kinds, it is bled at its bleeder.
    """
    known = work.sheet.get_action(action)
    names = known.names if known is not None else ()
    if "bleed" not in names and "bled" not in names:
        return []
    bled = [c.id for c in work.sheet.component if any(_is_bled(name) for name in c.names)]
    bleeders = [c.id for c in work.sheet.component if any(_of_bleeding(name) for name in c.names)]
    bleeders = bled if len(bled) == 1 else bleeders
    if len(bleeders) != 1 or any(s.components for s in fact.subjects):
        return []
    if work.hand is not None and work.hand.utterance == work.now and not fact.subjects:
        return []  # "caliper on, bled it": of what was named in the same breath
    said = [*fact.subjects] or [subject_in_hand(fact.phrase.start, fact.phrase.end)]
    told = [
        replace(s, which=()) if s.selector == "both" else s for s in said
    ]  # "both sides, left then right"
    return [replace(s, components=(bleeders[0],), pronoun=False) for s in told]


def _is_bled(name: str) -> bool:
    """True for "caliper", "wheel cylinder", "slave cylinder"; not for the master cylinder."""
    words = spoken_form(name)
    if words[-1:] == ("body",):
        words = words[:-1]
    return words[-1:] == ("caliper",) or words[-2:] in {("wheel", "cylinder"), ("slave", "cylinder")}


def _of_bleeding(name: str) -> bool:
    """True for "bleeder", "bleed screw", "bleed nipple"."""
    first = spoken_form(name)[:1]
    return first in {("bleed",), ("bleeder",)}
