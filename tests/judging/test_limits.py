"""Decisions near limits, against JCGM 106:2012, ISO 14253-1:2017 and ILAC-G8:09/2019."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import norm

from limits_support import F, run
from saywright.judging.limits import decide, guard_factor
from saywright.judging.probability import conformance_probability, phi
from saywright.judging.uncertainty import Budget
from saywright.sheets.model import Characteristic, Rule, Sheet


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
