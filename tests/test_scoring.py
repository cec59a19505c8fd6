"""Scores of a record against what it should be."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import Any

import pytest

from saywright.flags import FlagKind, flag
from saywright.record.types import Job, Photo, Reading, Record
from saywright.scoring import compare, score_keys, score_photos

JOB = Job(id="j", title="T", sheet="s", sheet_revision="A", opened_at=datetime(2026, 3, 1, tzinfo=UTC))


def reading(number: int, value: str = "18.40", *, ask: bool = False, **more: Any) -> Reading:
    """A float height; *ask* gives it a flag that waits."""
    given = {
        "id": f"s{number}",
        "stage": "as_found",
        "heard": "words",
        "component": "float",
        "characteristic": "height",
        "value": value,
        "unit": "mm",
        "flags": (flag(FlagKind.POORLY_HEARD),) if ask else (),
    }
    return Reading.model_validate(given | more)


def wanted(value: str = "18.40", **more: Any) -> dict[str, Any]:
    """The same float height in an expected record."""
    return {
        "stage": "as_found",
        "component": "float",
        "characteristic": "height",
        "value": value,
        "unit": "mm",
    } | more


def test_a_perfect_record() -> None:
    """All right: F1 is 1 and nothing is silent."""
    result = compare(Record(job=JOB, readings=(reading(1),)), {"readings": [wanted()]})
    assert (1.0, 1.0, 1.0) == (
        result.of("readings").f1,
        result.of("readings").precision,
        result.ask_share + 1,
    )
    assert () == result.silent


def test_precision_recall_and_f1() -> None:
    """Two of three found are right, two of four expected: 2/3, 1/2, harmonic mean 4/7."""
    score = score_keys("readings", [("a",), ("b",), ("x",)], [("a",), ("b",), ("c",), ("d",)])
    assert pytest.approx((2 / 3, 1 / 2, 4 / 7)) == (score.precision, score.recall, score.f1)
    assert ((("c",), ("d",)), (("x",),)) == (score.missed, score.surplus)


def test_repeats_answer_once_each() -> None:
    """The same reading twice counts for one expected reading only."""
    score = score_keys("readings", [("a",), ("a",)], [("a",)])
    assert (1, 2, 1) == (score.right, score.found, score.expected)


@pytest.mark.parametrize(
    ("wrong", "silent"),
    [
        ({"value": "14.80"}, 1),
        ({"component": "seat"}, 1),
        ({"which": "left"}, 1),
        ({"characteristic": "depth"}, 1),
        ({"unit": "thou"}, 1),
        ({"stage": "as_left"}, 0),
        ({"value": "18.4"}, 0),
        ({"value": "14.80", "ask": True}, 0),
    ],
)
def test_what_is_silent(wrong: dict[str, Any], silent: int) -> None:
    """Wrong value, part, which, characteristic or unit without an ask is silent."""
    result = compare(Record(job=JOB, readings=(reading(1, **wrong),)), {"readings": [wanted()]})
    assert silent == len(result.silent)
    assert 0 == result.of("readings").right


def test_an_accepted_wrong_reading_is_silent() -> None:
    """An ask that somebody answered no longer shields a wrong value."""
    wrong = reading(1, "14.80", ask=True, accepted_by="Ada")
    assert 1 == len(compare(Record(job=JOB, readings=(wrong,)), {"readings": [wanted()]}).silent)


def test_a_doubtful_double_does_not_hide_behind_the_sure_one() -> None:
    """The sure reading takes the expected one, wherever it stands; the doubtful one is surplus but asks."""
    result = compare(Record(job=JOB, readings=(reading(1, ask=True), reading(2))), {"readings": [wanted()]})
    assert () == result.silent
    assert (1, 0) == (result.right_readings, result.right_that_ask)


def test_superseded_readings_do_not_count() -> None:
    """What was corrected is neither found nor silent."""
    old = reading(1, "14.80", superseded_by="s2")
    result = compare(Record(job=JOB, readings=(old, reading(2))), {"readings": [wanted()]})
    assert (1.0, ()) == (result.of("readings").f1, result.silent)


def test_the_price_of_caution() -> None:
    """One of two right readings asks: half."""
    record = Record(job=JOB, readings=(reading(1, ask=True), reading(2, "18.50")))
    assert 0.5 == compare(record, {"readings": [wanted(), wanted("18.50")]}).ask_share


def test_photos_by_file() -> None:
    """A picture on the wrong part is not right; one without a place is right where none is expected."""
    common: dict[str, Any] = {"stage": "as_found", "heard": "", "sha256": "0" * 64}
    photos = [
        Photo(id="p1", name="a.jpg", component="float", **common),
        Photo(id="p2", name="b.jpg", component="float", **common),
        Photo(id="p3", name="c.jpg", **common),
    ]
    expected = {
        "a.jpg": {"component": "float", "stage": "as_found"},
        "b.jpg": {"component": "main_jet", "stage": "as_found"},
        "c.jpg": None,
    }
    score = score_photos(photos, expected)
    assert (2, (("b.jpg", "main_jet", "as_found"),)) == (score.right, score.missed)
