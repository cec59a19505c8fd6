"""Short names of what is read on a part: its last word, and a verb before its value."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import replace

from saywright.sheets.model import Sheet
from saywright.understanding.meanings import NOTHING, CharacteristicKey, Meaning, Name
from saywright.understanding.naming.sheet_names import Table
from saywright.understanding.tokens import spoken_form
from saywright.understanding.wordforms import is_ing, verb_forms

_OF_VERB = frozenset({("speed",), ("pressure",), ("rpm",), ("revs",), ("current",), ("voltage",), ("load",)})
_KINDS = _OF_VERB - {("load",)}


def add_read_names(table: Table, sheet: Sheet) -> None:
    """Add what the names of the sheet and bench talk leave free."""
    _add_heads(table, sheet)
    _add_apart(table, sheet)
    _add_verbs(table, sheet)


def _add_verbs(table: Table, sheet: Sheet) -> None:
    """ "holding at" for what the sheet calls "hold", or a holding pressure: a verb before its value."""
    for component, characteristic in sheet.characteristics():
        for said in map(spoken_form, characteristic.names):
            for form in _read_verbs(said):
                name = (form, "at")
                meaning = table.get(name, NOTHING)
                key = (component.id, characteristic.id)
                free = is_ing(said[0]) or (form,) not in table
                if not meaning.parts and free and key not in meaning.characteristics:
                    table[name] = replace(meaning, characteristics=(*meaning.characteristics, key))
                    if form == said[0] and len(said) > 1:
                        table[form, "is", "at"] = table[name]  # "shift's at six fifty"


def _read_verbs(said: Name) -> tuple[str, ...]:
    """ "holding pressure" → "hold", "holds", "holding", "held"; "hold" → "holds", "holding", …."""
    if is_ing(said[0]):
        base = said[0][:-3]
        return (base, *verb_forms(base), *(("held",) if base == "hold" else ()))
    if len(said) == 1:
        return verb_forms(said[0])
    return (said[0], *verb_forms(said[0])) if said[1:] in _OF_VERB and len(said[0]) > 3 else ()


def _add_apart(table: Table, sheet: Sheet) -> None:
    """ "no load", "on load": what tells two of one kind apart, where both are a speed read on one part."""
    found: dict[Name, list[CharacteristicKey]] = defaultdict(list)
    for component in sheet.component:
        said = [(c, name) for c in component.characteristic for name in map(spoken_form, c.names)]
        for read, name in said:
            kind = _KINDS & {name[:1], name[-1:]}
            rest = tuple(word for word in name if (word,) not in kind)
            alike = any(c is not read and kind & {n[:1], n[-1:]} for c, n in said)
            if alike and len(rest) > 1 and len(name) - len(rest) == 1:
                found[rest].append((component.id, read.id))
    _put_free(table, found)


def _add_heads(table: Table, sheet: Sheet) -> None:
    """ "clearance" for "end clearance", where nothing else is called so."""
    found: dict[Name, list[CharacteristicKey]] = defaultdict(list)
    for component, characteristic in sheet.characteristics():
        for said in map(spoken_form, characteristic.names):
            if len(said) > 1 and len(said[-1]) > 3:
                found[said[-1:]].append((component.id, characteristic.id))
    _put_free(table, found)


def _put_free(table: Table, found: Mapping[Name, Sequence[CharacteristicKey]]) -> None:
    """Add what was *found* where nothing else is called so."""
    for name, keys in found.items():
        if table.get(name, NOTHING) == NOTHING:
            table[name] = Meaning(characteristics=tuple(dict.fromkeys(keys)))
