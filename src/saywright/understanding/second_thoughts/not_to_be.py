""" "No need", "actually I'll leave it", "no it's still on": what was to be done, or was done, is not. Pure.

In plain words, said of what was told last: "no it does not", "actually I will keep it", "no it is not".
"""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from saywright.understanding.bench_words import IS
from saywright.understanding.discourse import Discourse
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.second_thoughts.after_all import says_after_all
from saywright.understanding.second_thoughts.one_named import last_told, one_named
from saywright.understanding.second_thoughts.words import IT, read_turn
from saywright.understanding.statements import ActionNote, Movement
from saywright.understanding.steps import called_by
from saywright.understanding.tokens import BREAK, Token, text_at

_OPENERS: Final = (
    ("on", "second", "thoughts"), ("on", "second", "thought"), ("second", "thoughts"), ("on", "reflection"),
    ("i", "have", "changed", "my", "mind"), ("i", "changed", "my", "mind"), ("changed", "my", "mind"),
)  # fmt: skip
_I: Final = frozenset({"i", "we"})
_KEEP: Final = frozenset({"keep", "reuse"})
_NO_NEED: Final = (
    ("no", "need"), ("there", "is", "no", "need"), ("not", "needed"), ("not", "necessary"),
    ("do", "not"), ("do", "not", "bother"), ("i", "will", "not", "bother"), ("will", "not", "bother"),
    ("i", "will", "not"), ("i", "would", "not"), ("i", "would", "not", "bother"), ("not", "bothering"),
    ("it", "does", "not", "need", "it"), ("it", "does", "not", "need", "one"), ("i", "will", "leave", "it"),
    ("it", "does", "not", "need", "doing"), ("they", "do", "not", "need", "it"), ("leave", "it"),
    ("does", "not", "need", "it"), ("i", "am", "not", "bothering"), ("they", "do", "not", "need", "doing"),
    ("it", "does", "not", "want", "doing"), ("it", "is", "not", "needed"), ("i", "will", "leave", "them"),
    ("leave", "them"), ("it", "does", "not", "need", "anything"), ("there", "is", "no", "point"),
    ("no", "point"),
)  # fmt: skip
_BEHIND: Final = frozenset(
    {"it", "them", "that", "actually", "then", "with", "as", "is", "yet", "after", "all", "alone"}
)
_OFF: Final = frozenset({"off", "out"})
_ON: Final = frozenset({"on", "in"})
_STILL: Final = frozenset({"still", "yet"})
_PAUSED: Final = frozenset({"no", "oh", "actually", "well", "hang", "hold", "on", "wait", BREAK})
_CALLS: Final = frozenset(
    ["second", "reflection", "mind", "need", "needed", "bother", "bothering", "leave", "keep", "reuse",
     "still", "yet", "after", "not", "point"]
)  # fmt: skip


@called_by(_CALLS)
def not_to_be(tokens: tuple[Token, ...], state: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """*tokens* as "no it does not" or "no it is not" where they say so of what was told last."""
    tokens = _opened(tokens)
    if not state.recent or not tokens:
        return tokens
    told = last_told(state)
    last = told[-1] if told else None
    said = tuple([one for one in tokens if one.text != BREAK])
    texts = tuple([one.text for one in said])
    at, turned = read_turn(texts, 0, len(texts))
    at -= at > 0 and texts[at - 1] == "no" and texts[at : at + 1] in {("need",), ("point",)}
    rest = texts[at:]
    if isinstance(last, ActionNote) and last.status == "proposed" and at < len(texts):
        return _not_done(tokens, said, at)
    if isinstance(last, ActionNote | Movement) and (turned or at):
        person = rest[:1] in {("i",), ("we",)} and rest[1:3] in {("have", "not"), ("did", "not")}
        if person and _BEHIND.issuperset(rest[3:]):
            return tuple(_words(said[0], "no", "i", "have", "not"))
    if isinstance(last, Movement) and _stands_otherwise(texts, at, last, lexicon, doubted=turned or at > 0):
        return tuple(_words(said[0], "no", "it", "is", "not"))
    return tokens


def _words(token: Token, *words: str) -> list[Token]:
    return [replace(token, text=word) for word in words]


def _opened(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """ "On second thoughts", "changed my mind", as "actually no"."""
    texts = tuple([one.text for one in tokens])
    at = 0
    while text_at(texts, at) in _PAUSED and (texts[at] != "on" or text_at(texts, at - 1) in {"hang", "hold"}):
        at += 1
    for opener in _OPENERS:
        end = at + len(opener)
        if texts[at:end] == opener and len(texts) > end:
            rest = tokens[end + (texts[end] == BREAK) :]
            return (*_words(tokens[at], "actually", "no"), *rest)
    return tokens


def _not_done(tokens: tuple[Token, ...], said: tuple[Token, ...], at: int) -> tuple[Token, ...]:
    """ "No need", "actually I'll leave it", "no, keep it"."""
    texts = tuple([one.text for one in said])
    for words in sorted(_NO_NEED, key=len, reverse=True):
        end = at + len(words)
        if texts[at:end] != words:
            continue
        if _BEHIND.issuperset(texts[end:]):
            return tuple(_words(said[0], "no", "it", "does", "not"))
        if (
            text_at(texts, end) in IT
            and text_at(texts, end + 1) in IS
            and words[-1] in {"need", "bother", "point"}
        ):
            return (*_words(said[0], "no"), *said[end:])  # "no need, it's fine"
        break
    kept = at + 2 * (texts[at] in _I and text_at(texts, at + 1) in {"will", "would"})
    if at and text_at(texts, kept) in _KEEP and text_at(texts, kept + 1) in IT | {"them"}:
        return (*_words(said[0], "actually", "i", "will"), *said[kept:])
    return tokens


def _stands_otherwise(
    texts: tuple[str, ...], at: int, last: Movement, lexicon: Lexicon, *, doubted: bool
) -> bool:
    """ "No it's still on", "hang on it's not off yet", where it was told to be off."""
    gone, there = (_OFF, _ON) if last.movement == "removed" else (_ON, _OFF)
    named = one_named(texts, at, lexicon) if text_at(texts, at) not in IT else None
    verb = at + 1 if named is None else named.end
    if text_at(texts, verb) not in IS or not (
        text_at(texts, at) in IT if named is None else named.tells(last)
    ):
        return False
    rest = [text for text in texts[verb + 1 :] if text not in {"actually", "there"}]
    denied = rest[:1] == ["not"]
    where = [text for text in rest[denied:] if text not in _STILL | {"after", "all", "quite"}]
    sure = doubted or says_after_all(texts)
    if len(where) != 1 or not sure:
        return False
    return where[0] in gone if denied else where[0] in there and "still" in rest
