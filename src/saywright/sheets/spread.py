"""One name that stands for several: "(turns | slides) [nice and] easy" → each way of saying it. Pure.

The marks are those of the W3C's Speech Recognition Grammar Specification 1.0, ABNF form: `( | )` holds
alternatives, `[ ]` what may be left out; they may stand in each other. The first way that can be said is
the first of its alternatives with all that may be left out.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from itertools import product
from typing import Any

from saywright.sheets.fault import Fault
from saywright.sheets.locate import Lines, join

MOST = 400  # ways of saying one name: more are a slip of the pen
_MOST_MARKS = 40  # brackets in one name: the same
_TOO_MANY = f"stands for more than {MOST} ways of saying it; write several names"
_MARKS = frozenset("()[]|")
_PIECE = re.compile(r"[()\[\]|]|[^()\[\]|\s]+")
_CLOSING = {"(": ")", "[": "]"}
_SPOKEN = {"names", "predicates", "when"}  # keys that hold what people say


class SpreadError(ValueError):
    """The marks of a name do not fit together, or it stands for nothing or too much."""


def spread(name: str) -> tuple[str, ...]:
    """Each way of saying *name*, none twice; SpreadError with what is wrong with its marks.

    A name without marks comes back as it is.
    """
    if _MARKS.isdisjoint(name):
        return (name,)
    pieces = _PIECE.findall(name)
    if sum(piece in _CLOSING for piece in pieces) > _MOST_MARKS:
        raise SpreadError(f"has more than {_MOST_MARKS} brackets; write several names")
    ways, at = _alternatives(pieces, 0, "")
    if at < len(pieces):
        raise SpreadError(f"'{pieces[at]}' closes nothing")
    said = tuple(dict.fromkeys(" ".join(way) for way in ways))
    if len(said) > MOST:
        raise SpreadError(_TOO_MANY)
    if "" in said:
        raise SpreadError("nothing has to be said; leave one word outside of the brackets")
    return said


def with_names_spread(data: dict[str, Any], lines: Lines) -> tuple[Fault, ...]:
    """Spread all names of a sheet's raw *data* in place; the faults of those that can not be."""
    faults: list[Fault] = []
    for kind, entries in data.items():
        if isinstance(entries, list):
            _spread_entries(entries, kind, lines, faults)
    return tuple(faults)


def _spread_entries(entries: list[Any], path: str, lines: Lines, faults: list[Fault]) -> None:
    for number, entry in enumerate(entries, start=1):
        if not isinstance(entry, Mapping):
            continue
        where = f"{path}[{number}]"
        for key, value in entry.items():
            if key in _SPOKEN and isinstance(value, list):
                value[:] = _spread_names(value, join(where, key), lines, faults)
            elif isinstance(value, list):
                _spread_entries(value, join(where, key), lines, faults)


def _spread_names(names: list[Any], key: str, lines: Lines, faults: list[Fault]) -> list[Any]:
    """*names* with each way of saying them; what a name with marks repeats is left out."""
    plain = [name for name in names if not isinstance(name, str) or _MARKS.isdisjoint(name)]
    if len(plain) == len(names):
        return names
    there = {name for name in plain if isinstance(name, str)}
    told: list[Any] = []
    for name in names:
        if not isinstance(name, str) or _MARKS.isdisjoint(name):
            told.append(name)
            continue
        try:
            ways = spread(name)
        except SpreadError as error:
            faults.append(Fault(line=lines.of(key), key=key, text=f"'{name}': {error}"))
            told.append(name)
            continue
        told += [way for way in ways if way not in there]
        there.update(ways)
    return told


def _alternatives(pieces: list[str], at: int, closing: str) -> tuple[list[tuple[str, ...]], int]:
    """The ways of all alternatives from *at* on, and the place of the mark that ends them."""
    ways: list[tuple[str, ...]] = []
    while True:
        begin = at
        more, at = _sequence(pieces, at)
        if at == begin:
            raise SpreadError("an alternative is empty; '[ ]' holds what may be left out")
        ways += more
        if at < len(pieces) and pieces[at] == "|":
            at += 1
            continue
        if closing and (at >= len(pieces) or pieces[at] != closing):
            raise SpreadError(f"'{closing}' is missing")
        return ways, at


def _sequence(pieces: list[str], at: int) -> tuple[list[tuple[str, ...]], int]:
    """The ways of what is said one behind the other from *at* on, up to a "|" or a closing mark."""
    groups: list[list[tuple[str, ...]]] = []
    while at < len(pieces) and pieces[at] not in {"|", ")", "]"}:
        piece = pieces[at]
        if piece not in _CLOSING:
            groups.append([(piece,)])
            at += 1
            continue
        ways, at = _alternatives(pieces, at + 1, _CLOSING[piece])
        groups.append([*ways, ()] if piece == "[" else ways)
        at += 1
    many = 1
    for group in groups:
        many *= len(group)
    if many > MOST:
        raise SpreadError(_TOO_MANY)
    return list(_joined(groups)), at


def _joined(groups: list[list[tuple[str, ...]]]) -> Iterator[tuple[str, ...]]:
    for way in product(*groups):
        yield tuple(word for part in way for word in part)
