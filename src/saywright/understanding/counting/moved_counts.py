"""Whole numbers beside a movement: "that's two out", "pinch bolts out three", "new washers two".

They tell how many moved, not a value read, unless the part is set by counting turns or clicks.
"""

from __future__ import annotations

from dataclasses import replace

from saywright.sheets.model import Component
from saywright.understanding.counting.aloud import is_counted
from saywright.understanding.counting.counts import small_count
from saywright.understanding.facts import Fact, Told
from saywright.understanding.numbers.words import TO_TWELVE
from saywright.understanding.subjects.noun_phrases import Subject, subject_in_hand
from saywright.understanding.tokens import BREAK
from saywright.understanding.working import Working

_MOVES = frozenset({"off", "on"})
_CLOCK = frozenset({("oclock",), ("o'clock",)})
_SUMS = frozenset({("that", "is"), ("there", "is"), ("makes", "it"), ("that", "makes")})


def count_moves(told: Told, work: Working) -> None:
    """Give the numbers of *told* that count parts to the movements they belong to."""
    facts = told.facts
    values = [fact for fact in facts if fact.kind == "value"]
    if not values:
        return
    _give_in_turn(facts, work)
    values = [value for value in values if value in facts]
    for value in values:
        count = small_count(value.phrase.measure)
        if count is None or value.characteristics:
            continue
        if count == 1 and any(_is_order(f, work) and f.phrase.start == value.phrase.end for f in facts):
            facts.remove(value)  # "put one on the order"
            continue
        move = _beside(value, facts, work) or _summed(value, facts, work)
        if move is not None:
            component = _part(move, value, told, work)
            if component is not None and _can_count(component, count):
                _give(move, value, count)
                facts.remove(value)
                continue
        row = _in_row(value, facts) if not _is_of_each(value, work) else None
        if row is not None and _counts_named(value, count, work):
            subjects = [replace(value.subjects[-1], count=count)]
            facts[facts.index(value)] = replace(
                row, subjects=subjects, start=value.start, end=value.end, segment=value.segment
            )
        elif _is_new(value) and _counts_named(value, count, work):
            told.subjects[:] = [_counted(s, value, count) for s in told.subjects]
            facts.remove(value)
    _drop_values_with_particle(told, work)


def _beside(value: Fact, facts: list[Fact], work: Working) -> Fact | None:
    """The movement right before or behind the number."""
    for fact in facts:
        if fact.kind not in _MOVES and not _is_order(fact, work):
            continue
        if fact.kind in _MOVES and fact.phrase.start == value.phrase.end:
            return fact
        ends = _ends_clause(value, work)
        if fact.phrase.end == value.phrase.start and ends:
            return fact
        if fact.kind == "off" and _behind(fact, value, work) and (ends or _next_moves(value, facts, work)):
            return fact
    return None


def _summed(value: Fact, facts: list[Fact], work: Working) -> Fact | None:
    """ "screws out, that's five and the sixth sheared": how many of those that came off before."""
    at, measure = value.phrase.start, value.phrase.measure
    if work.texts[at - 2 : at] not in _SUMS or measure is None or measure.unit_said is not None:
        return None
    if work.texts[value.phrase.end : value.phrase.end + 1] in _CLOCK:
        return None  # "screws out, that makes it six o'clock"
    before = [f for f in facts if f.kind in _MOVES and f.phrase.end <= at - 2]
    return before[-1] if before and facts.index(before[-1]) + 1 == facts.index(value) else None


def _behind(move: Fact, value: Fact, work: Working) -> bool:
    """ "shoes off the two": right behind the movement, or with an article between."""
    between = work.texts[move.phrase.end : value.phrase.start]
    if between[-1:] in {("out",), ("off",)}:  # "pick the packing out, one, two, three"
        return bool(move.subjects) and move.subjects[-1].end == value.phrase.start - 1
    return between in {(), ("the",), ("all",), ("all", "the"), ("too",), ("as", "well")}


def _next_moves(value: Fact, facts: list[Fact], work: Working) -> bool:
    """ "wheel nuts off four, wheel off": another part, of which there are not so many, moves behind it."""
    end, count = value.phrase.end, small_count(value.phrase.measure) or 0
    after = next((f for f in facts if f.phrase.start >= end), None)
    if after is None or after.kind not in _MOVES or not after.subjects or after.subjects[0].start != end:
        return False
    named = [work.sheet.get(c) for c in after.subjects[0].components]
    return bool(named) and all(part is not None and part.count < count for part in named)


