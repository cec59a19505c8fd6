"""The line through a series against NIST's certified values, and where it meets a limit."""

from __future__ import annotations

from pathlib import Path

import pytest
import scipy.stats
from scipy import stats

from saywright.judging.trend import HORIZON, Line, fit, meeting

NORRIS = Path(scipy.stats.__file__).parent / "tests" / "data" / "nist_linregress" / "Norris.dat"


def norris() -> tuple[list[float], list[float]]:
    """x and y of NIST StRD Norris, from the file that scipy carries; its columns are y and x."""
    rows = [line.split() for line in NORRIS.read_text(encoding="utf-8").splitlines()[60:96]]
    return [float(row[1]) for row in rows], [float(row[0]) for row in rows]


def test_norris() -> None:
    """NIST StRD linear regression, Norris: certified slope, intercept, deviations of slope and residuals."""
    line = fit(*norris())
    assert line is not None
    assert 36 == line.n
    assert 1.00211681802045 == pytest.approx(line.slope, rel=1e-13)
    assert -0.262323073774029 == pytest.approx(line.intercept, rel=1e-11)
    assert 0.429796848199937e-03 == pytest.approx(line.slope_u, rel=1e-11)
    assert 0.884796396144373 == pytest.approx(line.residual, rel=1e-11)


def test_against_scipy() -> None:
    """Slope and its deviation as scipy.stats.linregress has them, days and hundredths of a millimetre."""
    xs = [739000.0, 739200.0, 739390.0, 739500.0, 739811.0, 740100.0]
    ys = [18.42, 18.45, 18.44, 18.49, 18.52, 18.55]
    line, peer = fit(xs, ys), stats.linregress(xs, ys)
    assert line is not None
    assert peer.slope == pytest.approx(line.slope, rel=1e-9)
    assert peer.stderr == pytest.approx(line.slope_u, rel=1e-9)
    half = (
        stats.t.ppf(0.975, 4) * line.residual * (1 + 1 / 6 + (740500 - line.mean_x) ** 2 / line.sxx) ** 0.5
    )  # NIST/SEMATECH e-Handbook 4.5.1.2
    low, high = line.prediction(740500)
    assert (line.at(740500) - half, line.at(740500) + half) == (pytest.approx(low), pytest.approx(high))


@pytest.mark.parametrize(("xs", "ys"), [((1, 2), (1, 2)), ((3, 3, 3), (1, 2, 3)), ((), ())])
def test_no_line(xs: tuple[float, ...], ys: tuple[float, ...]) -> None:
    """Two points, one day only, or nothing: no line and no crash."""
    assert None is fit(xs, ys)


def falling(residual: float = 0.1) -> Line:
    """10 at day 0, one less every hundred days, ten points up to day 90."""
    return Line(10, -0.01, 10.0, residual, 45.0, 9.55, 8250.0, 0.0, 90.0)


def test_meets_the_limit() -> None:
    """A line from 10 meets 8 on day 200; the interval of a further reading meets it before and after."""
    found = meeting(falling(0.01), 8.0, 12.0)
    assert found is not None
    assert 8.0 == found.limit
    assert 200 == pytest.approx(found.at, abs=1e-3)
    assert found.earliest is not None
    assert found.latest is not None
    assert 90 < found.earliest < 200 < found.latest
    assert 8 == pytest.approx(falling(0.01).prediction(found.earliest)[0], abs=1e-6)
    assert 8 == pytest.approx(falling(0.01).prediction(found.latest)[1], abs=1e-6)


def test_no_limit_that_way() -> None:
    """A falling line meets no upper limit; a slope that is not shown meets nothing."""
    assert None is meeting(falling(0.01), None, 12.0)
    assert None is meeting(falling(5.0), 8.0, None)


def test_past_it_already() -> None:
    """A limit the line is past is met at the last point."""
    found = meeting(falling(0.01), 9.5, None)
    assert found is not None
    assert (90.0, 90.0) == (found.at, found.earliest)


def test_too_far_to_tell() -> None:
    """Beyond the horizon there is no day."""
    found = meeting(falling(0.0001), 10 - 0.01 * (HORIZON + 500), None)
    assert found is not None
    assert (None, None, None) == (found.at, found.earliest, found.latest)


def test_a_perfect_line() -> None:
    """No residuals: shown, and met at one day."""
    line = fit([0, 10, 20, 30], [1.0, 2.0, 3.0, 4.0])
    assert line is not None
    assert line.shown
    found = meeting(line, None, 6.0)
    assert found is not None
    assert 50 == pytest.approx(found.at, abs=1e-3)
