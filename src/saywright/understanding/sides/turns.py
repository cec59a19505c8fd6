"""A turn to a side, and the words around one: "now the right side, four nuts", "the left for the build"."""

from __future__ import annotations

from collections.abc import Sequence

from saywright.understanding.fixed import fixed
from saywright.understanding.tags import Tag

_SAID_OF_IT = frozenset({"COND", "OFF", "ON", "AUX", "CHAR"})
_REFIT = frozenset({"build", "rebuild", "refit", "assembly", "reassembly"})
_WITH = frozenset({"with", "and"})
_TOOL = 4  # tags at most: "and a thirteen mil spanner"
_NOT_NOW = frozenset(
    {"later", "after", "afterwards", "tomorrow", "tonight", "when", "once", "before", "until"}
)
_SOON = frozenset({"minute", "second", "moment", "bit", "while", "tick"})
_COUNTED = frozenset({"WORD", "PART"})
_BY_NUMBER = frozenset({"TURNED", "PASSED", "LEFT"})  # of a station, told from a value by the words around it


@fixed
class Turn:
    """A side turned to, or left with none turned to."""

    side: str  # "" where every side is left: "on both sides"
    start: int  # tags [start, end) that say no more than that
    end: int
    leaves: bool = False
    passing: bool = False  # it is only where this clause is: "on the left the inner pad's worn"
    part: str | None = None  # the one part that is named with it: "left slide seal first"

    @property
    def of_all(self) -> bool:
        """Every side was told of, with no words that only say so."""
        return self.leaves and not self.side and self.start == self.end

    @staticmethod
    def by_number(side: str, at: int, said: frozenset[str]) -> Turn | None:
        """The turn to, past or away from a station, where the tags *said* of tag *at* tell one."""
        if said.isdisjoint(_BY_NUMBER):
            return None
        return Turn(side, at, at + 1, leaves="LEFT" in said, passing="PASSED" in said)


def heads_all(behind: Sequence[Tag], *, told: bool, begins: bool = False) -> bool:
    """True where what stands *behind* a side begins anew: "right hand side and it's the same".

    *told*: the side is told to come; *begins*: a clause with its own subject is behind ("primary side he's
    pulling …"). Not "left side's worn", "right side four point two": that is said of it.
    """
    joined = bool(behind) and (behind[0].kind == "BREAK" or "AND" in behind[0].tags)
    rest = behind[joined : joined + 2]
    if begins:
        return True
    if not rest or not (told or joined):
        return False
    first, then = rest[0], rest[1:]
    if first.kind == "MEASURE":
        return told and bool(then) and then[0].kind in _COUNTED
    return first.kind not in _SAID_OF_IT and not first.meaning.positions


def is_tool(behind: Sequence[Tag], texts: Sequence[str]) -> bool:
    """True where a tool is told *behind* a side: "twelve mil socket", "with the big bar"."""
    for tag in behind[:_TOOL]:
        if "TOOL" in tag.tags:
            return True
        if tag.kind != "MEASURE" and "DET" not in tag.tags and texts[tag.start] not in _WITH:
            return False
    return False


def planned(before: Sequence[Turn], turn: Turn, tags: Sequence[Tag], texts: Sequence[str]) -> bool:
    """ "the left first and then the right": the second is still to come."""
    if not turn.leaves and _is_later(tags, texts, turn.start, turn.end):
        return True
    if not before or before[-1].leaves:
        return False
    said = {texts[tag.start] for tag in tags[before[-1].start : before[-1].end]}
    return "first" in said and turn.start - before[-1].end <= 1


def onto(words: Sequence[str]) -> bool:
    """ "on to", "back to", "up next"."""
    said = " ".join(words)
    return any(turn in f" {said} " for turn in (" on to ", " back to ", " up next "))


def is_for_refit(texts: Sequence[str], tag: Tag) -> bool:
    """True for each tag of "for the build", behind a side that is turned to."""
    words = texts[tag.start : tag.end]
    if _REFIT.issuperset(words):
        return texts[tag.start - 1] in {"for", "the"}
    return {"for", "the"}.issuperset(words) and not _REFIT.isdisjoint(texts[tag.end : tag.end + 2])


def _is_later(tags: Sequence[Tag], texts: Sequence[str], start: int, end: int) -> bool:
    """ "I'll do the left one after dinner", "before I do the rear", around tags [start, end)."""
    before = tags[start - 1].tags if start else frozenset()
    behind = tags[end].start if end < len(tags) else len(texts)
    return "SUBORDINATE" in before or not _NOT_NOW.isdisjoint(texts[behind : behind + 1])


def is_soon(texts: Sequence[str]) -> bool:
    """ "I'll come back to the right in a minute"."""
    return tuple(texts[-3:-1]) == ("in", "a") and texts[-1] in _SOON
