""" "Cap pin nut all off": a short name right behind a part is the next of a run, or makes it another part.

"Pin cap" may be the cap of a pin. It is not where the part before is several ("shoes springs off"), is a
thing that no other is called after ("nut cap off"), where three and more stand in a row, or where the end of
the row says that they are several ("drum seal both off").
"""

from __future__ import annotations

from saywright.understanding.around import Around
from saywright.understanding.bench_words import FASTENERS
from saywright.understanding.tokens import BREAK

_LEAST = 3  # names in a row that are no one thing's name
_MOST = 8
# What no other part is called after; a clip, a screw and a spring have caps and seats.
_ALONE = (FASTENERS - {"clip", "clips", "screw", "stud"}) | {
    "pin", "pins", "washer", "washers", "gasket", "gaskets", "circlip", "circlips", "shim", "shims",
}  # fmt: skip
_EVERY = frozenset({"all", "both"})
_MOVED = frozenset({"off", "out", "in", "on", "back", "down", "up", "away"})
_ENDS = _MOVED | _EVERY | {"", BREAK, "and"}
_BETWEEN = frozenset({"new", "old", "a", "an", "the", "both", "two", "three", "four", "six", "eight"})


def is_next_member(around: Around, following: int) -> bool:
    """True where the short name that ends at *following*, right behind a part, is one more of a run."""
    last = around.last
    if last is None or last.kind != "PART":
        return False
    ahead, end = _ahead(around, following)
    if around.text(end) not in _ENDS:
        return False
    if last.meaning.many or around.texts[last.end - 1] in _ALONE:
        return True
    every = around.text(end) in _EVERY and around.text(end + 1) in _MOVED
    return every or _before(around) + 1 + ahead >= _LEAST


def _before(around: Around) -> int:
    """How many parts stand in a row up to the token at work."""
    count = 0
    for tag in reversed(around.out):
        if tag.kind == "PART":
            count += 1
        elif tag.kind != "MOD":
            break
    return count


def _ahead(around: Around, at: int) -> tuple[int, int]:
    """How many parts follow in a row from *at* on, and where the row ends."""
    count = 0
    while count < _MOST:
        begin = at
        while around.text(begin) in _BETWEEN and around.text(begin + 1) not in _MOVED:
            begin += 1
        found = around.lexicon.match(around.texts, begin) if around.text(begin) not in {"", BREAK} else None
        if found is None or not (found[1].parts or found[1].aliases):
            return count, at
        at = begin + found[0]
        count += 1
    return count, at
