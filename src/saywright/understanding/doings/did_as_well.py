""" "Did the left one as well, cleaned and greased", "did the other one too": done, and not asked. Pure."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from saywright.understanding.doings.roundabout import ended
from saywright.understanding.steps import Tokens, called_by
from saywright.understanding.tokens import BREAK, Token, text_at

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_BEFORE: Final = frozenset({"", BREAK, "and", "so", "then", "i", "we", "also", "just"})
_OBJECTS: Final = frozenset({"the", "both", "that", "its", "those", "these"})
_TOO: Final = (("as", "well"), ("too",), ("the", "same"), ("also",))
_NOUNS: Final = frozenset(
    {"one", "ones", "other", "others", "two", "pair", "rest", "lot", "both", "side", "sides", "end"}
)
_REACH: Final = 6  # tokens of "the left lower one"


@called_by({"did"})
def did_as_well(tokens: Tokens, _: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* with the doing of what "did the left one as well" says that it was done to."""
    texts = tuple([token.text for token in tokens])
    at = texts.index("did")
    if text_at(texts, at - 1) not in _BEFORE or text_at(texts, at + 1) not in _OBJECTS:
        return tokens
    ends = range(at + 3, min(len(texts), at + 2 + _REACH))
    cut, rest = next(((i, i + len(t)) for i in ends for t in _TOO if texts[i : i + len(t)] == t), (0, 0))
    if not cut or not _names_one(texts, at + 1, cut, lexicon):
        return tokens  # "did the seal leak too" is asked
    begin = at - (text_at(texts, at - 1) in {"i", "we"})
    named = tokens[at + 1 : cut]
    if ended(list(texts), rest):
        said = [Token(text, tokens[at].word) for text in ("is", "done", "too")]
        return (*tokens[:begin], *named, *said, *tokens[rest:])
    rest += texts[rest] == BREAK
    verb = lexicon.match(texts, rest) if rest < len(texts) else None
    told = verb is not None and verb[1].acts and verb[1].acts[0].form == "past"
    return (*tokens[:begin], *named, *tokens[rest:]) if told else tokens


def _names_one(texts: tuple[str, ...], begin: int, end: int, lexicon: Lexicon) -> bool:
    """True where [begin, end) ends with what is named: "the left one", "the lower bush", "both sides"."""
    last = texts[end - 1]
    if last in _NOUNS or last in lexicon.positions:
        return True
    found = ((at, lexicon.match(texts, at)) for at in range(begin, end))
    return any(named and at + named[0] == end and (named[1].parts or named[1].aliases) for at, named in found)
