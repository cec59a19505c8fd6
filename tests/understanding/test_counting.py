"""Numbers counted aloud."""

from __future__ import annotations

from fractions import Fraction

import pytest

from saywright.understanding.counting.aloud import count_run


@pytest.mark.parametrize(
    ("words", "value", "said"),
    [
        ("half one one and a half two", "2", 4),
        ("half one half two", "2", 4),
        ("a quarter half three quarters one", "1", 4),
        ("one two three", "3", 3),
        ("one , two , and that is three", "3", 3),
        ("1 2 3 4", "4", 4),
    ],
)
def test_a_run_is_counted(words, value, said):
    """The last number of a run that goes up by one step is its value."""
    run = count_run(words.split(), 0, None)
    assert run is not None
    assert (value, said) == (run.value, run.said)


def test_a_run_goes_on_from_where_it_was():
    """A count broken by talk goes on after the number reached."""
    run = count_run(["one", "and", "a", "half", "two"], 0, Fraction(1))
    assert run is not None
    assert "2" == run.value


@pytest.mark.parametrize("words", ["the float is", "seven eight", "zero"])
def test_no_run(words):
    """What does not begin at the first step is no count."""
    assert count_run(words.split(), 0, None) is None


@pytest.mark.parametrize("after", [Fraction(-20), Fraction("-12.5"), Fraction(12)])
def test_no_count_goes_on_from_a_number_that_no_screw_has(after):
    """A negative or a large number before it is no count, and nothing fails (found by the fuzz)."""
    assert count_run(["one", "two"], 0, after) is None
