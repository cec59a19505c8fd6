"""The worked figures of docs/judging.md are what the program says."""

from __future__ import annotations

from pathlib import Path
from typing import Any, get_args

import pytest

from judging.conftest import EMPTY, SHEET
from judging.said import action, condition, movement, reading, record_of
from judging.test_benchtime import log, said
from judging.test_derived import SHAFT, bore, computed, shaft
from judging.test_history import heights, visit
from judging.test_refit import OFF
from judging.test_refit import sheet as refit_sheet
from saywright.judging import charts, trend
from saywright.judging.across import across
from saywright.judging.benchtime import bench_time
from saywright.judging.course_words import trend_sentence
from saywright.judging.history import history
from saywright.judging.judge import judge, judgements
from saywright.judging.orders import orders
from saywright.judging.refit import refit
from saywright.judging.wording import figure, with_unit
from saywright.record.events import Payload
from saywright.record.types import OpenKind
from saywright.report.bench_work import minutes_text
from saywright.sheets.model import Rule

with_torque = refit_sheet
PAGE = (Path(__file__).parents[2] / "docs" / "judging.md").read_text(encoding="utf-8")
DOC = " ".join(word for word in PAGE.split() if word != ">")
JET = {"component": "main_jet", "characteristic": "size", "unit": "1"}
TURNS = {"component": "air_screw", "characteristic": "turns_out", "unit": "turn"}

WORKED: dict[str, tuple[Any, ...]] = {
    "conforms": (reading("s1", "18.42"),),
    "does not conform": (reading("s1", "18.91"),),
    "undecided": (reading("s1", "18.78"),),
    "on the limit": (reading("s1", "18.80"),),
    "repeats": tuple(
        reading(f"s{n}", value, repeat_of=None if n == 1 else "s1")
        for n, value in enumerate(("18.70", "18.76", "18.79"), start=1)
    ),
    "size": (reading("s1", "127", **JET),),
    "setting": (reading("s0", "1.50", **TURNS), reading("s1", "1.75", stage="as_left", **TURNS)),
    "unit": (reading("s1", "4", unit="thou", component="bush", which="upper", characteristic="bore"),),
}


@pytest.mark.parametrize("case", WORKED)
def test_sentences_of_the_page(empty, sheet, case: str) -> None:
    """Each sentence on the page is the report's, word for word."""
    sentence = judgements(record_of(empty, *WORKED[case]), sheet)["s1"].sentence
    assert sentence in DOC


def test_outlier_of_the_page(empty, sheet) -> None:
    """The question about a value that stands apart."""
    five = (
        reading(f"s{n}", value, repeat_of=None if n == 1 else "s1")
        for n, value in enumerate(("18.42", "18.42", "18.43", "18.42", "18.46"), start=1)
    )
    asked = [item.text for item in judge(record_of(empty, *five), sheet).open_items if item.kind == "ask"]
    assert asked[0] in DOC


def test_computed_value_of_the_page() -> None:
    """The clearance on the page."""
    (found,) = computed(record_of(EMPTY, bore("s1", "8.030"), shaft("s2", "7.975")), SHAFT)
    assert found.judgement.sentence in DOC
    assert "0.0033" == f"{found.judgement.u:.4f}"


def test_history_of_the_page() -> None:
    """The change and the trend on the page."""
    left = history([visit(0, reading("s1", "18.42", stage="as_left")), visit(1, reading("s1", "18.58"))])
    assert left[0].changes[0].sentence in DOC
    assert trend_sentence(heights("18.70", "18.60", "18.51", "18.40", "18.31")) in DOC
    assert f"From {trend.FEWEST} values on" in DOC
    assert f"From {charts.FEWEST} values as found on" in DOC


def test_capability_of_the_page() -> None:
    """Thirty heights, and one less."""
    told = [f"18.{25 + 7 * n % 31}" for n in range(30)]
    records = [visit(n, reading("s1", height)).record for n, height in enumerate(told)]
    assert ("18.25", "18.55") == (min(told), max(told))
    for some in (records, records[1:]):
        (height,) = across(some, SHEET).spreads
        assert height.sentence in DOC


def test_bench_time_of_the_page() -> None:
    """The table of the page, and what is left out."""
    jet = reading("s2", "128", utterance=4, **JET)
    fitted = movement("s3", "main_jet", "fitted", utterance=6)
    talk = (said(0, 2), said(12, 15), said(112, 115), said(232, 235), said(590, 594))
    found = bench_time(record_of(EMPTY, reading("s1", utterance=3), jet, fitted), log(*talk), SHEET)
    for line in found.lines:
        row = f"| {line.label} | {line.stage.replace('_', ' ')} | {minutes_text(line.seconds)} |"
        assert row in PAGE
    assert f"silence of {found.pauses_s:.0f} s is left out, which leaves {minutes_text(found.total_s)}" in DOC


def test_refit_of_the_page(with_torque) -> None:
    """The table of the page, in its order."""
    rows = [
        f"| {line.label} | {line.to_do}{', a new one' if line.renew else ''} "
        f"| {'; '.join(f'{step.name}: {step.target}' for step in line.steps) or 'none'} |"
        for line in refit(record_of(EMPTY, *OFF), with_torque)
    ]
    assert "\n".join(rows) in PAGE


def test_budget_of_the_page(empty, sheet) -> None:
    """The caliper's budget: 0.0029 mm, 0.017 mm, together 0.018 mm, U = 0.036 mm."""
    found = judgements(record_of(empty, reading("s1", "18.42")), sheet)["s1"]
    assert [0.0029, 0.0173] == [round(part.u, 4) for part in found.budget.parts]
    assert (0.0176, "0.036 mm") == (round(found.u, 4), with_unit(figure(found.expanded), found.unit))
    assert 0.029 == round(found.guard, 4)
    for told in ("0.0029 mm", "0.0173 mm", "0.0176 mm", "U = 0.036 mm", "0.029 mm"):
        assert told in DOC


def test_open_items_of_the_page(empty, sheet) -> None:
    """The open items shown on the page are the program's."""
    items = (
        movement("s1", "screw", "removed", 4),
        movement("s2", "screw", "fitted", 3),
        movement("s3", "gasket", "removed"),
        movement("s4", "gasket", "fitted"),
    )
    for item in judge(record_of(empty, *items), sheet).open_items:
        if item.kind in ("off", "not_renewed"):
            assert item.text in DOC


def test_order_of_the_page(empty, sheet) -> None:
    """The order line on the page is the program's."""
    record = record_of(
        empty,
        condition("s1", "main_jet", "scored", severity="severe"),
        reading("s2", "127", **JET),
        action("s3", "main_jet", "replace", "proposed"),
    )
    order = orders(judge(record, sheet), sheet)[0]
    assert f"{order.quantity} × {order.label}, {order.part_number}: {order.reason}" in DOC


@pytest.mark.parametrize("rule", get_args(Rule))
def test_rules_are_named(rule: str) -> None:
    """Each rule a sheet may name is on the page."""
    assert f"`{rule}`" in DOC


@pytest.mark.parametrize("kind", get_args(OpenKind))
def test_open_kinds_are_named(kind: str) -> None:
    """Each kind of open item is in the table."""
    assert f"| `{kind}` |" in DOC


@pytest.mark.parametrize("payload", get_args(Payload))
def test_events_are_named(payload: type[Payload]) -> None:
    """Each kind of event has its row."""
    page = (Path(__file__).parents[2] / "docs" / "events.md").read_text(encoding="utf-8")
    assert f"| `{payload.model_fields['kind'].default}` |" in page
