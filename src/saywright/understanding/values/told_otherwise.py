""" "The right took two hundred", "somebody's put a forty five in the other one": plainly. Pure."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from saywright.understanding.bench_words import WORKSHOP
from saywright.understanding.doings.roundabout import put_plainly
from saywright.understanding.numbers.words import CLASSES, OH, ORDINALS
from saywright.understanding.steps import Tokens, called_by
from saywright.understanding.tokens import BREAK, Token, text_at
from saywright.units import get_unit

if TYPE_CHECKING:
    from collections.abc import Sequence

    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_TOOK: Final = frozenset({"took", "needed", "wanted", "went"})
_ENDS: Final = frozenset({"", BREAK, "before", "and", "but", "to", "though", "so", "as", "for"})
_NOUNS: Final = frozenset({"one", "side", "end", "hand"})
_SOMEBODY: Final = frozenset({"somebody", "someone", "whoever", "somebodys", "someones"})
_HELPS: Final = frozenset({"has", "is", "had", "have", "just"})
_PUT: Final = frozenset({"put", "fitted", "stuck", "got", "bunged", "popped", "shoved", "screwed"})
_PLACED: Final = frozenset({"in", "on"})
_OTHERS: Final = frozenset({"other"})
_RANKED: Final = frozenset({"groove", "notch", "hole", "slot"})
_EXACTLY: Final = frozenset({"bang", "dead", "spot", "smack"})
_SIGNS: Final = _TOOK | _SOMEBODY | {"other", "there", "stays"} | _EXACTLY
_LONGEST: Final = 6  # tokens of a number


@called_by(_PUT | {"moved", "dropped", "set"})
def put_in_rank(tokens: Tokens, state: Discourse, lexicon: Lexicon) -> Tokens:
    """ "Put it in the third to match", the clip of the needle in hand: now it is in the third groove."""
    texts = [token.text for token in tokens]
    at = next((i for i, text in enumerate(texts) if text in _PUT | {"moved", "dropped", "set"}), 0)
    begin = at + 2
    while text_at(texts, begin) in {"up", "down", "back", "in", "into", "to"}:
        begin += 1
    part = lexicon.sheet.get(state.hand.component) if state.hand is not None else None
    ranked = begin > at + 2 and text_at(texts, begin) == "the" and text_at(texts, begin + 1) in ORDINALS
    if ranked and text_at(texts, begin + 2) in WORKSHOP:
        return (*tokens[: begin + 1], *tokens[begin + 2 :])  # "put it in the third drawer"
    if part is None or not ranked or text_at(texts, at + 1) not in {"it", "that", "them", "him"}:
        return tokens
    nouns = [n for c in part.characteristic if c.unit == "1" for n in c.names if n in _RANKED]
    behind = text_at(texts, begin + 2)
    if not nouns or not (behind in {"", BREAK, "to", "and", "now", "one", "so"} or behind in nouns):
        return tokens
    said = ("now", "it", "is", "in", "the", texts[begin + 1], nouns[0])
    rest = begin + 2 + (behind in nouns or behind == "one")
    return (*tokens[:at], *(Token(word, tokens[at].word) for word in said), *tokens[rest:])


@called_by(_SIGNS)
def told_otherwise(tokens: Tokens, _: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* with "is" and "there is" for verbs that only tell a value there."""
    return put_plainly(tokens, (_took, _put_in, _has_in_other, _exactly, _stays_so), lexicon)


def _number_end(texts: Sequence[str], at: int) -> int:
    """The token behind the number at *at*; *at* where there is none."""
    end = at
    while end < min(len(texts), at + _LONGEST) and (texts[end] in CLASSES or (end > at and texts[end] in OH)):
        end += 1
    return end


