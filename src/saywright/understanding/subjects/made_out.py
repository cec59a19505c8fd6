"""Of what a fact is told, with what is in hand: "the rear one", "both", "all four" as the parts they mean."""

from __future__ import annotations

from saywright.understanding.facts import Fact, Told
from saywright.understanding.subjects.families import families_of
from saywright.understanding.subjects.found_again import found_again
from saywright.understanding.subjects.hollow import in_the_bottom
from saywright.understanding.subjects.noun_phrases import Subject
from saywright.understanding.subjects.pairs import one_of_several, pair_of, several_of
from saywright.understanding.subjects.pointing import pointed_out
from saywright.understanding.working import Working


def made_out(fact: Fact, told: Told, work: Working) -> list[Subject]:
    """The subjects of *fact*, with the parts that "the rear one" and "both" mean by what is in hand."""
    if not fact.subjects and fact.kind != "finding":
        return []
    owners = {component for component, _ in fact.characteristics}
    pointed = [pointed_out(s, work.sheet, work.hand, owners) for s in fact.subjects]
    named = pointed
    if fact.kind == "finding":
        named = found_again(fact, told, work) or [several_of(s, work) for s in pointed]
        named = named or one_of_several(fact, work) or in_the_bottom(fact, work)
    each = families_of(named, fact, told, work)
    return [one for subject in each for one in pair_of(subject, work, fact.kind, owners)]
