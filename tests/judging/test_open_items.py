"""What waits for a person, with ids that stay."""

from __future__ import annotations

import pytest

from judging.said import ASK, action, condition, movement, other, reading, record_of
from saywright.flags import FlagKind, flag
from saywright.judging.judge import judge
from saywright.record.types import Identifier, OpenItem, Photo, Remark, Unclear


def opened(record, sheet, *kinds: str) -> dict[str, str]:
    """Open items of these kinds: id → text."""
    return {item.id: item.text for item in judge(record, sheet).open_items if item.kind in kinds}


JET = {"component": "main_jet", "characteristic": "size", "unit": "1"}
DOUBT = "The hearings disagree about the value: 125 or 128."


@pytest.mark.parametrize(
    ("item", "text"),
    [
        (reading("s1", "128", flags=ASK, **JET), "Is the main jet size 128? It was heard as “heard 128”."),
        (
            reading("s1", "8.01", flags=ASK, component="bush", which="upper", characteristic="bore"),
            "Is the upper shaft bush bore 8.01 mm? It was heard as “heard 8.01”.",
        ),
        (condition("s1", "float", "scored", flags=ASK), "Is the float scored? It was heard as “heard”."),
        (
            condition("s1", "float", "scored", present=False, flags=ASK),
            "Is the float not scored? It was heard as “heard”.",
        ),
        (condition("s1", None, "worn", flags=ASK), "Which part is worn? It was heard as “heard”."),
        (
            action("s1", "float", "replace", "declined", flags=ASK),
            "Is “replace” decided against for the float? It was heard as “heard”.",
        ),
        (
            movement("s1", "screw", "fitted", 4, part="new", flags=ASK),
            "Did 4 × new bowl screw go on? It was heard as “heard”.",
        ),
        (
            other(Identifier, "s1", identifier="stamp", component="main_jet", value="128", flags=ASK),
            "Is the stamp of the main jet “128”? It was heard as “heard”.",
        ),
        (
            other(Photo, "s1", component="float", sha256="x", flags=ASK),
            "Does the photo “heard” show the float?",
        ),
        (other(Photo, "s1", sha256="x", flags=ASK), "Which part does the photo “heard” show?"),
        (other(Remark, "s1", flags=ASK), "What was meant by “heard”?"),
    ],
)
def test_each_kind_asks_its_question(empty, sheet, item, text: str) -> None:
    """The question, the words heard, the reason."""
    found = opened(record_of(empty, item), sheet, "ask")
    assert {"ask:s1": f"{text} {DOUBT}"} == found


def test_unclear_match(empty, sheet) -> None:
    """A picture that could belong to another mark asks by its file name."""
    flags = (flag(FlagKind.PHOTO_MATCH_UNCLEAR),)
    photo = other(Photo, "s1", component="float", sha256="x", name="a.jpg", flags=flags)
    why = "The picture could belong to another mark, or to none."
    text = f"Does the picture a.jpg belong to the mark “heard”? {why}"
    assert {"ask:s1": text} == opened(record_of(empty, photo), sheet, "ask")


def test_unclear_words(empty, sheet) -> None:
    """Measured-looking words are open until a person accepts or replaces them."""
    words = other(Unclear, "s1", component="float")
    assert {"unclear:s1": "What was measured on the float in “heard”?"} == opened(
        record_of(empty, words), sheet, "unclear"
    )
    assert {} == opened(record_of(empty, words.model_copy(update={"accepted_by": "Ines"})), sheet, "unclear")


def test_answered_asks_no_more(empty, sheet) -> None:
    """Accepted, corrected or replaced items do not ask; an accepted reading is not provisional."""
    items = [
        reading("s1", "128", flags=ASK, accepted_by="Ines", **JET),
        reading("s2", "128", flags=ASK, superseded_by="s1", **JET),
    ]
    assert {} == opened(record_of(empty, *items), sheet, "ask")
    assert [False, False] == [r.provisional for r in judge(record_of(empty, *items), sheet).readings]


def test_parts_off_and_on(empty, sheet) -> None:
    """Off, not renewed and surplus, each in words with its counts."""
    record = record_of(
        empty,
        movement("s1", "screw", "removed", 4),
        movement("s2", "screw", "fitted", 3),
        movement("s3", "gasket", "removed"),
        movement("s4", "gasket", "fitted"),
        movement("s5", "float", "fitted"),
    )
    assert {
        "off:screw": "Bowl screw: 4 came off, 3 went on; 1 not back on.",
        "not_renewed:gasket": "Bowl gasket: 1 came off and must be renewed; 1 went on, not said to be new.",
        "surplus:float": "Float: none came off, 1 went on; 1 more than came off.",
    } == opened(record, sheet, "off", "not_renewed", "surplus", "renewed_twice")


def test_renewed_twice(empty, sheet) -> None:
    """Two new gaskets for one place."""
    record = record_of(
        empty,
        movement("s1", "gasket", "removed"),
        movement("s2", "gasket", "fitted", part="new"),
        movement("s3", "gasket", "fitted", part="new"),
    )
    text = "Bowl gasket: 2 new ones went on, and there is room for 1. Was one fitted twice?"
    assert {"renewed_twice:gasket": text} == opened(
        record, sheet, "off", "not_renewed", "surplus", "renewed_twice"
    )


def test_pictures(empty, sheet) -> None:
    """A mark without a picture, and a picture without a mark; one on a part is settled."""
    record = record_of(
        empty,
        other(Photo, "s1", component="main_jet"),
        other(Photo, "p1", sha256="x", name="a.jpg", heard=""),
        other(Photo, "p2", sha256="y", name="b.jpg", heard="", component="float"),
    )
    assert {
        "photo_mark:s1": "A photo of the main jet was announced (“heard”) and no picture was found for it.",
        "photo:p1": "The picture a.jpg belongs to no spoken mark. What does it show?",
    } == opened(record, sheet, "photo_mark", "photo")


def test_explanations_stay_with_their_item(empty, sheet) -> None:
    """An explanation in the folded record is carried to the open item, and judging again keeps it."""
    explained = OpenItem(id="off:screw", kind="off", text="", explained="fitted by the owner")
    record = record_of(empty, movement("s1", "screw", "removed", 4)).model_copy(
        update={"open_items": (explained,)}
    )
    once = judge(record, sheet)
    item = next(item for item in once.open_items if item.id == "off:screw")
    assert ("fitted by the owner", "screw") == (item.explained, item.component)
    assert once == judge(once, sheet)


def test_a_recording_left_with_a_reason_stays(empty, sheet) -> None:
    """It is told with its reason, also when it is judged again; heard on since, only the reason was there."""
    left = OpenItem(id="recording:ab", kind="recording", text="The recording a.wav was not heard to its end.")
    why = OpenItem(id="recording:ab", kind="recording", text="", explained="the wrong file")
    once = judge(empty.model_copy(update={"open_items": (why, left)}), sheet)
    (item,) = [one for one in once.open_items if one.kind == "recording"]
    assert (left.text, "the wrong file") == (item.text, item.explained)
    assert once == judge(once, sheet)
    heard_on = judge(empty.model_copy(update={"open_items": (why,)}), sheet)
    assert [] == [one for one in heard_on.open_items if one.kind == "recording"]
