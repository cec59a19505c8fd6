"""Whether an instrument and a voice agree."""

from __future__ import annotations

from datetime import UTC, datetime

from saywright.flags import FlagKind, flag
from saywright.judging.instrument import compared
from saywright.judging.judge import judge
from saywright.record.types import Job, Reading, Record
from saywright.sheets.model import Characteristic, Component, Sheet

JOB = Job(id="1", title="t", sheet="s", sheet_revision="A", opened_at=datetime(2026, 3, 1, tzinfo=UTC))
SHEET = Sheet(
    id="s",
    title="t",
    component=(Component(id="float", characteristic=(Characteristic(id="height", unit="mm", upper=20),)),),
)
SENT = (flag(FlagKind.BY_INSTRUMENT),)


def reading(name, value, **more):
    """A float height in mm."""
    fields = {
        "stage": "as_found",
        "heard": value,
        "component": "float",
        "characteristic": "height",
        "unit": "mm",
        "in_sheet_unit": value,
    }
    return Reading(id=name, value=value, **{**fields, **more})


def asking(*readings):
    """Ids of those that ask because the other way told another value."""
    found = compared(Record(job=JOB, readings=readings)).readings
    return [r.id for r in found if any(f.kind is FlagKind.INSTRUMENT_DISAGREES for f in r.flags)]


def test_other_values_ask_both():
    """Neither is taken for the truth."""
    assert ["s1", "s2"] == asking(reading("s1", "18.24"), reading("s2", "18.42", flags=SENT))


def test_equal_amounts_do_not_ask():
    """18.4 and 18.40 are the same amount."""
    assert [] == asking(reading("s1", "18.4"), reading("s2", "18.40", flags=SENT))


def test_the_same_way_twice_is_a_repeat():
    """Two values that an instrument sent, or two that were said, are repeats and no disagreement."""
    assert [] == asking(reading("s1", "18.4", flags=SENT), reading("s2", "18.5", flags=SENT))
    assert [] == asking(reading("s1", "18.4"), reading("s2", "18.5"))


def test_another_thing_is_not_compared():
    """Another stage, another one of several, another place."""
    sent = reading("s2", "18.42", flags=SENT)
    for other in ({"stage": "as_left"}, {"which": "left"}, {"place": "top"}, {"superseded_by": "s9"}):
        assert [] == asking(reading("s1", "18.24", **other), sent)


def test_units_that_cannot_be_compared_ask():
    """A value that cannot be told in the sheet's unit agrees with none that can."""
    odd = reading("s1", "18.42", unit="g", in_sheet_unit=None)
    assert ["s1", "s2"] == asking(odd, reading("s2", "18.42", flags=SENT))


def test_judging_again_changes_nothing():
    """The ask is there once, and it is gone when its cause is."""
    record = Record(job=JOB, readings=(reading("s1", "18.24"), reading("s2", "18.42", flags=SENT)))
    once = judge(record, SHEET)
    assert once == judge(once, SHEET)
    assert all(r.provisional for r in once.readings)
    alone = once.model_copy(update={"readings": once.readings[1:]})
    assert SENT == compared(alone).readings[0].flags
