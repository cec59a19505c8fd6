"""Parts to order, merged over the job."""

from __future__ import annotations

import pytest

from judging.said import ASK, action, condition, movement, other, reading, record_of
from saywright.judging.judge import judge
from saywright.judging.orders import orders
from saywright.record.types import Identifier


def test_merged_with_its_reasons(empty, sheet) -> None:
    """One line a component, with number, reasons and the items it rests on."""
    jet = {"component": "main_jet", "characteristic": "size", "unit": "1"}
    record = record_of(
        empty,
        condition("s1", "main_jet", "scored", severity="severe"),
        condition("s2", "main_jet", "clean"),
        condition("s3", "main_jet", "worn", present=False),
        reading("s4", "127", **jet),
        action("s5", "main_jet", "replace", "proposed"),
        action("s6", "main_jet", "order", "proposed"),
    )
    found = orders(judge(record, sheet), sheet)
    assert 1 == len(found)
    assert ("main_jet", "main jet", 1, "MJ-1", False) == (
        found[0].component,
        found[0].label,
        found[0].quantity,
        found[0].part_number,
        found[0].provisional,
    )
    assert "scored (severe), main jet size 127 (limits 125, 128 or 130)" == found[0].reason
    assert ("s5", "s6", "s1", "s4") == found[0].evidence


@pytest.mark.parametrize(
    "later",
    [
        action("s9", "main_jet", "replace", "done"),
        action("s9", "main_jet", "replace", "declined"),
        movement("s9", "main_jet", "fitted", part="new"),
    ],
)
def test_done_or_declined_since_is_dropped(empty, sheet, later) -> None:
    """What was done, fitted new or decided against after all is not ordered."""
    record = record_of(empty, action("s1", "main_jet", "replace", "proposed"), later)
    assert () == orders(record, sheet)


def test_proposed_again_after_declining(empty, sheet) -> None:
    """The last word counts, also where it is said after the id ten."""
    record = record_of(
        empty,
        action("s9", "main_jet", "replace", "declined"),
        action("s10", "main_jet", "replace", "proposed"),
    )
    assert ["s10"] == [item for order in orders(record, sheet) for item in order.evidence]


@pytest.mark.parametrize(
    ("proposals", "quantity"),
    [
        ([{"which": "upper"}], 1),
        ([{"which": "upper"}, {"which": "lower"}], 2),
        ([{"which": "upper"}, {"which": "upper"}], 1),
        ([{"quantity": 2}], 2),
        ([{"quantity": 2}, {"which": "upper"}], 2),
        ([{}], None),
        ([{}, {"which": "upper"}], None),
    ],
)
def test_quantity(empty, sheet, proposals, quantity: int | None) -> None:
    """Said again is not more; two positions are two; "the bushes" without a number is not guessed."""
    items = [action(f"s{n}", "bush", "replace", "proposed", **p) for n, p in enumerate(proposals, start=1)]
    assert quantity == orders(record_of(empty, *items), sheet)[0].quantity


def test_one_position_done_leaves_the_other(empty, sheet) -> None:
    """The upper bush was done; the lower is still to order."""
    record = record_of(
        empty,
        action("s1", "bush", "replace", "proposed", which="upper"),
        action("s2", "bush", "replace", "proposed", which="lower"),
        condition("s3", "bush", "worn", which="upper"),
        condition("s4", "bush", "scored", which="lower"),
        action("s5", "bush", "replace", "done", which="upper"),
    )
    found = orders(record, sheet)[0]
    assert (1, "lower: scored", ("s2", "s4")) == (found.quantity, found.reason, found.evidence)


def test_fewer_fitted_than_to_order_leaves_the_order(empty, sheet) -> None:
    """One new bush from stock does not cancel an order of two."""
    two = action("s1", "bush", "replace", "proposed", quantity=2)
    assert 1 == len(orders(record_of(empty, two, movement("s2", "bush", "fitted", 1, part="new")), sheet))
    assert () == orders(record_of(empty, two, movement("s2", "bush", "fitted", 2, part="new")), sheet)


@pytest.mark.parametrize(
    ("later", "left"),
    [
        (movement("s9", "gasket", "fitted", part="new"), ["s2"]),
        (action("s9", "gasket", "replace", "done"), ["s2"]),
        (action("s9", "gasket", "order", "done"), []),
        (action("s9", "gasket", "order", "declined"), []),
    ],
)
def test_an_explicit_order_stands(empty, sheet, later, left: list[str]) -> None:
    """ "Order a gasket" is not settled by fitting one from the shelf; "replace it" is."""
    record = record_of(
        empty,
        action("s1", "gasket", "replace", "proposed"),
        action("s2", "gasket", "order", "proposed"),
        later,
    )
    assert left == [item for order in orders(record, sheet) for item in order.evidence]


def test_a_piece_of_a_split_proposal_is_as_early_as_its_words(empty, sheet) -> None:
    """Done since it was said, though the piece was made after: nothing is left to order."""
    items = (
        action("s5", "main_jet", "replace", "done", utterance=8),
        action("s6", "main_jet", "replace", "proposed", utterance=3),
    )
    assert () == orders(record_of(empty, *items), sheet)


def test_other_actions_order_nothing(empty, sheet) -> None:
    """Cleaning needs no part; a withdrawn proposal neither."""
    record = record_of(
        empty,
        action("s1", "float", "clean", "proposed"),
        action("s2", "float", "replace", "proposed", superseded_by="event-3"),
    )
    assert () == orders(record, sheet)


def test_number_read_out_and_doubt(empty, sheet) -> None:
    """A part number read from the part goes before the sheet's; a doubtful proposal is provisional."""
    record = record_of(
        empty,
        action("s1", "main_jet", "replace", "proposed", flags=ASK),
        other(Identifier, "s2", identifier="part_number", component="main_jet", value="MJ-7"),
        action("s3", None, "order", "proposed", quantity=3),
    )
    jet, unnamed = orders(record, sheet)
    assert ("MJ-7", True) == (jet.part_number, jet.provisional)
    assert (None, "part not named", 3) == (unnamed.component, unnamed.label, unnamed.quantity)
