"""A measure → the value that fits a characteristic best, with its doubts."""

from __future__ import annotations

import pytest

from saywright.flags import FlagKind
from saywright.sheets.model import Characteristic
from saywright.understanding.quantities.measures import find_measures
from saywright.understanding.quantities.value_units import units_of
from saywright.understanding.values.fitting import best_choice


def chosen(lexicon, words, *keys):
    """The best choice and its rivals for the first measure in *words*."""
    return best_choice(find_measures(words.split(), lexicon.units)[0], keys, lexicon.sheet)


@pytest.mark.parametrize(
    ("words", "key", "value", "unit"),
    [
        ("eighteen point four zero", ("float", "height"), "18.40", "mm"),
        ("one twenty eight", ("main_jet", "size"), "128", "1"),
        ("two five", ("pilot_jet", "size"), "25", "1"),
        ("four thou", ("throttle_shaft", "end_play"), "4", "thou"),
        ("one and a half turns", ("air_screw", "turns_out"), "1.5", "turn"),
    ],
)
def test_the_sheet_picks_the_reading(lexicon, words, key, value, unit):
    """Digits stay as said; of several readings the one plausible for the characteristic is taken."""
    best, rivals = chosen(lexicon, words, key)
    assert (value, unit, ()) == (best.value, best.unit, rivals)


def test_a_value_in_another_unit_is_judged_in_the_sheets(lexicon):
    """Four thou on a millimetre sheet is 0.1016 mm (exact: 1 in is 25.4 mm)."""
    best, _ = chosen(lexicon, "four thou", ("throttle_shaft", "end_play"))
    assert "0.1016" == best.in_sheet_unit


@pytest.mark.parametrize(
    ("words", "key", "kind"),
    [
        ("forty", ("float", "height"), FlagKind.OUTSIDE_PLAUSIBLE),
        ("eighteen psi", ("float", "height"), FlagKind.UNIT_MISMATCH),
        ("about eighteen point four", ("float", "height"), FlagKind.APPROXIMATE),
        ("eighteen four two", ("float", "height"), FlagKind.NUMBER_AMBIGUOUS),
    ],
)
def test_what_is_odd_asks(lexicon, words, key, kind):
    """A value outside its range, in a wrong unit, hedged or without its point asks."""
    best, _ = chosen(lexicon, words, key)
    assert kind in {f.kind for f in best.flags if f.level == "ask"}


def test_a_point_that_a_listener_wrote_into_a_size_asks(lexicon):
    """ "1.28" for a size stamped in whole numbers is 128, and asks."""
    best, _ = chosen(lexicon, "1.28", ("main_jet", "size"))
    assert "128" == best.value
    assert any(f.level == "ask" for f in best.flags)


def test_no_characteristic_no_choice(lexicon):
    """Without anything it could be a value of there is nothing to choose."""
    assert chosen(lexicon, "eighteen") is None


def test_a_volume_said_for_a_flow(lexicon):
    """ "Six forty mil" of a flow is a minute: the unit is the sheet's, with a note and no ask."""
    flow = Characteristic(id="flow", names=("flow",), unit="mL/min", plausible=(50, 3000))
    measure = find_measures(["six", "hundred", "and", "forty", "mil"], lexicon.units)[0]
    told = list(units_of(measure, measure.readings[0], flow))
    assert [("mL/min", [FlagKind.UNIT_FROM_SHEET], 0)] == [(u, [f.kind for f in fs], c) for u, fs, c in told]
