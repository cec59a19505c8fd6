"""Doings told by what came of it: "knocked it straight", "out, that goes in the bin". Pure."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from saywright.understanding.discourse import Discourse
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.steps import Tokens, called_by
from saywright.understanding.tokens import BREAK, text_at

_KNOCKED: Final = frozenset(
    ["knocked", "tapped", "pulled", "hammered", "pressed", "eased", "squeezed", "beat", "dressed", "worked",
     "bent", "twisted", "persuaded", "got"]
)  # fmt: skip
_STRAIGHT: Final = frozenset({("straight",), ("true",), ("square",), ("into", "shape"), ("to", "shape")})
_BACK: Final = frozenset({"back", "out", "again", "nice", "and", "dead", "nearly"})
_IT: Final = frozenset({"it", "that", "them", "those", "this"})
_THE: Final = frozenset({"the", "its", "both"})
_MOVES: Final = frozenset(
    ["away", "out", "off", "on", "in", "through", "back", "down", "up", "into", "from", "of", "edge", "to"]
)
_NOT: Final = frozenset(
    ["not", "never", "if", "should", "could", "would", "might", "to", "must", "somebody", "he", "they", "who"]
)
_LONGEST: Final = 5  # tokens of "the left back plate"
_BINS: Final = frozenset({"bin", "scrap", "tin", "bucket", "skip", "rubbish"})
_OFF: Final = frozenset({"out", "off"})
_WERE_IT: Final = frozenset({"it", "they", "that", "he", "she", "those"})
_OPENS: Final = frozenset({"", BREAK, "and", "but", "so", "well", "mind"})


@called_by({"straight", "true", "square", "shape"})
def knocked_straight(tokens: Tokens, _: Discourse, lexicon: Lexicon) -> Tokens:
    """ "Knocked it straight with the mallet", "pulled the left plate back into shape": straightened."""
    texts = tuple([token.text for token in tokens])
    for at, text in enumerate(texts):
        if text not in _KNOCKED or not _NOT.isdisjoint(texts[:at]):
            continue
        end = _object_end(texts, at + 1)
        behind = end
        while end and text_at(texts, behind) in _BACK:
            behind += 1
        so = next((said for said in _STRAIGHT if texts[behind : behind + len(said)] == said), None)
        if not end or so is None or text_at(texts, behind + len(so)) in _MOVES:
            continue  # "pulled it straight off"
        if lexicon.names(texts, behind).parts:
            continue  # "got the spring out and square seal's torn"
        verb = replace(tokens[at], text="straightened")
        named = lexicon.names(texts, end - 1).parts or lexicon.names(texts, at + 2).parts
        whom = tokens[at + 1 : end] if named or end == at + 2 else (replace(tokens[at], text="it"),)
        return (*tokens[:at], verb, *whom, *tokens[behind + len(so) :])
    return tokens


def _object_end(texts: Sequence[str], at: int) -> int:
    """The token behind "it" or "the left plate" at *at*; 0 where none stands there."""
    if text_at(texts, at) in _IT:
        return at + 1
    if text_at(texts, at) not in _THE:
        return 0
    for end in range(at + 2, min(at + 1 + _LONGEST, len(texts))):
        ahead = tuple(texts[end : end + 2])
        if ahead[:1] in _STRAIGHT or ahead in _STRAIGHT or text_at(texts, end) in _BACK:
            return end
    return 0


@called_by({"goes"})
def went_in_the_bin(tokens: Tokens, _: Discourse, __: Lexicon) -> Tokens:
    """ "Split pin out and that goes in the scrap tin": what is out went there, at once."""
    texts = [token.text for token in tokens]
    at = texts.index("goes")
    where = texts[at + 1 : at + 2] == ["in"] and not _BINS.isdisjoint(texts[at + 2 : at + 5])
    if (
        not where
        or texts[at - 1 : at] not in (["that"], ["it"])
        or _OFF.isdisjoint(texts[max(0, at - 4) : at])
    ):
        return tokens
    return (*tokens[:at], replace(tokens[at], text="went"), *tokens[at + 1 :])


@called_by({"bin", "skip"})
def in_the_bin(tokens: Tokens, _: Discourse, __: Lexicon) -> Tokens:
    """ "Goes in bin anyway": in the bin, and fitted nowhere."""
    texts = [token.text for token in tokens]
    for at in range(1, len(texts)):
        if texts[at] in {"bin", "skip"} and texts[at - 1] in {"in", "into"}:
            return (*tokens[:at], replace(tokens[at], text="the"), *tokens[at:])
    return tokens


@called_by({"bothered", "bothering"})
def never_bothered(tokens: Tokens, _: Discourse, __: Lexicon) -> Tokens:
    """ "So never bothered cleaning that": it was not cleaned, and is not to be."""
    texts = [token.text for token in tokens]
    at = next((i for i in range(len(texts) - 1) if texts[i : i + 2] == ["never", "bothered"]), None)
    if at is None:
        return tokens
    words = [replace(tokens[at], text=word) for word in ("did", "not", "bother")]
    return (*tokens[:at], *words, *tokens[at + 2 :])


@called_by({"were"})
def were_it(tokens: Tokens, _: Discourse, __: Lexicon) -> Tokens:
    """ "Were it pitted as well I'd scrap it": if it were."""
    texts = [token.text for token in tokens]
    at = texts.index("were")
    if text_at(texts, at - 1) not in _OPENS or text_at(texts, at + 1) not in _WERE_IT:
        return tokens
    if not {"would", "had"} & set(texts[at:]):
        return tokens
    words = (replace(tokens[at], text="if"), tokens[at + 1], tokens[at])
    return (*tokens[:at], *words, *tokens[at + 2 :])


@called_by({"another", "new"})
def one_more_of_those(tokens: Tokens, state: Discourse, _: Lexicon) -> Tokens:
    """ "A new one of those", "another one of those then": a new one for that."""
    texts = [token.text for token in tokens]
    begin = int(text_at(texts, 0) == "a")
    if text_at(texts, begin) not in {"new", "another"} or state.stage != "as_found":
        return tokens
    asked = text_at(texts, begin) == "new" or text_at(texts, begin + 4) in {"then", "please"}
    if texts[begin + 1 : begin + 3] != ["one", "of"] or text_at(texts, begin + 3) not in _IT or not asked:
        return tokens
    words = [replace(tokens[begin], text=word) for word in ("new", "one", "for", "that")]
    return (*words, *tokens[begin + 4 :])
