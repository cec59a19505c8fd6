"""Individuals and moving-range charts against the e-Handbook, and each of Nelson's rules."""

from __future__ import annotations

import math
import re
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saywright.judging.charts import D2, D3, D4, FEWEST, RULES, Signal, chart, nelson

# NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2: flowrate of ten batches.
FLOWRATE = (49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1)


def test_flowrate_of_the_handbook() -> None:
    """Mean 50.81, mean moving range 1.8778, limits 55.8041 and 45.8159, printed with d2 rounded to 1.128."""
    found = chart(FLOWRATE)
    assert found is not None
    assert 50.81 == pytest.approx(found.mean, abs=1e-9)
    assert 1.8778 == pytest.approx(found.moving_range, abs=5e-5)
    assert (55.8041, 45.8159) == (pytest.approx(found.upper, abs=2e-3), pytest.approx(found.lower, abs=2e-3))
    assert ((), ()) == (found.signals, found.wide)  # "the process is in control"


def test_constants() -> None:
    """Tables print d2 = 1.128, d3 = 0.853, D4 = 3.267 and 3/d2 = 2.66 for ranges of two (recomputed)."""
    assert (1.128, 0.853, 3.267, 2.66) == (round(D2, 3), round(D3, 3), round(D4, 3), round(3 / D2, 2))


# Annual flow of the Nile at Aswan, 1871 to 1970, in 10^8 m³ (public domain; G. W. Cobb, "The problem of the
# Nile", Biometrika 65 (1978), 243 to 251, who finds that it fell about 1898).
FLOW = """
1120 1160 963 1210 1160 1160 813 1230 1370 1140 995 935 1110 994 1020 960 1180 799 958 1140 1100
1210 1150 1250 1260 1220 1030 1100 774 840 874 694 940 833 701 916 692 1020 1050 969 831 726 456 824
702 1120 1100 832 764 821 768 845 864 862 698 845 744 796 1040 759 781 865 845 944 984 897 822 1010
771 676 649 846 812 742 801 1040 860 874 848 890 744 749 838 1050 918 986 797 923 975 815 1020 906
901 1170 912 746 919 718 714 740
"""
NILE = tuple(map(float, FLOW.split()))


def by_the_letter(z: tuple[float, ...], rule: int, last: int) -> bool:
    """True where the points that end at *last* break *rule*, as Nelson words it; *z* in sigma."""

    def run(count: int) -> tuple[float, ...]:
        return z[last - count + 1 : last + 1] if last >= count - 1 else ()

    def on_a_side(count: int, window: int, bound: float) -> bool:
        sides = ([s * one for one in run(window)] for s in (1, -1))
        return any(sum(one > bound for one in side) >= count and side[-1] > bound for side in sides if side)

    rising = [b > a for a, b in pairwise(run(6))]
    falling = [b < a for a, b in pairwise(run(6))]
    steps = [b - a for a, b in pairwise(run(14))]
    broken = {
        1: abs(z[last]) > 3,
        2: on_a_side(9, 9, 0),
        3: bool(rising) and (all(rising) or all(falling)),
        4: bool(steps) and all(a * b < 0 for a, b in pairwise(steps)),
        5: on_a_side(2, 3, 2),
        6: on_a_side(4, 5, 1),
        7: bool(run(15)) and all(abs(one) < 1 for one in run(15)),
        8: bool(run(8)) and all(abs(one) > 1 for one in run(8)),
    }
    return broken[rule]


def test_the_nile() -> None:
    """A published series with a known break: its runs part there, and are those of the letter."""
    found = chart(NILE)
    assert found is not None
    assert (100, 919.35) == (len(NILE), pytest.approx(found.mean, abs=1e-9))
    runs = [1871 + signal.last for signal in found.signals if signal.rule == 2]
    before = [sum(NILE[year - 1879 : year - 1870]) / 9 > found.mean for year in runs]
    assert ([1886, 1897, 1926], [True, True, False]) == (runs, before)
    alone = [1871 + signal.last for signal in found.signals if signal.rule == 1]
    assert [1879, 1913] == alone == [1871 + NILE.index(1370), 1871 + NILE.index(456)]  # wettest, driest
    z = tuple((value - found.mean) / found.sigma for value in NILE)
    for rule in RULES:
        hits = [by_the_letter(z, rule, last) for last in range(len(z))]
        first = [n for n, hit in enumerate(hits) if hit and not (n and hits[n - 1])]
        assert first == [signal.last for signal in found.signals if signal.rule == rule], rule


