"""Student's t and chi-square, against printed tables and scipy."""

from __future__ import annotations

import pytest
from scipy import stats

from saywright.judging.student import chi2_cdf, chi2_quantile, t_cdf, t_quantile

# JCGM 100:2008, table G.2, t_p(ν) for p = 95 % and 95.45 % (from memory, recomputed with scipy).
TABLE_G2 = {
    1: (12.71, 13.97),
    2: (4.30, 4.53),
    3: (3.18, 3.31),
    4: (2.78, 2.87),
    5: (2.57, 2.65),
    6: (2.45, 2.52),
    8: (2.31, 2.37),
    10: (2.23, 2.28),
    16: (2.12, 2.17),
    20: (2.09, 2.13),
    30: (2.04, 2.09),
    50: (2.01, 2.05),
    100: (1.984, 2.025),
}


@pytest.mark.parametrize("degrees", TABLE_G2)
def test_table_of_the_guide(degrees: int) -> None:
    """The factors printed in JCGM 100:2008, table G.2."""
    digits = 3 if degrees == 100 else 2
    found = [round(t_quantile((1 + p) / 2, degrees), digits) for p in (0.95, 0.9545)]
    assert list(TABLE_G2[degrees]) == found


@pytest.mark.parametrize("degrees", [1, 2, 3, 7, 30, 99, 200, 201, 800])
def test_t_against_scipy(degrees: int) -> None:
    """Quantiles and probabilities as scipy has them, past the finite sums too."""
    for p in (0.6, 0.9, 0.95, 0.975, 0.9772498680518208, 0.9995):
        assert stats.t.ppf(p, degrees) == pytest.approx(t_quantile(p, degrees), rel=1e-7)
    for t in (-6.0, -1.2, 0.0, 0.4, 3.0, 12.0):
        assert stats.t.cdf(t, degrees) == pytest.approx(t_cdf(t, degrees), abs=1e-12)


def test_without_end_it_is_the_normal_distribution() -> None:
    """With no degrees of freedom given, 97.5 % lie below 1.96."""
    assert 1.959964 == pytest.approx(t_quantile(0.975, None), abs=1e-6)
    assert 0.975 == pytest.approx(t_cdf(1.959963985, None), abs=1e-9)


@pytest.mark.parametrize("degrees", [1, 2, 9, 29, 120])
def test_chi_square_against_scipy(degrees: int) -> None:
    """Both tails, as scipy has them."""
    for p in (0.005, 0.025, 0.5, 0.975, 0.995):
        x = stats.chi2.ppf(p, degrees)
        assert x == pytest.approx(chi2_quantile(p, degrees), rel=1e-9)
        assert p == pytest.approx(chi2_cdf(x, degrees), abs=1e-12)
    assert 0 == chi2_cdf(0.0, degrees)
