"""What came off and what went on."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from record.conftest import SHEET, START
from saywright.errors import NotFoundError
from saywright.record.ledger import Ledger, LedgerLine, ledger
from saywright.record.types import Action, Condition, Job, Movement, Photo, Record

EMPTY = Record(job=Job(id="j1", title="Pump", sheet="pump", sheet_revision="A", opened_at=START))


def moved(item_id: str, component: str, way: str, count: int = 1, **more: Any) -> Movement:
    """Parts off or on."""
    fields = {"stage": "as_found", "heard": "…", "component": component, "movement": way, "count": count}
    return Movement.model_validate({"id": item_id, **fields, **more})


def replaced(item_id: str, component: str, status: str = "done", **more: Any) -> Action:
    """A replacement."""
    fields = {"stage": "as_left", "heard": "…", "component": component, "action": "replace", "status": status}
    return Action.model_validate({"id": item_id, **fields, **more})


def balance(*items: Any, up_to: str | None = None) -> Ledger:
    """The ledger of these items."""
    record = EMPTY.model_copy(
        update={
            "movements": tuple(i for i in items if isinstance(i, Movement)),
            "actions": tuple(i for i in items if isinstance(i, Action)),
            "conditions": tuple(i for i in items if isinstance(i, Condition)),
            "photos": tuple(i for i in items if isinstance(i, Photo)),
        }
    )
    return ledger(record, SHEET, up_to=up_to)


def line(*items: Any) -> LedgerLine:
    """The one line of these items."""
    (only,) = balance(*items).lines
    return only


def test_all_back() -> None:
    """Four off in two goes, four on: balanced."""
    found = line(
        moved("s1", "screw", "removed", 3), moved("s2", "screw", "removed"), moved("s3", "screw", "fitted", 4)
    )
    assert (4, 4, 0, 0, 0) == (found.removed, found.fitted, found.net, found.missing, found.surplus)
    assert ("s1", "s2", "s3") == found.items


def test_one_short_and_one_too_many() -> None:
    """Three of four back is one missing; five is one surplus."""
    off = moved("s1", "screw", "removed", 4)
    assert (1, 0) == ((x := line(off, moved("s2", "screw", "fitted", 3))).missing, x.surplus)
    assert (0, 1) == ((x := line(off, moved("s2", "screw", "fitted", 5))).missing, x.surplus)


def test_positions_stand_alone_where_all_are_named() -> None:
    """Upper off and lower on is one missing and one surplus, not a balance."""
    found = balance(
        moved("s1", "bush", "removed", which="upper"), moved("s2", "bush", "fitted", which="lower")
    )
    upper, lower = found.of("bush", "upper"), found.of("bush", "lower")
    assert upper is not None
    assert lower is not None
    assert (1, 1, False) == (upper.missing, lower.surplus, found.balanced)


def test_positions_join_where_one_is_not_named() -> None:
    """Upper off, lower off, "both bushes in" is a balance of the component."""
    found = balance(
        moved("s1", "bush", "removed", which="upper"),
        moved("s2", "bush", "removed", which="lower"),
        moved("s3", "bush", "fitted", 2),
    )
    assert found.balanced
    assert found.of("bush") is not None


@pytest.mark.parametrize(
    ("items", "renewed", "not_renewed", "twice", "dropped"),
    [
        ([moved("s2", "gasket", "fitted", part="new")], 1, 0, 0, 1),
        ([moved("s2", "gasket", "fitted", part="old")], 0, 1, 0, 0),
        ([moved("s2", "gasket", "fitted")], 0, 1, 0, 0),
        ([moved("s2", "gasket", "fitted"), replaced("s3", "gasket")], 1, 0, 0, 1),
        ([replaced("s2", "gasket")], 1, 0, 0, 1),
        ([replaced("s2", "gasket"), moved("s3", "gasket", "fitted", part="new")], 1, 0, 0, 1),
        ([replaced("s2", "gasket", "proposed")], 0, 1, 0, 0),
        (
            [moved("s2", "gasket", "fitted", part="new"), moved("s3", "gasket", "fitted", part="new")],
            2,
            0,
            1,
            1,
        ),
    ],
)
def test_renewal(items: list[Any], renewed: int, not_renewed: int, twice: int, dropped: int) -> None:
    """One off to renew: said to be new or replaced counts once; not said does not count."""
    found = line(moved("s1", "gasket", "removed"), *items)
    counts = (found.renewed, found.not_renewed, found.renewed_twice, found.dropped)
    assert (renewed, not_renewed, twice, dropped) == counts


def test_found_missing_is_no_surplus() -> None:
    """A screw that was missing as found may be fitted without one coming off."""
    absent = Condition(id="s1", stage="as_found", heard="…", component="float", condition="missing")
    assert 0 == line(absent, moved("s2", "float", "fitted")).surplus
    denied = absent.model_copy(update={"present": False})
    assert 1 == line(denied, moved("s2", "float", "fitted")).surplus


def test_found_missing_by_position() -> None:
    """One of two bushes found missing lets two go on where one came off."""
    absent = Condition(
        id="s1", stage="as_found", heard="…", component="bush", which="upper", condition="missing"
    )
    assert 0 == line(absent, moved("s2", "bush", "removed"), moved("s3", "bush", "fitted", 2)).surplus


def test_state_at_a_moment() -> None:
    """Up to an item of any kind, in the order said; ten comes after nine."""
    items = (
        moved("s2", "screw", "removed", 4),
        replaced("s9", "float", "proposed"),
        moved("s10", "screw", "fitted", 4),
    )
    then, now = balance(*items, up_to="s9").of("screw"), balance(*items).of("screw")
    assert then is not None
    assert now is not None
    assert (4, 0) == (then.missing, now.missing)


def test_a_moment_counts_what_was_said_by_then() -> None:
    """Pieces of a movement that a person split later still came off when that was said."""
    items = (
        moved("s2", "screw", "removed", 4, utterance=3, superseded_by="s11"),
        replaced("s9", "float", "proposed", utterance=8),
        moved("s10", "screw", "fitted", 4, utterance=9),
        moved("s11", "screw", "removed", 3, utterance=3),
        moved("s12", "screw", "removed", 1, utterance=3),
    )
    then = balance(*items, up_to="s9").of("screw")
    assert then is not None
    assert (4, 0) == (then.removed, then.fitted)


@pytest.mark.parametrize("unsaid", ["s99", "p1", ""])
def test_only_what_was_said_is_a_moment(unsaid: str) -> None:
    """A picture, or an id that nothing has, is told in one line."""
    items = (moved("s2", "screw", "removed", 4), Photo(id="p1", stage="as_found", heard="", sha256="ab"))
    with pytest.raises(NotFoundError, match=f"nothing said has the id '{unsaid}'. Take the id of an item"):
        balance(*items, up_to=unsaid)


def test_ignores_what_no_longer_holds() -> None:
    """Withdrawn movements do not count."""
    assert () == balance(moved("s1", "screw", "removed", 4, superseded_by="event-9")).lines


def test_order_of_the_sheet() -> None:
    """Lines come as the sheet lists its components, whatever came off first."""
    found = balance(moved("s1", "screw", "removed"), moved("s2", "float", "removed"))
    assert ["float", "screw"] == [x.component for x in found.lines]


@given(
    st.lists(
        st.tuples(
            st.sampled_from(["removed", "fitted"]), st.integers(1, 5), st.sampled_from([None, "old", "new"])
        )
    )
)
def test_nothing_appears_or_vanishes(steps: list[tuple[str, int, str | None]]) -> None:
    """Whatever is said: off less on is missing, on less off is surplus, and all parts are accounted for."""
    items = [moved(f"s{n}", "screw", way, count, part=part) for n, (way, count, part) in enumerate(steps, 1)]
    for found in balance(*items).lines:
        removed = sum(count for way, count, _ in steps if way == "removed")
        fitted = sum(count for way, count, _ in steps if way == "fitted")
        assert (removed, fitted, fitted - removed) == (found.removed, found.fitted, found.net)
        assert found.surplus - found.missing == found.net
        assert 0 in (found.surplus, found.missing)
