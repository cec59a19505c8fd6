"""What holds of every decision: its sentence, and what no rule or unit may change."""

from __future__ import annotations

import math
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import norm

from limits_support import F, of_u, run
from saywright.judging.limits import Judgement, decide
from saywright.judging.probability import z_score
from saywright.judging.uncertainty import Budget
from saywright.sheets.model import Characteristic, Rule, Sheet

_values = st.fractions(min_value=-100, max_value=100, max_denominator=1000)


_uncertainties = st.fractions(min_value=0, max_value=5, max_denominator=1000)


_limits = st.decimals(min_value=-100, max_value=100, places=3)


_pairs = st.tuples(_limits, _limits).map(lambda pair: (min(pair), max(pair)))


_rules: st.SearchStrategy[Rule] = st.sampled_from(["iso14253", "simple", "guarded"])


def compare(
    value: Fraction, u: Fraction, limits: tuple[Decimal, Decimal], rule: Rule, scale: str = "1"
) -> Judgement:
    """Judge a value against two limits, all told in another unit by *scale*."""
    lower, upper = (limit * Decimal(scale) for limit in limits)
    characteristic = Characteristic(id="x", unit="mm", lower=lower, upper=upper)
    sheet = Sheet(id="s", title="S", rule=rule, guard_ratio=Decimal("0.7"))
    return decide(value * F(scale), characteristic, of_u(u * F(scale)), sheet, told="x")


class TestProperties:
    @given(_values, _uncertainties, _pairs, _rules)
    def test_a_guard_band_never_makes_conforming(
        self, value: Fraction, u: Fraction, limits: tuple[Decimal, Decimal], rule: Rule
    ) -> None:
        """What does not conform under simple acceptance conforms under no rule, and the reverse."""
        simple = compare(value, u, limits, "simple").decision
        assert compare(value, u, limits, rule).decision in (simple, "undecided")

    @given(_values, _uncertainties, _pairs, _rules, st.sampled_from(["25.4", "0.001", "1000", "6.894757"]))
    def test_units_change_no_decision(
        self, value: Fraction, u: Fraction, limits: tuple[Decimal, Decimal], rule: Rule, scale: str
    ) -> None:
        """Told in another unit, decision and probability stay exactly the same."""
        one, other = compare(value, u, limits, rule), compare(value, u, limits, rule, scale)
        assert (one.decision, one.probability) == (other.decision, other.probability)

    @given(_values, st.fractions(min_value=F(1, 1000), max_value=5, max_denominator=1000), _pairs)
    def test_iso_conforming_is_at_least_95_percent(
        self, value: Fraction, u: Fraction, limits: tuple[Decimal, Decimal]
    ) -> None:
        """Whatever the default rule calls conforming is so with 95 % by scipy's normal distribution."""
        found = compare(value, u, limits, "iso14253")
        lower, upper = (float((F(limit) - value) / u) for limit in limits)
        probability = norm.cdf(upper) - norm.cdf(lower)
        assert probability == pytest.approx(found.probability, abs=1e-9)
        if found.decision == "conforms":
            assert probability >= 0.95 - 1e-9
        if found.decision == "does_not_conform":
            assert probability <= 0.05 + 1e-9

    @given(_values, st.fractions(min_value=F(1, 1000), max_value=5, max_denominator=1000))
    def test_z_keeps_its_sign(self, distance: Fraction, u: Fraction) -> None:
        """z is distance over u."""
        assert float(distance / u) == pytest.approx(z_score(distance, u * u), rel=1e-12)


class TestSentences:
    @pytest.mark.parametrize(
        ("value", "sentence"),
        [
            (
                "18.42",
                "Height 18.42 mm is within the limits (18.0 to 18.8 mm), 0.38 mm from the nearer limit,"
                " more than the 0.033 mm kept clear for uncertainty: it conforms; the probability that "
                "it conforms is more than 99.9 %.",
            ),
            (
                "18.9",
                "Height 18.9 mm is outside the limits (18.0 to 18.8 mm), 0.1 mm from the nearer limit, "
                "more than the 0.033 mm allowed for uncertainty: it does not conform; the probability "
                "that it conforms is less than 0.1 %.",
            ),
            (
                "18.78",
                "Height 18.78 mm is within the limits (18.0 to 18.8 mm), 0.02 mm from the nearer limit,"
                " less than the 0.033 mm needed to be sure: it is undecided; the probability that it "
                "conforms is 84.1 %. This would settle it: an instrument that reads to 0.01 mm or "
                "finer, with an error limit no larger than that. More readings with the same instrument"
                " would not.",
            ),
            (
                "18.8",
                "Height 18.8 mm is within the limits (18.0 to 18.8 mm), exactly on the limit, less than"
                " the 0.033 mm needed to be sure: it is undecided; the probability that it conforms is "
                "50.0 %. The value lies on the limit; no measurement settles that. Agree on it with the"
                " customer.",
            ),
        ],
    )
    def test_iso(self, value: str, sentence: str) -> None:
        """Decision, figures and sentence agree."""
        assert sentence == run(value, "0.02", lower="18.0", upper="18.8").sentence

    def test_simple_and_exact(self) -> None:
        """Simple acceptance tells the probability; an exact value needs none."""
        assert (
            "Height 18.801 mm is outside the limits (at most 18.8 mm), 0.001 mm from the limit: it does not "
            "conform; the probability that it conforms is 48.0 %."
            == run("18.801", "0.02", upper="18.8", rule="simple").sentence
        )
        assert (
            "Height 5 mm is within the limits (at least 4 mm), 1 mm from the limit: it conforms."
            == run("5", "0", lower="4").sentence
        )

    def test_sizes(self) -> None:
        """The permitted sizes are named."""
        jet = Characteristic(id="size", allowed=(Decimal(125), Decimal(128)))
        found = decide(F(127), jet, Budget("1"), Sheet(id="s", title="S"), told="main jet size 127")
        assert (
            "Main jet size 127 is not one of the sizes permitted (125 or 128): it does not conform."
            == found.sentence
        )

    def test_guard_band_beside_its_distance(self) -> None:
        """Rounded up to two digits it would equal the distance; a third digit keeps the sentence true."""
        sentence = run("18.767", "0.01995", upper="18.8").sentence
        assert "0.033 mm from the limit, more than the 0.03292 mm kept clear" in sentence

    def test_figures(self) -> None:
        """u and U = 2 u of what is known well; nothing for an exact value."""
        found = run("18.4", "0.02", upper="18.8")
        assert math.isclose(0.02, found.u)
        assert math.isclose(0.04, found.expanded)
        assert 0 == run("18.4", "0", upper="18.8").expanded
