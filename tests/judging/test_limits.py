"""Decisions near limits, against JCGM 106:2012, ISO 14253-1:2017 and ILAC-G8:09/2019."""

from __future__ import annotations

import math
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import norm

from saywright.judging.limits import Judgement, decide, guard_factor
from saywright.judging.probability import conformance_probability, phi, z_score
from saywright.judging.uncertainty import Budget, UncertaintyPart
from saywright.sheets.model import Characteristic, Rule, Sheet

F = Fraction


def of_u(u: str | Fraction, unit: str = "mm") -> Budget:
    """A budget with this standard uncertainty."""
    return Budget(unit, (UncertaintyPart("instrument_error", Fraction(u) ** 2, "given"),))


def run(
    value: str | Fraction,
    u: str | Fraction,
    *,
    lower: str | None = None,
    upper: str | None = None,
    rule: Rule = "iso14253",
    ratio: str = "1",
    unit: str = "mm",
) -> Judgement:
    """Judge a value against limits."""
    characteristic = Characteristic(
        id="x",
        unit=unit,
        lower=None if lower is None else Decimal(lower),
        upper=None if upper is None else Decimal(upper),
    )
    sheet = Sheet(id="s", title="S", rule=rule, guard_ratio=Decimal(ratio))
    budget = Budget(unit) if F(u) == 0 else of_u(u, unit)
    return decide(F(value), characteristic, budget, sheet, told=f"height {value} {unit}")


class TestProbability:
    @pytest.mark.parametrize(
        ("value", "u", "lower", "upper", "expected"),
        [
            # Zener diode, breakdown voltage, JCGM 106:2012, 7.3 (from memory, recomputed).
            ("-5.47", "0.05", None, "-5.40", 0.919243),
            # Burst strength of a container, JCGM 106:2012, 7.3 (from memory, recomputed).
            ("509.7", "8.6", "490", None, 0.989010),
            # SAE 40 oil at 100 °C, JCGM 106:2012, 7.4 (from memory, recomputed); limits of SAE J300.
            ("13.6", "1.8", "12.5", "16.3", 0.662630),
        ],
    )
    def test_jcgm_106_examples(
        self, value: str, u: str, lower: str | None, upper: str | None, expected: float
    ) -> None:
        """The worked examples of clause 7 come out to six digits."""
        found = conformance_probability(
            F(value), F(u) ** 2, None if lower is None else F(lower), None if upper is None else F(upper)
        )
        assert expected == pytest.approx(found, abs=1e-6)

    @pytest.mark.parametrize(
        ("z", "p"), [(0.8416, 0.8), (1.2816, 0.9), (1.6449, 0.95), (2.3263, 0.99), (3.0902, 0.999)]
    )
    def test_jcgm_106_table_1(self, z: float, p: float) -> None:
        """Conformance probability and z, JCGM 106:2012, Table 1 (entries from memory, recomputed)."""
        assert p == pytest.approx(phi(z), abs=1e-5)

    @given(st.floats(-8, 8))
    def test_phi_is_the_normal_distribution(self, z: float) -> None:
        """Our function and scipy's agree, in the tails too."""
        assert norm.cdf(z) == pytest.approx(phi(z), rel=1e-9)

    def test_without_uncertainty_it_is_certain(self) -> None:
        """On the limit an exact value conforms; beyond it, it does not."""
        assert (1.0, 0.0) == (
            conformance_probability(F(5), F(0), None, F(5)),
            conformance_probability(F("5.001"), F(0), None, F(5)),
        )


