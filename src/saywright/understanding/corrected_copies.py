"""What was said last, once more with one thing changed: its part, its unit, how many."""

from __future__ import annotations

from typing import Any

from saywright.flags import FlagKind, flag
from saywright.quantity import decimal_text, parse_value
from saywright.understanding.facts import Mark, Told
from saywright.understanding.parts import Part, resolve
from saywright.understanding.plausible import is_plausible
from saywright.understanding.statements import ActionNote, ConditionNote, Movement, Reading, Statement
from saywright.understanding.subjects import Subject
from saywright.understanding.working import Working
from saywright.units import convert, convertible

AboutAPart = Reading | ConditionNote | ActionNote | Movement
_ABOUT_THE_PART = frozenset({FlagKind.PART_AMBIGUOUS, FlagKind.WHICH_UNCLEAR, FlagKind.PART_FROM_CONTEXT})
_ABOUT_THE_UNIT = frozenset(
    [FlagKind.UNIT_AMBIGUOUS, FlagKind.UNIT_MISMATCH, FlagKind.UNIT_FROM_SHEET, FlagKind.OUTSIDE_PLAUSIBLE]
)
_COMMON = frozenset({"id", "stage", "heard", "start_s", "end_s", "line", "utterance", "flags", "kind"})


def own_fields(statement: Statement) -> dict[str, Any]:
    """The fields of a statement that it does not share with all others."""
    return {name: value for name, value in statement if name not in _COMMON}


def correct_unit(work: Working, mark: Mark) -> bool:
    """ "I mean newton metres": the value said last, in another unit. False where none is said."""
    said = " ".join(work.texts[mark.end :])
    code = next(iter(work.lexicon.units.get(said, ())), None)
    old = work.last_reading()
    spec = work.sheet.find(old.component, old.characteristic) if old is not None else None
    if code is None or old is None or spec is None or not convertible(code, spec.unit):
        return False
    exact = convert(parse_value(old.value), code, spec.unit)
    flags = [f for f in old.flags if f.kind not in _ABOUT_THE_UNIT]
    if not is_plausible(spec, exact):
        flags.append(flag(FlagKind.OUTSIDE_PLAUSIBLE, f"{old.value} {said}"))
    changed = {"unit": code, "unit_said": said, "in_sheet_unit": decimal_text(exact)}
    fields = {**own_fields(old), **changed}
    fresh = work.make(Reading, mark.end, len(work.texts), flags=flags, stage=old.stage, **fields)
    fresh = fresh.model_copy(update={"heard": f"{old.heard} … {fresh.heard}"})
    work.put(fresh)
    work.supersede([old.id], fresh.id, mark.start, mark.end)
    return True


def correct_others(work: Working, old: Reading, new: Reading, start: int, end: int) -> None:
    """ "all four at ten", "no, eleven": what *old* was said of together with others is put right on each."""
    told = _of_words(old)
    others = [
        s for s in work.live() if isinstance(s, Reading) and s.which != old.which and _of_words(s) == told
    ]
    for other in others:
        fields = {**own_fields(new), "which": other.which}
        fresh = work.make(Reading, start, end, flags=new.flags, stage=new.stage, **fields)
        work.put(fresh)
        work.supersede([other.id], fresh.id, start, end)


def _of_words(reading: Reading) -> tuple[object, ...]:
    """What readings have in common that one value told of several parts of a kind made."""
    what = (reading.component, reading.characteristic, reading.place, reading.value, reading.stage)
    return (*what, reading.heard, reading.line, reading.start_s, reading.utterance)


def correct_part(work: Working, told: Told, mark: Mark) -> bool:
    """ "no, the left one", "make that two washers": what was said last, of another part or another count."""
    named = [s for s in told.subjects if s.start >= mark.start]
    group = [s for s in work.last_group() if isinstance(s, AboutAPart)]
    if not named or not group:
        return False
    part = resolve(named[-1], work.sheet, work.hand, work.now, off=work.off, seen=work.seen)
    if part is None:
        return False
    read = [s for s in group if isinstance(s, Reading)]
    if any(work.sheet.find(part.component, old.characteristic) is None for old in read):
        return False
    copies = [_moved(work, old, part, named[-1]) for old in group]
    for old, new in zip(group, copies, strict=True):
        work.put(new)
        work.supersede([old.id], new.id, mark.start, mark.end)
    work.named(part.component, part.single)
    return True


def _moved(work: Working, old: AboutAPart, part: Part, subject: Subject) -> AboutAPart:
    """The same statement of another part."""
    flags = [f for f in old.flags if f.kind not in _ABOUT_THE_PART]
    fresh = work.make(
        type(old),
        subject.start,
        subject.end,
        flags=[*flags, *part.flags],
        stage=old.stage,
        **own_fields(old),
    )
    heard = f"{old.heard} … {fresh.heard}"
    changed: dict[str, Any] = {"component": part.component, "which": part.single, "heard": heard}
    if part.count is not None and isinstance(old, ActionNote):
        changed["quantity"] = part.count
    elif part.count is not None and isinstance(old, Movement):
        changed["count"] = part.count
    return fresh.model_copy(update=changed)
