"""Which named place a value takes: the one said beside it, else the one that ended the last utterance."""

from __future__ import annotations

from collections.abc import Sequence

from saywright.understanding.meanings import CharacteristicKey
from saywright.understanding.values.named_places import place_at, places_of
from saywright.understanding.working import Working


def said_place(work: Working, values: Sequence[tuple[int, int]], value: tuple[int, int]) -> str | None:
    """The place said beside the value, whatever it is a value of."""
    spot = place_at(work.spots, values, value, work.texts)
    return spot.name if spot is not None else None


def named_place(
    work: Working, values: Sequence[tuple[int, int]], value: tuple[int, int], key: CharacteristicKey
) -> str | None:
    """The place of the value whose tokens are *value*, where what *key* names can be read at it."""
    component, characteristic = work.sheet.get(key[0]), work.sheet.find(*key)
    if component is None or characteristic is None:
        return None
    known = places_of(component, characteristic)
    spot = place_at(work.spots, values, value, work.texts)
    if spot is not None:
        if spot.name not in known:
            return None
        work.placed.add(spot)
        work.covered.append((spot.start, spot.end))
        return spot.name
    waiting = work.before.place
    return waiting if waiting in known and value == min(values) else None
