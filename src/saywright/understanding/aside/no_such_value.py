"""Numbers beside what is read that are none of it: how large a fault is, where it stayed. Pure."""

from __future__ import annotations

from typing import Final

from saywright.understanding.bench_words import PLACES_ON_IT
from saywright.understanding.facts import Fact
from saywright.understanding.tokens import BREAK

_FAULTS: Final = frozenset(
    ["lip", "step", "ridge", "groove", "chip", "crack", "pit", "dent", "burr", "nick",
     "notch", "gouge", "dimple", "hole"]
)  # fmt: skip
_BETWEEN: Final = PLACES_ON_IT | frozenset(
    ["on", "in", "at", "the", "of", "it", "its", "there", "here", "worn", "about", "that", "is", "a", "into",
     "round", "all", "by", "say", "good", "right"]
)  # fmt: skip
_BEFORE: Final = frozenset(
    ["a", "the", "this", "that", "small", "little", "slight", "bit", "of", "got", "is"]
)
_WHERE: Final = frozenset({"on", "off", "over", "at", "by", "from"})
_COMES: Final = frozenset(
    {"came", "come", "comes", "got", "get", "reached", "reach", "made", "makes", "happened"}
)
_STAYS: Final = frozenset(
    {"sits", "sat", "stays", "stayed", "sticks", "stuck", "stops", "stopped", "hangs", "hung"}
)


def is_size_of_fault(fact: Fact, texts: tuple[str, ...]) -> bool:
    """ "Lip on the edge, half a millimetre", "a groove in it point two deep": how large it is."""
    if fact.characteristics or any(s.components and not s.pronoun for s in fact.subjects):
        return False
    at = fact.phrase.start - 1
    while at >= 0 and texts[at] in _BETWEEN - _FAULTS:
        at -= 1
    if at < 0 or texts[at] not in _FAULTS:
        return False
    before = texts[at - 1] if at else BREAK
    if before in {"the", "a"} and at > 1 and texts[at - 2] in _WHERE:
        return False  # "no, I had it on the burr, one point eight two": where it was held
    return before == BREAK or before in _BEFORE


def never_got_there(fact: Fact, texts: tuple[str, ...]) -> bool:
    """ "Cut out never came, it sits at two bar": where it stayed, and not at what it should have come to."""
    before = texts[: fact.phrase.start]
    denied = next((i for i, text in enumerate(before) if text in {"never", "not"}), None)
    if denied is None or _COMES.isdisjoint(before[denied + 1 : denied + 2]):
        return False
    return bool(denied) and not _STAYS.isdisjoint(before[denied + 2 :])
