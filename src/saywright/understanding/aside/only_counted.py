"""Numbers that tell how many there are, of parts or of other things: "head screws, there's six". Pure."""

from __future__ import annotations

from itertools import pairwise
from typing import Final

from saywright.understanding.bench_words import FASTENERS, SIZE_WORDS, THERE_ARE
from saywright.understanding.counting.counts import small_count
from saywright.understanding.facts import Fact
from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.tokens import BREAK

HOW_MANY: Final = "how many there are"
# The part is talked of still.
STILL_NAMED: Final = frozenset({HOW_MANY, "how far apart", "how far it was turned"})
_OF: Final = frozenset({"the", "them", "these", "those", "its", "our", "their", "my", "each"})
_KINDS: Final = SIZE_WORDS | frozenset({"big", "large", "old", "plain", "brass", "steel", "hex", "allen"})
_THINGS: Final = FASTENERS | frozenset(
    {"washers", "pins", "springs", "shims", "dowels", "wires", "hoses", "clamps", "spanner", "spanners"}
)
_ENDS: Final = frozenset(  # a new clause begins, or the count goes on
    [BREAK, "and", "so", "but", "then", "see", "look", "each", "per", "all", "in", "on", "altogether",
     "i", "we", "you", "he", "she", "they", "here", "missing", "total"]
)  # fmt: skip
_MOST_KINDS: Final = 2  # "two big long bolts"


def how_many_there_are(fact: Fact, texts: tuple[str, ...]) -> bool:
    """ "There's six", "there's two, one each side", "one each side", "two long bolts"."""
    if fact.characteristics or small_count(fact.phrase.measure) is None:
        return False
    start, behind = fact.phrase.start, texts[fact.phrase.end :]
    if texts[max(0, start - 2) : start] in THERE_ARE:
        return not behind or behind[0] in _ENDS or behind[0] in CLASSES or behind[0] == "number"
    if behind[:2] in {("each", "side"), ("each", "end"), ("a", "side"), ("per", "side")}:
        return texts[start : fact.phrase.end] == ("one",) or _counted_first(texts[:start])
    kinds = 0
    while kinds < _MOST_KINDS and behind[kinds : kinds + 1] and behind[kinds] in _KINDS:
        kinds += 1
    return bool(kinds) and not _THINGS.isdisjoint(behind[kinds : kinds + 1])


def so_many_of_them(fact: Fact, texts: tuple[str, ...]) -> bool:
    """ "A chip between two of the teeth", "six of them"."""
    behind = texts[fact.phrase.end : fact.phrase.end + 2]
    few = behind[:1] == ("of",) and not _OF.isdisjoint(behind[1:])
    return few and small_count(fact.phrase.measure) is not None


def _counted_first(before: tuple[str, ...]) -> bool:
    """ "there's four, two each side"."""
    return any(pair in THERE_ARE for pair in pairwise(before))
