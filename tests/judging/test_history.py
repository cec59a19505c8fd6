"""All visits of one item: changes, trends and charts of each value."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from judging.conftest import EMPTY, SHEET
from judging.said import ASK, action, movement, reading, record_of
from saywright.judging.course_words import chart_sentence, trend_sentence
from saywright.judging.history import Course, Visit, history

JET = {"component": "main_jet", "characteristic": "size", "unit": "1"}
FIRST = date(2024, 3, 4)


def visit(number: int, *items: object, sheet=SHEET, every: int = 100) -> Visit:
    """The visit of this number, from 0, a hundred days after the one before."""
    return Visit(f"j{number:03}", FIRST + timedelta(days=every * number), record_of(EMPTY, *items), sheet)


def heights(*values: str, every: int = 100) -> Course:
    """The float height as found at so many visits."""
    visits = [visit(n, reading("s1", value), every=every) for n, value in enumerate(values)]
    (course,) = history(visits)
    return course


def test_left_last_time_beside_found_now() -> None:
    """18.42 mm left, 18.58 mm found: 0.16 mm, and the caliper explains 2·√2·0.0176 mm = 0.050 mm."""
    (course,) = history(
        [
            visit(0, reading("s1", "18.70"), reading("s2", "18.42", stage="as_left")),
            visit(1, reading("s1", "18.58")),
        ]
    )
    (change,) = course.changes
    assert (Fraction("0.16"), True) == (change.difference, change.real)
    assert 0.0497 == pytest.approx(change.expanded, abs=1e-4)
    assert (
        "Float height was left at 18.42 mm on 2024-03-04 and found at 18.58 mm on 2024-06-12: 0.16 mm more, "
        "beyond the 0.05 mm that the measuring explains. The change is real." == change.sentence
    )


def test_within_what_the_measuring_explains() -> None:
    """0.04 mm between two visits of the same caliper: no change is shown."""
    (change,) = heights("18.42", "18.38").changes
    assert not change.real
    assert change.sentence.endswith(
        "0.04 mm less, within the 0.05 mm that the measuring explains. No change is shown."
    )


def test_stamped_sizes_are_exact() -> None:
    """Another jet is another jet; no trend and no chart of stamps."""
    visits = [visit(n, reading("s1", "128" if n < 11 else "125", **JET)) for n in range(12)]
    (course,) = history(visits)
    assert [False] * 10 + [True] == [change.real for change in course.changes]
    assert course.changes[-1].sentence.endswith(": 3 less.")
    assert (None, None, "", "") == (course.line, course.chart, trend_sentence(course), chart_sentence(course))


def test_few_readings_widen_it() -> None:
    """Three readings at each visit: Student's t counts for the difference too."""
    said = [
        (reading("s1", a), reading("s2", b, repeat_of="s1"), reading("s3", c, repeat_of="s1"))
        for a, b, c in (("18.40", "18.44", "18.48"), ("18.50", "18.54", "18.58"))
    ]
    (change,) = history([visit(n, *items) for n, items in enumerate(said)])[0].changes
    u2 = 2 * (0.01**2 / 12 + 0.03**2 / 3 + 0.04**2 / 3)
    assert change.expanded > 2 * u2**0.5
    assert change.after.degrees is not None


def test_what_asks_is_provisional_and_left_out() -> None:
    """A value that waits for a person is in the list, and in no trend."""
    visits = [visit(n, reading("s1", f"18.{40 + n}", flags=ASK if n == 2 else ())) for n in range(5)]
    (course,) = history(visits)
    assert [False, False, True, False, False] == [point.provisional for point in course.points]
    assert None is course.line  # four values are left
    assert course.changes[1].sentence.endswith("Provisional.")


def test_units_of_another_sheet() -> None:
    """A sheet in inches before, one in millimetres now: one course, in the newest sheet's unit."""
    inches = (
        SHEET.component[0]
        .characteristic[0]
        .model_copy(
            update={"unit": "in", "lower": Decimal("0.709"), "upper": Decimal("0.740"), "instrument": None}
        )
    )
    old = SHEET.model_copy(
        update={"component": (SHEET.component[0].model_copy(update={"characteristic": (inches,)}),)}
    )
    (course,) = history([visit(0, reading("s1", "0.7250", unit="in"), sheet=old), visit(1, reading("s1"))])
    assert ("mm", Fraction("18.415")) == (course.unit, course.points[0].value)
    assert 0.00254 / 12**0.5 == pytest.approx(course.points[0].u)
    assert not course.changes[0].real


def test_a_trend_from_five_values() -> None:
    """Four values foretell nothing; five that fall in line meet the limit."""
    assert "No trend is told from fewer than 5 values since the last change." == trend_sentence(
        heights("18.70", "18.60", "18.51", "18.40")
    )
    course = heights("18.70", "18.60", "18.51", "18.40", "18.31")
    told = trend_sentence(course)
    assert told.startswith(
        "Float height falls by 0.358 mm a year, ± 0.019 mm (95 %, 5 values since 2024-03-04)."
    )
    assert (
        "At that rate it meets the limit of 18.0 mm about 2026-02; a further reading may meet it between"
        in told
    )
    assert course.meets is not None
    assert course.meets.earliest is not None
    assert course.meets.at is not None
    assert course.meets.earliest < course.meets.at


