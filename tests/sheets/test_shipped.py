"""The sheets of other trades that ship: full, invented, and every computed value can be computed."""

from __future__ import annotations

from datetime import UTC, datetime
from fractions import Fraction

import pytest

from saywright.judging.derived import derived
from saywright.judging.judge import judge
from saywright.judging.refit import refit
from saywright.quantity import decimal_text
from saywright.record.types import Job, Movement, Reading, Record
from saywright.sheets.load import load_sheet
from saywright.sheets.model import Characteristic, Sheet

NAMES = ("disc-brake-caliper", "hand-pump")


@pytest.fixture(params=NAMES)
def sheet(request: pytest.FixtureRequest) -> Sheet:
    """Each of them."""
    return load_sheet(request.param)


def middle(characteristic: Characteristic) -> str:
    """A value in the middle of the limits, or well inside the one there is."""
    lower, upper = characteristic.limits
    if lower is not None and upper is not None:
        return decimal_text((Fraction(lower) + Fraction(upper)) / 2)
    if upper is not None:
        return decimal_text(Fraction(upper) / 2)
    assert lower is not None
    return decimal_text(Fraction(lower) * 2)


def whole_job(sheet: Sheet) -> Record:
    """Every value read at every place and position, as found and as left; all came off."""
    readings = [
        Reading(
            id=f"s{number}",
            stage=stage,
            heard="",
            component=component.id,
            which=which,
            characteristic=characteristic.id,
            place=place,
            value=middle(characteristic),
            unit=characteristic.unit,
        )
        for number, (component, which, characteristic, place, stage) in enumerate(
            (component, which, characteristic, place, stage)
            for component, characteristic in sheet.characteristics()
            if characteristic.formula is None
            for which in component.whiches or (None,)
            for place in characteristic.places or (None,)
            for stage in ("as_found", "as_left")
        )
    ]
    moves = [
        Movement(
            id=f"s{1000 + n}", stage="as_found", heard="", component=c.id, count=c.count, movement="removed"
        )
        for n, c in enumerate(sheet.component)
    ]
    job = Job(
        id="j", title="t", sheet=sheet.id, sheet_revision="A", opened_at=datetime(2026, 3, 1, tzinfo=UTC)
    )
    return Record(job=job, readings=tuple(readings), movements=tuple(moves))


def test_full_and_invented(sheet: Sheet) -> None:
    """A dozen parts or more, twenty values, cautions, and limits that say they are invented."""
    assert len(sheet.component) >= 12
    assert len(list(sheet.characteristics())) >= 18
    assert sheet.source.startswith("Invented")
    assert [c for c in sheet.caution if c.id in ("brakes", "drinking_water")]
    assert [c for c in sheet.component if c.renew]


def test_uses_what_there_is(sheet: Sheet) -> None:
    """Formulas, places, differences between alike, calibration, torques."""
    each = [characteristic for _, characteristic in sheet.characteristics()]
    assert any(c.formula for c in each)
    assert any(c.places for c in each)
    assert any(c.max_difference for c in each)
    assert any(i.calibration_due for i in sheet.instrument)
    assert any(c.unit == "N.m" for c in each)
    assert any(c.restore for c in each)


def test_every_value_is_computed_and_conforms(sheet: Sheet) -> None:
    """With everything in the middle of its limits, nothing is out, and nothing computed is lacking."""
    record = judge(whole_job(sheet), sheet)
    assert {"conforms"} == {reading.decision for reading in record.readings}
    found = derived(record, sheet)
    wanted = sum(
        len(component.whiches or (None,)) * bool(characteristic.formula)
        + len(characteristic.places or (None,)) * bool(characteristic.max_difference)
        for component, characteristic in sheet.characteristics()
    )
    assert 2 * wanted == len(found)
    assert [] == [one.judgement.sentence for one in found if one.judgement.decision != "conforms"]


def test_the_last_part_off_is_the_first_on(sheet: Sheet) -> None:
    """The refit list of a job in which all came off."""
    lines = refit(whole_job(sheet), sheet)
    assert [component.id for component in reversed(sheet.component)] == [line.component for line in lines]
