""" "Put a strainer down and a gasket", "a strainer off you", "can you get me one of those": orders. Pure."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from saywright.understanding.doings.roundabout import (
    LINKS,
    MAY,
    NUMBERS,
    PERSONS,
    PUT,
    REACH,
    behind_tail,
    ended,
    names_part,
    ordered,
)
from saywright.understanding.steps import Tokens
from saywright.understanding.tokens import BREAK

if TYPE_CHECKING:
    from saywright.understanding.lexicon import Lexicon

_WRITES: Final = PUT - {"have", "throw", "sling", "shove", "chuck", "slap", "whack", "bung"}
_NOTES: Final = frozenset({"write", "jot", "note", "mark", "add"})
_WANTED: Final = NUMBERS | {"a", "an", "another"}
_PAPERS: Final = frozenset({"sheet", "pad", "slip", "list", "order"})
_ONES: Final = (["one", "of", "those"], ["one", "of", "them"], ["one", "of", "these"])
_GETS: Final = frozenset({"get", "fetch", "order"})


def put_down(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "Put two seals down for me", "stick a needle down and a gasket": written down, to be had."""
    at = next((i for i in range(2, len(texts)) if texts[i] == "down"), 0)
    if not at or "not" in texts:
        return tokens
    verb = next((i for i in range(at - 1, max(-1, at - REACH), -1) if texts[i] in _WRITES), None)
    if verb is None or texts[verb + 1] not in _WANTED or not names_part(texts, verb + 1, at, lexicon):
        return tokens
    end = at + 1
    if texts[end : end + 2] == ["on", "the"] and texts[end + 2 : end + 3] != [] and texts[end + 2] in _PAPERS:
        end += 3
    if texts[end : end + 1] == ["as"]:
        return tokens  # "write two pads down as worn": what is noted of them
    rest = behind_tail(texts, end)
    more = texts[end : end + 1] == ["and"] and texts[end + 1 : end + 2] != [] and texts[end + 1] in _WANTED
    if not (rest > end or more or (ended(texts, end) and (end > at + 1 or _is_asked(texts, verb, end)))):
        return tokens
    tail = next((i for i in range(rest, len(texts)) if behind_tail(texts, i) > i), len(texts))
    plain = (*tokens[:at], *tokens[rest:tail], *tokens[behind_tail(texts, tail) :])
    return ordered(plain, verb, verb + 1, len(plain), len(plain))


def _is_asked(texts: list[str], verb: int, end: int) -> bool:
    """ "Write two seals down", "note a gasket down please"; not "put two seals down", on the bench."""
    return texts[verb] in _NOTES and (
        "please" in texts[end:] or texts[verb + 1] in NUMBERS or texts[verb + 1] == "another"
    )


def off_you(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "I want two seals and a strainer off you": of whom it is had, and nothing comes off."""
    if texts[-2:] != ["off", "you"] or {"want", "need", "take", "have"}.isdisjoint(texts):
        return tokens
    return tokens[:-2] if names_part(texts, 0, len(texts) - 2, lexicon) else tokens


def get_me_one(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "Can you get me one of those": of what is in hand."""
    at = next((i for i in range(len(texts) - 4) if texts[i] in MAY and texts[i + 1] == "you"), None)
    if at is None or "?" in texts or (at and texts[at - 1] not in {BREAK, *LINKS}):
        return tokens
    verb = at + 2
    begin = verb + 1 + (texts[verb + 1] in PERSONS)
    said = texts[begin : begin + 3]
    if texts[verb] not in _GETS or said not in _ONES or begin == verb + 1:
        return tokens
    end = behind_tail(texts, begin + 3)
    return ordered(tokens, at, begin, begin + 3, end) if ended(texts, end) else tokens


def put_down_for(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "Put down for a strainer as well": one is to be had."""
    at = next((i for i in range(len(texts) - 3) if texts[i : i + 3] == ["put", "down", "for"]), None)
    if at is None or (at and texts[at - 1] not in {BREAK, *LINKS}) or texts[at + 3] not in _WANTED:
        return tokens
    named = names_part(texts, at + 3, min(len(texts), at + REACH), lexicon)
    return ordered(tokens, at, at + 3, len(tokens), len(tokens)) if named else tokens
