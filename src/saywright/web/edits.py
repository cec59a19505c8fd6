"""Forms beyond a correction: enter, split, merge, undo, bench time. Each → one call of `Bench`."""

from __future__ import annotations

from saywright.bench import Bench
from saywright.errors import InputError
from saywright.record.events import Event
from saywright.web.changes import Sent, on_item, posted, unchanged
from saywright.web.entry import entered, pieces
from saywright.web.view import find_item

MAX_MERGED = 20


def _add(bench: Bench, sent: Sent) -> tuple[str, Event]:
    """Enter what was not said."""
    fields = entered(sent.text("kind", needed="Kind"), bench.sheet, sent.inputs)
    return "entered", bench.add_item(fields, why=sent.text("why"), actor=sent.actor)


def _split(bench: Bench, sent: Sent, item_id: str) -> tuple[str, Event]:
    item = find_item(bench.record(), item_id)
    unchanged(item, sent)
    made = pieces(item, bench.sheet, sent.inputs)
    why = sent.text("why")
    return "split", bench.split(item_id, made, why=why, actor=sent.actor, seen=sent.seen)


def _merge(bench: Bench, sent: Sent, item_id: str) -> tuple[str, Event]:
    """The others come as "ID EVENT": as the person saw them."""
    others: dict[str, int | None] = {}
    for chosen in sent.inputs.get("same", [])[:MAX_MERGED]:
        name, _, seen = chosen.partition(" ")
        others[name] = int(seen) if seen.isascii() and seen.isdigit() and len(seen) < 12 else None
    if not others:
        raise InputError("nothing was chosen", where="The same as", to_do="Choose one or more items")
    why = sent.text("why")
    return "merged", bench.merge(item_id, others, why=why, actor=sent.actor, seen=sent.seen)


def _undo(bench: Bench, sent: Sent) -> tuple[str, Event]:
    """Take back one event; without its number, the last change of this person."""
    text = sent.text("event")
    if text and not (text.isascii() and text.isdigit() and len(text) < 12):
        raise InputError(f"'{text[:20]}' is no event", where="Event", to_do="Choose one in the history")
    done = bench.undo(int(text) if text else None, why=sent.text("why"), actor=sent.actor)
    return "undone", done


def _time(bench: Bench, sent: Sent) -> tuple[str, Event]:
    component, stage = sent.text("component") or None, sent.text("stage", needed="Stage")
    minutes, why = sent.text("minutes", needed="Minutes"), sent.text("why")
    return "timed", bench.correct_time(component, stage, minutes, why=why, actor=sent.actor)


def _choose(bench: Bench, sent: Sent) -> tuple[str, Event]:
    """Whether a picture stands in the report."""
    chosen = {"yes": True, "no": False}.get(sent.text("in_report", needed="In the report"))
    if chosen is None:
        raise InputError("neither yes nor no was sent", where="In the report", to_do="Choose one of the two")
    photo = sent.request.path_params["photo"]
    return "shown" if chosen else "left", bench.choose_photo(photo, in_report=chosen, actor=sent.actor)


add = posted(_add)
choose = posted(_choose, anchor="#photos")
split = posted(on_item(_split))
merge = posted(on_item(_merge))
undo = posted(_undo)
time = posted(_time, anchor="#time")