def _give_in_turn(facts: list[Fact], work: Working) -> None:
    """ "springs and shoes off two and two": as many numbers as parts moved, each of its own."""
    for move in [fact for fact in facts if fact.kind in _MOVES and len(fact.subjects) > 1]:
        at = facts.index(move) + 1
        row = facts[at : at + len(move.subjects)]
        counts = [small_count(f.phrase.measure) if f.kind == "value" else None for f in row]
        if None in counts or len(row) < len(move.subjects) or not _is_row(move, row, work):
            continue
        parts = [work.sheet.get(s.components[0]) if s.components else None for s in move.subjects]
        able = [p is not None and _can_count(p, c or 0) for p, c in zip(parts, counts, strict=True)]
        if not all(able):
            continue
        move.subjects = [replace(s, count=c, selector="") for s, c in zip(move.subjects, counts, strict=True)]
        move.cover(row[0].start, row[-1].end)
        del facts[at : at + len(row)]


def _is_row(move: Fact, row: list[Fact], work: Working) -> bool:
    """True where the numbers stand right behind the movement, joined, and end the clause."""
    ends = [move.phrase.end, *(f.phrase.end for f in row)]
    between = [work.texts[end : f.phrase.start] for end, f in zip(ends, row, strict=False)]
    plain = all(f.phrase.measure is not None and not f.characteristics for f in row)
    return plain and between[0] == () and set(between[1:]) <= {(), ("and",)} and _ends_clause(row[-1], work)


def _is_order(fact: Fact, work: Working) -> bool:
    if fact.kind != "doing":
        return False
    action = work.sheet.get_action(fact.phrase.meaning.acts[0].id)
    return action is not None and action.order


def _ends_clause(value: Fact, work: Working) -> bool:
    """True where nothing goes on behind the number but what it is a number of."""
    rest = work.texts[value.phrase.end :]
    some = rest[:1] and rest[0] in TO_TWELVE and rest[1:2] in {("of",), ("are",)}  # "six, two of them bent"
    return not rest or rest[0] in {BREAK, "and", "of", "old", "new"} or bool(some)


def _in_row(value: Fact, facts: list[Fact]) -> Fact | None:
    """ "rails out, balls three, springs three": the movement told last before this part."""
    at = facts.index(value)
    before = facts[at - 1] if at else None
    if before is None or before.kind not in _MOVES or not value.subjects:
        return None
    subject = value.subjects[-1]
    behind = subject.components and before.phrase.end <= subject.start <= value.phrase.start
    return before if behind and subject.end == value.phrase.start else None


def _is_of_each(value: Fact, work: Working) -> bool:
    """ "caliper on, both bolts seven each": how many is told already, and what each of them is."""
    counted = any(s.count is not None or s.selector for s in value.subjects[-1:])
    return counted and work.texts[value.phrase.end : value.phrase.end + 1] in {("each",), ("apiece",)}


def _is_new(value: Fact) -> bool:
    """ "new washers three": in a rebuild, how many new ones went on."""
    return bool(value.subjects) and value.subjects[-1].age is not None and bool(value.subjects[-1].components)


def _counts_named(value: Fact, count: int, work: Working) -> bool:
    found = [work.sheet.get(c) for c in value.subjects[-1].components]
    return any(c is not None and _can_count(c, count) for c in found)


def _counted(subject: Subject, value: Fact, count: int) -> Subject:
    same = value.subjects and subject.start == value.subjects[-1].start
    return replace(subject, count=count) if same else subject


def _part(move: Fact, value: Fact, told: Told, work: Working) -> Component | None:
    """The part that the movement is of: the one named, the one named before, or the one in hand."""
    for subject in (*move.subjects, *value.subjects):
        for component in subject.components:
            return work.sheet.get(component)
    for subject in reversed(told.subjects):
        if subject.components and subject.end <= value.start:
            return work.sheet.get(subject.components[0])
    return work.sheet.get(work.hand.component) if work.hand is not None else None


def _can_count(component: Component, count: int) -> bool:
    """False for what is set by turns or clicks: "air screw two out" is a reading."""
    return 1 < component.count >= count and not any(is_counted(c) for c in component.characteristic)


def _give(move: Fact, value: Fact, count: int) -> None:
    last = move.subjects[-1] if move.subjects else None
    single = last is not None and bool(last.components) and not (last.many or last.count or last.which)
    if last is not None and single and count > 1 and move.phrase.end == value.phrase.start:
        move.subjects = [*move.subjects[:-1], replace(last, which=(str(count),))]  # "new plug in four"
    elif move.subjects:
        move.subjects = [*move.subjects[:-1], replace(move.subjects[-1], count=count, selector="")]
    else:
        move.subjects = [replace(subject_in_hand(value.phrase.start, value.phrase.end), count=count)]
    move.cover(value.start, value.end)


def _drop_values_with_particle(told: Told, work: Working) -> None:
    """ "air screw two out": beside a value that is one, the particle moves nothing."""
    values = [fact for fact in told.facts if fact.kind == "value"]
    for move in [fact for fact in told.facts if fact.kind in _MOVES]:
        if work.texts[move.phrase.start : move.phrase.end] not in {("out",), ("off",)}:
            continue
        value = next((v for v in values if v.phrase.end == move.phrase.start), None)
        if value is not None:
            value.cover(move.phrase.start, move.phrase.end)
            told.facts.remove(move)
