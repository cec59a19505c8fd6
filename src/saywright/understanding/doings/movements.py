"""Movements → what came off and what went on, with how many."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any, Literal

from saywright.flags import FlagKind, flag
from saywright.sheets.model import Component
from saywright.understanding.bench_words import FASTENERS, FLUIDS
from saywright.understanding.counting.mixed_ages import shares_behind
from saywright.understanding.doings.here_it_is import age_before, went_in_just_now
from saywright.understanding.doings.how_many_moved import goes_on_everywhere, how_many
from saywright.understanding.facts import Fact, Told
from saywright.understanding.second_thoughts.corrected_copies import own_fields
from saywright.understanding.stages import note_moved
from saywright.understanding.statements import ActionNote, ConditionNote, Direction, Movement
from saywright.understanding.subjects.noun_phrases import Subject
from saywright.understanding.subjects.parts import Part, resolve
from saywright.understanding.subjects.which_one import doubt_place
from saywright.understanding.tokens import BREAK
from saywright.understanding.wordforms import is_past
from saywright.understanding.working import Working

_ENDS = frozenset({(), (BREAK,), ("and",)})
_ANNOUNCED = frozenset(
    ["right", "so", "okay", "now", "then", "time", "and", "on", "to", "the", "we", "are", "am", "i", BREAK,
     "refit", "refitting", "reassembling", "reassembly"]
)  # fmt: skip


def is_announced(work: Working, fact: Fact) -> bool:
    """ "right, refitting": that it goes back together, and of no part."""
    return "STAGE" in fact.phrase.tags and _ANNOUNCED.issuperset(work.texts)


def is_pressed_out(work: Working, fact: Fact) -> bool:
    """ "pistons blown out": while they are in, what moves them out of their bores; no cleaning."""
    words = work.texts[fact.phrase.start : fact.phrase.end]
    named = [s for s in fact.subjects if s.components and work.texts[s.end - 1] in {"piston", "pistons"}]
    inside = not any(work.off.get(c, 0) for s in named for c in s.components)
    return "out" in words and bool(named) and named == fact.subjects and inside


def is_scraped_off(work: Working, fact: Fact) -> bool:
    """ "mounting gasket scraped off": so it came off, where it was still on."""
    words = work.texts[fact.phrase.start : fact.phrase.end]
    if words[-1] != "off" or work.stage != "as_found" or work.texts[fact.phrase.end :][:1] not in _ENDS:
        return False
    gaskets = [s for s in fact.subjects if work.texts[s.end - 1] in {"gasket", "gaskets"}]
    on = not any(work.off.get(c, 0) for s in gaskets for c in s.components)
    return bool(gaskets) and gaskets == fact.subjects and on and all(s.age is None for s in gaskets)


def is_new_pressed_in(work: Working, fact: Fact) -> bool:
    """ "new rear bush pressed in": it was done, and a new one is fitted."""
    words = work.texts[fact.phrase.start : fact.phrase.end]
    new = bool(fact.subjects) and all(s.age == "new" and s.components for s in fact.subjects)
    return new and words[-1] in {"in", "on", "home"} and is_past(words[0])


def put_movements(work: Working, fact: Fact, parts: list[Part], direction: Direction) -> None:
    """The movement of each part on record, and how many of it are off now."""
    for part in parts:
        component = work.sheet.get(part.component)
        if component is None or _of_everything(fact, component) or _told_already(work, fact, part, direction):
            work.covered.append((fact.start, fact.end))
            continue
        drained = direction == "removed" and component.label.split()[-1].lower() in FLUIDS
        if drained or _of_no_such(fact, part, component, work):
            continue  # "the oil's all out"
        fitted = direction == "fitted"
        every = fitted and goes_on_everywhere(component, work)
        count, flags = how_many(part, component, None if every else work.hand, work, direction)
        if fitted and part.bare_plural and part.single is None:
            known = sum(some for some, _ in shares_behind(work.ages, work.texts, _told_to(fact))[1])
            if count < known <= component.count:
                count, flags = known, []  # "hold downs on, two old, two new", on the side worked on
        if direction == "removed" and work.off.get(part.component, 0) >= component.count:
            flags.append(flag(FlagKind.COUNT_TOO_HIGH, f"{component.label}: all were off"))
        flags += [] if fitted or count > 1 else doubt_place(fact, part, part.single, work.sheet)
        note_moved(work, part, count, direction)
        end, shares = (
            _shares(work, fact, part, count) if fitted else (fact.end, [(count, _age_off(work, fact, part))])
        )
        for some, age in shares:
            renewed = fitted and component.renew and age == "old"
            doubts = (flag(FlagKind.RENEW_REFITTED, component.label),) if renewed else ()
            made = work.make(
                Movement,
                fact.start,
                end,
                flags=(*part.flags, *flags, *doubts),
                stage="as_left" if fitted else work.stage,
                component=part.component,
                which=part.single,
                count=some,
                movement=direction,
                part=age,
            )
            work.put(made)
        count = max(count, sum(some for some, _ in shares))
        away = work.off.get(part.component, 0)
        work.off[part.component] = away + count if direction == "removed" else max(0, away - count)


def _age_off(work: Working, fact: Fact, part: Part) -> Literal["old", "new"] | None:
    """ "Same bolts out" are as those before; it tells nothing of their age."""
    said = {
        text for s in fact.subjects if part.component in s.components for text in work.texts[s.start : s.end]
    }
    return None if "same" in said and "old" not in said else part.age


def _told_to(fact: Fact) -> int:
    """The token behind the movement and what moved."""
    return max((fact.phrase.end, fact.end, *[s.end for s in fact.subjects if s.components]))


def _shares(
    work: Working, fact: Fact, part: Part, count: int
) -> tuple[int, list[tuple[int, Literal["old", "new"] | None]]]:
    """ "clips on both, one new": the end of what was said, and how many of each age."""
    end, shares = shares_behind(work.ages, work.texts, _told_to(fact))
    known = sum(some for some, _ in shares)
    if not shares or known > count or part.single is not None:
        return fact.end, [(count, part.age or _as_came(work, fact) or age_before(work, fact, part))]
    work.aged.update(start for start, (till, _) in work.ages.items() if till == end)
    apart = part.age is not None and part.count is not None and all(age != part.age for _, age in shares)
    left = count if apart else count - known  # "five old screws, one new"
    rest: list[tuple[int, Literal["old", "new"] | None]] = [(left, part.age)] if left > 0 else []
    return end, [*rest, *shares]


def _as_came(work: Working, fact: Fact) -> Literal["old"] | None:
    """ "main in, pilot in, same ones that came out": how old all are that went in before those words."""
    if work.same is None or fact.start >= work.same[0]:
        return None
    work.covered.append(work.same)
    return "old"


def name_alike(told: Told, fact: Fact, parts: Sequence[Part]) -> None:
    """ "caliper on, both bolts twenty three": the value is of the bolts that were taken to have moved."""
    meant = [one for one in zip(fact.subjects, parts, strict=False) if len(one[0].components) > 1]
    for subject, part in meant:
        doubts = [f.text for f in part.flags if f.kind == FlagKind.PART_AMBIGUOUS]
        one = replace(subject, components=(part.component,), unclear=doubts[0] if doubts else "")
        for later in told.facts:
            if later is not fact and later.phrase.start >= fact.phrase.start:
                later.subjects = [_same_part(s, subject, one) for s in later.subjects]


def _same_part(said: Subject, moved: Subject, known: Subject) -> Subject:
    """ "seals out, both of them hard": what stands for the part that moved is that part."""
    alike = said.components == moved.components and (said.pronoun or said.start == moved.start)
    return replace(said, components=known.components, unclear=known.unclear) if alike else said


def _of_everything(fact: Fact, component: Component) -> bool:
    """ "that's the lot off": all there was, not the one part in hand."""
    return component.count == 1 and any(s.pronoun and s.selector == "all" for s in fact.subjects)


def _of_no_such(fact: Fact, part: Part, component: Component, work: Working) -> bool:
    """ "two nuts and the carb's off", and the sheet has one nut, of the bowl: none of its own."""
    if part.count is None or part.count <= component.count:
        return False
    named = [s for s in fact.subjects if part.component in s.components]
    return any(s.alias and s.many and work.texts[s.end - 1] in FASTENERS for s in named)


def _told_already(work: Working, fact: Fact, part: Part, direction: Direction) -> bool:
    """ "pried the seal out and it came out in one piece" is one movement."""
    moved = [s for s in work.out if isinstance(s, Movement) and s.component == part.component]
    component = work.sheet.get(part.component)
    if moved and component is not None and moved[-1].movement == direction:
        same = [s for s in moved if (s.which, s.movement) == (part.single, direction)]
        if sum(s.count for s in same) >= (1 if part.single else component.count):
            return True  # "bar off, that's the bar off now"
    if any(not s.pronoun or s.age for s in fact.subjects):
        return False
    if direction == "fitted" and went_in_just_now(work, fact, part):
        return True
    if not fact.subjects:
        return False
    if part.count is not None and moved:  # "pistons out … lovely, both of them out"
        return moved[-1].movement == direction and sum(s.count for s in moved) >= part.count
    if any(s.selector or s.count for s in fact.subjects):
        return False
    said = (part.component, part.single, direction)
    moves = [s for s in work.out if isinstance(s, Movement)]
    return any((s.component, s.which, s.movement) == said for s in moves)


def put_again(work: Working, last: Movement | ConditionNote | ActionNote, subjects: list[Subject]) -> None:
    """ "And the upper": the same movement, condition or action of one more part."""
    for subject in subjects:
        hand = work.hand
        if isinstance(last, ActionNote) and hand is not None and not hand.turned:
            hand = replace(hand, side=None)  # "and a spring": on whichever side it will go
        part = resolve(subject, work.sheet, hand, work.now, off=work.off)
        component = work.sheet.get(part.component) if part is not None else None
        if part is None or component is None:
            continue
        fields: dict[str, Any] = own_fields(last)
        fields |= {"component": part.component, "which": part.single}
        if isinstance(last, Movement):
            fields |= {
                "count": how_many(part, component, hand, work, last.movement)[0],
                "part": part.age or (last.part if part.component == last.component else None),
            }
            note_moved(work, part, fields["count"], last.movement)
        if isinstance(last, ActionNote):
            fields |= {"quantity": part.count}
        made = work.make(type(last), subject.start, subject.end, flags=part.flags, stage=last.stage, **fields)
        work.put(made)
        work.named(part.component, part.single)
