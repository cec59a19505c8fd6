"""Fuel that is in a float or not, in plain words: "shake it, nothing inside", "it's half full". Pure."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from saywright.understanding.discourse import Hand
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.tokens import BREAK, Token, text_at

OF_FLOAT: Final = frozenset({"nothing", "fuel", "half"})
_IN: Final = frozenset({"in", "inside"})
_IT: Final = frozenset({"it", "them", "there", "that", "him", "her", "", BREAK})
_IS: Final = frozenset({"is", "are", "was", "about", "still", "only", "over", "nearly"})
_POINTS: Final = frozenset(
    ["", "it", "that", "this", "one", "him", "her", "he", "she", "they", "them", "both"]
)  # fmt: skip
_FLOATS: Final = frozenset({"float", "floats"})
_SLOSHES: Final = frozenset(
    ["sloshing", "slopping", "rattling", "swilling", "splashing", "about", "around", "at", "all", "moving"]
)  # fmt: skip
_HEARD: Final = frozenset({"", BREAK, "hear", "listen", "look", "see", "and", "so"})
_SHAKEN: Final = frozenset({"shake", "shook", "shaken"})


def in_float(tokens: tuple[Token, ...], lexicon: Lexicon, hand: Hand | None) -> tuple[Token, ...]:
    """ "Shake it, nothing inside", "it's half full", "got fuel in": of a float, fuel that is in it or not."""
    texts = tuple([token.text for token in tokens])
    if _FLOATS.isdisjoint(lexicon.words) or ("fuel", "in", "it") not in lexicon.table:
        return tokens
    for at, text in enumerate(texts):
        if text not in OF_FLOAT or not _is_of_float(texts, at, lexicon, hand):
            continue
        if text == "half" and text_at(texts, at + 1) == "full" and text_at(texts, at + 2) in _HEARD:
            if not _leads(texts, at, lexicon):
                continue  # "the tank was half full"
            full = [replace(tokens[at], text=word) for word in ("full", "of", "fuel")]
            return (*tokens[:at], *full, *tokens[at + 2 :])
        if text == "fuel" and text_at(texts, at + 1) == "in" and text_at(texts, at + 2) in _HEARD and at:
            return (*tokens[: at + 2], replace(tokens[at + 1], text="it"), *tokens[at + 2 :])
        if text == "nothing" and (made := _nothing_in(tokens, texts, at)):
            return made
    return tokens


def _is_of_float(texts: tuple[str, ...], at: int, lexicon: Lexicon, hand: Hand | None) -> bool:
    """True where the part named last before token *at* is a float, or what is in hand or shaken is one."""
    end, last = 0, None
    while end < at:
        found = lexicon.match(texts, end)
        if found is not None and (found[1].parts or found[1].aliases):
            last = (found[1].parts or found[1].aliases)[0]
        end += found[0] if found is not None else 1
    if last is None:
        if not _SHAKEN.isdisjoint(texts):
            return True
        last = hand.component if hand is not None else None
    part = lexicon.sheet.get(last) if last is not None else None
    return part is not None and part.names[0].split()[-1] in _FLOATS


def _leads(texts: tuple[str, ...], at: int, lexicon: Lexicon) -> bool:
    """True where a float, "it", "left one" or nothing stands before "is half full" at *at*."""
    while at and texts[at - 1] in _IS:
        at -= 1
    before = text_at(texts, at - 1)
    return before in _FLOATS | _POINTS or before in lexicon.positions or before == BREAK


def _nothing_in(tokens: tuple[Token, ...], texts: tuple[str, ...], at: int) -> tuple[Token, ...]:
    """ "nothing sloshing about in there": no fuel in it; () where it is something else."""
    end = at + 1
    while text_at(texts, end) in _SLOSHES:
        end += 1
    if text_at(texts, end) not in _IN or text_at(texts, end + 1) not in _IT:
        return ()
    behind = end + 1 + (text_at(texts, end + 1) in _IT - {"", BREAK})
    none = [replace(tokens[at], text=word) for word in ("no", "fuel", "in", "it")]
    return (*tokens[:at], *none, *tokens[behind:])
