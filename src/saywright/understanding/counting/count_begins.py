"""How a count aloud begins: with the talk of it, with a run of numbers, or once more from nothing."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

from saywright.quantity import parse_value
from saywright.understanding.counting.aloud import CAN_BEGIN, Count, count_run, may_run
from saywright.understanding.counting.count_ends import ends_first, only_ends, without_sum
from saywright.understanding.discourse import Counting
from saywright.understanding.numbers.words import CLASSES, DENOMINATORS
from saywright.understanding.working import Working

BEGINS = frozenset({"counting", "count", "turning", "winding", "screwing", "closing"})
_ANNOUNCED = frozenset({"counting", "count", "in"})
# What is counted is given up, and begins again.
_LOST = (
    ("lost", "count"), ("lost", "it"), ("lost", "that"), ("start", "again"), ("start", "over"),
    ("count", "again"), ("from", "the", "top"), ("starting", "again"), ("go", "again"), ("try", "again"),
    ("once", "more"),
)  # fmt: skip
_THEM = frozenset({"the", "it", "them", "both", "each", "these", "those", "this", "that"})
_TELLS = frozenset({"is", "was", "get", "got", "makes", "make"})  # a value is told, and not counted
_SHARES = frozenset({"half", "quarter", "eighth"})
_COMPARED = 3  # tokens behind a number in which it is compared
_LOST_HEADS = frozenset(words[0] for words in _LOST)
_NUMBERS = CLASSES.keys() | DENOMINATORS.keys()
_FIRST = frozenset({"a", "an", "half", "quarter", "eighth", "one", "1"})  # begin the first step of a count
OF_COUNTS = BEGINS | _LOST_HEADS


def may_count(texts: tuple[str, ...]) -> bool:
    """Talk of counting, or two words of numbers side by side and one that a count begins with; else none."""
    if not OF_COUNTS.isdisjoint(texts):
        return True
    return not _FIRST.isdisjoint(texts) and may_run(texts)


def starts_here(work: Working, texts: tuple[str, ...], run: Count, *, ended: bool) -> bool:
    """Three numbers counted up begin a count, whatever follows, or two with a share of a turn.

    So do two, or one that was announced, where no more than its end is told.
    """
    if texts[run.end : run.end + 1] == ("times",) or (run.said < 2 and BEGINS.isdisjoint(texts)):
        return False
    if run.said >= 3 or (run.said == 2 and "." in run.value):
        return True
    rest = without_sum(texts[run.end :], run, work)
    if not only_ends(rest) and not ends_first(rest):
        return False
    if texts[run.start] in _SHARES and (run.said >= 2 or not BEGINS.isdisjoint(texts[: run.start])):
        return True  # "winding the rod out till it bites, half"
    return (
        run.said >= (2 if "." in run.value or run.said < 2 else 3)
        or (run.said >= 2 and ended)
        or (ended and not BEGINS.isdisjoint(texts))
    )


def find_run(texts: tuple[str, ...], after: Fraction | None) -> Count | None:
    """The longest run of numbers that goes on *after* what was counted; None where it is compared."""
    best: Count | None = None
    for at, text in enumerate(texts):
        run = count_run(texts, at, after) if text in CAN_BEGIN else None
        if run is not None and (best is None or run.said > best.said):
            best = run
    compared = best is not None and "than" in texts[best.end : best.end + _COMPARED]
    return None if compared else best  # "half a turn richer than the left"


def begins_anew(texts: tuple[str, ...], running: Counting) -> bool:
    """True for a whole count from nothing that goes on with the one that runs less well."""
    afresh = find_run(texts, None)
    after = parse_value(running.count) if running.count is not None else None
    going = find_run(texts, after)
    return after is not None and afresh is not None and afresh.said > max(1, going.said if going else 0)


def lost_at(texts: tuple[str, ...]) -> int:
    """How many tokens there are up to the end of the last "lost count, go again"; 0 where none is."""
    if _LOST_HEADS.isdisjoint(texts):
        return 0
    heads = [i for i, text in enumerate(texts) if text in _LOST_HEADS]
    return max((i + len(w) for i in heads for w in _LOST if texts[i : i + len(w)] == w), default=0)


def is_announced(texts: tuple[str, ...]) -> bool:
    """ "counting it in", "turning it in"; not "let me count that again, it is four and three quarters"."""
    told = not _NUMBERS.isdisjoint(texts[-1:]) and not _TELLS.isdisjoint(texts)
    said = not BEGINS.isdisjoint(texts) and not _ANNOUNCED.isdisjoint(texts)
    return said and not told and "not" not in texts  # "the left I could not count"


def tells_to_count(texts: tuple[str, ...]) -> bool:
    """ "counting it in", "count the screws in first": only counted, and put in nowhere."""
    told = {(text, after) for text, after in pairwise(texts) if text == "count"}
    return "counting" in texts or any(after in _THEM for _, after in told)
