"""One value that stands apart: Grubbs' test against published tables, and what is asked."""

from __future__ import annotations

from fractions import Fraction

import pytest

from judging.said import reading, record_of
from saywright.judging.judge import judge
from saywright.judging.outlier import critical_g, outlier

# ISO 5725-2:1994, table 5, one outlying value: upper 1 % and upper 5 % (from memory, recomputed).
ISO_5725 = {
    3: (1.155, 1.155),
    4: (1.496, 1.481),
    5: (1.764, 1.715),
    6: (1.973, 1.887),
    7: (2.139, 2.020),
    8: (2.274, 2.126),
    9: (2.387, 2.215),
    10: (2.482, 2.290),
    15: (2.806, 2.549),
    20: (3.001, 2.709),
    30: (3.236, 2.908),
}


@pytest.mark.parametrize("n", ISO_5725)
def test_critical_values_of_the_table(n: int) -> None:
    """To one in the last digit printed."""
    assert ISO_5725[n] == (
        pytest.approx(critical_g(n, 0.01), abs=1e-3),
        pytest.approx(critical_g(n, 0.05), abs=1e-3),
    )


def test_mass_spectrometer_of_the_handbook() -> None:
    """NIST/SEMATECH e-Handbook 1.3.5.17.1: 8 uranium readings, G = 2.4687, critical 2.032 one-sided at 5 %
    (from memory, recomputed); two-sided, 245.57 stands apart as well.
    """
    values = tuple(
        Fraction(v) for v in ("199.31", "199.53", "200.19", "200.82", "201.92", "201.95", "202.18", "245.57")
    )
    found = outlier(values)
    assert found is not None
    assert 7 == found.index
    assert 2.4687 == pytest.approx(found.g, abs=1e-4)
    assert 2.032 == pytest.approx(critical_g(8, 0.10), abs=5e-4)
    assert 2.1266 == pytest.approx(found.critical, abs=1e-4)


@pytest.mark.parametrize("values", [("1", "1", "9"), ("1", "1", "1", "1"), ("1", "2", "3", "4", "5"), ()])
def test_none_stands_apart(values: tuple[str, ...]) -> None:
    """Too few, all alike, evenly spread, or none at all."""
    assert None is outlier(tuple(Fraction(v) for v in values))


def said(empty, *values: str):
    """The float height, said once and again."""
    return record_of(
        empty,
        *(reading(f"s{n}", v, repeat_of=None if n == 1 else "s1") for n, v in enumerate(values, start=1)),
    )


def test_it_asks_and_keeps_the_value(empty, sheet) -> None:
    """Four hundredths away from four that agree: asked about, provisional, and still in the mean."""
    judged = judge(said(empty, "18.42", "18.42", "18.43", "18.42", "18.46"), sheet)
    assert [True] * 5 == [r.provisional for r in judged.readings]
    asked = [item for item in judged.open_items if item.kind == "ask"]
    assert ["ask:repeats:s5"] == [item.id for item in asked]
    assert (
        "18.46 mm stands apart from the others (Grubbs' test at 5 %: 1.73 against 1.72). "
        "Was it misheard or taken before a change?" in asked[0].text
    )


def test_a_digit_or_two_is_no_outlier(empty, sheet) -> None:
    """Values that agree to the last digit but one: nobody is bothered."""
    judged = judge(said(empty, "18.42", "18.42", "18.42", "18.42", "18.44"), sheet)
    assert [False] * 5 == [r.provisional for r in judged.readings]


def test_acceptance_settles_it(empty, sheet) -> None:
    """A person accepted the last of them: the mean holds."""
    record = said(empty, "18.42", "18.42", "18.43", "18.42", "18.46")
    last = record.readings[-1].model_copy(update={"accepted_by": "Ines"})
    judged = judge(record.model_copy(update={"readings": (*record.readings[:-1], last)}), sheet)
    assert [False] * 5 == [r.provisional for r in judged.readings]
