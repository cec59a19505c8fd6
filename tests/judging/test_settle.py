"""What would settle an undecided value, and that it would."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from functools import partial

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saywright.judging.limits import guard_factor
from saywright.judging.settle import settle
from saywright.judging.uncertainty import Budget, UncertaintyPart, bound_variance, resolution_variance

F = Fraction


def always(factor: Fraction) -> Callable[[int | None], Fraction]:
    """The same g, whatever the degrees of freedom."""
    return lambda _degrees: factor


def budget(fixed: str, spread: str = "0") -> Budget:
    """u² from the instrument, and u² of the mean."""
    parts = [UncertaintyPart("resolution", F(fixed), "given")]
    if F(spread):
        parts.append(UncertaintyPart("repeats", F(spread), "given"))
    return Budget("mm", tuple(parts))


def test_on_the_limit_nothing_settles_it() -> None:
    """No measurement moves a value off its limit."""
    found = settle(F(0), budget("1"), always(F("1.65")), 1)
    assert (None, None) == (found.repeats, found.resolution)
    assert (
        "The value lies on the limit; no measurement settles that. Agree on it with the customer."
        == found.sentence
    )


def test_one_reading_asks_for_a_finer_instrument() -> None:
    """Without a known spread, repeats are not promised."""
    found = settle(F("0.1"), budget("0.01"), always(F(2)), 1)
    assert (None, F("0.05")) == (found.repeats, found.resolution)
    assert found.sentence.endswith("More readings with the same instrument would not.")


def test_repeats_that_are_enough() -> None:
    """s² = 0.03 over 3 readings; u² may be (0.1/2)² = 0.0025, so 12 readings bring 0.03/12 down to it."""
    found = settle(F("0.1"), Budget("mm", (UncertaintyPart("repeats", F("0.01"), "given"),)), always(F(2)), 3)
    assert (12, None) == (found.repeats, found.resolution)
    told = "This would settle it: 9 more readings (12 in all), if they spread no more than these."
    assert told == found.sentence


def test_hopeless_spread() -> None:
    """Beyond fifty readings and any instrument, the cause has to be found."""
    found = settle(F("0.001"), budget("0.01", "1"), always(F(2)), 3)
    assert (
        "The readings spread too much for any instrument to settle it. Find out why they differ."
        == found.sentence
    )


# The worked figure of docs/judging.md: caliper, and three values with s² = 0.0021 mm².
SPREAD = Budget(
    "mm",
    (
        UncertaintyPart("resolution", F("0.0001") / 12 + F("0.0009") / 3, "given"),
        UncertaintyPart("repeats", F("0.0007"), "given", 2),
    ),
)
_positive = st.fractions(min_value=F(1, 10000), max_value=10, max_denominator=10000)


@given(_positive, st.sampled_from([F("1.65"), F("1.96"), F(2)]))
def test_the_instrument_named_is_fine_enough_and_the_next_is_not(
    distance: Fraction, factor: Fraction
) -> None:
    """Its step and error limit keep g·u within the distance; 2.5 times the step would not."""
    step = settle(distance, budget("1000000"), always(factor), 1).resolution
    assert step is not None
    assert factor**2 * (resolution_variance(step) + bound_variance(step)) <= distance**2
    coarser = step * F("2.5")
    assert factor**2 * (resolution_variance(coarser) + bound_variance(coarser)) > distance**2


@given(_positive, _positive, st.integers(2, 10))
def test_the_repeats_named_are_enough_and_one_fewer_is_not(distance: Fraction, s2: Fraction, n: int) -> None:
    """s²/n fits into the distance with the number named, and not with one fewer."""
    found = settle(distance, budget("1/100000000", str(s2 / n)), always(F(2)), n)
    if found.repeats is not None:
        allowed = distance**2 / 4 - F(1, 100000000)
        assert s2 / found.repeats <= allowed
        assert found.repeats == n + 1 or s2 / (found.repeats - 1) > allowed


def test_the_repeats_named_are_enough_by_student_s_t(empty, sheet) -> None:
    """Said as often as named, with the same mean and spread, it is decided; with one fewer it is not."""
    first = settle(F("0.05"), SPREAD, partial(guard_factor, "iso14253", F(1)), 3)
    assert first.repeats == 5
    for n, enough in ((4, False), (5, True)):
        parts = (SPREAD.parts[0], UncertaintyPart("repeats", F("0.0021") / n, "", n - 1))
        found = Budget("mm", parts)
        assert enough == (guard_factor("iso14253", F(1), found.degrees) * F(found.u) <= F("0.05"))


@pytest.mark.parametrize("unit", ["mm", "in"])
def test_carries_the_unit(unit: str) -> None:
    """The step is told in the unit of the budget."""
    one = Budget(unit, (UncertaintyPart("resolution", F(1), "given"),))
    assert f"reads to 0.5 {unit} or finer" in settle(F(1), one, always(F(2)), 1).sentence
