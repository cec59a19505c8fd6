"""The decision written into the record is the one whose sentence is printed."""

from __future__ import annotations

from decimal import Decimal

from hypothesis import given
from hypothesis import strategies as st

from judging.conftest import EMPTY, SHEET
from judging.said import reading, record_of
from saywright.judging.judge import judge, judgements

VALUES = st.decimals(Decimal("17.8"), Decimal("19.0"), places=2).map(str)
WIDE = SHEET.component[0].characteristic[0]
# Limits so close that even the middle is not sure, and an upper limit alone.
SHEETS = [
    SHEET.model_copy(
        update={
            "rule": rule,
            "component": (
                SHEET.component[0].model_copy(
                    update={"characteristic": (WIDE.model_copy(update={"lower": lower, "upper": upper}),)}
                ),
            ),
        }
    )
    for rule in ("iso14253", "guarded", "simple")
    for lower, upper in (
        (Decimal("18.0"), Decimal("18.8")),
        (Decimal("18.38"), Decimal("18.44")),
        (None, Decimal("18.4")),
    )
]


@given(st.lists(VALUES, min_size=1, max_size=4), st.sampled_from(SHEETS))
def test_record_and_report_agree(values: list[str], sheet) -> None:
    """With and without words: the same decision, for one value and for repeats, under every rule."""
    said = [
        reading(f"s{n}", value, repeat_of=None if n == 1 else "s1") for n, value in enumerate(values, start=1)
    ]
    record = record_of(EMPTY, *said)
    told = judgements(record, sheet)
    for one in judge(record, sheet).readings:
        assert told[one.id].decision == one.decision
        assert told[one.id].sentence
