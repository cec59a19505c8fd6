"""A corner in more words than the sheet's: "back axle left", "right hand front wheel", "front, on the right".

Also "number two, which is the front right", and "rear axle, starting on the left".
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from saywright.understanding.numbers.words import CARDINALS
from saywright.understanding.steps import called_by
from saywright.understanding.tokens import BREAK, Token, words_of

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon


_ENDS: Final = words_of("front rear back")
_HANDS: Final = words_of("left right nearside offside")
_LEADS: Final = words_of(
    "right okay so now then and next on to the at onto over round i am we are is up down back going go last "
    "first just with moving move start starting"
) | {BREAK}
_NOUNS: Final = words_of("axle end wheel corner one brake hub")
_HAND_NOUNS: Final = words_of("hand side")
_BETWEEN: Final = words_of("on at the now starting start with beginning first and") | {BREAK}
_BEGINS: Final = words_of("the new old its now so i we it this that then there and") | {"", BREAK}
_AT: Final = words_of("at now then on") | {BREAK}
_LONGEST: Final = 5  # tokens between the end and the side
_RETURNED: Final = frozenset({("back", "on"), ("back", "at"), ("back", "and")})  # "back on the left" again
_NUMBERED: Final = frozenset({("number",), ("corner",), ("wheel",)})
_WHICH: Final = words_of("which that")


@called_by(_ENDS)
def as_corners(tokens: tuple[Token, ...], _: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """*tokens* with the sheet's corner at the head of a line that names it in more words."""
    texts = tuple([token.text for token in tokens])
    if _HANDS.isdisjoint(texts):
        return tokens
    for at in range(len(texts)):
        found = _corner_at(texts, at, lexicon)
        if found is not None and _LEADS.issuperset(_head(texts, at)):
            end, corner = found
            word = tokens[at].word
            behind = texts[end] if end < len(texts) else ""
            tail = [] if behind in {"", BREAK} else [Token(BREAK, word)]
            begin = _number_begin(texts, at)
            begin -= begin == at and texts[at - 1 : at] == ("the",)
            led = () if texts[max(0, begin - 2) : begin] == ("on", "to") else ("on", "to")
            said = [*led, "the", *corner.split()]
            return (*tokens[:begin], *(Token(text, word) for text in said), *tail, *tokens[end:])
        if found is not None:
            return tokens
    return tokens


def _head(texts: tuple[str, ...], at: int) -> tuple[str, ...]:
    """The words before *at*, but for "number two which is"."""
    return texts[: _number_begin(texts, at)]


def _number_begin(texts: tuple[str, ...], at: int) -> int:
    """Index of "number two, which is the" right before *at*; *at* where it is not said."""
    end = at - (texts[at - 1 : at] == ("the",))
    if texts[max(0, end - 1) : end] != ("is",) or end < 2:
        return at
    if texts[end - 2] in CARDINALS and texts[max(0, end - 3) : end - 2] in _NUMBERED:
        return end - 3
    if texts[end - 2] not in _WHICH:
        return at
    begin = end - 2 - (texts[end - 3 : end - 2] == (BREAK,))
    if begin < 1 or texts[begin - 1] not in CARDINALS:
        return at
    return begin - 1 - (texts[max(0, begin - 2) : begin - 1] in _NUMBERED)


def _corner_at(texts: tuple[str, ...], at: int, lexicon: Lexicon) -> tuple[int, str] | None:
    """Index behind the two words of a corner from *at* on, with other words around them, and that corner."""
    first = texts[at]
    if first not in _ENDS | _HANDS or texts[at : at + 2] in _RETURNED:
        return None
    kinds = (_ENDS, _HANDS) if first in _ENDS else (_HANDS, _ENDS)
    end, plain = at + 1, True
    nouns = _NOUNS if first in _ENDS else _HAND_NOUNS
    while end < len(texts) and end - at <= _LONGEST and texts[end] in nouns | _BETWEEN:
        end, plain = end + 1, False
    if end >= len(texts) or texts[end] not in kinds[1]:
        return None
    second, end = texts[end], end + 1
    nouns = _NOUNS if second in _ENDS else _HAND_NOUNS | {"one"}
    plain = plain and _number_begin(texts, at) == at
    while end < len(texts) and texts[end] in nouns | {"brake", "hub"} and not lexicon.names(texts, end).parts:
        plain = plain and texts[end] not in {"brake", "hub"}
        end += 1
    corner = _corner(first, second, lexicon)
    if corner is None or plain or not _is_alone(texts, end, lexicon) or _is_anywhere(texts, end, lexicon):
        return None
    return end, corner


def _is_alone(texts: tuple[str, ...], end: int, lexicon: Lexicon) -> bool:
    """True where nothing is told of the place itself behind it."""
    behind = texts[end] if end < len(texts) else ""
    return behind in _BEGINS or bool(lexicon.names(texts, end).parts)


def _is_anywhere(texts: tuple[str, ...], end: int, lexicon: Lexicon) -> bool:
    """ "Rear end left caliper bolts": of several that no place tells apart, all would be meant."""
    parts = [lexicon.sheet.get(part) for part in lexicon.names(texts, end).parts]
    return any(part is not None and part.count > 1 and not part.positions for part in parts)


def _corner(first: str, second: str, lexicon: Lexicon) -> str | None:
    """The corner of both words, where the sheet has it and neither is a place by itself."""
    words = {lexicon.other_places.get(word, word) for word in (first, second)}
    places = [p for c in lexicon.sheet.component for p in c.stations]
    if not words.isdisjoint(places):
        return None
    return next((p for p in places if set(p.split()) == words), None)


@called_by({"same"})
def on_this_side(tokens: tuple[Token, ...], _: Discourse, __: Lexicon) -> tuple[Token, ...]:
    """ "This side at the back" for "same side at the back": a place, and nothing is done over again."""
    texts = [token.text for token in tokens]
    at = texts.index("same")
    side, behind = (*texts[at + 1 : at + 3], "", "")[:2]
    if side not in {"side", "axle"} or behind not in _AT | _ENDS or not _LEADS.issuperset(texts[:at]):
        return tokens
    return (*tokens[:at], replace(tokens[at], text="this"), *tokens[at + 1 :])
