"""Values that one slip of hearing turns into the one heard. Pure.

Measured on made speech and on words misheard at random, a value far outside the limits was mostly
one of these: a digit lost or two swapped, a teen heard for a ten ("sixteen", "sixty"), "four" for
"point". What a slip explains is a doubt of hearing; what none explains is a finding.
"""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

_POINT_LIKE = "4"  # "eight four nine nine" for "eight point nine nine"


def misheard_for(value: str, places: int) -> Iterator[Decimal]:
    """What may have been said where *value*, a decimal string, was heard; most *places* decimals.

    >>> Decimal("31.965") in set(misheard_for("31.65", 3))
    True
    """
    whole, _, decimals = value.lstrip("-").partition(".")
    if not (whole + decimals).isdigit():
        return
    whole = whole.lstrip("0")
    for text in (*_whole(whole, decimals), *_decimals(whole, decimals, places)):
        yield Decimal(text)


def _whole(whole: str, decimals: str) -> Iterator[str]:
    rest = f".{decimals}" if decimals else ""
    for other in _teens(whole):
        yield other + rest
    if len(whole) > 1 and whole[-1] == "0":  # "thirty point oh five" for "thirty two point oh five"
        yield from (f"{whole[:-1]}{digit}{rest}" for digit in range(1, 10))
    if len(whole) == 1:  # "seven" for "twenty seven"
        yield from (f"{tens}{whole}{rest}" for tens in range(2, 10))
    yield from (other + rest for other in _swapped(whole) if other[0] != "0" and not _one_word(whole, other))


def _decimals(whole: str, decimals: str, places: int) -> Iterator[str]:
    if len(decimals) < places and decimals:
        for at in range(len(decimals) + 1):
            yield from (f"{whole or 0}.{decimals[:at]}{digit}{decimals[at:]}" for digit in range(10))
    yield from (f"{whole or 0}.{other}" for other in _swapped(decimals))
    if decimals[:1] == _POINT_LIKE and len(decimals) > 1:
        yield f"{whole or 0}.{decimals[1:]}"
    if whole and decimals and len(whole) > 1 and whole[-1] == "0" and len(decimals) > 1:
        # "thirty point one nine" for "thirty one point nine"
        yield f"{whole[:-1]}{decimals[0]}.{decimals[1:]}"


def _teens(whole: str) -> Iterator[str]:
    """ "two sixteen" for "two sixty" and back; "eighteen six" for "eighty six"."""
    head, last = whole[:-2], whole[-2:]
    if len(last) == 2 and last[0] == "1" and last[1] in "3456789":
        yield f"{head}{last[1]}0"
    if len(last) == 2 and last[1] == "0" and last[0] in "3456789":
        yield f"{head}1{last[0]}"
    if len(whole) == 3 and whole[0] == "1" and whole[1] in "3456789" and whole[2] != "0":
        yield whole[1:]


def _one_word(whole: str, other: str) -> bool:
    """ "Twelve" is no "twenty one" with its words swapped, nor "a hundred and twenty" two hundred and ten."""
    if len(whole) == 2:
        return "1" in {whole[0], other[0]}
    return len(whole) == 3 and whole[2] == other[2] == "0"


def _swapped(digits: str) -> Iterator[str]:
    for at in range(len(digits) - 1):
        if digits[at] != digits[at + 1]:
            yield digits[:at] + digits[at + 1] + digits[at] + digits[at + 2 :]
