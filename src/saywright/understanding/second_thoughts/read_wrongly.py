""" "Misread the jug, two point two litres", "again under the lamp, thirty eight six, that's the one". Pure.

What tells why the value before was wrong, or that the one read once more is to stand, becomes "no".
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from saywright.understanding.numbers.words import CLASSES, OH
from saywright.understanding.statements import Reading
from saywright.understanding.steps import Tokens, called_by
from saywright.understanding.tokens import BREAK, HESITATIONS, text_at

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_MISREAD: Final = frozenset({"misread", "miscounted", "misjudged", "mismeasured"})
_READ: Final = frozenset({"read", "counted", "held", "measured", "set", "looked"})
_THE: Final = frozenset({"the", "my", "that", "this"})
_LEADS: Final = HESITATIONS | frozenset(
    ["i", "we", "sorry", "no", "oh", "just", "only", "have", "had", "and", "right", "hang", "hold", "on",
     "wait"]
)  # fmt: skip
_TO_VALUE: Final = frozenset({BREAK, "it", "is", "was", "that", "so", "to", "be", "actually", "really"})
_AGAIN: Final = (("again",), ("once", "more"), ("one", "more", "time"), ("measured", "again"))
_STANDS: Final = (
    ("that", "is", "the", "one"), ("that", "is", "the", "right", "one"), ("use", "that", "one"),
    ("that", "is", "the", "one", "to", "write"), ("take", "that", "one"), ("write", "that", "one"),
    ("that", "is", "the", "one", "to", "use"), ("that", "is", "the", "real", "one"),
)  # fmt: skip
_LONGEST: Final = 6  # words of where it was read again
_WORDS: Final = 3  # words of what was misread
_NUMBERS: Final = frozenset(CLASSES) | OH


@called_by(_MISREAD | {"wrong", "again", "more"})
def read_wrongly(tokens: Tokens, state: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* with "no" for what says that the value told just before does not stand."""
    if not state.recent or not any(type(s) is Reading for s in state.recent[-1]):
        return tokens
    texts = [token.text for token in tokens]
    at = next((i for i, text in enumerate(texts) if text not in _LEADS), len(texts))
    if at and text_at(texts, at) in _MISREAD and texts[at + 1 :] in (["that"], ["it"], ["that", "one"]):
        return (tokens[at], replace(tokens[-1], text="that"))  # "I misread it": what was read is in doubt
    end = _misread_end(texts, at) or _once_more_end(texts, at)
    if not end or not _names_nothing(texts, at, end, lexicon):
        return tokens
    while text_at(texts, end) in _TO_VALUE:
        end += 1
    if text_at(texts, end) not in _NUMBERS:
        return tokens
    return (replace(tokens[0], text="no"), *tokens[end:])


def _misread_end(texts: list[str], at: int) -> int:
    """Index behind "misread the jug", "read the jug wrong", "looked at the wrong line"; 0 for others."""
    if text_at(texts, at) in _MISREAD:
        return at + 3 if text_at(texts, at + 1) in _THE and text_at(texts, at + 2) not in _NUMBERS else 0
    if text_at(texts, at) not in _READ:
        return 0
    wrong = next((i for i in range(at + 2, at + 2 + _WORDS) if text_at(texts, i) == "wrong"), 0)
    if not wrong:
        return 0
    return wrong + 1 + (text_at(texts, wrong - 1) == "the")


def _once_more_end(texts: list[str], at: int) -> int:
    """Index of the number behind "again under the lamp", where it is the one that stands; 0 for others."""
    way = next((way for way in _AGAIN if tuple(texts[at : at + len(way)]) == way), ())
    tail = tuple(text for text in texts if text != BREAK)
    if not way or not any(tail[-len(end) :] == end for end in _STANDS):
        return 0
    begin = at + len(way)
    here = range(begin, min(len(texts), begin + _LONGEST))
    return next((i for i in here if texts[i] in _NUMBERS), 0)


def _names_nothing(texts: list[str], begin: int, end: int, lexicon: Lexicon) -> bool:
    """True where no part, place or other value is named before the value."""
    for at in range(begin, min(end, len(texts))):
        known = lexicon.names(tuple(texts), at) if texts[at] != BREAK else None
        if known is not None and (known.parts or known.characteristics or known.positions):
            return False
    return True
