"""A number counted up to before its unit: "one two three four five six clicks" is six.

Also "half, one, one and a half, two turns". A count aloud begins with its first step and ends with what is
counted; what it came to is what was read. Where the whole utterance is a count, `counting.turns` takes it.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from saywright.hearing.spoken import ONES
from saywright.understanding.counting.aloud import CAN_BEGIN, count_run, may_run
from saywright.understanding.numbers.ranked import NumberReading
from saywright.understanding.quantities.parts import Draft

_COUNTED: Final = frozenset({"click", "clicks", "turn", "turns", "notch", "notches"})
_BEHIND: Final = tuple((word,) for word in _COUNTED)
_AT: Final = {word: number for number, word in enumerate(ONES) if number > 1}
_FEWEST: Final = 3  # numbers; fewer may be several values, or a size in thousandths


def counts_up(words: Sequence[str]) -> bool:
    """True where a count may stand in *words*; cheap."""
    if _COUNTED.isdisjoint(words):
        return False
    return may_run(words) or any(_tail_of_count(words, at) is not None for at in range(len(words) - _FEWEST))


def counted_draft(words: Sequence[str], at: int) -> Draft | None:
    """The number that a count aloud from word *at* came to; None where there is no such count."""
    tail = _tail_of_count(words, at)
    if tail is not None:
        return tail
    run = count_run(words, at, None) if words[at] in CAN_BEGIN else None
    if run is None or run.said < _FEWEST or tuple(words[run.end : run.end + 1]) not in _BEHIND:
        return None
    whole = NumberReading(run.value, "cardinal", 0, run.end - at)
    return Draft((whole,), at, run.end, flags={"counted"})


def _tail_of_count(words: Sequence[str], at: int) -> Draft | None:
    """ "nine ten eleven twelve, twelve clicks": what is heard of a count that began under the breath."""
    if words[at] not in _AT or (at and words[at - 1] in _AT):
        return None
    end = at + 1
    while end < len(words) and _AT.get(words[end], 0) == _AT[words[end - 1]] + 1:
        end += 1
    said, last = end - at, _AT[words[end - 1]]
    end += tuple(words[end : end + 1]) == (words[end - 1],)  # "… twelve twelve clicks"
    if said < _FEWEST or tuple(words[end : end + 1]) not in _BEHIND:
        return None
    return Draft((NumberReading(str(last), "cardinal", 0, end - at),), at, end, flags={"counted"})
