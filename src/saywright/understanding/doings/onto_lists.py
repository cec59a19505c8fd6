""" "Stick two wipers on the list for me", "that can go on the order": put on a list, as an order. Pure."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise
from typing import TYPE_CHECKING, Final

from saywright.understanding.doings.roundabout import (
    HOW_MANY,
    LINKS,
    MAY,
    NOT,
    NUMBERS,
    POINTS,
    POLITE,
    PUT,
    REACH,
    SOME,
    SPEAKS,
    behind_tail,
    ended,
    names_part,
    ordered,
)
from saywright.understanding.steps import Tokens
from saywright.understanding.tokens import BREAK

if TYPE_CHECKING:
    from saywright.understanding.lexicon import Lexicon

_LISTS: Final = frozenset({"list", "order"})
_KINDS: Final = frozenset({"shopping", "parts", "order", "buying", "spares"})
_OWN: Final = frozenset({"the", "my", "your", "our", "that", "this"})
_GO: Final = frozenset(
    ["is", "are", "goes", "go", "going", "can", "will", "to", "wants", "want", "needs", "need", "putting",
     "best", "had"]
)  # fmt: skip
_MOVES: Final = frozenset({"on", "in", "off", "out", "back"})  # what is put moves, and is not on the list
_ASKS: Final = frozenset({("shall", "i"), ("should", "i"), ("shall", "we"), ("should", "we")})


def put_on_list(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "Stick two wipers on the list while you're there", "on the list it goes"."""
    at = next((i for i in range(2, len(texts)) if _is_list(texts, i)), None)
    if at is None:
        return tokens
    begin = at - 1 - (texts[at - 1] in _KINDS)
    begin -= 1 + (texts[begin - 2 : begin] == ["down", "on"])
    if begin < 0 or any(pair in _ASKS for pair in pairwise(texts)) or not NOT.isdisjoint(texts[:at]):
        return tokens
    rest = behind_tail(texts, at + 1)
    if not begin and texts[rest:] in (["it", "goes"], ["they", "go"], ["that", "goes"], ["those", "go"]):
        return ordered(tokens, 0, rest, rest + 1, len(tokens))
    if not ended(texts, rest) and texts[rest] not in {"because", "cos", "since"}:
        return tokens
    verbs = (i for i in range(begin - 1, max(-1, begin - REACH), -1) if texts[i] in PUT)
    verb = next(verbs, None)
    if verb is not None:
        return _is_put(tokens, texts, range(verb, begin), rest, lexicon)
    return _goes_on_list(tokens, texts, begin, rest, lexicon)


def _is_put(tokens: Tokens, texts: list[str], put: range, rest: int, lexicon: Lexicon) -> Tokens:
    """ "Stick two wipers on the list": *put* is from the verb to the list."""
    verb, begin = put.start, put.stop
    if texts[verb] == "have" and texts[verb + 1] in {"i", "we", "you"}:
        return tokens  # "have I got the shims on the list"
    said = set(texts[verb + 1 : begin])
    if not said.isdisjoint(_MOVES):
        return _behind_link(tokens, texts, range(verb + 1, begin), rest, lexicon)
    pointed = bool(said) and said <= POINTS | HOW_MANY
    if not pointed and not names_part(texts, verb + 1, begin, lexicon):
        return tokens
    cut = verb
    while cut and texts[cut - 1] in SPEAKS | MAY | POLITE:
        cut -= 1
    return ordered(tokens, cut, verb + 1, begin, rest)


def _behind_link(tokens: Tokens, texts: list[str], said: range, rest: int, lexicon: Lexicon) -> Tokens:
    """ "Put the hub back on and the shims on the list": of what is put, the last goes there."""
    link = next((i for i in reversed(said) if texts[i] in LINKS), None)
    if link is None or not names_part(texts, link + 1, said.stop, lexicon):
        return tokens
    if not _MOVES.isdisjoint(texts[link + 1 : said.stop]):
        return tokens
    return ordered(tokens, link + 1, link + 1, said.stop, rest)


def _is_list(texts: Sequence[str], at: int) -> bool:
    """True for "list" of "on the parts list", "to your order"."""
    if texts[at] not in _LISTS:
        return False
    own = at - 1 - (texts[at - 1] in _KINDS)
    return own > 0 and texts[own] in _OWN and texts[own - 1] in {"on", "to", "onto", "for"}


def _goes_on_list(tokens: Tokens, texts: list[str], begin: int, rest: int, lexicon: Lexicon) -> Tokens:
    """ "That's going on the list", "one of them on the list", "oil seals, two, on the list"."""
    first = max((i + 1 for i in range(begin - 1) if texts[i] in {BREAK, *LINKS}), default=0)
    said = texts[first:begin]
    if said[:1] and said[0] in POINTS and set(said[1:]) <= _GO:
        return ordered(tokens, first, first, first + 1, rest) if said[1:] else tokens
    if said[-1:] in (["one"], ["another"]) and said[-3:-1] == ["that", "is"]:
        return ordered(tokens, begin - 3, begin - 1, begin, rest)  # "that's one for the list"
    of_those = said[1:2] == ["of"] and len(said) == 3 and said[2] in POINTS
    if said[:1] and said[0] in NUMBERS and (of_those or (len(said) == 1 and (first or rest == len(texts)))):
        return ordered(tokens, first, first, begin, rest)
    if (
        first
        and texts[first - 1] == "so"
        and said[:1]
        and said[0] in SOME
        and names_part(texts, first, begin, lexicon)
    ):
        return ordered(tokens, first, first, begin, rest)  # "so two cables on the list"
    counted = len(said) == 2 and said[0] in NUMBERS and said[1] == BREAK
    if counted and names_part(texts, 0, first, lexicon):
        named = (tokens[first], *tokens[: first - 1], *tokens[rest:])
        return (replace(tokens[0], text="order"), *named)
    if begin and texts[begin - 1] == BREAK and _only_parts(texts, begin, lexicon):
        return ordered(tokens, 0, 0, begin, rest)
    behind = next(i + 1 for i in range(begin, len(texts)) if _is_list(texts, i))
    return (*tokens[:behind], *tokens[rest:])


def _only_parts(texts: list[str], end: int, lexicon: Lexicon) -> bool:
    """True where the words up to *end* name parts, and how many, and nothing more."""
    words, at = tuple(texts[:end]), 0
    while at < end:
        found = lexicon.match(words, at) if texts[at] not in SOME | LINKS | {BREAK, "the"} else (1, None)
        if found is None or (found[1] is not None and not (found[1].parts or found[1].positions)):
            return False
        at += found[0]
    return names_part(texts, 0, end, lexicon)


def for_this_one(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "Order list for this one, two wipers …": what the list is for, and no place on it."""
    at = next((i for i in range(1, len(texts) - 3) if texts[i] == "for" and texts[i - 1] in _LISTS), None)
    if at is None or texts[at + 1] not in _OWN:
        return tokens
    end = next((i for i in (at + 3, at + 4) if texts[i : i + 1] == [BREAK]), None)
    if end is None or any(text in lexicon.positions for text in texts[at + 2 : end]):
        return tokens
    return (*tokens[:at], *tokens[end + 1 :])
