"""Values and states of those that are not in hand: "seven on the other three", "the drum across the axle".

The value goes behind those it is of: "the other three are seven". "Seven clicks all round" is of all of them.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from saywright.understanding.numbers.tokens import is_number_word
from saywright.understanding.sides.place_meant import side_in_hand
from saywright.understanding.sides.turning import other_side
from saywright.understanding.steps import called_by
from saywright.understanding.tokens import BREAK, Token

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_ON: Final = frozenset({"on", "for", "at", "with"})
_COUNTS: Final = frozenset({"two", "three", "five", "six", "seven"})  # of four "the other four" is none
_ONES: Final = frozenset({"ones", "wheels", "corners", "sides", "ends"})
_SEAMS: Final = frozenset({BREAK, "and", "then", "but"})
_HUNDREDS: Final = (("hundred",), ("thousand",))  # "a hundred and ten"
_ARE: Final = frozenset({"are", "were"})
_ROUND: Final = (("all", "round"), ("all", "around"))
_LONGEST: Final = 9  # tokens of a value with its unit
_IS: Final = frozenset({"is", "has", "was"})
_TOO: Final = frozenset({"too", "well", "though"})
_ACROSS: Final = (
    ("on", "the", "other", "side"),
    ("across", "the", "axle"),
    ("across", "from", "it"),
    ("on", "the", "other", "wheel"),
)


@called_by({"other", "others", "rest", "round", "around", "across"})
def of_the_others(tokens: tuple[Token, ...], state: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """*tokens* with "the other three are seven" for "seven on the other three"; what lies across, by name."""
    texts = tuple([token.text for token in tokens])
    part = lexicon.sheet.get(state.hand.component) if state.hand is not None else None
    if part is None:
        return tokens
    moved = _across(tokens, texts, state, lexicon)
    if moved is not tokens or not part.stations:
        return moved
    for at in range(len(texts)):
        if texts[at : at + 2] in _ROUND and _ends(texts, at + 2):
            begin = _value_begin(texts, at)
            if 0 <= begin < at:
                return _put(tokens, begin, at, at + 2, ("all", "of", "them", "are"))
        end = _others_end(texts, at)
        if end and texts[at - 1 : at] != () and texts[at - 1] in _ON and _ends(texts, end):
            begin = _value_begin(texts, at - 1)
            said = texts[at:end] if texts[at + 1] != "rest" else ("the", "others")
            if 0 <= begin < at - 1:
                return _put(tokens, begin, at - 1, end, (*said, "are"))
        if end and texts[end : end + 2] == ("are", "all") and is_number_word(texts, end + 2):
            return (*tokens[: end + 1], *tokens[end + 2 :])  # they, and none besides
    return tokens


def _put(
    tokens: tuple[Token, ...], begin: int, value_end: int, end: int, said: tuple[str, ...]
) -> tuple[Token, ...]:
    """The tokens with what is *said* before the value from *begin* on."""
    word = tokens[begin].word
    head = [Token(BREAK, word)] if begin and tokens[begin - 1].text == "and" else []
    kept = tokens[: begin - bool(head)]
    return (*kept, *head, *(Token(text, word) for text in said), *tokens[begin:value_end], *tokens[end:])


def _others_end(texts: tuple[str, ...], at: int) -> int:
    """Index behind "the other three", "the others", "the rest of them" at *at*; 0 where it is not said."""
    if texts[at] != "the":
        return 0
    one, two = (*texts[at + 1 : at + 3], "", "")[:2]
    if one == "other" and two in _COUNTS:
        return at + 3 + (texts[at + 3 : at + 4] != () and texts[at + 3] in _ONES)
    if one in {"others", "rest"}:
        return at + 2 + 2 * (texts[at + 2 : at + 4] == ("of", "them"))
    return 0


def _value_begin(texts: tuple[str, ...], end: int) -> int:
    """Index of the value right before *end*, which begins its clause; -1 where something else is there."""
    begin = end
    while begin and (texts[begin - 1] not in _SEAMS or texts[begin - 2 : begin - 1] in _HUNDREDS):
        begin -= 1
    whole = is_number_word(texts, begin) or (not begin and texts[:2] == ("a", "hundred"))
    return begin if end - begin <= _LONGEST and whole else -1


def _ends(texts: tuple[str, ...], at: int) -> bool:
    return at >= len(texts) or texts[at] in {BREAK, "now", "then", "too", "as"}


def _across(
    tokens: tuple[Token, ...], texts: tuple[str, ...], state: Discourse, lexicon: Lexicon
) -> tuple[Token, ...]:
    """ "The drum across the axle's scored", "the slide on the other side is too": that one, by its place."""
    at = next((i for i in range(len(texts)) for way in _ACROSS if texts[i : i + len(way)] == way), 0)
    if not at:
        return tokens
    way = next(way for way in _ACROSS if texts[at : at + len(way)] == way)
    begin = int(texts[0] == "the")
    named = lexicon.table.get(texts[begin:at])
    clear = begin or not _TOO.isdisjoint(texts)
    held = side_in_hand(state.hand, lexicon.sheet)
    if named is None or held is None or not clear:
        return tokens
    place = other_side(lexicon.sheet, held)
    parts = [lexicon.sheet.get(c) for c in (*named.parts, *named.aliases)]
    if place is None or not parts or not all(part is not None and place in part.stations for part in parts):
        return tokens
    end = at + len(way)
    if texts[end : end + 1] == () or texts[end] not in _IS:
        return tokens
    said = [Token(text, tokens[0].word) for text in place.split()]
    return (*tokens[:begin], *said, *tokens[begin:at], *tokens[end:])


@called_by({"both"})
def both_of_them(tokens: tuple[Token, ...], _: Discourse, __: Lexicon) -> tuple[Token, ...]:
    """ "Both get greased" for "both of them get greased"."""
    texts = tuple([token.text for token in tokens])
    at = texts.index("both")
    said = texts[at + 1 : at + 2] == ("of",) and texts[at + 2 : at + 3] in {("them",), ("these",), ("those",)}
    gets = texts[at + 3 : at + 4] in {("get",), ("gets",), ("got",)}
    return (*tokens[: at + 1], *tokens[at + 3 :]) if said and gets and not texts[:at] else tokens


@called_by({"hand"})
def hand_left_out(tokens: tuple[Token, ...], _: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """ "The left drums" for "the left hand drums", where left is no more than a word of the corners."""
    texts = tuple([token.text for token in tokens])
    at = texts.index("hand")
    side = texts[at - 1] if at else ""
    whole = any(side in c.stations for c in lexicon.sheet.component)
    end = at + 1 + (texts[at + 1 : at + 2] == ("side",))
    if side not in {"left", "right"} or whole or side not in lexicon.positions or end >= len(texts):
        return tokens
    named = lexicon.names(texts, end)
    return (*tokens[:at], *tokens[end:]) if named.parts or named.aliases else tokens
