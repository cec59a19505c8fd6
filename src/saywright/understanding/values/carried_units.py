"""Which of its choices a value is, in its unit or the one said just before: "was two thou, now it's one"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import islice

from saywright.flags import Flag, FlagKind, flag
from saywright.quantity import parse_value
from saywright.sheets.model import Sheet
from saywright.understanding.facts import Fact
from saywright.understanding.meanings import CharacteristicKey
from saywright.understanding.quantities.measures import Measure
from saywright.understanding.statements import Reading
from saywright.understanding.subjects.noun_phrases import Subject
from saywright.understanding.values.fitting import Choice, best_choice
from saywright.understanding.values.places import keys_for
from saywright.understanding.values.turned_there import turned_there
from saywright.understanding.working import Working

SHARES = {"tenths": 10, "hundredths": 100, "thousandths": 1000}
_ROW = 4  # values told one behind the other
_NEAR = Fraction(1, 4)  # of the value before: beside it no other unit is meant
_Chosen = tuple[Choice, tuple[Choice, ...]]


def choose(work: Working, measure: Measure, keys: Sequence[CharacteristicKey]) -> _Chosen | None:
    """The best choice for *measure*; in the unit said just before where the sheet's makes no sense."""
    found = best_choice(measure, keys, work.sheet)
    if found is None or found[0].fits or measure.unit_said is not None:
        return found
    last = _read_before(work, found[0].key)
    if last is None:
        return found
    told = _told_in(last)
    carried = _in_shares(measure, last) if told in SHARES else None
    if carried is None and last.unit_said is not None and last in work.out:
        carried = replace(measure, unit=last.unit, unit_said=last.unit_said, units=())
    again = best_choice(carried, keys, work.sheet) if carried is not None else None
    if again is None or not again[0].fits or again[0].key != found[0].key:
        return found
    before, now = parse_value(last.value), parse_value(again[0].value)
    if abs(now - before) <= before * _NEAR:  # "thirty eight thou inlet, forty one outlet"
        return again
    doubt = flag(FlagKind.UNIT_AMBIGUOUS, f"{told}, as said before")
    return replace(again[0], flags=(*again[0].flags, doubt)), again[1]


def _read_before(work: Working, key: CharacteristicKey) -> Reading | None:
    """The last value of the same, told in a unit or in shares; those told bare since were in it too."""
    read = (s for s in work.newest() if isinstance(s, Reading) and (s.component, s.characteristic) == key)
    for last in islice(read, _ROW):
        if _told_in(last) or "point" in last.heard.split():
            return last
    return None


def _told_in(reading: Reading) -> str:
    """What a value was told in: its unit, or the shares of one at its end."""
    return next((w for w in reversed(reading.heard.split()) if w in SHARES), reading.unit_said or "")


def _in_shares(measure: Measure, last: Reading) -> Measure | None:
    """ "Eleven hundredths" … "the right one nine": such shares too; None for no whole number."""
    share = SHARES[_told_in(last)]
    whole = tuple(r for r in measure.readings if r.value.isdigit() and int(r.value) < share)
    if not whole:
        return None
    places = len(str(share)) - 1
    return replace(
        measure,
        unit=last.unit if last.unit_said else None,
        unit_said=last.unit_said,
        readings=tuple(replace(r, value=f"0.{int(r.value):0{places}}") for r in whole),
    )


def _put_right(
    work: Working, measure: Measure, keys: Sequence[CharacteristicKey], old: Reading | None
) -> _Chosen | None:
    """ "eighty two thou" … "no, eighty four": a value put right is in the unit said with it."""
    spec = work.sheet.find(old.component, old.characteristic) if old is not None else None
    if old is None or spec is None or measure.unit_said is not None or measure.units:
        return choose(work, measure, keys)
    if old.unit_said is None and old.unit == spec.unit:
        return choose(work, measure, keys)
    carried = replace(measure, unit=old.unit, unit_said=old.unit_said or "")
    found = best_choice(carried, keys, work.sheet)
    return found if found is not None and found[0].fits else choose(work, measure, keys)


def able_to(
    work: Working, fact: Fact, measure: Measure, replaces: Reading | None
) -> list[tuple[Subject | None, _Chosen | None, list[Flag]]]:
    """Each subject with what the value would be of it; of several, only those on which it can be read."""
    found: list[tuple[Subject | None, _Chosen | None, list[Flag]]] = []
    if replaces is None:
        turned_there(work, fact)
    subjects = [s for s in fact.subjects if not _where_read(work, fact, s)]
    for subject in subjects or (None,):
        keys, flags = keys_for(work, fact, subject, replaces)
        found.append((subject, _put_right(work, measure, keys, replaces), [*flags, *fact.doubts]))
    if len(found) == 1 or fact.characteristics:
        return found
    # "two new washers and the banjo's twenty five": no washer is that thick
    return [one for one in found if one[1] is not None and one[1][0].fits] or found


def _where_read(work: Working, fact: Fact, subject: Subject) -> bool:
    """ "free play three eighths at the lever": where it was read, of the one part that has such a thing."""
    owners = {key[0] for key in fact.characteristics}
    if len(fact.characteristics) != 1 or not subject.components or not owners.isdisjoint(subject.components):
        return False
    before = work.texts[max(0, subject.start - 2) : subject.start]
    return before[-1:] == ("at",) or before == ("at", "the")


def so_placed_too(
    sheet: Sheet, subject: Subject | None, best: Choice, rivals: Sequence[Choice]
) -> Sequence[Choice]:
    """ "front pin's seven point eight": no rival on a part without the position that was said."""
    said = set(subject.which) if subject is not None and subject.components else set()
    best_part = sheet.get(best.key[0])
    if not said or best_part is None or not said <= set(best_part.positions):
        return rivals
    parts = {r.key[0]: sheet.get(r.key[0]) for r in rivals}
    return [r for r in rivals if (p := parts[r.key[0]]) is None or said <= set(p.whiches)]


def rival_flags(best: Choice, rivals: Sequence[Choice]) -> list[Flag]:
    """Asks for what else the words could mean as well."""
    flags: list[Flag] = []
    if any(r.key[0] == best.key[0] and r.key != best.key for r in rivals):
        names = dict.fromkeys([best.key[1], *(r.key[1] for r in rivals)])
        flags.append(flag(FlagKind.CHARACTERISTIC_AMBIGUOUS, " or ".join(names)))
    if any(r.key[0] != best.key[0] for r in rivals):
        names = dict.fromkeys([best.key[0], *(r.key[0] for r in rivals)])
        flags.append(flag(FlagKind.PART_AMBIGUOUS, " or ".join(names)))
    same_key = [r for r in rivals if r.key == best.key]
    if same_key:
        flags.append(flag(FlagKind.NUMBER_AMBIGUOUS, " or ".join([best.value, *(r.value for r in same_key)])))
    return flags
