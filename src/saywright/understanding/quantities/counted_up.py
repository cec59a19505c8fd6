"""A number counted up to before its unit: "one two three four five six clicks" is six.

Also "half, one, one and a half, two turns", "thirty eight thirty nine forty", "one two three four bolts",
and what goes up by tens: "it goes down ten twenty thirty forty five millimetres". A count aloud begins with
its first step and ends with what is counted; what it came to is what was read. Where the whole utterance is
a count, `counting.turns` takes it.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import TYPE_CHECKING, Final

from saywright.hearing.spoken import ONES, TENS
from saywright.understanding.counting.aloud import CAN_BEGIN, count_run, may_run
from saywright.understanding.numbers.ranked import NumberReading
from saywright.understanding.quantities.parts import Draft

if TYPE_CHECKING:
    from saywright.understanding.quantities.measures import Measure

_COUNTED: Final = frozenset({"click", "clicks", "turn", "turns", "notch", "notches"})
_BEHIND: Final = tuple((word,) for word in _COUNTED)
_AT: Final = {word: number for number, word in enumerate(ONES) if number > 1}
_TENS: Final = 10
_BY_WORD: Final = {
    **{word: number for number, word in enumerate(ONES) if number},
    **{word: _TENS * at for at, word in enumerate(TENS) if word},
}
_SHARES: Final = frozenset({"half", "quarter", "quarters", "third", "eighth"})
_FEWEST: Final = 3  # numbers; fewer may be several values, or a size in thousandths


def counts_up(words: Sequence[str]) -> bool:
    """True where a count may stand in *words*; cheap."""
    if any(_may_climb(words, at) for at in range(len(words) - 2)):
        return True
    if _COUNTED.isdisjoint(words):
        return False
    return may_run(words) or any(_tail_of_count(words, at) is not None for at in range(len(words) - _FEWEST))


def counted_draft(words: Sequence[str], at: int) -> Draft | None:
    """The number that a count aloud from word *at* came to; None where there is no such count."""
    tail = _tail_of_count(words, at)
    if tail is not None:
        return tail
    climbed = _climbed(words, at) if _may_climb(words, at) else None
    if climbed is not None:
        return climbed
    run = count_run(words, at, None) if words[at] in CAN_BEGIN else None
    if run is None or run.said < _FEWEST or tuple(words[run.end : run.end + 1]) not in _BEHIND:
        return None
    whole = NumberReading(run.value, "cardinal", 0, run.end - at)
    return Draft((whole,), at, run.end, flags={"counted"})


def _may_climb(words: Sequence[str], at: int) -> bool:
    """True for two numbers in a row that go up by one or by ten, said in one word; cheap."""
    first, then = _BY_WORD.get(words[at], 0), _BY_WORD.get(words[at + 1], 0) if at + 1 < len(words) else 0
    if first >= _TENS and not then % _TENS and at + 2 < len(words) and words[at + 2] in _BY_WORD:
        return then == first + _TENS
    if first >= 2 * _TENS and 0 < then < _TENS:
        return at + 2 < len(words) and _BY_WORD.get(words[at + 2], 0) in {first, first + _TENS}
    return then == first + 1 and bool(first)


def _climbed(words: Sequence[str], at: int) -> Draft | None:
    """ "thirty eight thirty nine forty": the last of several whole numbers, each one more or ten more.

    From one on there are four; fewer are a size ("one two three").
    """
    if at and words[at - 1] in {*_BY_WORD, "point", "oh", "and", "hundred"}:
        return None
    said, end = list[int](), at
    while end < len(words) and words[end] in _BY_WORD:
        number, size = _whole(words, end)
        if (
            said
            and number != said[-1] + 1
            and not (said[-1] % _TENS == 0 and 0 < number - said[-1] <= 2 * _TENS)
        ):
            break
        said.append(number)
        end += size
    steps = {b - a for a, b in pairwise(said)}
    by_ten = len(said) > _FEWEST and said[0] % _TENS == 0
    by_one = steps == {1} and len(said) >= (_FEWEST if said[-1] >= _TENS else _FEWEST + 1)
    goes_on = end < len(words) and words[end] in {*_BY_WORD, "point", "oh", "hundred", "thousand", "quarters"}
    share = tuple(words[end : end + 1]) == ("and",) and not _SHARES.isdisjoint(words[end + 1 : end + 3])
    if goes_on or share or not (by_one or by_ten):
        return None
    flags = {"counted"} if by_one else set[str]()
    return Draft((NumberReading(str(said[-1]), "cardinal", 0, end - at),), at, end, flags=flags)


def _whole(words: Sequence[str], at: int) -> tuple[int, int]:
    """The number of one or two words at *at*, and how many words it has: "thirty eight"."""
    first = _BY_WORD[words[at]]
    then = _BY_WORD.get(words[at + 1], 0) if at + 1 < len(words) else 0
    return (first + then, 2) if first >= 2 * _TENS and 0 < then < _TENS else (first, 1)


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


def may_go_on(first: Measure, then: Measure) -> bool:
    """ "one two three four five, hold it, six": the bare number behind a count may go on with it."""
    bare = first.unit_said is None and then.unit_said is None
    return bare and "counted" in first.flags and first.readings[0].value != then.readings[0].value