def _took(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "The right took two hundred before the pin would go in": it is so much there."""
    for at, text in enumerate(texts):
        if text not in _TOOK or not at:
            continue
        behind_to = text == "went" and text_at(texts, at + 1) == "to"
        if text == "went" and not behind_to:
            continue
        noun = at - 1 - (texts[at - 1] in {"only", "just", "even"})
        while noun > 0 and texts[noun] in _NOUNS:
            noun -= 1
        end = _number_end(texts, at + 1 + behind_to)
        unit = lexicon.units.get(text_at(texts, end), ())
        kinds = {get_unit(code).kind for code in unit}
        told = (
            text_at(texts, end) in _ENDS
            or bool(kinds - {"time", "number"})
            or text_at(texts, end) == "newton"
        )
        if end > at + 1 + behind_to and told and (texts[noun] in lexicon.positions or texts[noun] in _OTHERS):
            behind = () if texts[at - 1] == "only" else tokens[noun + 1 : at]
            return (*tokens[: noun + 1], *behind, Token("is", tokens[at].word), *tokens[at + 1 + behind_to :])
    return tokens


def _put_in(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "Somebody's put a forty five in the right one": there is one in it."""
    at = next((i for i, text in enumerate(texts) if text in _SOMEBODY), len(texts))
    verb = at + 1
    while text_at(texts, verb) in _HELPS:
        verb += 1
    if text_at(texts, verb) not in _PUT or text_at(texts, verb + 1) not in {"a", "an"}:
        return tokens
    end = _number_end(texts, verb + 2)
    place = end + 1 + (text_at(texts, end + 1) == "the")
    if end > verb + 2 and text_at(texts, end) in _PLACED and lexicon.names(tuple(texts), place).parts:
        said = (Token(word, tokens[at].word) for word in ("is", "a"))
        return (*tokens[:at], *tokens[end + 1 :], *said, *tokens[verb + 2 : end])
    there = text_at(texts, place) in lexicon.positions | _OTHERS | {"there", "here", "it", "this", "that"}
    if end == verb + 2 or text_at(texts, end) not in _PLACED or not there:
        return tokens
    said = (Token(word, tokens[at].word) for word in ("there", "is"))
    return (*tokens[:at], *said, *tokens[verb + 1 :])


def _has_in_other(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "It's got a forty five in the other one": there is one in that."""
    at = next(
        (i for i, text in enumerate(texts) if text == "got" and text_at(texts, i - 2) in {"it", "he", "she"}),
        0,
    )
    end = _number_end(texts, at + 2) if at and text_at(texts, at + 1) in {"a", "an"} else 0
    if not end or end == at + 2 or texts[end : end + 3] != ["in", "the", "other"]:
        return tokens
    said = (Token(word, tokens[at].word) for word in ("there", "is"))
    return (*tokens[: at - 2], *said, *tokens[at + 1 :])


def _exactly(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "Right's bang on two": it is two."""
    at = next((i for i, text in enumerate(texts) if text in _EXACTLY and text_at(texts, i + 1) == "on"), 0)
    told = at and text_at(texts, at + 2) in CLASSES and texts[at - 1] in {"is", "are", "was", "at", "reads"}
    return (*tokens[:at], *tokens[at + 2 :]) if told else tokens


def _stays_so(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "Right one's on two and it can stop there": the setting stays, no part is kept for it."""
    if texts[-5:] == ["it", "stays", "where", "it", "is"]:
        return _set_so(tokens, texts, lexicon)
    at = len(texts) - 4
    stays = at > 0 and texts[at] in {"it", "that"} and texts[at + 1 : at + 2] == ["can"]
    if not stays or texts[at + 2] not in {"stop", "stay", "sit"} or texts[-1] != "there":
        return tokens
    end = at - (texts[at - 1] in {"and", BREAK, "so"})
    return tokens[:end] if not {*texts[max(0, end - 2) : end]}.isdisjoint(CLASSES) else tokens


def _set_so(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "Right cable was two already so it stays where it is"."""
    known = (lexicon.names(tuple(texts), i) for i in range(len(texts)))
    named = (lexicon.sheet.get(c) for meaning in known for c in (*meaning.parts, *meaning.aliases))
    restored = any(c.restore for part in named if part is not None for c in part.characteristic)
    end = len(texts) - 5 - (texts[-6] in {"and", BREAK, "so"})
    return tokens[:end] if restored and not {*texts[:end]}.isdisjoint(CLASSES) else tokens
