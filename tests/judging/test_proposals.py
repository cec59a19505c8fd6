"""What became of each proposal."""

from __future__ import annotations

import pytest

from judging.said import action, movement, record_of
from saywright.judging.orders import NEW_ONE_SINCE, orders
from saywright.judging.proposals import settled


def proposed(item_id: str, what: str, component: str = "main_jet", **given):
    """A proposal."""
    return action(item_id, component, what, "proposed", **given)


@pytest.mark.parametrize(
    ("what", "later", "over"),
    [
        ("clean", action("s9", "main_jet", "clean", "done"), True),
        ("clean", action("s9", "main_jet", "clean", "declined"), True),
        ("clean", action("s9", "float", "clean", "done"), False),
        ("clean", action("s9", "main_jet", "replace", "done"), False),
        ("replace", action("s9", "main_jet", "replace", "done"), True),
        ("replace", action("s9", "main_jet", "replace", "declined"), True),
        ("replace", action("s9", "main_jet", "order", "done"), False),
        ("replace", action("s9", "main_jet", "order", "declined"), False),
        ("replace", movement("s9", "main_jet", "fitted", part="new"), True),
        ("replace", movement("s9", "main_jet", "fitted"), False),
        ("replace", movement("s9", "main_jet", "removed"), False),
        ("order", action("s9", "main_jet", "order", "done"), True),
        ("order", action("s9", "main_jet", "replace", "done"), False),
        ("order", action("s9", "main_jet", "replace", "declined"), True),
        ("order", movement("s9", "main_jet", "fitted", part="new"), False),
        ("reuse", movement("s9", "main_jet", "fitted"), True),
        ("reuse", movement("s9", "main_jet", "fitted", part="new"), False),
    ],
)
def test_what_settles_a_proposal(empty, sheet, what: str, later, over: bool) -> None:
    """What was done or decided against, and a part that went on, each for what it answers."""
    found = settled(record_of(empty, proposed("s1", what), later), sheet)
    assert ({"s1": "s9"} if over else {}) == {name: step.id for name, step in found.items()}


def test_what_was_done_before_it_was_proposed_settles_nothing(empty, sheet) -> None:
    """Cleaned, and to be cleaned again: that is still to do."""
    record = record_of(empty, action("s1", "float", "clean", "done"), proposed("s2", "clean", "float"))
    assert {} == settled(record, sheet)


@pytest.mark.parametrize(
    ("steps", "over"),
    [
        ([{"which": "upper"}], False),
        ([{"which": "upper"}, {"which": "upper"}], False),
        ([{"which": "upper"}, {"which": "lower"}], True),
        ([{"count": 1}], False),
        ([{"count": 1}, {"count": 1}], True),
        ([{"count": 2}], True),
        ([{"count": 1}, {"count": 1, "movement": "removed"}, {"count": 1}], False),
    ],
)
@pytest.mark.parametrize("said", [{}, {"quantity": 2}])
def test_of_several_all_must_be_done(empty, sheet, said, steps, over: bool) -> None:
    """Both bushes to be replaced: one new one leaves the proposal standing, two settle it."""
    fitted = [
        movement(
            f"s{n}",
            "bush",
            step.get("movement", "fitted"),
            step.get("count", 1),
            part=None if "movement" in step else "new",
            which=step.get("which"),
        )
        for n, step in enumerate(steps, start=2)
    ]
    record = record_of(empty, proposed("s1", "replace", "bush", **said), *fitted)
    assert over == ("s1" in settled(record, sheet))
    assert over == (() == orders(record, sheet))


def test_what_is_told_as_work_and_as_fitted_is_one_part(empty, sheet) -> None:
    """ "Replaced one bush, one new bush on": that is one of the two."""
    steps = (
        action("s2", "bush", "replace", "done", quantity=1),
        movement("s3", "bush", "fitted", 1, part="new"),
    )
    assert {} == settled(record_of(empty, proposed("s1", "replace", "bush"), *steps), sheet)


def test_an_order_says_that_a_new_one_is_on(empty, sheet) -> None:
    """What was fitted since stays on the list only where it was ordered in so many words, and says so."""
    order = proposed("s1", "order", "gasket")
    before = orders(record_of(empty, order), sheet)[0]
    since = orders(record_of(empty, order, movement("s2", "gasket", "fitted", part="new")), sheet)[0]
    assert ("", NEW_ONE_SINCE) == (before.reason, since.reason)
