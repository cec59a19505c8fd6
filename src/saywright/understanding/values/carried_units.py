"""Which of its choices a value is, in its unit or the one said just before: "was two thou, now it's one"."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import islice

from saywright.flags import Flag, FlagKind, flag
from saywright.quantity import parse_value
from saywright.sheets.model import Sheet
from saywright.understanding.facts import Fact
from saywright.understanding.meanings import CharacteristicKey
from saywright.understanding.quantities.measures import Measure
from saywright.understanding.statements import Reading, Remark
from saywright.understanding.subjects.noun_phrases import Subject
from saywright.understanding.values.fitting import Choice, best_choice
from saywright.understanding.values.places import keys_for
from saywright.understanding.values.turned_there import turned_there
from saywright.understanding.working import Working

SHARES = {"tenths": 10, "hundredths": 100, "thousandths": 1000}
_ASIDE = 2  # utterances since a limit
_ROW = 4  # values told one behind the other
_NEAR = Fraction(1, 4)  # of the value before: beside it no other unit is meant
_FEW = 2  # shares more or less
_Chosen = tuple[Choice, tuple[Choice, ...]]


def choose(work: Working, measure: Measure, keys: Sequence[CharacteristicKey]) -> _Chosen | None:
    """The best choice for *measure*; in the unit said just before where the sheet's makes no sense."""
    found = best_choice(measure, keys, work.sheet)
    if found is None or found[0].fits or measure.unit_said is not None:
        return found
    read = list(islice(_read_before(work, keys), _ROW))
    told, last = _told_in(read) or _told_aside(work), read[0] if read else None
    carried = None
    if told in SHARES:
        carried = _in_shares(measure, SHARES[told], last)
    elif last is not None and last in work.out and last.unit_said is not None:
        carried = replace(measure, unit=last.unit, unit_said=last.unit_said, units=())
    key = found[0].key if last is None else (last.component, last.characteristic)
    again = best_choice(carried, [key] if last is not None else keys, work.sheet) if carried else None
    if again is None or not again[0].fits:
        return found
    before, now = parse_value(last.value) if last is not None else Fraction(0), parse_value(again[0].value)
    near = max(before * _NEAR, Fraction(_FEW, SHARES[told]) if told in SHARES and read else Fraction(0))
    if abs(now - before) <= near:  # "thirty eight thou inlet, forty one outlet", "seven hundredths … nine"
        return again
    doubt = flag(FlagKind.UNIT_AMBIGUOUS, f"{told}, as said before")
    return replace(again[0], flags=(*again[0].flags, doubt)), again[1]


def _read_before(work: Working, keys: Sequence[CharacteristicKey]) -> Iterator[Reading]:
    """What was read of the same, newest first."""
    return (s for s in work.newest() if isinstance(s, Reading) and (s.component, s.characteristic) in keys)


def _told_in(read: Sequence[Reading]) -> str:
    """The unit or the shares that values were told in; those told bare since were told in it too."""
    for reading in read:
        said = reading.heard.split()
        told = next((word for word in reversed(said) if word in SHARES), reading.unit_said or "")
        if told or "point" in said:
            return told
    return ""


def _told_aside(work: Working) -> str:
    """ "Anything over twelve hundredths and it's scrap" … "left's seven": the shares of a limit."""
    aside = (s for group in reversed(work.before.recent[-_ASIDE:]) for s in group if isinstance(s, Remark))
    return next((word for one in aside for word in one.heard.split() if word in SHARES), "")


def _in_shares(measure: Measure, share: int, last: Reading | None) -> Measure | None:
    """ "Eleven hundredths" … "the right one nine": such shares too; None for no whole number."""
    whole = tuple(r for r in measure.readings if r.value.isdigit() and int(r.value) < share)
    if not whole:
        return None
    places = len(str(share)) - 1
    return replace(
        measure,
        unit=last.unit if last is not None and last.unit_said else None,
        unit_said=last.unit_said if last is not None else None,
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