class TestGuardBand:
    @pytest.mark.parametrize(
        ("rule", "ratio", "expanded_share", "risk"),
        [
            ("iso14253", "1", 0.825, 0.05),  # ISO 14253-1:2017: 1.65·u; ILAC-G8 prints 0.83 U and < 5 %
            ("guarded", "1", 1.0, 0.02275),  # ILAC-G8:2009: w = U, < 2.5 %; recomputed 2.275 %
            ("guarded", "1.5", 1.5, 0.00135),  # ILAC-G8: 3 sigma, w = 1.5 U, < 0.16 %; recomputed 0.135 %
            ("guarded", "3", 3.0, 1e-6),  # ILAC-G8: 6 sigma, w = 3 U, < 1 ppm
            ("simple", "1", 0.0, 0.5),  # ILAC-G8: simple acceptance, < 50 %
        ],
    )
    def test_ilac_g8_table(self, rule: Rule, ratio: str, expanded_share: float, risk: float) -> None:
        """Guard band as a share of U, and the risk for a value at the acceptance limit."""
        factor = float(guard_factor(rule, F(ratio)))
        assert expanded_share == pytest.approx(factor / 2)
        assert norm.sf(factor) <= risk * 1.001

    @pytest.mark.parametrize(
        ("value", "decision"),
        [
            ("18.7670", "conforms"),  # 0.0330 = 1.65·u from the limit: exactly enough
            ("18.7671", "undecided"),
            ("18.8000", "undecided"),
            ("18.8329", "undecided"),
            ("18.8330", "does_not_conform"),
            ("18.0330", "conforms"),
            ("18.0329", "undecided"),
            ("17.9670", "does_not_conform"),
        ],
    )
    def test_iso_14253_zones(self, value: str, decision: str) -> None:
        """Limits 18.0 and 18.8 mm, u = 0.02 mm: the zones begin exactly 1.65·u from each limit."""
        assert decision == run(value, "0.02", lower="18.0", upper="18.8").decision

    def test_iso_14253_needs_95_percent_of_two_limits(self) -> None:
        """In the middle of limits 3.4·u apart, 1.65·u from both is only 91 %: undecided."""
        found = run("10", "1", lower="8.3", upper="11.7")
        assert ("undecided", 1.96) == (found.decision, pytest.approx(found.guard))
        assert 0.911 == pytest.approx(found.probability, abs=5e-4)

    def test_guarded_by_ratio(self) -> None:
        """w = r·U: with r = 0.5 and u = 0.02 the zone is 0.02 mm wide."""
        decisions = [
            run(value, "0.02", upper="18.8", rule="guarded", ratio="0.5").decision
            for value in ("18.78", "18.781", "18.819", "18.82")
        ]
        assert ["conforms", "undecided", "undecided", "does_not_conform"] == decisions

    def test_simple_acceptance(self) -> None:
        """The limit itself is inside; nothing is undecided."""
        decisions = [run(v, "0.02", upper="18.8", rule="simple").decision for v in ("18.8", "18.801")]
        assert ["conforms", "does_not_conform"] == decisions

    def test_resistor_of_jcgm_106(self) -> None:
        """JCGM 106:2012, 9.5 (inputs quoted in lecture notes): w = 0.02 Ω for U = 0.08 Ω is r = 0.25.

        Acceptance limits 1499.82 and 1500.18 Ω then decide.
        """
        decisions = [
            run(v, "0.04", lower="1499.80", upper="1500.20", rule="guarded", ratio="0.25").decision
            for v in ("1499.82", "1500.18", "1500.181", "1500.22")
        ]
        assert ["conforms", "conforms", "undecided", "does_not_conform"] == decisions


class TestExact:
    def test_on_the_limit(self) -> None:
        """Without uncertainty a value on the limit conforms and the next one does not; no float between."""
        assert "conforms" == run("0.3", "0", upper="0.3").decision
        assert "does_not_conform" == run(F(3, 10) + F(1, 10**30), "0", upper="0.3").decision

    def test_thirds(self) -> None:
        """A third of a turn is more than 0.3333 and less than 0.3334."""
        assert "does_not_conform" == run(F(1, 3), "0", upper="0.3333", unit="turn").decision
        assert "conforms" == run(F(1, 3), "0", upper="0.3334", unit="turn").decision

    @pytest.mark.parametrize(("size", "decision"), [("128", "conforms"), ("127", "does_not_conform")])
    def test_sizes(self, size: str, decision: str) -> None:
        """A stamped size is one of those permitted, or it is not."""
        jet = Characteristic(id="size", allowed=(Decimal(125), Decimal("128.0"), Decimal(130)))
        found = decide(F(size), jet, Budget("1"), Sheet(id="s", title="S"), told=f"main jet size {size}")
        assert (decision, None) == (found.decision, found.probability)

    def test_nominal_and_tolerance(self) -> None:
        """Nominal 10 ± 0.2 is 9.8 to 10.2."""
        nominal = Characteristic(id="x", unit="mm", nominal=Decimal(10), tolerance=Decimal("0.2"))
        found = decide(F("10.2"), nominal, Budget("mm"), Sheet(id="s", title="S"), told="x 10.2 mm")
        assert (F("9.8"), F("10.2"), "conforms") == (found.lower, found.upper, found.decision)

    def test_no_limit(self) -> None:
        """Nothing is decided where the sheet sets no limit."""
        found = run("5", "0.1")
        assert ("no_limit", None, "Height 5 mm: no limit is set.") == (
            found.decision,
            found.probability,
            found.sentence,
        )


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
        """U is told rounded up to two digits, with its unit; nothing for an exact value."""
        assert ("0.04 mm", "") == (
            run("18.4", "0.02", upper="18.8").uncertainty_text,
            run("18.4", "0", upper="18.8").uncertainty_text,
        )
        assert math.isclose(0.02, run("18.4", "0.02", upper="18.8").u)
