""" "Now the valves, suction side first", "chain first unhook it": what is begun with. Pure."""

from __future__ import annotations

from typing import Final

from saywright.understanding.discourse import Discourse
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.meanings import NOTHING
from saywright.understanding.steps import called_by
from saywright.understanding.tokens import BREAK, Token

_LEADS: Final = frozenset(
    {"now", "right", "okay", "so", "then", "and", "next", "the", "on", "to", "for", BREAK}
)
_NOUNS: Final = frozenset({"side", "end", "one", "ones", "bank"})
_LONGEST: Final = 9
_HEAD: Final = 5  # tokens before "first"
_OBJECTS: Final = frozenset({"it", "them", "the", "him", "her", "this", "these", "those", "both"})
_NO_VERBS: Final = frozenset(
    ["of", "on", "off", "in", "out", "at", "to", "from", "with", "by", "for", "and", "then", "is", "was",
     "are", "behind", "before", "after", "under", "up", "down", "not", "so", "over", "because", "while",
     "through"]
)  # fmt: skip
_ENDS: Final = _NOUNS | {"first", "now"}


@called_by({"first"})
def side_of_kind(tokens: tuple[Token, ...], _: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """*tokens* without the kind, where none that it names is on the side that is begun on.

    "Now the valves suction side first" turns to the suction side, whatever its parts are called on the sheet.
    """
    if not 1 < len(tokens) <= _LONGEST or tokens[-1].text not in _ENDS:
        return tokens
    texts = tuple(token.text for token in tokens)
    at = next((i for i, text in enumerate(texts) if text not in _LEADS), len(texts))
    if at + 2 > len(texts) or not texts[at].endswith("s") or texts[at] in _NOUNS:
        return tokens
    begin = next((i for i in range(at + 1, len(texts)) if texts[i] not in _LEADS), len(texts))
    places = set(lexicon.names(texts, begin).positions) if begin < len(texts) else set()
    if not places or not (_ENDS | {BREAK}).issuperset(texts[begin + 1 :]) or "first" not in texts[begin:]:
        return tokens
    named = lexicon.names(texts, at)
    meant = (*named.parts, *named.aliases)
    parts = [lexicon.sheet.get(component) for component in meant]
    if not parts and (named != NOTHING or texts[at - 1] != "the"):
        return tokens  # a noun that the sheet has not stands behind an article
    if any(part is not None and places & set(part.stations) for part in parts):
        return tokens
    return (*tokens[:at], *tokens[begin:])


@called_by({"first"})
def begun_with(tokens: tuple[Token, ...], _: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """ "Chain first unhook the chain": a break behind "first", where a verb with its object follows."""
    texts = tuple(token.text for token in tokens)
    at = texts.index("first")
    if not 0 < at <= _HEAD or texts[at + 2 : at + 3] == () or texts[at + 2] not in _OBJECTS:
        return tokens
    begin = next((i for i in range(at) if texts[i] not in _LEADS), at)
    name = lexicon.match(texts, begin) if begin < at else None
    if name is None or begin + name[0] != at or not (name[1].parts or name[1].aliases):
        return tokens
    if texts[at + 1] in _NO_VERBS or not texts[at + 1].isalpha() or texts[at + 1].endswith("ed"):
        return tokens
    return (*tokens[: at + 1], Token(BREAK, tokens[at].word), *tokens[at + 1 :])
