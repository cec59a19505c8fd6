"""Positions that are numbers, "1" to "4" or "number one" to "number four": talked of as parts are counted.

Talk is understood as if the sheet only said how many are fitted; what comes of it bears the sheet's names.
Where several parts are numbered alike, a head, a valve and a piston of each cylinder, the numbers are
stations: one of them can be in hand as a side is.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from saywright.flags import FlagKind, flag
from saywright.sheets.model import Component, Sheet
from saywright.understanding.meanings import Meaning
from saywright.understanding.naming.sheet_names import Table
from saywright.understanding.numbers.words import CARDINALS, ORDINALS
from saywright.understanding.statements import Reading, Statement
from saywright.understanding.tokens import BREAK, spoken_form

if TYPE_CHECKING:
    from saywright.understanding.lexicon import Lexicon

Called = Mapping[tuple[str, str], str]  # component id and number → the sheet's name of that position


LONGEST_STATION = 10  # tokens that say which station, and that it is turned to
_FEWEST = 2  # parts numbered alike that make stations


class _AtStations(Component):
    """A part that there is one of at each station."""

    @property
    def stations(self) -> tuple[str, ...]:
        """The numbers that tell the single ones apart."""
        return self.whiches


def as_counted(sheet: Sheet) -> Sheet:
    """*sheet* without the positions that only number the parts."""
    numbered = [len(c.positions) for c in sheet.component if _only_numbers(c)]
    if not numbered or _tell_more(sheet):
        return sheet
    most = max(numbered, key=numbered.count)
    stations = most if numbered.count(most) >= _FEWEST else 0
    parts = tuple(_counted(c, stations) if _only_numbers(c) else c for c in sheet.component)
    return sheet.model_copy(update={"component": parts})


def _counted(component: Component, stations: int) -> Component:
    """*component*, told by number; at one of the *stations* each, where there are as many."""
    count = len(component.positions)
    counted = component.model_copy(update={"positions": (), "count": count})
    if count != stations:
        return counted
    return _AtStations.model_construct(**{name: getattr(counted, name) for name in Component.model_fields})


def called_on(sheet: Sheet) -> Called:
    """The names of the positions that `as_counted` leaves out."""
    if _tell_more(sheet):
        return {}
    return {
        (c.id, str(n)): name
        for c in sheet.component
        if _only_numbers(c)
        for n, name in enumerate(c.positions, 1)
    }


def numbering_words(sheet: Sheet) -> frozenset[str]:
    """What the sheet calls what it numbers, in the positions that `as_counted` leaves out."""
    return frozenset(word for c in sheet.component for word in numbering(c) or ()) - {"number"}


def _tell_more(sheet: Sheet) -> bool:
    """True where longer positions have them in them: "first stage", and "first stage upper"."""
    longer = [set(p.split()) for c in sheet.component for p in c.positions]
    return any(
        set(p.split()) < more for c in sheet.component if numbering(c) for p in c.positions for more in longer
    )


def count_stations(sheet: Sheet) -> int:
    """How many stations there are on a sheet `as_counted`; 0 where there are none."""
    return max((len(c.stations) for c in sheet.component if not c.positions), default=0)


def station_word(order: int) -> str:
    """The word that stands for a station where its number was told from a value; nobody says it."""
    return f"station:{order}"


def add_stations(table: Table, sheet: Sheet) -> None:
    """Add the stations as the positions that they are; each token of what names one bears its word."""
    for order in range(1, count_stations(sheet) + 1):
        for length in range(1, LONGEST_STATION + 1):
            table[(station_word(order),) * length] = Meaning(positions=(str(order),))


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


def numbering(component: Component) -> frozenset[str] | None:
    """The words around the numbers of positions that only number the parts: "cylinder" of "cylinder one".

    None where the positions are no numbers from one on, in order.
    """
    said = [spoken_form(position) for position in component.positions]
    if len(said) < 2 or len({len(words) for words in said}) > 1:
        return None
    columns = list(zip(*said, strict=True))
    differing = [column for column in columns if len(set(column)) > 1]
    count = len(said)
    in_order = (CARDINALS[:count], tuple(str(n) for n in range(1, count + 1)), tuple(ORDINALS)[:count])
    if len(differing) != 1 or differing[0] not in in_order:
        return None
    return frozenset(column[0] for column in columns if len(set(column)) == 1)


def _only_numbers(component: Component) -> bool:
    """True for "one", "two", "three" and the like: all of them, in order."""
    return numbering(component) is not None


def behind_place(texts: Sequence[str], at: int, lexicon: Lexicon) -> int:
    """The token behind the places at *at*: "first stage", "left hand"; *at* where none stands there."""
    if at >= len(texts) or texts[at] in {"", BREAK}:
        return at
    two = (*texts[at : at + 2], "")
    first, second = two[0] in ORDINALS, two[0] in lexicon.station_words
    if (first and two[1] in lexicon.station_words) or (second and two[1] in CARDINALS):
        return behind_place(texts, at + 2, lexicon)
    found = lexicon.match(tuple(texts), at)
    if found is None or not found[1].positions or found[1].parts or found[1].aliases:
        return at
    return behind_place(texts, at + found[0], lexicon)
