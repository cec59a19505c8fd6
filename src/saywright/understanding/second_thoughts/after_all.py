""" "Turns out it's clear", "I said it was cracked, it isn't": what is told is so after all. Pure."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from saywright.understanding.bench_words import IS
from saywright.understanding.discourse import Discourse
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.second_thoughts.one_named import one_named
from saywright.understanding.second_thoughts.words import IT, PAUSES
from saywright.understanding.steps import called_by
from saywright.understanding.tokens import BREAK, Token

_AFTER_ALL: Final = ("after", "all")
_OF_SOMETHING: Final = frozenset({"that", "this", "the", "these", "those"})  # "after all that cleaning"
_I: Final = frozenset({"i", "we"})
_SAID: Final = frozenset({"said", "thought", "reckoned", "believed", "assumed"})
_JOINS: Final = PAUSES | {"but", "and", "though", "no"}
_TURNS: Final = frozenset({"turns", "turned"})
_MINE: Final = (
    ("i", "had", "it", "wrong"), ("i", "got", "it", "wrong"), ("i", "was", "wrong"),
    ("i", "had", "that", "wrong"), ("i", "got", "that", "wrong"),
)  # fmt: skip
_REACH: Final = 3


def says_after_all(texts: Sequence[str]) -> bool:
    """ "It isn't cracked after all", and not "after all that"."""
    return "after" in texts and any(
        tuple(texts[at : at + 2]) == _AFTER_ALL and _OF_SOMETHING.isdisjoint(texts[at + 2 : at + 3])
        for at in range(1, len(texts) - 1)
    )


@called_by({"after", "wrong", *_TURNS, *_SAID})
def after_all(tokens: tuple[Token, ...], state: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """*tokens* as "it is clear after all" where they tell that what was said before is not so."""
    if not state.recent:
        return tokens
    said = tuple([one for one in tokens if one.text != BREAK])
    texts = tuple([one.text for one in said])
    if len(texts) < _REACH:
        return tokens
    if says_after_all(texts):
        alone = texts[-2:] == _AFTER_ALL and _is_state(texts, 0, lexicon)
        return (*_words(said[0], "it", "is"), *said) if alone else tokens  # "clear after all"
    mine = next((end for end in _MINE if texts[-len(end) :] == end), None)
    if mine is not None and _told(texts, 0, lexicon) is not None:
        return (*said[: -len(mine)], *_words(said[-1], *_AFTER_ALL))  # "it isn't bent, I had it wrong"
    begin = next((i for i in range(_REACH) if texts[i] in _TURNS and texts[i + 1 : i + 2] == ("out",)), None)
    if begin is not None:
        told = _told(texts, begin + 2, lexicon)
        return tokens if told is None else (*said[begin + 2 :], *_words(said[-1], *_AFTER_ALL))
    return _said_before(said, texts, lexicon) or _wrong_about(said, texts, lexicon) or tokens


def _words(token: Token, *words: str) -> list[Token]:
    return [replace(token, text=word) for word in words]


def _is_state(texts: tuple[str, ...], at: int, lexicon: Lexicon) -> bool:
    found = lexicon.names(texts, at)
    return bool(found.conditions) and not (found.parts or found.aliases)


def _subject(texts: tuple[str, ...], at: int, lexicon: Lexicon) -> int:
    """The token behind "it" or a named part at token *at*; *at* for none."""
    if at < len(texts) and texts[at] in IT:
        return at + 1
    one = one_named(texts, at, lexicon)
    return one.end if one is not None else at


def _told(texts: tuple[str, ...], at: int, lexicon: Lexicon) -> int | None:
    """The first token of the state that is told from token *at* on: "(that) it is (not) clear"."""
    at += texts[at : at + 2] == ("that", "it")
    verb = _subject(texts, at, lexicon)
    if verb in {at, len(texts)} or texts[verb] not in IS:
        return None
    begin = verb + 1
    return (
        begin
        if any(_is_state(texts, i, lexicon) for i in range(begin, min(begin + _REACH, len(texts))))
        else None
    )


def _said_before(said: tuple[Token, ...], texts: tuple[str, ...], lexicon: Lexicon) -> tuple[Token, ...]:
    """ "I said it was blocked, it's not", "I thought the hose was perished but it's fine"."""
    at = 0
    while at < len(texts) and texts[at] in _JOINS:
        at += 1
    if not (_I.intersection(texts[at : at + 1]) and _SAID.intersection(texts[at + 1 : at + 2])):
        return ()
    begin = at + 2
    state = _told(texts, begin, lexicon)
    if state is None:
        return ()
    end = next((i for i in range(state, len(texts)) if texts[i] in IT and texts[i + 1 : i + 2]), None)
    if end is None or texts[end + 1] not in IS or end + 2 >= len(texts):
        return ()
    first = said[state:end]
    while first and first[-1].text in _JOINS:
        first = first[:-1]
    subject = said[begin : state - 1]
    right = said[end + 2 :]
    if [one.text for one in right] == ["not"]:
        right = (*right, *first)
    return (*subject, *_words(said[end], "is"), *right, *_words(said[-1], *_AFTER_ALL))


def _wrong_about(said: tuple[Token, ...], texts: tuple[str, ...], lexicon: Lexicon) -> tuple[Token, ...]:
    """ "I was wrong about the seat, it's clean"."""
    at = next((i for i in range(len(texts) - 1) if texts[i : i + 2] == ("wrong", "about")), None)
    one = one_named(texts, at + 2, lexicon) if at is not None else None
    if one is None or one.end + 2 >= len(texts) or texts[one.end] not in IT or texts[one.end + 1] not in IS:
        return ()
    if _told(texts, one.end, lexicon) is None:
        return ()
    return (*said[one.begin : one.end], *said[one.end + 1 :], *_words(said[-1], *_AFTER_ALL))
