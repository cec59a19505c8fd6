"""Words that tell a state only where a part is said to be so: "it is shot", "a hole in it". Pure.

Elsewhere the same words are something else: "a shot of that", "the hole is clear".
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from saywright.sheets.model import Sheet
from saywright.understanding.meanings import NOTHING, Meaning, Name
from saywright.understanding.tokens import spoken_form
from saywright.understanding.wordforms import plural


class Predicate(NamedTuple):
    """One such form."""

    name: Name
    meaning: Meaning
    noun: bool  # said with an article or in the plural: "a hole", "holes"


def predicate_forms(sheet: Sheet, table: Mapping[Name, Meaning]) -> dict[str, tuple[Predicate, ...]]:
    """The forms by their first word, the longest first; what the sheet calls anything by name is none."""
    found: dict[str, tuple[Predicate, ...]] = {}
    for condition in sheet.condition:
        meaning = Meaning(conditions=(condition.id,))
        for said in map(spoken_form, condition.predicates):
            for name, noun in _forms(said):
                if _is_free(table.get(name, NOTHING)):
                    every = (*found.get(name[0], ()), Predicate(name, meaning, noun))
                    found[name[0]] = tuple(sorted(every, key=lambda one: -len(one.name)))
    return found


def _forms(said: Name) -> Iterator[tuple[Name, bool]]:
    """As written; a noun, which is written with its article, in the plural too."""
    if said[:1] in {("a",), ("an",)} and len(said) > 1:
        yield said[1:], True
        yield (*said[1:-1], plural(said[-1])), True
    elif said:
        yield said, False


def _is_free(meaning: Meaning) -> bool:
    """True where no part, place, state or doing of the sheet is called so."""
    return meaning == Meaning(tags=meaning.tags)
