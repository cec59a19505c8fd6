"""How far a state goes: "scored badly", "chewed up pretty good", "squashed flat"."""

from __future__ import annotations

from saywright.understanding.facts import Fact
from saywright.understanding.phrases import Phrase
from saywright.understanding.tags import DEGREES
from saywright.understanding.walk import Walk

_CUT = {("worn",), ("eaten",), ("rubbed",), ("ground",)}  # "grooves worn in it"


def put_degree(walk: Walk, phrase: Phrase) -> bool:
    """ "scored badly", "pitted pretty bad": the degree comes last; False where it belongs to nothing."""
    degree = phrase.aux_tags & DEGREES
    last = walk.last
    if not degree or last is None or last.kind != "finding":
        return False
    if last.phrase.end != phrase.start or last.degree:
        return False
    last.degree = frozenset({"SEVERE"}) if "SEVERE" in degree else degree
    last.end = max(last.end, phrase.end)
    return True


def give_back_degree(walk: Walk, fact: Fact) -> None:
    """ "blued a bit, no cracks" without the comma: the degree belongs to what was said before it."""
    aux, last = fact.phrase.aux, walk.last
    if last is None or last.kind != "finding" or last.phrase.end != fact.phrase.start or last.degree:
        return
    if len(aux) > 1 and aux[0].tags & DEGREES and "NEG" in aux[1].tags:
        last.degree = aux[0].tags & DEGREES
        fact.degree = frozenset()


def how_far(walk: Walk, phrase: Phrase) -> bool:
    """ "squashed flat", "chewed up pretty good", "grooves worn where it runs": no praise, nothing more."""
    last = walk.last
    if last is None or last.kind != "finding" or last.phrase.end != phrase.start or last.negated:
        return False
    cut = not phrase.aux and not last.participle and walk.texts[phrase.start : phrase.end] in _CUT
    how = last.participle and phrase.aux_tags <= DEGREES and is_good(walk, phrase)
    if not (cut or how) or is_good(walk, last.phrase):
        return False
    last.cover(phrase.start, phrase.end)
    return True


def is_good(walk: Walk, phrase: Phrase) -> bool:
    condition = walk.sheet.get_condition(phrase.meaning.conditions[-1])
    return condition is not None and condition.good
