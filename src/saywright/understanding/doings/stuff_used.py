"""What something was done with, by a word of doing: "with a bit of metal polish". Pure."""

from __future__ import annotations

from collections.abc import Sequence

from saywright.understanding.bench_words import PARTICLES
from saywright.understanding.tokens import BREAK

_REACH = 6  # tokens from "with" to the noun
_ARTICLES = frozenset({"a", "an", "the", "another"})
_CLAUSE = frozenset({BREAK, "and", "it", "so", "then", "is", "are", "was", "i", "we", "to", "that", "for"})
_OBJECTS = (
    _CLAUSE | _ARTICLES | {"them", "this", "those", "these", "both", "all", "my", "some", "", "in", "on"}
)
_OBJECTS_OF_VERB = frozenset(
    {"it", "them", "one", "two", "another", "that", "this", "those", "both", "a", "the"}
)


def is_stuff(texts: Sequence[str], start: int, end: int, *, ing: bool) -> bool:
    """True where the doing [start, end) is a noun, or begins one, of what is used behind "with"."""
    near = range(start - 1, max(-1, start - 1 - _REACH), -1)
    at = next((i for i in near if texts[i] == "with"), None)
    if at is None:
        return False
    between = texts[at + 1 : start]
    if not _CLAUSE.isdisjoint(between):
        return False
    if ing:  # "with washing up liquid", "with some cutting paste"
        behind = end + (end < len(texts) and texts[end] in PARTICLES)
        return behind < len(texts) and texts[behind] not in _OBJECTS
    if not between or (end < len(texts) and texts[end] in _OBJECTS_OF_VERB):
        return False  # "black with dirt order one"
    return "of" in between or _ARTICLES.isdisjoint(between)  # not "with a good clean"
