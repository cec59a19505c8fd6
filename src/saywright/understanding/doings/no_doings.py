"""Words of doing by which nothing is done or planned: "the dairy wash plant", "let me wipe it, two eight"."""

from __future__ import annotations

from typing import Final

from saywright.understanding.facts import Fact, Told
from saywright.understanding.meanings import Act
from saywright.understanding.numbers.words import CARDINALS
from saywright.understanding.working import Working

_OBJECTS: Final = frozenset({*CARDINALS, "a", "an", "another", "it", "them", "both", "all"})
_DETERMINERS: Final = frozenset({"the", "a", "that", "this", "our", "their", "his"})


def is_no_doing(work: Working, told: Told, fact: Fact, act: Act) -> bool:
    """True where *act* of *fact* names a thing, or only tells how something was read or looked at."""
    return (
        _is_in_a_name(work, fact, act)
        or _is_to_look(work, told, fact, act)
        or _is_set_so(work, told, fact, act)
    )


def _is_in_a_name(work: Working, fact: Fact, act: Act) -> bool:
    """ "the deck wash pump", "that time with the car wash": a noun behind another that nobody knows."""
    at = fact.phrase.start
    if act.form != "base" or fact.aux or at < 2 or work.texts[at - 2] not in _DETERMINERS:
        return False
    noun = work.texts[at - 1]
    named = any(s.components and not s.pronoun for s in fact.subjects)
    if named and not _OBJECTS.isdisjoint(work.texts[fact.phrase.end : fact.phrase.end + 1]):
        return False  # "frayed by the lever order one"
    return noun.isalpha() and (noun,) not in work.lexicon.table and noun not in work.lexicon.words


def _is_to_look(work: Working, told: Told, fact: Fact, act: Act) -> bool:
    """ "let me wipe it, two point eight", "wipe it down, nothing leaking": to see what is there."""
    if act.form != "base" or "wipe" not in work.texts[fact.phrase.start : fact.phrase.end]:
        return False
    good = {c.id for c in work.sheet.condition if c.good}
    behind = [f for f in told.facts if f.phrase.start >= fact.phrase.end]
    found = [f for f in behind if f.kind == "finding" and good.isdisjoint(f.phrase.meaning.conditions)]
    return bool(found) or any(f.kind == "value" for f in behind)


def _is_set_so(work: Working, told: Told, fact: Fact, act: Act) -> bool:
    """ "adjust it to eighteen": its value tells it."""
    if work.texts[fact.phrase.start] != "adjust" or act.form != "base" or fact.aux:
        return False
    end = fact.phrase.end
    values = [f.phrase.start for f in told.facts if f.kind == "value" and f.phrase.start >= end]
    return any("to" in work.texts[end:at] for at in values)
