"""Where on what is in hand a value was read, by a part that sits there: "under the seal thirty one". Pure.

"Under" and "behind" a part is a place, and a number behind it no value of that part.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from saywright.understanding.discourse import Discourse
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.sides.numbered_positions import behind_place
from saywright.understanding.steps import called_by
from saywright.understanding.tokens import BREAK, Token
from saywright.understanding.values.named_places import TAKEN
from saywright.units import get_unit

_UNDER: Final = frozenset({"under", "underneath", "behind", "beneath", "beside", "where"})
_RUNS: Final = frozenset(
    {"run", "runs", "ran", "sit", "sits", "sat", "ride", "rides", "goes", "go", "bears", "rubs"}
)
_LEADS: Final = frozenset({"the", "each", "its"})
_OTHERS: Final = (("the", "other", "one"), ("the", "other", "won"), ("the", "other"))
_TO_VALUE: Final = frozenset(
    {"is", "was", "it", "reads", "says", "measures", "i", "get", "make", "runs", "sits"}
)
_NUMERALS: Final = frozenset(CLASSES) | {"point"}
_REACH: Final = 3  # tokens between the place and its number


@called_by(_UNDER)
def under_another(tokens: tuple[Token, ...], state: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """*tokens* with "under the drive end seal" put aside where something is read on what is in hand."""
    texts = tuple([token.text for token in tokens])
    hand = state.hand
    if hand is None or not _has_length(hand.component, lexicon):
        return tokens
    taken: set[int] = set()
    for at, text in enumerate(texts):
        if text not in _UNDER or not _is_of_hand(texts, at, hand.component, lexicon):
            continue
        end = _place_end(texts, at + 1, hand.component, lexicon)
        if not end and taken:
            end = next((at + 1 + len(o) for o in _OTHERS if texts[at + 1 : at + 1 + len(o)] == o), 0)
        if end and text == "where":
            end = end + 1 if texts[end : end + 1] and texts[end] in _RUNS else 0
        if end and _beside_number(texts, at, end):
            taken |= set(range(at, end))
    if not taken:
        return tokens
    return tuple([replace(t, text=TAKEN) if at in taken else t for at, t in enumerate(tokens)])


def _has_length(component: str, lexicon: Lexicon) -> bool:
    part = lexicon.sheet.get(component)
    return part is not None and any(get_unit(c.unit).kind == "length" for c in part.characteristic)


def _is_of_hand(texts: Sequence[str], at: int, component: str, lexicon: Lexicon) -> bool:
    """True where the clause before *at* names no part but the one in hand; no "shim under the cap"."""
    begin = at
    while begin and texts[begin - 1] not in {BREAK, "and"}:
        begin -= 1
    known = (lexicon.names(tuple(texts), i) for i in range(begin, at))
    return all({*found.parts, *found.aliases} <= {component} for found in known)


def _place_end(texts: Sequence[str], begin: int, component: str, lexicon: Lexicon) -> int:
    """The token behind the part that is named at *begin*, with its side; 0 where none is."""
    while begin < len(texts) and texts[begin] in _LEADS:
        begin += 1
    begin = behind_place(texts, begin, lexicon)
    found = (
        lexicon.match(tuple(texts), begin) if begin < len(texts) and texts[begin] not in {"", BREAK} else None
    )
    if found is None or not (found[1].parts or found[1].aliases):
        return 0
    return 0 if component in (*found[1].parts, *found[1].aliases) else begin + found[0]


def _beside_number(texts: Sequence[str], start: int, end: int) -> bool:
    """True where a number stands right before the place, or behind it but for a verb."""
    if start and texts[start - 1] in _NUMERALS:
        return True
    at = end
    while at < len(texts) and at - end < _REACH and texts[at] in _TO_VALUE | {BREAK}:
        at += 1
    return at < len(texts) and texts[at] in _NUMERALS
