"""A number counted up to before its unit: "one two three four five six clicks" is six.

Also "half, one, one and a half, two turns". A count aloud begins with its first step and ends with what is
counted; what it came to is what was read. Where the whole utterance is a count, `counting.turns` takes it.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from saywright.understanding.counting.aloud import CAN_BEGIN, count_run, may_run
from saywright.understanding.numbers.ranked import NumberReading
from saywright.understanding.quantities.parts import Draft

_COUNTED: Final = frozenset({"click", "clicks", "turn", "turns", "notch", "notches"})
_BEHIND: Final = tuple((word,) for word in _COUNTED)
_FEWEST: Final = 3  # numbers; fewer may be several values, or a size in thousandths


def counts_up(words: Sequence[str]) -> bool:
    """True where a count may stand in *words*; cheap."""
    return not _COUNTED.isdisjoint(words) and may_run(words)


def counted_draft(words: Sequence[str], at: int) -> Draft | None:
    """The number that a count aloud from word *at* came to; None where there is no such count."""
    run = count_run(words, at, None) if words[at] in CAN_BEGIN else None
    if run is None or run.said < _FEWEST or tuple(words[run.end : run.end + 1]) not in _BEHIND:
        return None
    whole = NumberReading(run.value, "cardinal", 0, run.end - at)
    return Draft((whole,), at, run.end, flags={"counted"})
