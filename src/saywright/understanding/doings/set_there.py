"""What a thing is set to, where the sheet counts such places: "is in hole three", "is on click four"."""

from __future__ import annotations

from collections.abc import Sequence

from saywright.understanding.around import Around
from saywright.understanding.meanings import CharacteristicKey
from saywright.understanding.tokens import BREAK

SITS = frozenset({"is", "are", "was", "were", "sat", "sits", "went", "goes", "came"})


def set_there(around: Around, following: int) -> bool:
    """ "is on click three", "is in hole three": what it is set to, where the sheet counts such a thing."""
    said = around.text(following) not in {"", BREAK}
    found = around.lexicon.match(around.texts, following) if said else None
    placed = around.texts[following - 1 : following] == ("on",)
    placed = placed or (
        around.texts[following - 1 : following] == ("in",) and around.text(following - 2) in SITS
    )
    if found is None or not placed or following + found[0] not in around.measures:
        return False
    return _are_counts(around, found[1].characteristics)


def like_the_one_before(around: Around, following: int) -> bool:
    """ "groove one and the other's on two": the same is told of another of them."""
    measure = around.measures.get(following)
    if measure is None or measure.unit_said is not None or around.texts[following - 1] not in {"in", "on"}:
        return False
    named = [key for tag in around.out if tag.kind == "CHAR" for key in tag.meaning.characteristics]
    last = around.last
    if not named and last is not None and last.kind == "PART":  # "stroke link's on three"
        parts = map(around.lexicon.sheet.get, last.meaning.parts or last.meaning.aliases)
        named = [(part.id, c.id) for part in parts if part is not None for c in part.characteristic]
    return _are_counts(around, named)


def _are_counts(around: Around, keys: Sequence[CharacteristicKey]) -> bool:
    """True where each of *keys* is a count, and there is one."""
    read = [around.lexicon.sheet.find(*key) for key in keys]
    return bool(read) and all(one is not None and one.is_count for one in read)
