"""The forms that a sheet has of a word of doing: "soak" → "soaked", "soaking"; the shortest first. Pure."""

from __future__ import annotations

from typing import TYPE_CHECKING

from saywright.understanding.meanings import Name

if TYPE_CHECKING:
    from saywright.understanding.lexicon import Lexicon


def past_forms(action: str, lexicon: Lexicon) -> list[Name]:
    """ "Soaked" of soak."""
    return _forms(action, "past", lexicon)


def ing_forms(action: str, lexicon: Lexicon) -> list[Name]:
    """ "Soaking" of soak."""
    return _forms(action, "ing", lexicon)


def base_forms(action: str, lexicon: Lexicon) -> list[Name]:
    """ "Soak", "in the ultrasonic"."""
    return _forms(action, "base", lexicon)


def _forms(action: str, form: str, lexicon: Lexicon) -> list[Name]:
    """All the names of *action* in *form*; looked up in the whole table, so only where it is needed."""
    named = (
        name
        for name, known in lexicon.table.items()
        if known.acts and known.acts[0].id == action and known.acts[0].form == form and not known.parts
    )
    return sorted(named, key=lambda name: (len(name), len(name[0]), name))
