""" "Number three comes out", "and off comes number two": which one of the part in hand moved."""

from __future__ import annotations

from collections.abc import Sequence

from saywright.understanding.lexicon import Lexicon
from saywright.understanding.numbers.words import CARDINALS
from saywright.understanding.tags import MOVES
from saywright.understanding.tokens import BREAK

_ENDS = frozenset({BREAK, "and", "but", "then", "so"})
_COMES = frozenset({"comes", "come", "came", "goes", "go", "went", "pops", "lifts", "pulls"})


def moves_one(words: Sequence[str], lexicon: Lexicon) -> list[tuple[int, int, int]]:
    """Each number told so beside a movement: its first token, the one behind it, and the number."""
    texts = tuple(words)
    found = []
    for at in (at for at, text in enumerate(texts[:-1]) if text == "number" and texts[at + 1] in CARDINALS):
        end = at + 2
        ends = end == len(texts) or texts[end] in _ENDS
        comes = ends and at > 1 and texts[at - 1] in _COMES
        comes = comes and bool(lexicon.names(texts, at - 2).tags & MOVES)
        if comes or (end < len(texts) and lexicon.names(texts, end).tags & MOVES):
            found.append((at, end, CARDINALS.index(texts[at + 1]) + 1))
    return found
