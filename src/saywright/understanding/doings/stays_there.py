"""What a thing is there for, and what is only turned back: "what holds the hoses on", "back it off"."""

from __future__ import annotations

from itertools import pairwise

from saywright.understanding.walk import Walk

_BACKS = frozenset({"back", "backed", "backing"})
_OBJECTS = frozenset({"it", "them", "that", "this", "him", "her", "she"})
_WHICH = frozenset({"what", "which", "that"})
_HOLDS = frozenset({"holds", "hold", "held", "keeps", "keep", "kept"})
_HELD_REACH = 6  # tokens of "what holds the two long hoses"


def stays_there(walk: Walk, index: int) -> bool:
    """True where the movement at phrase *index* takes nothing off and puts nothing on."""
    start, end = walk.phrases[index].start, walk.phrases[index].end
    verb, it, off = (*walk.texts[max(0, end - 3) : end], "", "", "")[:3]
    if off == "off" and verb in _BACKS and it in _OBJECTS:
        return True  # "idling fast, back it off"
    before = walk.texts[max(0, start - _HELD_REACH) : start]
    return any(one in _WHICH and holds in _HOLDS for one, holds in pairwise(before))
