"""Parts of uncertainty, against the Guide (JCGM 100:2008) and published dimensional data."""

from __future__ import annotations

import math
from decimal import Decimal
from fractions import Fraction

import pytest

from saywright.judging.repeats import variance
from saywright.judging.uncertainty import (
    Budget,
    UncertaintyPart,
    bound_variance,
    budget,
    budget_text,
    effective_degrees,
    interval,
    mean_variance,
    resolution_variance,
)
from saywright.quantity import Quantity
from saywright.sheets.model import Characteristic, Instrument, Sheet

# JCGM 100:2008, 4.4.3 and Table 1: twenty temperatures in °C (from memory, recomputed).
TEMPERATURES = (
    "96.90",
    "98.18",
    "98.25",
    "98.61",
    "99.03",
    "99.49",
    "99.56",
    "99.74",
    "99.89",
    "100.07",
    "100.33",
    "100.42",
    "100.68",
    "100.95",
    "101.11",
    "101.20",
    "101.57",
    "101.84",
    "102.36",
    "102.72",
)


def char(unit: str = "mm", instrument: str | None = None, **given: object) -> Characteristic:
    """A characteristic in this unit."""
    return Characteristic.model_validate({"id": "x", "unit": unit, "instrument": instrument, **given})


def sheet_with(*instruments: Instrument) -> Sheet:
    """A sheet with these instruments."""
    return Sheet(id="s", title="S", instrument=instruments)


class TestParts:
    @pytest.mark.parametrize(("step", "u"), [("0.01", 0.0028868), ("0.001", 0.00028868)])
    def test_resolution(self, step: str, u: float) -> None:
        """JCGM 100:2008, F.2.2.1 (clause from memory): d/√12; GTC's type_b.uniform(0.005) gives 0.0028868."""
        assert u == pytest.approx(math.sqrt(resolution_variance(Fraction(step))), rel=1e-4)

    def test_resolution_of_a_thousandth_inch(self) -> None:
        """0.001 in is 0.0073323 mm of standard uncertainty (recomputed)."""
        step = interval(Fraction("0.001"), "in", "mm")
        assert 0.0073323 == pytest.approx(math.sqrt(resolution_variance(step)), rel=1e-5)

    def test_bound(self) -> None:
        """JCGM 100:2008, 4.4.5 (from memory) and GTC 1.5.1 type_b.uniform(4): bounds ±4 °C give 2.309 °C."""
        assert 2.309 == pytest.approx(math.sqrt(bound_variance(Fraction(4))), abs=5e-4)

    def test_caliper_of_common_practice(self) -> None:
        """±0.02 mm of a 150 mm caliper (common practice, no source) gives 0.01155 mm."""
        assert 0.01155 == pytest.approx(math.sqrt(bound_variance(Fraction("0.02"))), abs=5e-6)

    def test_spread_of_the_mean(self) -> None:
        """JCGM 100:2008, 4.4.3: s = 1.49 °C, s/√20 = 0.33 °C (from memory, recomputed)."""
        values = tuple(Fraction(t) for t in TEMPERATURES)
        squared = variance(values)
        assert 1.4888 == pytest.approx(math.sqrt(squared), abs=5e-5)
        assert 0.3329 == pytest.approx(math.sqrt(mean_variance(squared, 20)), abs=5e-5)

    @pytest.mark.parametrize(
        ("values", "mean", "s"),
        [
            (("10000001", "10000003", "10000002"), 10000002, 1),
            (("1.2", *("1.1", "1.3") * 500), Fraction("1.2"), Fraction("0.1")),
            (("1000000.2", *("1000000.1", "1000000.3") * 500), Fraction("1000000.2"), Fraction("0.1")),
            (("10000000.2", *("10000000.1", "10000000.3") * 500), Fraction("10000000.2"), Fraction("0.1")),
        ],
    )
    def test_nist_numerical_accuracy(self, values: tuple[str, ...], mean: Fraction, s: Fraction) -> None:
        """NIST StRD NumAcc1 to NumAcc4, certified values exact: exact here too, where floats lose digits."""
        exact = tuple(Fraction(value) for value in values)
        assert (mean, s * s) == (sum(exact) / len(exact), variance(exact))


