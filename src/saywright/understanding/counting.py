"""Turns counted aloud: "half … one … one and a half … two … and that's seated" is two turns.

A count goes up by eighths, quarters, halves or whole turns, and its steps may change: the last one
is by nature what was left. The last number said is the reading.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from saywright.quantity import decimal_text
from saywright.sheets.model import Characteristic
from saywright.understanding.tokens import BREAK
from saywright.units import get_unit

_STEPS = (Fraction(1, 2), Fraction(1, 4), Fraction(1), Fraction(1, 8))
_LAST_STEPS = (*_STEPS, Fraction(3, 4), Fraction(3, 8), Fraction(5, 8), Fraction(7, 8))
_OVER_ONE = tuple(
    1 + share for share in (Fraction(1, 4), Fraction(1, 2), Fraction(3, 4))
)  # "two, three and a quarter"
_UNITS = ("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")
_SHARES = {
    Fraction(1, 4): (("a", "quarter"), ("quarter",), ("one", "quarter")),
    Fraction(1, 2): (("a", "half"), ("half",), ("one", "half")),
    Fraction(3, 4): (("three", "quarters"), ("three", "quarter")),
    Fraction(1, 8): (("an", "eighth"), ("eighth",), ("one", "eighth")),
    Fraction(3, 8): (("three", "eighths"),),
    Fraction(5, 8): (("five", "eighths"),),
    Fraction(7, 8): (("seven", "eighths"),),
}
_BETWEEN = frozenset(
    {
        BREAK,
        "and",
        "then",
        "uh",
        "um",
        "er",
        "turn",
        "turns",
        "now",
        "okay",
        "that",
        "is",
        "there",
        "we",
        "go",
        "full",
    }
)
CAN_BEGIN = frozenset({*_UNITS, "a", "an", "half", "quarter", "eighth", *map(str, range(11))})
_MOST_TURNS = 10


@dataclass(frozen=True, slots=True)
class Count:
    """A run of numbers counted up."""

    value: str  # the last number, as a decimal
    said: int  # how many numbers
    start: int  # tokens [start, end)
    end: int


def count_run(texts: Sequence[str], start: int, after: Fraction | None) -> Count | None:
    """The longest run of counted numbers from *start*, going on after *after*; None where there is none."""
    if texts[start] not in CAN_BEGIN:
        return None
    best: Count | None = None
    for step in _STEPS if after is None else _LAST_STEPS:
        run = _run(texts, start, after, step)
        if run is not None and (best is None or (run.said, run.end) > (best.said, best.end)):
            best = run
    return best


def _run(texts: Sequence[str], start: int, after: Fraction | None, step: Fraction) -> Count | None:
    """The run that begins with *step*."""
    value = after if after is not None else Fraction(0)
    at, end, said = start, start, 0
    while at < len(texts) and value < _MOST_TURNS:
        length = _matches(texts, at, value + step)
        if length == 0 and said:
            step, length = _other_step(texts, at, value, step)
        if length == 0:
            if texts[at] not in _BETWEEN:
                break
            at += 1
            continue
        value, at, said = value + step, at + length, said + 1
        end = at
    return Count(decimal_text(value), said, start, end) if said else None


def _other_step(texts: Sequence[str], at: int, value: Fraction, step: Fraction) -> tuple[Fraction, int]:
    """The step by which a number said in full goes on, and its tokens; 0 tokens where none does."""
    steps = (*_LAST_STEPS, *_OVER_ONE) if value >= 1 else _LAST_STEPS
    found = [(_matches(texts, at, value + other, in_full=True), other) for other in steps]
    length, other = max(found, key=lambda one: one[0])
    return (other, length) if length else (step, 0)


def _matches(texts: Sequence[str], at: int, value: Fraction, *, in_full: bool = False) -> int:
    """How many tokens at *at* say *value*, *in_full* or only its fraction."""
    for form in _forms(value, in_full):
        if tuple(texts[at : at + len(form)]) == form and not _goes_on(texts, at + len(form), value % 1):
            return len(form)
    return 0


@lru_cache(maxsize=1024)
def _forms(value: Fraction, in_full: bool) -> tuple[tuple[str, ...], ...]:
    """The words that say *value*, longest first."""
    whole, share = divmod(value, 1)
    if not 0 <= whole < len(_UNITS):
        return ()  # a count that would go on from a negative or a large number
    forms: list[tuple[str, ...]] = []
    if share == 0:
        forms.append((_UNITS[int(whole)],))
        forms.append((str(int(whole)),))
    else:
        for said in _SHARES.get(share, ()):
            if whole:
                forms.append((_UNITS[int(whole)], "and", *said))
                forms.append((_UNITS[int(whole)], *said))
            if not (whole and in_full):
                forms.append(said)
    return tuple(sorted(forms, key=len, reverse=True))


def _goes_on(texts: Sequence[str], after: int, share: Fraction) -> bool:
    """ "one and a half" is not a one, and "the high one's …" is no number."""
    rest = tuple(texts[after : after + 3])
    if share == 0 and texts[after - 1] == "one" and rest[:1] in {("is",), ("has",), ("was",)}:
        return True
    return (
        share == 0
        and len(rest) >= 2
        and rest[0] == "and"
        and (
            rest[1] in {"half", "quarter", "eighth"}
            or rest[1:3] in {forms for shares in _SHARES.values() for forms in shares}
        )
    )


def is_counted(characteristic: Characteristic) -> bool:
    """True for turns and for plain counts (clicks); not for stamped sizes."""
    return get_unit(characteristic.unit).kind == "turn" or (
        characteristic.unit == "1" and not characteristic.allowed
    )
