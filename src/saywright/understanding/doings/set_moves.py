"""Words of movement that tell how a part is set or sized: "right one's on two", "gone out to thirty"."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from saywright.sheets.model import Component
from saywright.understanding.counting.aloud import is_counted
from saywright.understanding.facts import Fact, Told
from saywright.understanding.quantities.measures import Measure
from saywright.understanding.working import Working
from saywright.units import get_unit

_IS: Final = frozenset({"is", "are", "was", "were", "sat", "sits", "still", "now", "both"})
_GROWN: Final = frozenset(
    ["is", "are", "was", "were", "gone", "went", "goes", "come", "came", "grown", "opened", "taken"]
)  # fmt: skip
_FAR: Final = frozenset({"in", "down"})
_COUNTS: Final = frozenset({"count", "counted", "counting", "counts"})
_BACK_ON: Final = frozenset({("back", "in"), ("back", "on")})
_AT_HEAD: Final = frozenset({"and", "now", "so", "right", "okay", "then", "well"})
_SET_IN: Final = frozenset({"turn", "number"})
_TURNED: Final = frozenset(  # no "screw": most of what is turned is called so
    [verb + tail for verb in ("turn", "wind", "crank", "back") for tail in ("", "s", "ed", "ing")]
    + ["wound", "run", "ran", "running", "screwed", "screwing", "in"]
)
_TILL: Final = frozenset({("till",), ("until",)})
_WAYS: Final = frozenset({("in",), ("out",), ("up",), ("down",), ("home",)})
_FALLS: Final = frozenset({"falls", "drops", "comes", "pops", "fell", "came"})
_CLAUSE: Final = 5  # tokens of "till it drops in my hand"
_REACH = 3  # tokens from "counted" to what is counted


def drop_settings(told: Told, work: Working) -> None:
    """Leave out the movements of *told* that only tell how a part is set, or where one is again."""
    if not [f for f in told.facts if f.kind in {"on", "off"}]:
        return
    told.facts = [f for f in told.facts if f.kind not in {"on", "off"} or not _is_setting(f, told, work)]


def _is_setting(fact: Fact, told: Told, work: Working) -> bool:
    start, end = fact.phrase.start, fact.phrase.end
    if _is_turned_till(fact, work):
        return True
    value = next((f for f in told.facts if f.kind == "value" and f.phrase.start >= end), None)
    measure = value.phrase.measure if value is not None else None
    if value is None or measure is None:
        return _is_counted_in(fact, work)
    if value.phrase.start - end <= 1 and _is_at_number(work.texts[:end], measure):
        at_once = value.phrase.start == end
        return at_once and fact.kind == "on" and any(map(_is_set_by_count, _parts_of(fact, work)))
    if _went_so_far(fact, value, measure, work):
        return True
    if fact.kind == "off" and _is_grown_to(work.texts, fact, value, measure):
        return True
    back = fact.kind == "on" and work.texts[start:end] in _BACK_ON
    return (back and _is_there_again(fact, value, work)) or _is_counted_in(fact, work)


def _is_turned_till(fact: Fact, work: Working) -> bool:
    """ "Wind the adjuster out till the wheel locks": turned; not "screw out till it drops in your hand".

    Where no verb of turning is said, as in "adjuster out until I find a new one", it came off.
    """
    said = work.texts[: fact.phrase.end]
    if _TURNED.isdisjoint(said) and said[0] != "screw":
        return False
    end = fact.told_to
    end += work.texts[end : end + 1] in _WAYS
    if work.texts[end : end + 1] not in _TILL or not _FALLS.isdisjoint(work.texts[end + 1 : end + _CLAUSE]):
        return False
    return any(is_counted(c) for part in _parts_of(fact, work) for c in part.characteristic)


def _is_at_number(head: Sequence[str], measure: Measure) -> bool:
    """ "Handbrake was on nine", "right one's on two": no torque is said so without its unit."""
    kind = get_unit(measure.unit).kind if measure.unit is not None else "number"
    return head[-1] == "on" and head[-2:-1] != () and head[-2] in _IS and kind in _SET_IN


def _is_grown_to(texts: Sequence[str], fact: Fact, value: Fact, measure: Measure) -> bool:
    """ "It's gone out to two twenty nine point four": how wide it is now."""
    end = fact.phrase.end
    if texts[end - 1] != "out" or texts[end : end + 1] != ("to",) or value.phrase.start > end + 1:
        return False
    turned = measure.unit is not None and get_unit(measure.unit).kind == "turn"
    return not turned and texts[end - 2] in _GROWN


def _went_so_far(fact: Fact, value: Fact, measure: Measure, work: Working) -> bool:
    """ "The screw went in one and a half turns until it seated": counted, of a screw that never came off."""
    times = work.texts[value.phrase.end : value.phrase.end + 1] == ("times",)
    turned = not times if measure.unit is None else get_unit(measure.unit).kind == "turn"
    if not turned or value.phrase.start > fact.phrase.end + 1 or work.stage != "as_found":
        return False
    if work.texts[fact.phrase.end - 1] not in _FAR or "back" in work.texts[: fact.phrase.end]:
        return False
    counted = [part for part in _parts_of(fact, work) if any(is_counted(c) for c in part.characteristic)]
    return bool(counted) and not any(work.off.get(part.id, 0) for part in counted)


def _is_there_again(fact: Fact, value: Fact, work: Working) -> bool:
    """ "Back in the left pilot's forty": nothing of it came off, so that one is back at that side."""
    head = work.texts[: fact.phrase.start]
    if work.stage != "as_found" or not _AT_HEAD.issuperset(head) or fact.subjects != value.subjects:
        return False
    placed = any(s.start <= fact.phrase.end + 1 and s.which for s in fact.subjects)
    parts = _parts_of(fact, work)
    return placed and bool(parts) and not any(work.off.get(part.id, 0) for part in parts)


def _is_counted_in(fact: Fact, work: Working) -> bool:
    """ "Counted the left mixture screw in and it's one and a half": turned, to count its turns."""
    texts, start = work.texts, min((fact.phrase.start, *(s.start for s in fact.subjects)))
    if texts[fact.phrase.end - 1] not in {"in", "out", "down"} or _COUNTS.isdisjoint(texts):
        return False
    said = texts[max(0, start - _REACH) : fact.phrase.start]
    parts = _parts_of(fact, work)
    return not _COUNTS.isdisjoint(said) and any(is_counted(c) for p in parts for c in p.characteristic)


def _parts_of(fact: Fact, work: Working) -> list[Component]:
    """The parts that are spoken of, else the one in hand."""
    named = [c for s in fact.subjects for c in s.components]
    held = [work.hand.component] if work.hand is not None and not named else []
    return [part for part in map(work.sheet.get, (*named, *held)) if part is not None]


def _is_set_by_count(part: Component) -> bool:
    """True for a part of which turns, clicks or places are read, and no torque."""
    kinds = {get_unit(c.unit).kind for c in part.characteristic}
    return any(is_counted(c) for c in part.characteristic) and "torque" not in kinds
