"""What was said last, once more with one thing changed: its part, its unit, how many."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import Any

from saywright.flags import FlagKind, flag
from saywright.quantity import decimal_text, parse_value
from saywright.understanding.bench_words import IS
from saywright.understanding.facts import Fact, Told
from saywright.understanding.meanings import NOTHING
from saywright.understanding.numbers.words import ORDINALS, TO_TWELVE
from saywright.understanding.quantities.plausible import is_plausible
from saywright.understanding.second_thoughts.moved_after_all import not_moved
from saywright.understanding.second_thoughts.words import IT, PAUSES, TURNING, turns
from saywright.understanding.statements import ActionNote, ConditionNote, Movement, Reading, Statement
from saywright.understanding.subjects.noun_phrases import Subject
from saywright.understanding.subjects.parts import Part, resolve
from saywright.understanding.working import Working
from saywright.units import convert, convertible

AboutAPart = Reading | ConditionNote | ActionNote | Movement
_ABOUT_THE_PART = frozenset({FlagKind.PART_AMBIGUOUS, FlagKind.WHICH_UNCLEAR, FlagKind.PART_FROM_CONTEXT})
_ABOUT_THE_UNIT = frozenset(
    [FlagKind.UNIT_AMBIGUOUS, FlagKind.UNIT_MISMATCH, FlagKind.UNIT_FROM_SHEET, FlagKind.OUTSIDE_PLAUSIBLE]
)
_UNIT_WORDS = 3
_COUNTS = TO_TWELVE[:10]
_COMMON = frozenset({"id", "stage", "heard", "start_s", "end_s", "line", "utterance", "flags", "kind"})


def own_fields(statement: Statement) -> dict[str, Any]:
    """The fields of a statement that it does not share with all others."""
    return {name: value for name, value in statement if name not in _COMMON}


def correct_unit(work: Working, told: Told) -> bool:
    """ "I mean newton metres", "no, psi": the value said last, in another unit. False where none is said."""
    start, end = _unit_meant(work, told)
    if start == end:
        return False
    said = " ".join(work.texts[start:end])
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
    fresh = work.make(Reading, start, end, flags=flags, stage=old.stage, **fields)
    fresh = fresh.model_copy(update={"heard": f"{old.heard} … {fresh.heard}"})
    work.put(fresh)
    work.supersede([old.id], fresh.id, 0 if not told.facts else start, len(work.texts))
    return True


def _unit_meant(work: Working, told: Told) -> tuple[int, int]:
    """The tokens of the unit that ends the talk behind a change of mind, or is all of it; (0, 0) for none."""
    texts = work.texts
    if TURNING.isdisjoint(texts) and (told.facts or {"that", "it"}.isdisjoint(texts)):
        return 0, 0
    stop = next((at for at in range(1, len(texts)) if texts[at] == "not"), len(texts))
    stop = stop if " ".join(texts[stop + 1 :]) in work.lexicon.units else len(texts)
    after = max((fact.end for fact in told.facts), default=0)
    for start in range(max(after + 1, stop - _UNIT_WORDS), stop):
        between = texts[after:start]
        pointed = not told.facts and set(between) & {"that", "it"} and (IT | IS | PAUSES).issuperset(between)
        if " ".join(texts[start:stop]) in work.lexicon.units and (pointed or turns(texts, after, start)):
            return start, stop
    return 0, 0


def correct_count(work: Working, told: Told) -> bool:
    """ "make that one", "no, just the one": how many moved or are to be had. False where none is said."""
    if told.facts or not work.texts or work.texts[-1] not in _COUNTS:
        return False
    count, end = _COUNTS.index(work.texts[-1]) + 1, len(work.texts)
    return turns(work.texts, 0, end - 1) and recount(work, count, end - 1, end)


def recount(work: Working, count: int, start: int, end: int) -> bool:
    """What was to be done or moved last, *count* times; False where it was neither."""
    last = next(work.newest(), None)
    if not isinstance(last, ActionNote | Movement):
        return False
    moved = work.sheet.get(last.component) if isinstance(last, Movement) else None
    if moved is not None and count > moved.count:
        return False  # "make that twenty three": the torque said beside it
    changed = {"quantity": count} if isinstance(last, ActionNote) else {"count": count}
    fields = {**own_fields(last), **changed}
    fresh = work.make(type(last), start, end, stage=last.stage, **fields)
    work.put(fresh)
    work.supersede([last.id], fresh.id, start, end)
    return True


def correct_others(work: Working, old: Reading, made: Sequence[Reading], fact: Fact) -> None:
    """ "all four at ten", "no, eleven": what *old* was said of together with others is put right on each.

    *made* are the readings of *fact* that take its place: one of them, or one for each. A fact that
    names one of several puts right no other.
    """
    if not made or any(s.which or s.single for s in fact.subjects) or _turned_to(work, made):
        return
    told, new, start, end = _of_words(old), made[0], fact.start, fact.end
    others = [
        s for s in work.live() if isinstance(s, Reading) and s.which != old.which and _of_words(s) == told
    ]
    for other in others:
        twin = next((one for one in made if len(made) > 1 and one.which == other.which), None)
        if twin is not None:
            work.supersede([other.id], twin.id, start, end)
            continue
        fields = {**own_fields(new), "which": other.which}
        fresh = work.make(Reading, start, end, flags=new.flags, stage=new.stage, **fields)
        work.put(fresh)
        work.supersede([other.id], fresh.id, start, end)


def _turned_to(work: Working, made: Sequence[Reading]) -> bool:
    """ "no, bottom one only got to eight": these words name the one that it is told of."""
    which = made[0].which
    if len(made) > 1 or which is None:
        return False
    table = work.lexicon.table
    for text, following in pairwise((*work.texts, "")):
        meant = table.get((text,), NOTHING)
        if text == which or which in meant.positions or ("POS" in meant.tags and following == "one"):
            return True
    return False


def _of_words(reading: Reading) -> tuple[object, ...]:
    """What readings have in common that one value told of several parts of a kind made."""
    what = (reading.component, reading.characteristic, reading.place, reading.value, reading.stage)
    return (*what, reading.heard, reading.line, reading.start_s, reading.utterance)


def correct_part(work: Working, subject: Subject, group: Sequence[Statement], start: int, end: int) -> bool:
    """ "no, the left one", "make that two washers": what *group* tells, of another part or another count.

    *start* and *end* are the tokens that say so. False where it cannot be of that part.
    """
    told = [s for s in group if isinstance(s, AboutAPart)]
    if not subject.components and _is_no_place(subject, work):
        return False
    part = resolve(subject, work.sheet, work.hand, work.now, off=work.off, seen=work.seen)
    if not told or part is None:
        return False
    read = [s for s in told if isinstance(s, Reading)]
    if any(work.sheet.find(part.component, old.characteristic) is None for old in read):
        return False
    if _only_one_of_them(work, part, told, start, end):
        return True
    copies = [_moved(work, old, part, subject) for old in told]
    if all(own_fields(old) == own_fields(new) for old, new in zip(told, copies, strict=True)):
        return False  # "that's my third": nothing is another
    stands = [s for s in work.live() if s not in told and isinstance(s, AboutAPart)]
    for old, new in zip(told, copies, strict=True):
        same = next((s for s in stands if own_fields(s) == own_fields(new) and type(s) is type(new)), None)
        if same is None:
            work.put(new)
        work.supersede([old.id], (same or new).id, start, end)
    not_moved(work, told, copies)
    work.named(part.component, part.single)
    return True


def _is_no_place(subject: Subject, work: Working) -> bool:
    """ "That was the easy one": no part is told apart by it."""
    known = (work.lexicon.positions, work.lexicon.other_places, ORDINALS)
    words = [word for place in subject.which for word in place.split()]
    return bool(words) and not any(word.isdigit() or word in names for names in known for word in words)


def _only_one_of_them(work: Working, part: Part, told: Sequence[AboutAPart], start: int, end: int) -> bool:
    """ "Both hoses are split", "no, just the left": what was told of that one stands, and of no other."""
    others = [s for s in told if (s.component, s.which) != (part.component, part.single)]
    if (
        len(others) in {0, len(told)}
        or part.single is None
        or any(s.component != part.component for s in others)
    ):
        return False
    work.supersede([s.id for s in others], None, start, end)
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
    elif isinstance(old, ActionNote) and part.single is not None and old.which is None:
        changed["quantity"] = None  # "both", and then only the one
    return fresh.model_copy(update=changed)
