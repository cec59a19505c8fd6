"""Where a name that was heard wrong may stand: what is before it and behind it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from saywright.understanding.around import Around
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.meanings import NOTHING, Meaning
from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.tags import MOVES
from saywright.understanding.tokens import BREAK

_BE: Final = frozenset({"is", "are", "was", "were", "has", "have", "been", "looks", "measures", "reads"})
_OPENS: Final = frozenset(
    {"", BREAK, "and", "then", "with", "the", "a", "an", "both", "new", "old", "that", "this",
     "but", "of", "to", "now", "no", "bit", "little", "very", "is", "are", "was", "been", "or",
     "out", "off", "in", "on", "underneath", "first"}
)  # fmt: skip
_ENDS: Final = frozenset(
    {"", BREAK, "and", "then", "with", "out", "off", "in", "on", "both", "all", "back", "first"}
)
_BEFORE_STATE: Final = frozenset(
    {"is", "are", "was", "been", "bit", "little", "very", "badly", "slightly", "no", "gone"}
)
_BEHIND_STATE: Final = frozenset({"", BREAK, "and", "as", "but", "on", "in", "at", "that", "this"})
_OBJECTS: Final = frozenset({"it", "her", "him"})


def name_may_stand(texts: Sequence[str], first: int, last: int, word: str, lexicon: Lexicon) -> bool:
    """True where *word*, of a name of the sheet, may stand for the tokens [first, last)."""
    said = tuple(texts)
    before = texts[first - 1] if first else ""
    behind = texts[last] if last < len(texts) else ""
    opens = before in _OPENS or before in lexicon.positions or before in CLASSES
    known = lexicon.table.get((before,), NOTHING)
    opens = opens or bool(known.parts or known.aliases or known.tags & MOVES)
    if not opens:
        return False
    whole = lexicon.match((word, *said[last : last + 3]), 0)
    if (
        whole is not None
        and whole[0] > 1
        and (whole[1].parts or whole[1].aliases or whole[1].characteristics)
    ):
        return True  # "carry a bolts"
    meant = lexicon.table.get((word,), NOTHING)
    told = lexicon.names(said, last)
    if word in lexicon.positions:
        return (
            bool(told.parts or told.aliases or told.characteristics) or behind == "one"
        )  # "left in her pad"
    one = lexicon.table.get((texts[first],), NOTHING)
    if one.parts or one.aliases or (texts[last - 1] in _OBJECTS and behind not in _BE):
        return False  # "pin knocked out", "tap it out"
    if meant.conditions:
        return (
            before in _BEFORE_STATE and texts[last - 1] not in {"in", "on", "it"} and behind in _BEHIND_STATE
        )
    if behind in _BE or behind in CLASSES:
        return True
    return behind in _ENDS or bool(told.conditions or told.acts or told.tags & MOVES)


def names_place_of(around: Around, at: int, match: tuple[int, Meaning]) -> bool:
    """ "drive end cover": the end that the cover behind is at, where the first word alone is no place."""
    length, meaning = match
    first = around.lexicon.table.get(around.texts[at : at + length - 1], NOTHING)
    if not meaning.positions or first.positions:
        return False
    behind = around.names(at + length)
    parts = map(around.lexicon.sheet.get, (*behind.parts, *behind.aliases))
    return any(part is not None and part.has_places(meaning.positions) for part in parts)
