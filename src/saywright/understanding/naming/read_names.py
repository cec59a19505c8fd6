"""Short names of what is read on a part: its last word, and a verb before its value."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import replace
from functools import lru_cache

from saywright.sheets.model import Sheet
from saywright.understanding.bench_words import PARTICLES
from saywright.understanding.meanings import NOTHING, CharacteristicKey, Meaning, Name
from saywright.understanding.naming.sheet_names import Table
from saywright.understanding.tokens import spoken_form
from saywright.understanding.wordforms import is_ing, singular, verb_forms

_OF_VERB = frozenset({("speed",), ("pressure",), ("rpm",), ("revs",), ("current",), ("voltage",), ("load",)})
_SHORTEST_VERB = 3  # letters
_KINDS = _OF_VERB - {("load",)}


def add_read_names(table: Table, sheet: Sheet) -> None:
    """Add what the names of the sheet and bench talk leave free."""
    _add_heads(table, sheet)
    _add_apart(table, sheet)
    _add_verbs(table, sheet)
    _add_shapes(table, sheet)


def _add_shapes(table: Table, sheet: Sheet) -> None:
    """ "oval by point one": its ovality."""
    for component, characteristic in sheet.characteristics():
        for said in map(spoken_form, characteristic.names):
            name = (said[-1].removesuffix("ity"), "by")
            if said[-1].endswith("ity") and len(said) == 1 and name not in table:
                table[name] = Meaning(characteristics=((component.id, characteristic.id),))


def _add_verbs(table: Table, sheet: Sheet) -> None:
    """ "holding at" for what the sheet calls "hold", or a holding pressure: a verb before its value."""
    for component, characteristic in sheet.characteristics():
        for said in map(spoken_form, characteristic.names):
            for form in _led_by_at(said):
                name = (*form, "at")
                meaning = table.get(name, NOTHING)
                key = (component.id, characteristic.id)
                free = is_ing(said[0]) or form not in table
                if not meaning.parts and free and key not in meaning.characteristics:
                    table[name] = replace(meaning, characteristics=(*meaning.characteristics, key))
                    if form == said[:1] and len(said) > 1 and said[1] not in PARTICLES:
                        table[*form, "is", "at"] = table[name]  # "shift's at six fifty"


def _led_by_at(said: Name) -> tuple[Name, ...]:
    """The verbs that stand before "at" and the value."""
    return (*[(form,) for form in read_verbs(said)], *_with_particle(said))


def _with_particle(said: Name) -> tuple[Name, ...]:
    """ "pop off pressure" → "pops off", "popped off"; "tickover" → "ticks over", "ticking over"."""
    verb, way = said[0], said[1] if len(said) > 1 else ""
    if not way:
        way = next((w for w in ("over", "off") if verb.endswith(w) and len(verb) > len(w) + 2), "")
        verb = verb.removesuffix(way) if way else ""
    if way not in PARTICLES or len(verb) < _SHORTEST_VERB:
        return ()
    return tuple((form, way) for form in (verb, *verb_forms(verb)))


@lru_cache(maxsize=4096)
def words_of_read(sheet: Sheet) -> frozenset[str]:
    """Words before the last of what is read: "free" of the free length."""
    return frozenset(
        w for _, read in sheet.characteristics() for n in map(spoken_form, read.names) for w in n[:-1]
    )


def verbs_read(sheet: Sheet) -> frozenset[str]:
    """Every verb of that kind on *sheet*: one that is none of them tells no value by itself."""
    return frozenset(
        verb
        for _, read in sheet.characteristics()
        for name in read.names
        for verb in read_verbs(spoken_form(name))
    )


def read_verbs(said: Name) -> tuple[str, ...]:
    """ "holding pressure" → "hold", "holds", "holding", "held"; "hold" → "holds", "holding", …, "held"."""
    if is_ing(said[0]):
        base = said[0][:-3]
        return (base, *verb_forms(base), *(("held",) if base == "hold" else ()))
    if len(said) == 1:
        return (*verb_forms(said[0]), *(("held",) if said == ("hold",) else ()))
    if said[1:] == ("at",):
        base = singular(said[0])
        return (base, *verb_forms(base), *(("held",) if base == "hold" else ()))  # "holds at"
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
