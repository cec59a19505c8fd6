"""Positions by less than their whole name: "clutch bearing" of the clutch side. Pure."""

from __future__ import annotations

from dataclasses import replace

from saywright.sheets.model import Sheet
from saywright.understanding.meanings import NOTHING, Meaning
from saywright.understanding.naming.sheet_names import Table
from saywright.understanding.tokens import spoken_form


def add_short_positions(table: Table, sheet: Sheet) -> None:
    """Add positions without their last word, where all of a part end alike and nothing else is called so."""
    for component in sheet.component:
        said = [spoken_form(position) for position in component.positions]
        if any(len(name) == 1 for name in said) or len({name[-1] for name in said}) != 1:
            continue
        for position, name in zip(component.positions, said, strict=True):
            known = table.get(name[:-1], NOTHING)
            if known == Meaning(positions=known.positions) and position not in known.positions:
                table[name[:-1]] = replace(known, positions=(*known.positions, position))
