"""The judged record: decisions on readings, and all that is still open.

`judgements` gives the figures and the sentence behind each decision; `judge` writes the
decisions into the record. Both come from the same calls, so they cannot disagree.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from saywright.judging.calibration import overdue, overdue_sentence, with_note
from saywright.judging.instrument import compared
from saywright.judging.limits import Judgement, decide
from saywright.judging.open_items import open_items
from saywright.judging.repeats import Group, groups
from saywright.judging.restored import Restored, restored
from saywright.judging.spread import unsettled
from saywright.judging.uncertainty import Budget, budget
from saywright.judging.wording import capital, number, thing, with_unit
from saywright.record.types import Decision, Record
from saywright.sheets.model import Instrument, Sheet


def judge(record: Record, sheet: Sheet) -> Record:
    """*record* with `decision` and `provisional` of each reading, and its open items.

    Judging again changes nothing. Replaced and withdrawn readings are not judged.
    """
    record = compared(record)
    gathered = groups(record, sheet)
    late = overdue(record, sheet)
    found = _judged(record, sheet, gathered, late, words=False)
    waiting = {reading.id for group in gathered if unsettled(group, sheet) for reading in group.readings}
    readings = tuple(
        with_note(reading, late.get(reading.id)).model_copy(
            update={"decision": found[reading.id].decision, "provisional": reading.id in waiting}
        )
        if reading.id in found
        else reading.model_copy(update={"decision": "no_limit", "provisional": False})
        for reading in record.readings
    )
    judged = record.model_copy(update={"readings": readings})
    return judged.model_copy(update={"open_items": open_items(judged, sheet, gathered)})


def judgements(record: Record, sheet: Sheet) -> dict[str, Judgement]:
    """Reading id → its judgement; readings judged on their mean share one."""
    return _judged(record, sheet, groups(record, sheet), overdue(record, sheet))


def _judged(
    record: Record,
    sheet: Sheet,
    gathered: tuple[Group, ...],
    late: Mapping[str, Instrument],
    *,
    words: bool = True,
) -> dict[str, Judgement]:
    settings = {item: s for s in restored(record, sheet, gathered) for item in s.left_items}
    found: dict[str, Judgement] = {}
    for group in gathered:
        judgement = judge_group(group, sheet, words=words)
        instrument = next((late[r.id] for r in group.readings if r.id in late), None)
        if instrument is not None and words:
            judgement = replace(judgement, sentence=f"{judgement.sentence} {overdue_sentence(instrument)}")
        if (setting := settings.get(group.readings[0].id)) is not None:
            judgement = _with_setting(judgement, setting)
        found.update({reading.id: judgement for reading in group.readings})
    return found


def judge_group(group: Group, sheet: Sheet, *, words: bool = True) -> Judgement:
    """The judgement of one reading, or of the mean of its repeats; without *words*, no sentence."""
    first = group.readings[0]
    name = thing(sheet, *group.thing) if words else ""
    said = with_unit(first.value, first.unit) if words else ""
    characteristic = group.limits
    if characteristic is None:
        text = f"{capital(name)} {said}: the sheet has no limit for it."
        return Judgement("no_limit", sheet.rule, first.unit, text, None)
    mean = group.mean
    if mean is None:
        text = f"{capital(name)} {said}: this unit does not measure it, so it was not judged."
        return Judgement("undecided", sheet.rule, characteristic.unit, text, None)
    n = len(group.readings)
    if not words:
        told = ""
    elif n > 1:
        told = f"{name} {with_unit(number(mean), characteristic.unit)}, the mean of {n} readings,"
    elif first.unit != characteristic.unit:
        told = f"{name} {said} ({with_unit(number(mean), characteristic.unit)})"
    else:
        told = f"{name} {said}"
    found = budget(characteristic, group.said, sheet, spread=group.spread)
    judgement = decide(mean, characteristic, found, sheet, told=told, n=n, words=words)
    return replace(judgement, range=group.range) if n > 1 and words else judgement


def _with_setting(judgement: Judgement, setting: Restored) -> Judgement:
    """The judgement of a setting as left: where no limit decides, being as it was found does."""
    if setting.found is None or setting.left is None:
        return judgement
    sentence = f"{judgement.sentence} {setting.sentence}"
    if judgement.decision != "no_limit" or (setting.on_purpose and not setting.equal):
        return replace(judgement, sentence=sentence)
    decision: Decision = "conforms" if setting.equal else "does_not_conform"
    exact = Budget(judgement.unit)
    return replace(judgement, decision=decision, sentence=setting.sentence, budget=exact)
