"""The stage of a part: one that was fitted again, or is new, is as left, whatever the talk is of."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from saywright.quantity import parse_value
from saywright.sheets.model import Component, Stage
from saywright.understanding.discourse import ReadingKey
from saywright.understanding.doings.held_so import is_connected, only_could, put_in_since
from saywright.understanding.doings.only_set import names_the_work
from saywright.understanding.doings.planned import is_renewed
from saywright.understanding.facts import Fact, Mark, Told
from saywright.understanding.going_back import were_going_on
from saywright.understanding.statements import ActionNote, Direction
from saywright.understanding.subjects.noun_phrases import Subject
from saywright.understanding.subjects.parts import Part
from saywright.understanding.wordforms import is_past
from saywright.understanding.working import Working
from saywright.units import get_unit

_TIGHTENED = frozenset({"torqued", "tightened", "nipped"})  # said of what is fitted
_I_SET = frozenset((who, verb) for who in ("i", "we", "have") for verb in ("set", "reset"))
_MADE_TO_SIZE = frozenset(
    {"polish", "ream", "lap", "hone", "skim", "machine", "grind", "straighten", "adjust", "turn", "resurface"}
)
_THERE = frozenset({"in", "on", "fitted"})  # where it was: "that was in it"
_AS_FOUND = ("as", "found")
_IS_NOW = {
    (verb, "now") for verb in ("is", "are", "have", "has", "got", "get", "gets", "reads", "at", "down")
}
_NOW_IT_IS = {("now", "it", "is"), ("now", "that", "is"), ("now", "they", "are"), ("now", "she", "is")}
_COMES = {("is",), ("are",), ("came",), ("comes",), ("come",)}
_WHO_DID = frozenset({"i", "we", "he", "so", "then", "okay", "right", "have", "has", "just", "and"})
_READ_ANEW = frozenset(
    {"measured", "miked", "checked", "read", "zeroed", "tried", "took", "wiped", "did", "was"}
)
_RECENT = 3  # utterances within which a value is put right, not read after work


def note_moved(work: Working, part: Part, count: int, direction: Direction) -> None:
    """Keep which parts are back on, before *count* of *part* are counted as moved.

    Where the part opens a side of which nothing came off yet, the talk is of what was found again.
    """
    opens = direction == "removed" and work.stage == "as_left" and _next_side_opens(work, part)
    if direction == "removed":
        work.came_off |= {(part.component, which) for which in part.whiches}
        kept = {r for r in work.refitted if not _moves_with(r, part)}
        work.refitted = kept if len(kept) < len(work.refitted) else work.refitted
        work.stage = "as_found" if opens else work.stage
        return
    component = work.sheet.get(part.component)
    away = work.off.get(part.component, 0)
    fresh = part.age == "new" or (part.age is None and is_renewed(work, part))
    if work.stage != "as_found" or component is None or not (away or fresh):
        return
    if part.whiches == (None,) and count < (away or component.count):
        return  # some of them: nobody said which
    work.refitted |= {(part.component, which) for which in part.whiches}


def note_come_back(told: Told, work: Working) -> None:
    """ "drum's back from the turner": worked on elsewhere; what is told of it from here on is as left.

    So where a doing of it is on record, or it was off; "the needle's back from the stop" came from nowhere.
    """
    texts = work.texts
    for subject in told.subjects if "back" in texts else ():
        end = subject.end + (texts[subject.end : subject.end + 1] in _COMES)
        behind = texts[end : end + 2] == ("back", "from") and work.lexicon.names(texts, end + 2)
        if not behind or behind.parts or behind.aliases or behind.tags & {"PLACE"}:
            continue
        for component in subject.components:
            note = any(isinstance(s, ActionNote) and s.component == component for s in work.live())
            if note or work.off.get(component, 0):
                work.refitted |= {(component, which) for which in subject.which or (None,)}


def _next_side_opens(work: Working, part: Part) -> bool:
    """ "That's the left one done, now the right": what comes off a side where nothing came off before."""
    before = {which for component, which in work.came_off if component == part.component}
    if not before or None in before or None in part.whiches:
        return False
    return before.isdisjoint(part.whiches)


def stage_told(work: Working, told: Told, fact: Fact) -> Stage:
    """The stage a fact speaks of by itself, else that of the talk."""
    if fact.changed or fact.changes:
        return "as_left" if fact.changes else "as_found"
    if told.marks:
        marks = [m for m in told.marks if m.segment == fact.segment and not _of_next(m, fact, told)]
        if any("BEFORE_WORK" in m.tags for m in marks):
            return "as_found"
        if fact.kind != "doing" and any("AFTER" in m.tags for m in marks):  # "blown out after": next
            return "as_left"
        if any("RESTORE" in m.tags and m.start < fact.phrase.start for m in told.marks):
            return "as_left"
    if any(s.age == "new" for s in fact.subjects):
        return "as_left"
    if _of_what_was_there(work.texts[: fact.phrase.start]):
        return "as_found"
    if fact.kind == "value" and _is_tightened(work, fact):
        return "as_left"
    here = [f for f in told.facts if f.kind == "on" and (f.segment == fact.segment or _of_it(fact, f))]
    if fact.kind == "doing":  # "straightened by rolling it"
        here = [f for f in here if not f.subjects or any(not s.pronoun for s in f.subjects)]
    if fact.kind == "value" and _is_torque(fact, work):
        here += [f for f in told.facts if f.kind == "on" and f.phrase.end <= fact.phrase.start]
    if fact.kind == "value":  # "runout on refitting"
        here += [f for f in told.facts if f.kind == "on" and names_the_work(f, work.texts)]
    here = [f for f in here if not (is_connected(work, f) or put_in_since(fact, f))]
    here = [f for f in here if not (f.aux & {"DECLINE", "NEG"} or only_could(work.texts, f))]
    return "as_left" if here else work.stage


def _is_tightened(work: Working, fact: Fact) -> bool:
    """ "Torqued to nine", "castle nuts went up to thirty", "link rod I've set to one forty two"."""
    start = fact.phrase.start
    said = work.texts[fact.start : start]
    if not _TIGHTENED.isdisjoint(said) or any(pair in _I_SET for pair in pairwise(said)):
        return True
    measure = fact.phrase.measure
    up_to = work.texts[max(0, start - 2) : start] == ("up", "to") or (measure and measure.hedge == "up to")
    return bool(up_to) and _is_torque(fact, work)


def _of_what_was_there(before: Sequence[str]) -> bool:
    """ "The fuse that was in it is a ten": of what was found there, whatever the talk is of."""
    return not {"was", "were"}.isdisjoint(before) and any(
        before[at] in {"was", "were"} and before[at - 1] in {"that", "which"} and before[at + 1] in _THERE
        for at in range(1, len(before) - 1)
    )


def _of_next(mark: Mark, fact: Fact, told: Told) -> bool:
    """ "Fifteen thou, after truing it's six": said of the value behind it."""
    if fact.kind != "value" or mark.start < fact.phrase.end:
        return False
    return any(f.kind == "value" and f.phrase.start > mark.start for f in told.facts)


def stage_of_part(work: Working, told: Told, component: str | None, which: str | None, stage: Stage) -> Stage:
    """The stage of what is told of a part: as left once that part is back on."""
    if not work.refitted or stage == "as_left" or component is None or _as_found(told):
        return stage
    return "as_left" if _is_back(work, component, which) else stage


def stage_of_reading(
    work: Working, told: Told, fact: Fact, read: tuple[ReadingKey, str], stage: Stage
) -> Stage:
    """The stage of a value: as its part is, or as words beside it tell: "is now".

    *read* is what it is a value of, and the value.
    """
    key, value = read
    if stage == "as_found" and work.refitted and not _as_found(told) and _read_on_refitting(work, key, value):
        return "as_left"
    back = bool(work.refitted) and stage == "as_found" and not _as_found(told)
    return _by_now(work, fact, key, value, "as_left" if back and _is_on_again(work, key) else stage)


def _read_on_refitting(work: Working, key: ReadingKey, value: str) -> bool:
    """True while parts go on: for what is only read then, and for what was read otherwise before they did."""
    spec = work.sheet.find(key[0], key[2])
    if spec is None or not were_going_on(work):
        return False
    first = work.first.get((key, "as_found"))
    if first is None:
        return spec.when == ("as_left",)
    apart = "as_left" in spec.when and parse_value(first.value) != parse_value(value)
    return apart and not any(s is first for group in work.before.recent[-_RECENT:] for s in group)


def _is_on_again(work: Working, key: ReadingKey) -> bool:
    """True for a value of a part that is back on; or read again on one that sits on such a part."""
    component, which, _ = key
    if _is_back(work, component, which):
        return True
    spec = work.sheet.get(component)
    under = spec.inside if spec is not None else None
    again = (key, "as_found") in work.first and not work.off.get(component, 0)
    return again and under is not None and (under, None) in work.refitted


def _as_found(told: Told) -> bool:
    return any("BEFORE_WORK" in mark.tags for mark in told.marks)


def _moves_with(refitted: tuple[str, str | None], part: Part) -> bool:
    component, which = refitted
    any_of_them = which is None or None in part.whiches
    return component == part.component and (any_of_them or which in part.whiches)


def _is_back(work: Working, component: str, which: str | None) -> bool:
    back = work.refitted
    if (component, which) in back or (component, None) in back:
        return True
    spec = work.sheet.get(component)
    return which is None and spec is not None and sum(c == component for c, _ in back) >= spec.count


def stage_by_value(work: Working, fact: Fact, key: ReadingKey, value: str, stage: Stage) -> Stage:
    """ "two and a half, as found", while the job goes back together: set to what was found, and left so."""
    end = fact.phrase.end
    ends = work.texts[end:] == _AS_FOUND and not {"was", "were"} & set(work.texts)
    first = work.first.get((key, "as_found"))
    if not ends or work.stage != "as_left" or first is None:
        return stage
    return "as_left" if parse_value(first.value) == parse_value(value) else stage


def _by_now(work: Working, fact: Fact, key: ReadingKey, value: str, stage: Stage) -> Stage:
    """ "The run out is now point oh four", where another was found: read after the work, and left so.

    So is what was read in the breath in which it was worked on: "polished it up, point eight seven three".
    """
    first = work.first.get((key, "as_found")) or work.first.get(((key[0], None, key[2]), "as_found"))
    now = _says_now(work, fact)
    so_now = now or work.texts[max(0, fact.phrase.start - 3) : fact.phrase.start] in _NOW_IT_IS
    worked_on = (so_now or first is not None) and _worked_on(work, key)
    worked_on = worked_on or (so_now and first is not None and _was_handled(work, fact))
    if first is None:
        return "as_left" if worked_on else stage  # "rubbed down on glass and now it's point oh four"
    if not (now or worked_on):
        return stage  # "properly now it's four point nine five"
    return stage if parse_value(first.value) == parse_value(value) else "as_left"


def _says_now(work: Working, fact: Fact) -> bool:
    """ "is now …", or "… now" at the end."""
    last = work.texts[fact.phrase.end :] == ("now",)
    if last or "now" not in work.texts:
        return last
    return any(pair in _IS_NOW for pair in pairwise(work.texts[: fact.phrase.start]))


def _worked_on(work: Working, key: ReadingKey) -> bool:
    """True where the part that was read was made to size in the same breath."""
    component, which, _ = key
    return any(
        isinstance(s, ActionNote)
        and (s.component, s.status) == (component, "done")
        and s.which in {None, which}
        and s.action in _MADE_TO_SIZE
        for s in work.out
    )


def _was_handled(work: Working, fact: Fact) -> bool:
    """ "I've cleaned the hub … and now it's", "turned it round on the hub and now it's": not read anew."""
    head = work.texts[: fact.phrase.start]
    done = any(isinstance(s, ActionNote) and s.status == "done" and s.action != "measure" for s in work.out)
    at = next((at for at, text in enumerate(head) if text not in _WHO_DID), len(head))
    did = head[at : at + 1] and is_past(head[at]) and head[at] not in _READ_ANEW
    return "and" in head and (done or bool(did))


def _is_torque(value: Fact, work: Working) -> bool:
    """True for a value in a unit of torque, or without a unit of what has nothing but a torque."""
    measure = value.phrase.measure
    if measure is not None and measure.unit is not None:
        return get_unit(measure.unit).kind == "torque"
    parts = [
        work.sheet.get(c) for s in value.subjects for c in s.components if _so_many(s, work.sheet.get(c))
    ]
    units = {c.unit for part in parts if part is not None for c in part.characteristic}
    return bool(units) and all(get_unit(unit).kind == "torque" for unit in units)


def _of_it(value: Fact, fitted: Fact) -> bool:
    """ "pilot jet back in, it's thirty five": a value of what was fitted in the same breath."""
    before = fitted.phrase.end <= value.phrase.start and value.kind == "value"
    put_in = {c for s in fitted.subjects for c in s.components}
    return before and any(s.pronoun and put_in & set(s.components) for s in value.subjects)


def _so_many(subject: Subject, part: Component | None) -> bool:
    """False for a part of which fewer are fitted than are told of: "all four screws"."""
    return part is not None and part.count >= (subject.count or 1)
