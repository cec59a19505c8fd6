"""Capability against the handbook and scipy, and what fails most over jobs."""

from __future__ import annotations

import math

import pytest
from scipy import stats

from judging.conftest import SHEET, D
from judging.said import ASK, condition, reading
from judging.test_derived import SHAFT, bore, char, shaft
from judging.test_history import visit
from saywright.judging.across import across
from saywright.judging.capability import FEWEST, capability
from saywright.sheets.model import Component


def spread(n: int, mean: float, s: float) -> list[float]:
    """So many values with exactly this mean and standard deviation."""
    raw = [stats.norm.ppf((i + 0.5) / n) for i in range(n)]
    scale = s / math.sqrt(sum(x * x for x in raw) / (n - 1))
    return [mean + scale * x for x in raw]


def test_handbook() -> None:
    """NIST/SEMATECH e-Handbook 6.1.6: limits 8 and 20, mean 16, s = 2 give Cp = 1.0 and Cpk = 0.6667."""
    found = capability(spread(50, 16.0, 2.0), 8.0, 20.0)
    assert found is not None
    assert found.cp is not None
    assert (1.0, 2 / 3) == (pytest.approx(found.cp[0]), pytest.approx(found.cpk[0]))
    low, high = (math.sqrt(stats.chi2.ppf(p, 49) / 49) for p in (0.025, 0.975))
    assert (low, high) == (pytest.approx(found.cp[1]), pytest.approx(found.cp[2]))
    half = 1.959964 * math.sqrt(1 / 450 + (4 / 9) / 98)  # Bissell (1990)
    assert (2 / 3 - half, 2 / 3 + half) == (
        pytest.approx(found.cpk[1], abs=1e-6),
        pytest.approx(found.cpk[2], abs=1e-6),
    )


def test_one_limit_has_no_cp() -> None:
    """With an upper limit only there is no Cp, and Cpk is that of its side."""
    found = capability(spread(40, 5.0, 1.0), None, 8.0)
    assert found is not None
    assert (None, 1.0) == (found.cp, pytest.approx(found.cpk[0]))


@pytest.mark.parametrize(
    ("values", "lower", "upper"),
    [(spread(FEWEST - 1, 5, 1), 1, 9), (spread(40, 5, 1), None, None), ([5.0] * 40, 1, 9), ([], 1, 9)],
)
def test_never_shown_for_less(values: list[float], lower: float | None, upper: float | None) -> None:
    """Fewer than the stated number, no limits, all alike: none is told."""
    assert None is capability(values, lower, upper)


def records(count: int):
    """So many jobs: the float fails in every third, the jet is scored in every second, said twice."""
    for n in range(count):
        height = "17.50" if n % 3 == 0 else f"18.{30 + n % 7}"
        items = [reading("s1", height)]
        if n % 2 == 0:
            items += [condition("s2", "main_jet", "scored"), condition("s3", "main_jet", "scored")]
        if n == 1:
            items += [
                condition("s4", "main_jet", "clean"),
                condition("s5", "main_jet", "worn", present=False),
            ]
            items += [condition("s6", "main_jet", "worn", flags=ASK), reading("s7", "17.2", stage="as_left")]
        yield visit(n, *items).record


def test_what_fails_most() -> None:
    """Once a job; what asks, what is good, denied or only left so does not count."""
    found = across(list(records(9)), SHEET)
    assert 9 == found.jobs
    assert [("Main jet scored", 5, 6), ("Float height out of limits", 3, 9)] == [
        (fault.name, fault.jobs, fault.of) for fault in found.faults
    ]
    assert ["9 values; capability is told from 30 on."] == [one.sentence for one in found.spreads]


def test_computed_values_fail_too() -> None:
    """A clearance out of limits and a difference of parts alike count once a job, unless they ask."""
    both = (bore("s1", "8.100"), bore("s2", "8.000", "lower"))
    jobs = [
        (*both, shaft("s3", "7.950")),  # upper clearance 0.150, lower 0.050; bores 0.100 apart
        (*both, shaft("s3", "7.800")),  # both clearances too large
        (*both, shaft("s3", "7.800", flags=ASK)),
        (bore("s1", "8.000"), shaft("s3", "7.950", stage="as_left")),
    ]
    found = across([visit(n, *items).record for n, items in enumerate(jobs)], SHAFT)
    assert [("Bush bore difference out of limits", 3, 4), ("Bush clearance out of limits", 2, 4)] == [
        (fault.name, fault.jobs, fault.of) for fault in found.faults
    ]
    assert [("Bush clearance", 4)] == [(one.name, one.values) for one in found.spreads]


def test_a_part_that_is_only_computed_counts_as_seen() -> None:
    """Nothing is said of it itself; its faults are still so many of so many jobs."""
    gap = char("gap", formula="bush[upper].bore - shaft.diameter", upper=D("0.08"))
    sheet = SHAFT.model_copy(
        update={"component": (*SHAFT.component, Component(id="stack", characteristic=(gap,)))}
    )
    record = visit(0, bore("s1", "8.100"), shaft("s2", "7.950")).record
    (stack,) = [fault for fault in across([record], sheet).faults if fault.component == "stack"]
    assert ("Stack gap out of limits", 1, 1) == (stack.name, stack.jobs, stack.of)


def test_capability_of_a_sheet() -> None:
    """From thirty jobs on, with its intervals."""
    (height,) = across(list(records(36)), SHEET).spreads
    assert height.sentence.startswith("36 values as found, mean 18.05 mm, s 0.3964 mm; Cp 0.34")
    assert height.sentence.endswith("; Cpk 0.04 (95 %: -0.07 to 0.15).")


def test_nothing() -> None:
    """No jobs, nothing to tell."""
    assert ((), ()) == (across([], SHEET).faults, across([], SHEET).spreads)
