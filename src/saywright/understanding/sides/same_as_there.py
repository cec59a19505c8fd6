""" "Now the rear one, do exactly the same again", "replace it with the same as at the front": plainly. Pure.

What is to be done over again at a place is only a heading, and tells of nothing found there. What a part is
to be replaced with is told by another one, which stays.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Final

from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.steps import Tokens
from saywright.understanding.tokens import BREAK, Token, text_at

if TYPE_CHECKING:
    from saywright.understanding.lexicon import Lexicon

_DO: Final = frozenset({"do", "doing", "repeat"})
_FIRMLY: Final = frozenset({"exactly", "just", "all"})
_BEHIND: Final = frozenset({"again", "thing", "there", "over", "as", "before", "job", "here", BREAK})
_TURNS: Final = frozenset(
    {"turn", "go", "move", "come", "over", "on", "change", "turning", "moving", "going", "get", "now", "next"}
)
_JOINS: Final = frozenset({"and", "to", "we", "i", "will", "then", BREAK})
_RENEWS: Final = frozenset(
    {"replace", "replaced", "replacing", "renew", "renewed", "swap", "swapped", "change", "changed"}
)
_WAYS: Final = frozenset({"in", "on", "back"})
_AS_WAS: Final = frozenset(
    {("as", "was"), ("as", "they", "were"), ("as", "came", "out"), ("as", "came", "off"), ("as", "were")}
)
_LINKS: Final = frozenset({"and", "but", "so", "then", "because", BREAK})


def same_as_there(tokens: Tokens, lexicon: Lexicon, *, building: bool) -> Tokens:
    """*tokens* without "and do the same again", or "with the same as at the front"; "same as was" plainly."""
    if building:
        tokens = _same_as_was(tokens)
    return _do_the_same(_with_the_same(tokens), lexicon)


def _same_as_was(tokens: Tokens) -> Tokens:
    """ "Two balls dropped in, same as was": the old ones."""
    texts = tuple([token.text for token in tokens])
    at = texts.index("same")
    if at < 1 or texts[at + 1 :] not in _AS_WAS or _WAYS.isdisjoint(texts[:at]):
        return tokens
    begin = at - (texts[at - 1] in {"the", "all", "both"})
    return (*tokens[:begin], *(Token(text, tokens[at].word) for text in ("old", "ones")))


def _do_the_same(tokens: Tokens, lexicon: Lexicon) -> Tokens:
    """*tokens* without "and do exactly the same again" behind the place that is turned to."""
    texts = [token.text for token in tokens]
    if "same" not in texts:
        return tokens
    at = len(texts) - 1 - texts[::-1].index("same")
    begin = at - (texts[at - 1] == "the") if at else 0
    begin -= begin > 0 and texts[begin - 1] in _FIRMLY
    if begin < 1 or texts[begin - 1] not in _DO or not _BEHIND.issuperset(texts[at + 1 :]):
        return tokens
    end = begin - 1
    while end and texts[end - 1] in _JOINS:
        end -= 1
    if (
        _TURNS.isdisjoint(texts[:end])
        or "to" not in texts[:end]
        or not CLASSES.keys().isdisjoint(texts[:end])
    ):
        return tokens
    return tokens[:end] if not lexicon.positions.isdisjoint(texts[:end]) else tokens


def _with_the_same(tokens: Tokens) -> Tokens:
    """*tokens* without "with the same as at the front" behind what is to be replaced."""
    texts = [token.text for token in tokens]
    at = next((i for i, text in enumerate(texts) if text in _RENEWS), len(texts))
    begin = next((i for i in range(at + 1, len(texts)) if texts[i] == "with"), 0)
    if not begin or "same" not in texts[begin:]:
        return tokens
    same = begin + 1 + (text_at(texts, begin + 1) in {"one", "ones"})
    same += text_at(texts, same) == "the"
    if text_at(texts, same) != "same" or text_at(texts, same + 1) != "as":
        return tokens
    end = _clause_end(texts, same + 2)
    return (
        tokens
        if not CLASSES.keys().isdisjoint(set(texts[same + 2 : end]) - {"one"})
        else (*tokens[:begin], *tokens[end:])
    )


def _clause_end(texts: Sequence[str], at: int) -> int:
    return next((i for i in range(at, len(texts)) if texts[i] in _LINKS), len(texts))
