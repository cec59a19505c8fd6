"""Parts called "he": "he's scored", "out of his hole" of what is in hand; a person is left alone. Pure."""

from __future__ import annotations

from dataclasses import replace

from saywright.understanding.discourse import Hand
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.tokens import BREAK, Token

_HE = frozenset({"he", "his"})
_IS = frozenset({"is", "has"})
_SO_MUCH = frozenset(
    ["gone", "got", "still", "all", "a", "bit", "badly", "well", "not", "quite", "nice", "and", "really",
     "only", "just", "been", "as", "proper", "completely"]
)  # fmt: skip
_REACH = 3  # tokens between the verb and the state
# Where a part belongs: no place of a person.
_PLACES = frozenset(
    ["hole", "groove", "bore", "seat", "slot", "pocket", "housing", "recess", "socket", "thread", "threads",
     "shoulder", "clip", "taper", "stud", "spindle", "shaft", "land", "counterbore", "keyway"]
)  # fmt: skip
_LITTLE = frozenset({"little", "own", "old"})
_PEOPLE_ARE = frozenset(
    {"worn", "knackered", "broken", "shot", "tight", "loose", "dirty", "dry", "sore", "bent"}
)
# A person is talked of beside it, or to.
_PEOPLE = frozenset(
    ["mate", "customer", "lad", "lads", "bloke", "gaffer", "owner", "boss", "boy", "son", "dad", "brother",
     "father", "driver", "chap", "fella", "man", "guy", "who", "said", "says", "reckons", "told",
     "him", "neighbour", "farmer"]
)  # fmt: skip


def parts_called_he(tokens: tuple[Token, ...], lexicon: Lexicon, hand: Hand | None) -> tuple[Token, ...]:
    """The same tokens, "it" and "its" where a part is called "he" and a state or a place of it is told."""
    texts = tuple([token.text for token in tokens])
    if _HE.isdisjoint(texts) or not _PEOPLE.isdisjoint(texts):
        return tokens
    out = list(tokens)
    for at, text in enumerate(texts):
        named = _is_named(texts[:at], lexicon)
        if text == "he" and (named or hand is not None) and _is_told(texts, at + 1, lexicon, named=named):
            out[at] = replace(tokens[at], text="it")
        elif text == "his" and (named or hand is not None) and _is_of_part(texts, at):
            out[at] = replace(tokens[at], text="its")
    return tuple(out)


def _is_named(texts: tuple[str, ...], lexicon: Lexicon) -> bool:
    """True where a part, or which of several, is named in *texts*."""
    found = (lexicon.names(texts, at) for at in range(len(texts)))
    return any(one.parts or one.aliases or one.positions or "ORD" in one.tags for one in found)


def _is_told(texts: tuple[str, ...], at: int, lexicon: Lexicon, *, named: bool) -> bool:
    """ "is scored", "has gone weak", from *at* on; what people are too only of a part *named* before."""
    if at >= len(texts) or texts[at] not in _IS:
        return False
    for here in range(at + 1, min(at + 2 + _REACH, len(texts))):
        states = lexicon.names(texts, here).conditions
        if states or texts[here] in lexicon.predicates:
            of_part = texts[here] not in _PEOPLE_ARE and any(_is_fault(state, lexicon) for state in states)
            return named or of_part
        if texts[here] not in _SO_MUCH:
            return False
    return False


def _is_fault(state: str, lexicon: Lexicon) -> bool:
    spec = lexicon.sheet.get_condition(state)
    return spec is not None and not spec.good


def _is_of_part(texts: tuple[str, ...], at: int) -> bool:
    """ "in his groove", "on his little clip", "his seat is pitted"."""
    noun = at + 1 + (not _LITTLE.isdisjoint(texts[at + 1 : at + 2]))
    if noun >= len(texts) or texts[noun] == BREAK:
        return False
    return texts[noun] in _PLACES