def test_few_values_make_no_chart() -> None:
    """One less than the stated number, and none at all."""
    assert None is chart(FLOWRATE[: FEWEST - 1])
    assert None is chart(())


def test_equal_values_break_no_rule() -> None:
    """No spread, no sigma, no signal, no crash."""
    found = chart([5.0] * 20)
    assert found is not None
    assert (0, ()) == (found.sigma, found.signals)


def test_a_step_is_wide() -> None:
    """The range from the value before is past D4 times the mean range."""
    found = chart([10.0, 10.1] * 6 + [12.0, 12.1] * 6)
    assert found is not None
    assert (12,) == found.wide


# In sigma from the mean; each made so that the rule is broken first at the last value (rules as Nelson states
# them, Journal of Quality Technology 16 (1984), 237 to 239; from memory).
BROKEN = {
    1: (0.5, -0.5, 3.1),
    2: (-0.2, 0.5, 0.6, 0.5, 0.6, 0.5, 0.6, 0.5, 0.6, 0.5),
    3: (0.1, -0.9, -0.6, -0.3, 0.2, 0.4, 0.6),
    4: (0.3, -0.3) * 7,
    5: (0.5, 2.1, -0.5, 2.2),
    6: (0.5, 1.2, 1.3, -0.5, 1.4, 1.5),
    7: (1.2, *((0.3, 0.4, -0.3, -0.5, 0.6) * 3)),
    8: (0.2, 1.2, -1.3, 1.4, 1.2, -1.2, -1.5, 1.6, -1.2),
}


@pytest.mark.parametrize("rule", BROKEN)
def test_rules(rule: int) -> None:
    """Each rule is found with the value that breaks it, and not one value before."""
    values = BROKEN[rule]
    assert Signal(rule, len(values) - 1) in nelson(values, 0.0, 1.0)
    assert rule not in {signal.rule for signal in nelson(values[:-1], 0.0, 1.0)}
    mirrored = tuple(-value for value in values)
    assert Signal(rule, len(values) - 1) in nelson(mirrored, 0.0, 1.0)


def test_at_the_bound_is_not_past_it() -> None:
    """Exactly three sigma breaks nothing; points on the mean are on no side."""
    assert () == nelson((3.0, -3.0, 0.0), 0.0, 1.0)
    assert 2 not in {signal.rule for signal in nelson((0.0,) * 12, 0.0, 1.0)}


def test_a_run_is_told_once() -> None:
    """Fourteen on one side are one signal, at the ninth; a second run is another."""
    values = (0.5, 0.6) * 7 + (-0.1,) + (0.5, 0.6) * 5
    assert [8, 23] == [signal.last for signal in nelson(values, 0.0, 1.0) if signal.rule == 2]


def test_every_rule_is_told() -> None:
    """Eight rules, each with its words."""
    assert set(range(1, 9)) == set(RULES)
    assert all(re.match("[a-z]", words) for words in RULES.values())


@given(
    st.lists(st.floats(-100, 100).map(lambda x: round(x, 3)), min_size=10, max_size=40),
    st.sampled_from([0.001, 25.4, 1000.0]),
)
def test_units_change_no_signal(values: list[float], factor: float) -> None:
    """The same series in another unit breaks the same rules, rounding at a bound aside."""
    one, other = chart(values), chart([value * factor for value in values])
    assert one is not None
    assert other is not None
    near = one.sigma == 0 or any(
        math.isclose(abs(v - one.mean), n * one.sigma, rel_tol=1e-9, abs_tol=1e-9)
        for v in values
        for n in range(4)
    )
    assert near or [(s.rule, s.last) for s in one.signals] == [(s.rule, s.last) for s in other.signals]