def test_no_trend_in_scatter() -> None:
    """Values that go up and down have a slope, and its interval holds nought."""
    told = trend_sentence(heights("18.40", "18.44", "18.39", "18.43", "18.41"))
    assert told.startswith("No trend is shown by 5 values since 2024-03-04: ")


def test_a_new_part_begins_a_new_row() -> None:
    """Values before the part was renewed, or set to another value, say nothing about it."""

    def row(*middle: object) -> Course:
        visits = [visit(n, reading("s1", f"18.{60 + n}")) for n in range(4)]
        visits.append(visit(4, reading("s1", "18.64"), *middle))
        visits += [visit(n, reading("s1", f"18.{20 + n}")) for n in range(5, 9)]
        return history(visits)[0]

    assert row().line is not None
    assert 9 == row().line.n
    assert None is row(action("s8", "float", "replace", "done")).line  # four values since
    assert None is row(movement("s8", "float", "fitted", part="new")).line
    reset = row(reading("s8", "18.24", stage="as_left")).line
    assert reset is not None
    assert 5 == reset.n  # what it was set to begins the row
    same = row(reading("s8", "18.65", stage="as_left")).line
    assert same is not None
    assert 9 == same.n


def test_a_chart_from_ten_values() -> None:
    """Nine make none; ten do, and a value far out is told with its day and rule."""
    steady = ["18.40", "18.42", "18.41", "18.43", "18.40", "18.42", "18.41", "18.43", "18.41"]
    assert "No control chart is drawn for fewer than 10 values as found." == chart_sentence(heights(*steady))
    told = chart_sentence(heights(*steady, "18.42"))
    assert told.startswith("Control chart of 10 values as found: mean 18.415, limits 18.")
    assert told.endswith("No rule is broken.")
    out = chart_sentence(heights(*steady, "18.42", "18.60"))
    assert "on 2026-11-29, one point more than three sigma from the mean (Nelson's rule 1)" in out


def test_nothing_read_is_nothing() -> None:
    """No visits, and visits without readings."""
    assert () == history([])
    assert () == history([visit(0), visit(1)])


def test_order_does_not_matter() -> None:
    """Visits are put in the order of their days."""
    visits = [visit(n, reading("s1", f"18.{40 + n}")) for n in range(4)]
    assert history(visits) == history(visits[::-1])


@given(st.lists(st.integers(1810, 1870), min_size=2, max_size=8), st.sampled_from(["in", "um", "cm"]))
def test_units_change_no_verdict(values: list[int], unit: str) -> None:
    """The same values against a sheet in another unit: the same changes are real."""
    height = SHEET.component[0].characteristic[0]
    other = height.model_copy(update={"unit": unit, "lower": None, "upper": None})
    sheet = SHEET.model_copy(
        update={"component": (SHEET.component[0].model_copy(update={"characteristic": (other,)}),)}
    )
    said = [reading("s1", f"{value / 100:.2f}") for value in values]
    one, two = (
        history([visit(n, item, sheet=s) for n, item in enumerate(said)])[0].changes for s in (SHEET, sheet)
    )
    assert [change.real for change in one] == [change.real for change in two]


def test_values_all_alike_are_told_in_plain_words() -> None:
    """No rate of nought and no limits of no width: they are alike, and there is no chart."""
    course = heights(*["18.40"] * 12)
    assert f"The 12 values since {FIRST} are all alike." == trend_sentence(course)
    assert "No control chart is drawn for 12 values as found that are all alike." == chart_sentence(course)


def test_repeats_that_lie_too_far_apart_are_left_out_of_the_trend() -> None:
    """A mean that asks for its spread is provisional, and the row of values goes on without it."""
    odd = (reading("s1", "18.30"), reading("s2", "18.90", repeat_of="s1"))
    values = ("18.70", "18.60", "18.51", "18.40", "18.31")
    seen = [visit(n, reading("s1", value)) for n, value in enumerate(values)]
    (course,) = history([*seen, visit(5, *odd)])
    assert course.points[-1].provisional
    assert course.line is not None
    assert 5 == course.line.n
    assert course.changes[-1].sentence.endswith("Provisional.")


def test_a_value_with_its_own_doubt_shares_no_other() -> None:
    """Two values of the same digits: the one measured in a picture has the u told with it."""
    (course,) = history([visit(0, reading("s1", "18.40")), visit(1, reading("s1", "18.40", u="0.25"))])
    assert 0.25 == pytest.approx((course.points[1].variance - 0.01**2 / 12) ** 0.5)
    assert course.points[0].u < 0.02


def test_values_alike_have_no_trend_at_all() -> None:
    """Seven times 7.971, whose mean as floats is not 7.971: no slope of 1e-17 is told."""
    told = trend_sentence(heights(*["7.971"] * 7))
    assert told.endswith("are all alike.")


def test_a_value_keeps_its_digits_and_a_mean_those_of_its_doubt() -> None:
    """21.320 stays 21.320; the mean of three is told to as many places as its doubt has."""
    repeats = (
        reading("s1", "18.41"),
        reading("s2", "18.43", repeat_of="s1"),
        reading("s3", "18.43", repeat_of="s1"),
    )
    (course,) = history([visit(0, reading("s1", "18.320")), visit(1, *repeats)])
    assert ["18.320", "18.423"] == [point.text for point in course.points]
