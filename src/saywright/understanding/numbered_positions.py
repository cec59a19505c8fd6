"""Positions that are numbers, "1" to "4" or "number one" to "number four": talked of as parts are counted.

Talk is understood as if the sheet only said how many are fitted; what comes of it bears the sheet's names.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from saywright.flags import FlagKind, flag
from saywright.sheets.model import Component, Sheet
from saywright.understanding.number_words import CARDINALS
from saywright.understanding.statements import Reading, Statement


class Numbered(Component):
    """A part of which several are fitted, each known by its number: the sheet's positions are left out."""


Called = Mapping[tuple[str, str], str]  # component id and number → the sheet's name of that position


def as_counted(sheet: Sheet) -> Sheet:
    """*sheet* without the positions that only number the parts."""
    if not any(map(_only_numbers, sheet.component)):
        return sheet
    parts = tuple(
        Numbered.model_construct(**{**c.__dict__, "positions": (), "count": len(c.positions)})
        if _only_numbers(c)
        else c
        for c in sheet.component
    )
    return sheet.model_copy(update={"component": parts})


def called_on(sheet: Sheet) -> Called:
    """The names of the positions that `as_counted` leaves out."""
    return {
        (c.id, str(n)): name
        for c in sheet.component
        if _only_numbers(c)
        for n, name in enumerate(c.positions, 1)
    }


def as_called(statements: Sequence[Statement], called: Called) -> tuple[Statement, ...]:
    """*statements* with the sheet's own names for the positions."""
    return tuple(_renamed(s, called) for s in statements)


def _renamed(statement: Statement, called: Called) -> Statement:
    component, which = getattr(statement, "component", None), getattr(statement, "which", None)
    if component is None or (component, "1") not in called:
        return statement
    if which is not None:
        return statement.model_copy(update={"which": called.get((component, which), which)})
    if isinstance(statement, Reading) and all(f.kind != FlagKind.WHICH_UNCLEAR for f in statement.flags):
        doubt = flag(FlagKind.WHICH_UNCLEAR, component)  # the sheet names them: which one matters
        return statement.model_copy(update={"flags": (*statement.flags, doubt)})
    return statement


def _only_numbers(component: Component) -> bool:
    """True for "one", "two", "three" and the like: all of them, in order."""
    words = [position.lower().removeprefix("number ").strip() for position in component.positions]
    count = len(words)
    in_words, in_digits = list(CARDINALS[:count]), [str(n) for n in range(1, count + 1)]
    return count > 1 and words in (in_words, in_digits)
