"""Measures changed by their neighbours."""

from __future__ import annotations

import pytest

from saywright.understanding.quantities.measures import find_measures
from saywright.understanding.quantities.repairs import repaired


@pytest.mark.parametrize(
    ("words", "values"),
    [
        ("one point five second one is two", [("1.5", None), ("2", None)]),
        ("five seconds", [("5", "seconds")]),
        ("two inches two forty nine", [("2.249", "inches")]),
        ("two inches and four", [("2", "inches"), ("4", None)]),
        ("two inches four thou", [("2", "inches"), ("4", "thou")]),
    ],
)
def test_neighbours_tell(lexicon, words, values):
    """A second one is no second; whole inches go on with their thousandths, if nothing stands between."""
    said = tuple(words.split())
    found = repaired(find_measures(said, lexicon.units), said)
    assert values == [(m.readings[0].value, m.unit_said) for m in found]
