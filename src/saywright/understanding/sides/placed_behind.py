"""Where something went, told between its movement and its value: "cylinder in on the left nine foot pounds".

The place is of both; without it the movement would be of what was in hand.
"""

from __future__ import annotations

from itertools import pairwise

from saywright.understanding.facts import Fact, Told
from saywright.understanding.working import Working

_MOVES = frozenset({"off", "on"})
_AT = frozenset({"on", "in", "at", "to"})
_LINKS = _AT | {"the"}
_NOUNS = frozenset({"side", "end", "one"})


def place_by_tail(told: Told, work: Working) -> None:
    """Give movements the place that stands right behind them, before a value read there."""
    for moved, value in pairwise(told.facts):
        if value.kind != "value" or moved.kind not in _MOVES or not moved.subjects:
            continue
        place = _place_between(moved, value, work)
        if place and all(s.components and not (s.which or s.selector) for s in moved.subjects):
            moved.subjects = [s.placed(place) for s in moved.subjects]


def _place_between(moved: Fact, value: Fact, work: Working) -> str:
    """The place that the value is told of, where it is where that went; "" for none."""
    between = work.texts[moved.phrase.end : value.phrase.start]
    if not _AT.issuperset(between[:1]) or not between:
        return ""
    behind = (s for s in value.subjects if s.start > moved.phrase.end and len(s.which) == 1)
    places = [s.which[0] for s in behind]
    said = set(between) - _LINKS
    return places[0] if len(places) == 1 and said <= {*places[0].split(), *_NOUNS} else ""
