"""A side at the head of an utterance, where all that follows is on it: "now the right side, four nuts"."""

from __future__ import annotations

from collections.abc import Sequence

from saywright.understanding.tags import Tag

_SAID_OF_IT = frozenset({"COND", "OFF", "ON", "AUX", "CHAR"})
_COUNTED = frozenset({"WORD", "PART"})


def heads_all(behind: Sequence[Tag], *, told: bool) -> bool:
    """True where what stands *behind* a side begins anew: "right hand side and it's the same".

    *told*: the side is told to come. Not "left side's worn", "right side four point two": that is said of it.
    """
    joined = bool(behind) and (behind[0].kind == "BREAK" or "AND" in behind[0].tags)
    rest = behind[joined : joined + 2]
    if not rest or not (told or joined):
        return False
    first, then = rest[0], rest[1:]
    if first.kind == "MEASURE":
        return told and bool(then) and then[0].kind in _COUNTED
    return first.kind not in _SAID_OF_IT and not first.meaning.positions


def onto(words: Sequence[str]) -> bool:
    """ "on to", "back to", "up next"."""
    said = " ".join(words)
    return any(turn in f" {said} " for turn in (" on to ", " back to ", " up next "))
