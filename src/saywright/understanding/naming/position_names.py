"""The positions of a sheet as people say them, and by less: "clutch bearing" of the clutch side. Pure."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from saywright.sheets.model import Sheet
from saywright.understanding.meanings import NOTHING, Meaning
from saywright.understanding.naming.sheet_names import Table, component_names, extend
from saywright.understanding.tokens import spoken_form


def add_positions(table: Table, sheet: Sheet) -> None:
    """Add every position, and each word that tells some of a part's positions."""
    nouns = {word for component in sheet.component for name, _ in component_names(component) for word in name}
    for component in sheet.component:
        for position in component.positions:
            said = spoken_form(position)
            forms = [said]
            if position in ("left", "right"):
                forms += [(position, "hand"), (position, "side"), (position, "hand", "side")]
            elif len(said) == 1:
                forms += [(*said, "side"), (*said, "end")]
            for form in forms:
                extend(table, form, "positions", position)
        said_once = " ".join(component.positions).split().count
        for word in sorted(component.place_words - set(component.positions)):
            a_part = word in nouns and said_once(word) == 1  # "gear" of "gear side", beside a gear
            whole = _only_place(word, component.positions)
            for form in () if a_part else ((word,), (word, "side"), (word, "end")):
                extend(table, form, "positions", whole or word)


def _only_place(word: str, positions: Sequence[str]) -> str | None:
    """ "mag side", where "mag" is said of no other place: the word alone is that place too."""
    having = [place for place in positions if word in place.split()]
    return having[0] if having in ([f"{word} side"], [f"{word} end"]) else None


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
