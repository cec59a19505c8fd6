"""What a thing is like that is on no record: "the same as the one in the drawer", "same as new". Pure."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import takewhile

from saywright.understanding.lexicon import Lexicon
from saywright.understanding.tokens import BREAK

_LEADS = frozenset({"the", "a", "an", "my", "your", "his", "her", "their", "that", "any", "some"})
_UNUSED = frozenset({"new", "spare", "unused", "genuine", "replacement"})
_ONES = frozenset({"one", "ones"})
_WHERE = frozenset({"in", "on", "off", "from", "at", "under", "up", "down"})
_BOOKS = frozenset(
    ["book", "manual", "plate", "drawing", "catalogue", "spec", "card", "label", "box", "packet"]
)
_ENDS = frozenset({BREAK, "and", "so", "but", "then"})


def is_like_a_stranger(texts: Sequence[str], end: int, lexicon: Lexicon) -> bool:
    """True where "the same as" before *end* likens to what was not told of; behind "same" or its "as".

    "The same as the one on the left" is one of those told of, and so is "the one I did just now".
    """
    at = end + (texts[end : end + 1] == ("as",))
    if texts[at - 1] != "as":
        return False
    said = list(takewhile(lambda text: text not in _ENDS, texts[at:]))
    while said and said[0] in _LEADS:
        del said[0]
    if not said:
        return False
    if said[0] in _UNUSED or said[0] in _BOOKS:
        return True
    there = said[1:]
    return said[0] in _ONES and there[:1] != [] and there[0] in _WHERE and not _known_there(there, lexicon)


def _known_there(there: Sequence[str], lexicon: Lexicon) -> bool:
    """True for a place of the sheet: "the one on the left", "the ones on the other side", "in the cover"."""
    if "other" in there or not lexicon.positions.isdisjoint(there):
        return True
    words = tuple(there)
    named = [lexicon.names(words, at) for at in range(len(words))]
    return any(one.parts or one.aliases for one in named)
