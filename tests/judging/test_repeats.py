"""Readings that belong together are judged on their mean."""

from __future__ import annotations

from fractions import Fraction

import pytest

from judging.said import ASK, reading, record_of
from saywright.judging.judge import judge, judgements
from saywright.judging.repeats import groups


def ids(found) -> list[list[str]]:
    """The ids of each group."""
    return [[r.id for r in group.readings] for group in found]


def test_joined_by_repeat_of(empty, sheet) -> None:
    """A repeat joins the first reading; an unrelated reading of the same thing stands alone."""
    record = record_of(
        empty, reading("s1", "18.40"), reading("s2", "18.46", repeat_of="s1"), reading("s3", "18.1")
    )
    found = groups(record, sheet)
    assert [["s1", "s2"], ["s3"]] == ids(found)
    assert (Fraction("18.43"), Fraction("0.0018")) == (found[0].mean, found[0].spread)


def test_mean_is_exact_over_units(empty, sheet) -> None:
    """18.40 mm and 0.725 in (18.415 mm) have the mean 18.4075 mm."""
    record = record_of(empty, reading("s1", "18.40"), reading("s2", "0.725", unit="in", repeat_of="s1"))
    assert Fraction("18.4075") == groups(record, sheet)[0].mean


def test_all_repeats_share_one_judgement(empty, sheet) -> None:
    """The mean decides for each of them, and one doubtful value makes all provisional."""
    record = record_of(
        empty,
        reading("s1", "18.76"),
        reading("s2", "18.90", repeat_of="s1", flags=ASK),
        reading("s3", "18.4"),
    )
    judged = judge(record, sheet).readings
    assert [("undecided", True), ("undecided", True), ("conforms", False)] == [
        (r.decision, r.provisional) for r in judged
    ]
    found = judgements(record, sheet)
    assert found["s1"] is found["s2"]
    assert (2, Fraction("18.83")) == (found["s1"].n, found["s1"].value)
    assert found["s1"].sentence.startswith(
        "Float height 18.83 mm, the mean of 2 readings, is outside the limits"
    )


def test_corrected_first_reading_keeps_the_repeats(empty, sheet) -> None:
    """Where the first reading was replaced, its repeats join what replaced it."""
    record = record_of(
        empty,
        reading("s1", "81.40", superseded_by="s3"),
        reading("s2", "18.42", repeat_of="s1"),
        reading("s3", "18.40"),
    )
    assert [["s2", "s3"]] == ids(groups(record, sheet))


def test_repeat_moved_elsewhere_is_no_repeat(empty, sheet) -> None:
    """Another stage or another part breaks the tie."""
    record = record_of(empty, reading("s1"), reading("s2", repeat_of="s1", stage="as_left"))
    assert [["s1"], ["s2"]] == ids(groups(record, sheet))


def test_a_ring_of_repeats_ends(empty, sheet) -> None:
    """Two readings that name each other are of one thing, and no endless search."""
    record = record_of(empty, reading("s1", repeat_of="s2"), reading("s2", repeat_of="s1"))
    assert 1 == len(groups(record, sheet))


def test_stamped_sizes_are_never_averaged(empty, sheet) -> None:
    """The mean of 125 and 130 is no size; each stands alone."""
    jet = {"component": "main_jet", "characteristic": "size", "unit": "1"}
    record = record_of(empty, reading("s1", "125", **jet), reading("s2", "131", repeat_of="s1", **jet))
    assert ["conforms", "does_not_conform"] == [r.decision for r in judge(record, sheet).readings]


def test_another_unit_kind_stands_alone(empty, sheet) -> None:
    """A value that cannot be told in the sheet's unit is undecided and spoils no mean."""
    record = record_of(empty, reading("s1"), reading("s2", "18", unit="bar", repeat_of="s1"))
    assert [["s1"], ["s2"]] == ids(groups(record, sheet))
    assert "undecided" == judge(record, sheet).readings[1].decision
    sentence = "Float height 18 bar: this unit does not measure it, so it was not judged."
    assert sentence == judgements(record, sheet)["s2"].sentence


@pytest.mark.parametrize(
    ("first", "second", "asks"),
    [
        ("18.42", "18.49", False),  # 0.07 mm, 4·u of this caliper is 0.0702 mm
        ("18.42", "18.50", True),
        ("18.42", "18.24", True),
    ],
)
def test_repeats_too_far_apart_ask(empty, sheet, first: str, second: str, asks: bool) -> None:
    """A repeat further away than 4·u may be misheard: it asks, and both are provisional until accepted."""
    second_reading = reading("s2", second, repeat_of="s1")
    record = record_of(empty, reading("s1", first), second_reading)
    judged = judge(record, sheet)
    assert asks is any(item.id == "ask:repeats:s2" for item in judged.open_items)
    assert [asks, asks] == [r.provisional for r in judged.readings]
    accepted = second_reading.model_copy(update={"accepted_by": "Ines"})
    judged = judge(record_of(empty, reading("s1", first), accepted), sheet)
    assert not any(item.id == "ask:repeats:s2" for item in judged.open_items)


def test_question_of_repeats(empty, sheet) -> None:
    """All values are named as they were said."""
    record = record_of(empty, reading("s1", "18.42"), reading("s2", "0.800", unit="in", repeat_of="s1"))
    text = next(item.text for item in judge(record, sheet).open_items if item.kind == "ask")
    assert text == (
        "The float height was said as 18.42 mm and 0.800 in: further apart than the measuring explains. "
        "Do all of them hold, or was one misheard or taken before a change?"
    )


def test_five_last_digits_are_no_reason(empty, sheet) -> None:
    """Without an instrument a few last digits do not ask: 8.01 and 8.05 do not, 8.01 and 8.07 do."""
    bore = {"component": "bush", "which": "upper", "characteristic": "bore"}
    for second, asks in (("8.05", False), ("8.07", True), ("8.3", True)):
        record = record_of(
            empty, reading("s1", "8.01", **bore), reading("s2", second, repeat_of="s1", **bore)
        )
        assert asks is any(item.kind == "ask" for item in judge(record, sheet).open_items)