class TestBudget:
    def test_instrument(self) -> None:
        """Resolution 0.01 mm and error limit ±0.03 mm: u² = 0.01²/12 + 0.03²/3, exactly."""
        caliper = Instrument(
            id="c", names=("caliper",), resolution=Decimal("0.01"), max_permissible_error=Decimal("0.03")
        )
        found = budget(char(instrument="c"), (Quantity("18.42", "mm"),), sheet_with(caliper))
        assert Fraction("0.0001") / 12 + Fraction("0.0009") / 3 == found.variance
        assert ["resolution", "instrument_error"] == [part.kind for part in found.parts]
        assert "resolution of the caliper, 0.01 mm wide" == found.parts[0].text
        assert "error limit of the caliper, ±0.03 mm" == found.parts[1].text
        assert 2 * found.u == found.expanded

    def test_digits_said_count_without_an_instrument(self) -> None:
        """18.40 is read to a hundredth, 18.4 to a tenth: the trailing zero is resolution."""
        fine = budget(char(), (Quantity("18.40", "mm"),), sheet_with())
        coarse = budget(char(), (Quantity("18.4", "mm"),), sheet_with())
        assert (Fraction("0.0001") / 12, Fraction("0.01") / 12) == (fine.variance, coarse.variance)

    def test_coarser_of_instrument_and_digits(self) -> None:
        """Who says "eighteen point four" has read no hundredths, whatever the caliper shows."""
        caliper = Instrument(id="c", resolution=Decimal("0.01"))
        said = budget(char(instrument="c"), (Quantity("18.4", "mm"),), sheet_with(caliper))
        shown = budget(char(instrument="c"), (Quantity("18.401", "mm"),), sheet_with(caliper))
        assert (Fraction("0.01") / 12, Fraction("0.0001") / 12) == (said.variance, shown.variance)

    def test_a_third_is_read_to_a_third(self) -> None:
        """A spoken third of a turn is no decimal; its step is the third."""
        assert Fraction(1, 9) / 12 == budget(char("turn"), (Quantity("4/3", "turn"),), sheet_with()).variance

    def test_units_are_carried(self) -> None:
        """4 thou is read to one thou, 0.0254 mm; a gauge in psi counts in kPa."""
        thou = budget(char(), (Quantity("4", "thou"),), sheet_with())
        assert Fraction("0.0254") ** 2 / 12 == thou.variance
        gauge = Instrument(id="g", unit="psi", resolution=Decimal(1))
        found = budget(char("kPa", "g"), (Quantity("290.0", "kPa"),), sheet_with(gauge))
        assert 6.894757293 / math.sqrt(12) == pytest.approx(found.u, rel=1e-9)  # psi: NIST SP 811, B.8

    def test_intervals_have_no_zero_point(self) -> None:
        """A step of 9 °F is a step of 5 °C; the zero points of the scales do not matter."""
        assert 5 == interval(Fraction(9), "degF", "degC")

    def test_counted_and_stamped_are_exact(self) -> None:
        """A jet's number and a count of turns in unit 1 have no uncertainty."""
        for exact in (char("1"), char("mm", allowed=(Decimal("1.25"),))):
            assert ((), 0) == (
                budget(exact, (Quantity("128", "1"),), sheet_with()).parts,
                budget(exact, (Quantity("128", "1"),), sheet_with()).variance,
            )

    def test_repeats_add_the_spread_of_the_mean(self) -> None:
        """Three readings: s²/3 joins the resolution."""
        said = tuple(Quantity(text, "mm") for text in ("18.41", "18.42", "18.43"))
        found = budget(char(), said, sheet_with(), spread=Fraction("0.0001"))
        assert Fraction("0.0001") / 12 + Fraction("0.0001") / 3 == found.variance
        assert Fraction("0.0001") / 12 == found.fixed_variance

    def test_instrument_of_another_kind_is_not_used(self) -> None:
        """A pressure gauge named for a length says nothing about it; the digits said do."""
        gauge = Instrument(id="g", unit="psi", resolution=Decimal(1))
        found = budget(char("mm", "g"), (Quantity("18.42", "mm"),), sheet_with(gauge))
        assert Fraction("0.0001") / 12 == found.variance


class TestDegrees:
    def test_welch_satterthwaite_of_the_guide(self) -> None:
        """JCGM 100:2008, H.1.6: parts 25 (18), 9.7 (25.6), 2.9 (50), 16.6 (2) nm give 16 (from memory,
        recomputed); its table G.2 gives k = 2.92 for 99 % there.
        """
        parts = [("25", 18), ("9.7", 25), ("2.9", 50), ("16.6", 2)]
        assert 16 == effective_degrees((Fraction(u) ** 2, degrees) for u, degrees in parts)

    def test_a_known_part_adds_no_limit(self) -> None:
        """One spread of n values has n − 1; a well known part of the same size makes it four times that."""
        assert 2 == effective_degrees([(Fraction(1), 2)])
        assert 8 == effective_degrees([(Fraction(1), 2), (Fraction(1), None)])
        assert None is effective_degrees([(Fraction(1), None)])
        assert None is effective_degrees([(Fraction(0), 2), (Fraction(1), None)])

    def test_rounded_down(self) -> None:
        """JCGM 100:2008, G.4.1, note: what is no whole number is truncated."""
        assert 5 == effective_degrees([(Fraction(10), 4), (Fraction(2), None)])  # 144/25 = 5.76

    def test_little_spread_counts_as_known(self) -> None:
        """A spread that hardly adds to u leaves k = 2."""
        assert None is effective_degrees([(Fraction(1), 2), (Fraction(100), None)])

    def test_three_readings(self) -> None:
        """Three values that spread by s alone: k = 4.53 (JCGM 100:2008, table G.2, recomputed)."""
        found = Budget("mm", (UncertaintyPart("repeats", Fraction("0.0007"), "spread", 2),))
        assert 4.53 == pytest.approx(found.coverage, abs=5e-3)
        assert found.coverage * found.u == found.expanded

    def test_shown(self) -> None:
        """Each part with its u and share, then the sum with degrees of freedom and k."""
        parts = (
            UncertaintyPart("resolution", Fraction("0.0003"), "resolution"),
            UncertaintyPart("repeats", Fraction("0.0007"), "spread", 2),
        )
        assert (
            "resolution: u 0.018 mm, 30 %; spread: u 0.027 mm, 70 %; together u 0.032 mm, "
            "4 effective degrees of freedom, k = 2.87" == budget_text(Budget("mm", parts))
        )
        assert "" == budget_text(Budget("1"))
