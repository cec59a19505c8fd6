"""The same of another one, or not: "so does the low", "nor the caliper", "not the left though". Pure."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from saywright.understanding.discourse import Discourse
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.statements import ConditionNote, Remark
from saywright.understanding.steps import called_by
from saywright.understanding.tokens import BREAK, Token, text_at

_BEFORE: Final = frozenset({"but", "and", "well", "though", "oh", BREAK})
_NOR: Final = frozenset({"nor", "neither"})
_VERBS: Final = frozenset(
    ["is", "are", "was", "were", "does", "do", "did", "has", "have", "had", "can", "will", "would"]
)
_IS: Final = frozenset({"is", "are", "was", "were"})
_SO: Final = frozenset({"does", "do", "did"})
_BEHIND: Final = frozenset(
    {"though", "mind", "you", "luckily", "thankfully", "either", "thank", "god", BREAK}
)
_DENIES: Final = frozenset({"not", "no", "never", "none", "cannot", "nothing"})
_SPEAKERS: Final = frozenset({"i", "we", "you"})
_LEADS: Final = frozenset({"the", "this", "that", "these", "those", "on", "any", "of"})
_LONGEST: Final = 5  # tokens of "the other low one"
_OPENERS: Final = _NOR | _BEFORE | {"not", "so"}


@called_by(_NOR | {"not", "so"})
def so_is_the_other(tokens: tuple[Token, ...], state: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """*tokens* with what is so, or is not, of another one in the words in which it is plainest."""
    texts = tuple([token.text for token in tokens[: 2 * _LONGEST]])
    at = 0
    while text_at(texts, at) in _BEFORE:
        at += 1
    word = text_at(texts, at)
    if word not in _OPENERS or len(texts) < at + 2:
        return tokens
    if word == "so":
        end = len(tokens)
        while end > at and tokens[end - 1].text in _BEHIND | {"as", "well", "too"}:
            end -= 1
        does = texts[at + 1] in _SO and texts[at + 2 : at + 3] in {("the",), ("this",), ("that",)}
        does = does and _is_one_alone(tokens[at + 2 : end], lexicon)
        return _put(tokens, at, "so", "is", tokens[at + 2 :]) if does else tokens
    end = len(tokens)
    while end > at and tokens[end - 1].text in _BEHIND:
        end -= 1
    rest = tokens[at + 1 + (word in _NOR and texts[at + 1] in _VERBS) : end]
    if word == "not":
        denied = _is_one_alone(rest, lexicon) and _other_was_found(state)
        return (*rest, *_words(tokens[at], "is", "not")) if denied else tokens
    if not rest or rest[0].text in _SPEAKERS:  # "nor did I clean it"
        turned = bool(rest) and texts[at + 1] in _VERBS
        return (rest[0], tokens[at + 1], *_words(tokens[at], "not"), *rest[1:]) if turned else tokens
    if _is_one_alone(rest, lexicon) and _other_was_found(state):
        return _put(tokens, at, "so", "is", rest) if _was_denied(state) else tokens
    return _denied(tokens[at], rest, lexicon) if texts[at + 1] in _VERBS else tokens


def _put(
    tokens: tuple[Token, ...], at: int, word: str, verb: str, rest: tuple[Token, ...]
) -> tuple[Token, ...]:
    return (*_words(tokens[at], word, verb), *rest)


def _words(token: Token, *words: str) -> list[Token]:
    return [replace(token, text=word) for word in words]


def _is_one_alone(rest: tuple[Token, ...], lexicon: Lexicon) -> bool:
    """ "The left", "the caliper", "the other one": a part or a place, and nothing said of it."""
    texts = tuple([token.text for token in rest])
    if not texts or len(texts) > _LONGEST:
        return False
    at, named = 0, False
    while at < len(texts):
        found = lexicon.match(texts, at)
        tells = found is not None and bool(found[1].parts or found[1].aliases or found[1].positions)
        if not tells and texts[at] not in _LEADS | {"one", "ones", "other", "side"}:
            return False
        named |= tells or texts[at] == "other"
        at += found[0] if tells and found is not None else 1
    return named


def _other_was_found(state: Discourse) -> bool:
    """True where the last thing told is how something was found."""
    said = [s for s in state.recent[-1] if not isinstance(s, Remark)] if state.recent else []
    return bool(said) and isinstance(said[-1], ConditionNote)


def _was_denied(state: Discourse) -> bool:
    """True where the last thing told was not so, or was told with a "not": "can't fault the hose"."""
    last = next((s for s in reversed(state.recent[-1]) if not isinstance(s, Remark)), None)
    if not isinstance(last, ConditionNote):
        return False
    return not last.present or any(
        word in _DENIES or word.endswith(("n't", "nt")) for word in last.heard.lower().split()
    )


def _denied(nor: Token, rest: tuple[Token, ...], lexicon: Lexicon) -> tuple[Token, ...]:
    """ "Nor do the hoses leak": the hoses are not leaking."""
    texts = tuple([token.text for token in rest])
    for at in range(1, len(texts)):
        if lexicon.names(texts, at).conditions and not lexicon.names(texts, at).parts:
            return (*rest[:at], *_words(nor, "is", "not"), *rest[at:])
    return (nor, *rest)


@called_by(_NOR)
def nor_is_another(tokens: tuple[Token, ...], _: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """ "The hose isn't cracked and neither is the boot": and so is the boot."""
    texts = [token.text for token in tokens]
    at = next((i for i, text in enumerate(texts) if text in _NOR), 0)
    if at < 1 or texts[at - 1] not in {"and", "but", BREAK} or text_at(texts, at + 1) not in _IS:
        return tokens
    end = next((i for i in range(at + 2, len(texts)) if texts[i] in {BREAK, "and", "but"}), len(texts))
    denied = not _DENIES.isdisjoint(texts[:at])
    if not denied or not _is_one_alone(tokens[at + 2 : end], lexicon):
        return tokens
    link = replace(tokens[at - 1], text="and")
    return (*tokens[: at - 1], link, replace(tokens[at], text="so"), *tokens[at + 1 :])
