"""A position by another word behind its number: "bushes ten oh seven top and ten oh eight bottom". Pure."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from saywright.understanding.numbers.tokens import is_number_word
from saywright.understanding.tokens import BREAK

if TYPE_CHECKING:
    from saywright.understanding.discourse import Hand
    from saywright.understanding.lexicon import Lexicon

# Places that stand against each other.
_AXES: Final = (
    frozenset({"upper", "lower", "middle"}),
    frozenset({"inner", "outer", "middle"}),
    frozenset({"front", "rear", "middle"}),
)
_ENDS: Final = ((), (BREAK,), ("and",), ("then",))


def places_facing(place: str) -> frozenset[str]:
    """The places that stand against *place*."""
    return frozenset().union(*(axis - {place} for axis in _AXES if place in axis))


def told_behind_value(texts: tuple[str, ...], at: int, lexicon: Lexicon, held: Hand | None) -> bool:
    """ "Bushes ten oh seven top and ten oh eight bottom": behind its number, facing another one there."""
    if not at or not is_number_word(texts, at - 1) or texts[at + 1 : at + 2] not in _ENDS:
        return False
    place, others = lexicon.other_places[texts[at]], lexicon.other_places
    others_there = [i for i, text in enumerate(texts) if i and others.get(text, text) in places_facing(place)]
    if not any(is_number_word(texts, i - 1) for i in others_there):
        return False
    named = {c for i in range(at) if texts[i] != BREAK for c in lexicon.names(texts, i).parts}
    parts = [lexicon.sheet.get(c) for c in named or ({held.component} if held is not None else ())]
    return bool(parts) and all(part is not None and part.has_places((place,)) for part in parts)
