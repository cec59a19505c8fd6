"""A word of size behind a value tells what was measured: "one point seven eight thick". Pure."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from saywright.sheets.model import Sheet
from saywright.understanding.facts import Fact
from saywright.understanding.meanings import CharacteristicKey
from saywright.understanding.tokens import spoken_form
from saywright.units import get_unit

# Word behind the value → the nouns that a characteristic so measured has in its name.
_NOUNS: Final[dict[str, tuple[str, ...]]] = {
    "thick": ("thickness", "lining"),
    "long": ("length",),
    "wide": ("width", "breadth"),
    "across": ("width", "diameter"),
    "deep": ("depth",),
    "high": ("height",),
    "tall": ("height", "length"),
    "apart": ("gap", "distance"),
    "hot": ("temperature",),
    "heavy": ("weight", "mass"),
}
_KINDS: Final = {"hot": "temperature", "heavy": "mass"}  # of unit; the others are lengths


def has_no_such(fact: Fact, components: Sequence[str], sheet: Sheet, texts: Sequence[str]) -> bool:
    """ "bolt's out and it's five point eight thick": nothing of the kind is read on *components*."""
    word = texts[fact.phrase.end] if fact.phrase.end < len(texts) else ""
    kind = _KINDS.get(word, "length")
    parts = [part for part in map(sheet.get, components) if part is not None]
    return word in _NOUNS and all(get_unit(c.unit).kind != kind for p in parts for c in p.characteristic)


def by_dimension(
    fact: Fact, components: Sequence[str], sheet: Sheet, texts: Sequence[str]
) -> list[CharacteristicKey]:
    """What is read on *components* and has the dimension said behind the value; [] where none is said."""
    end = fact.phrase.end
    nouns = _NOUNS.get(texts[end], ()) if end < len(texts) else ()
    if not nouns:
        return []
    parts = [part for part in map(sheet.get, components) if part is not None]
    return [
        (part.id, c.id)
        for part in parts
        for c in part.characteristic
        if any(not set(nouns).isdisjoint(spoken_form(name)) for name in (*c.names, c.label))
    ]
