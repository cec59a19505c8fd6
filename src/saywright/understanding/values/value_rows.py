"""Several values in a row for several of a kind: "shoes are one point eight, one point eight, one point six".

As many values as are fitted, or as there are on the side named or in hand, are of the first, the second and
so on. Where the sheet tells them only by number, a note says so; where it names them, they ask. Any other
row is of no certain one and asks.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from saywright.sheets.model import Component
from saywright.understanding.discourse import Hand
from saywright.understanding.facts import Fact, Told
from saywright.understanding.sides.hand_sides import both_here
from saywright.understanding.subjects.noun_phrases import Subject, subject_in_hand
from saywright.understanding.tokens import BREAK
from saywright.understanding.values.behind_with import of_what_moved
from saywright.understanding.working import Working

_EACH = {("each",), ("apiece",)}
_EACH_WORDS = frozenset({"each", "apiece"})
_BETWEEN = frozenset({BREAK, "and", "then", "uh", "um"})


def number_rows(told: Told, work: Working) -> None:
    """Give each value of a row its own one of several; none of them where which is not certain."""
    if len(told.facts) > 1:
        of_what_moved(told, work)
    if work.spots:
        return
    _of_each(told, work)
    if len([fact for fact in told.facts if fact.kind == "value"]) < 2:  # no row
        return
    _share_out(told, work)
    for row in _rows(told, work):
        subject, places = row[0].subjects[0], row[-1].subjects[0].which
        if places and not subject.which:
            if len(places) == len(row):
                for fact, place in zip(row, places, strict=True):
                    fact.subjects = [replace(subject, which=(place,), selector="", count=None, many=False)]
            continue
        component = work.sheet.get(subject.components[0] if subject.components else _in_hand(work))
        if subject.selector == "other":
            _place_others(row, component, work.hand)
            continue
        ones = _in_order(subject, component, len(row), work.hand) if component is not None else ()
        if not ones and subject.selector not in {"both", "all"}:
            continue
        alike = len({f.phrase.measure.readings[0].value for f in row if f.phrase.measure is not None}) == 1
        for fact, one in zip(row, ones or [""] * len(row), strict=True):
            which = (one,) if one else ()
            fact.subjects = [replace(subject, which=which, selector="", count=None, many=not one)]
            fact.in_order = bool(one) and not alike  # "forty five, forty five and forty five": in any order


def _in_hand(work: Working) -> str | None:
    return work.hand.component if work.hand is not None else None


def _place_others(row: Sequence[Fact], component: Component | None, hand: Hand | None) -> None:
    """ "the other ones are seventy and seventy two": those that are not in hand, in their order."""
    held = (
        hand.which if component is not None and hand is not None and hand.component == component.id else None
    )
    others = [w for w in component.whiches if w != held] if component is not None and held is not None else []
    if component is None or len(others) != len(row):
        return
    subject = row[0].subjects[0]
    for fact, one in zip(row, others, strict=True):
        fact.subjects = [
            replace(subject, components=(component.id,), which=(one,), selector="", count=None, many=False)
        ]
        fact.in_order = True


def _of_each(told: Told, work: Working) -> None:
    """ "Fifty point oh each": of each one of the part in hand."""
    if _EACH_WORDS.isdisjoint(work.texts):
        return
    for fact in told.facts:
        end = fact.phrase.end
        if fact.kind == "value" and not fact.subjects and work.texts[end : end + 1] in _EACH:
            fact.subjects = [replace(subject_in_hand(end, end + 1), selector="all", many=True)]


def _share_out(told: Told, work: Working) -> None:
    """ "Upper wheel and lower wheel run out ten and six": as many values as parts named, each of its own."""
    values = [fact for fact in told.facts if fact.kind == "value"]
    for at, first in enumerate(values):
        several = _each_place(first.subjects)
        row = values[at : at + len(several)]
        if len(row) < len(several) or len(row) == 1 or any(f.subjects != first.subjects for f in row):
            continue
        if any(f.subjects == first.subjects for f in values[at + len(row) : at + len(row) + 1]):
            continue  # one more than there are: which is of which is not certain
        gaps = [work.texts[a.phrase.end : b.phrase.start] for a, b in pairwise(row)]
        named = all(s.components and not s.many and not s.selector for s in several)
        if not named or not all(map(_BETWEEN.issuperset, gaps)):
            continue
        for fact, subject in zip(row, several, strict=True):
            fact.subjects = [subject]
            own = tuple(key for key in fact.characteristics if key[0] in subject.components)
            fact.characteristics = own or fact.characteristics


def _each_place(subjects: Sequence[Subject]) -> list[Subject]:
    """ "left and right head sixty one and sixty four": a subject for each place that one noun is named at."""
    if len(subjects) != 1 or len(subjects[0].which) < 2:
        return list(subjects)
    bare = replace(subjects[0], selector="", count=None, many=False)
    return [replace(bare, which=(one,)) for one in bare.which]


def _in_order(subject: Subject, component: Component, values: int, hand: Hand | None) -> Sequence[str]:
    """Which one each of so many *values* is of, in their order; () where that is not certain."""
    if not component.positions:
        every = component.count == values and not subject.which
        return [str(n) for n in range(1, values + 1)] if every else ()
    if subject.which:  # "left pads four and five"
        side = set(subject.which[0].split())
        here: Sequence[str | None] = [one for one in component.positions if side < set(one.split())]
    else:
        here = both_here(component, hand) if component.count > values else component.positions
    several = subject.many or subject.selector in {"both", "all"}
    return [one for one in here if one] if several and len(here) == values else ()


def _rows(told: Told, work: Working) -> Iterator[list[Fact]]:
    """Two values or more that stand side by side and are said of the same several parts."""
    row: list[Fact] = []
    for fact in told.facts:
        if row and _goes_on(row[-1], fact, work):
            row.append(fact)
            continue
        if len(row) > 1:
            yield row
        row = [fact] if fact.kind == "value" and _of_several(fact) else []
    if len(row) > 1:
        yield row


def _of_several(fact: Fact) -> bool:
    return len(fact.subjects) == 1 and _names_several(fact.subjects[0])


def _names_several(subject: Subject) -> bool:
    """ "shoes", "all three shoes", "left shoes", "shoe thickness …": one kind, and none of them picked."""
    if subject.selector == "other":
        return subject.pronoun and not subject.which
    if not subject.components and subject.pronoun and subject.many:
        return len(subject.which) == 1 and not subject.selector  # "rear ones five and four and a half"
    return len(subject.components) == 1 and len(subject.which) < 2 and subject.selector in {"", "both", "all"}


def _goes_on(before: Fact, fact: Fact, work: Working) -> bool:
    if fact.kind != "value" or not _is_of_the_same(before, fact):
        return False
    between = work.texts[before.phrase.end : fact.phrase.start]
    return _BETWEEN.issuperset(between)


def _is_of_the_same(before: Fact, fact: Fact) -> bool:
    """The same parts; the last value of a row may have their places behind it: "… front and rear"."""
    if fact.subjects == before.subjects or not before.subjects or len(fact.subjects) != 1:
        return fact.subjects == before.subjects
    bare = replace(fact.subjects[0], which=())
    return len(fact.subjects[0].which) > 1 and [bare] == before.subjects
