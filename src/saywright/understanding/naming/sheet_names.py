"""The names of a bench sheet in every form that people say them in.

Full names come first; a part of a name, another form of a verb or the last word of a longer
name is added only where nothing else is called so.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import replace
from functools import lru_cache
from typing import Any, Literal

from saywright.sheets.model import Component, Condition, Sheet
from saywright.understanding.bench_words import (
    BEGINS_NAME,
    ENDS_NAME,
    PARTICLES,
    PREPOSITIONS,
    STUFFS,
    TOO_COMMON,
)
from saywright.understanding.meanings import NOTHING, Act, CharacteristicKey, Meaning, Name
from saywright.understanding.naming.condition_forms import condition_forms
from saywright.understanding.sides.turning import has_side
from saywright.understanding.tokens import spoken_form
from saywright.understanding.wordforms import (
    act_nouns,
    is_ing,
    is_past,
    plural,
    singular,
    verb_forms,
)

Table = dict[Name, Meaning]
_WHEELS = {("wheel",), ("wheels",)}
_WHERE = frozenset({"on", "of", "in", "at", "under", "behind", "to", "from", "for"})  # behind them: the place
_Field = Literal["parts", "characteristics", "conditions", "positions"]


def add_sheet_names(table: Table, sheet: Sheet) -> None:
    """Add what the sheet calls its parts, what is read on them, their states and doings."""
    _add_components(table, sheet)
    _add_characteristics(table, sheet)
    _add_conditions(table, sheet)
    _add_actions(table, sheet)


def add_other_forms(table: Table, sheet: Sheet) -> None:
    """Add what the names above leave free: condition forms, short names, last words."""
    _add_condition_forms(table, sheet)
    _add_aliases(table, sheet)


def component_names(component: Component) -> tuple[tuple[Name, bool], ...]:
    """Every full name of a component with its other number; true for a plural form.

    The letter of an "o-ring" is heard as "oh" as well.
    """
    return _with_numbers(component.names or (component.id.replace("_", " "),))


def heads_of(component: Component) -> frozenset[str]:
    """The last words of its names of two words and more, in either number."""
    return _heads(component.names or (component.id.replace("_", " "),))


@lru_cache(maxsize=1_024)
def _heads(names: tuple[str, ...]) -> frozenset[str]:
    return frozenset(name[-1] for name, _ in _with_numbers(names) if len(name) > 1)


@lru_cache(maxsize=1_024)
def _with_numbers(names: tuple[str, ...]) -> tuple[tuple[Name, bool], ...]:
    found: list[tuple[Name, bool]] = []
    for said, many in _as_written(names):
        found.append((said, many))
        if said == ("lug", "nuts"):
            found.append((("lugs",), True))
        if "o" in said:
            found.append((tuple("oh" if word == "o" else word for word in said), many))
    return tuple(found)


def _as_written(names: tuple[str, ...]) -> Iterator[tuple[Name, bool]]:
    for name in names:
        said = spoken_form(name)
        if not said:
            continue
        last = said[-1]
        one = singular(last)
        is_plural = one != last
        yield said, is_plural
        yield (*said[:-1], one if is_plural else plural(last)), not is_plural


def extend(table: Table, name: Name, field: _Field, value: str | CharacteristicKey) -> None:
    """Let *name* in *table* mean *value* too."""
    meaning = table.get(name, NOTHING)
    known = getattr(meaning, field)
    if name and value not in known:
        changed: dict[str, Any] = {field: (*known, value)}
        table[name] = replace(meaning, **changed)


def _add_components(table: Table, sheet: Sheet) -> None:
    for component in sheet.component:
        for name, many in component_names(component):
            extend(table, name, "parts", component.id)
            if many:
                table[name] = replace(table[name], many=True)


def _add_characteristics(table: Table, sheet: Sheet) -> None:
    for component, characteristic in sheet.characteristics():
        key = (component.id, characteristic.id)
        for name in characteristic.names or (characteristic.label,):
            said = spoken_form(name)
            for form in _characteristic_forms(said):
                if form == said or not table.get(form, NOTHING).parts:
                    extend(table, form, "characteristics", key)


def _characteristic_forms(said: Name) -> Iterator[Name]:
    """As written, in the plural, and a verb with its particle as it is said of a thing: "cuts in"."""
    if not said:
        return
    yield said
    yield (*said[:-1], plural(said[-1]))
    if len(said) == 2 and said[1] in PARTICLES:
        yield (plural(said[0]), said[1])


def _add_conditions(table: Table, sheet: Sheet) -> None:
    for condition in sheet.condition:
        for name in _said_alone(condition):
            extend(table, spoken_form(name), "conditions", condition.id)


def _said_alone(condition: Condition) -> tuple[str, ...]:
    """The names that tell it wherever they stand; of one that has predicates only, none."""
    return condition.names or (() if condition.predicates else (condition.label,))


def _add_condition_forms(table: Table, sheet: Sheet) -> None:
    """ "scored" also answers to "scoring" and "scored up", unless something else has that name."""
    for condition in sheet.condition:
        for name in _said_alone(condition):
            for form in condition_forms(spoken_form(name), good=condition.good):
                if table.get(form, NOTHING) == NOTHING:
                    extend(table, form, "conditions", condition.id)
                elif name in condition.own_names and _is_inherited(table[form], form, sheet):
                    table[form] = replace(table[form], conditions=(condition.id,))


def _is_inherited(meaning: Meaning, form: Name, sheet: Sheet) -> bool:
    """True where *form* is a state by a name that the sheet inherits: its own words win."""
    own = {n for c in sheet.condition if c.id in meaning.conditions for n in map(spoken_form, c.own_names)}
    return meaning == Meaning(conditions=meaning.conditions) and form not in own


def _add_actions(table: Table, sheet: Sheet) -> None:
    named = [(a.id, spoken_form(name)) for a in sheet.action for name in a.names or (a.label,)]
    for action, said in named:
        if said:
            _add_act(table, said, Act(action, _form(said)))
    for action, said in named:
        for whole in _act_forms(said):
            if whole not in table:
                _add_act(table, whole, Act(action, _form(whole)))
    for action, said in named:
        for noun in act_nouns(said[0]) if len(said) == 1 else ():
            if (noun,) not in table:
                _add_act(table, (noun,), Act(action, "noun"))


def _act_forms(said: Name) -> Iterator[Name]:
    """ "clean out" → "cleaning out", "load test" → "load tested"."""
    if not said:
        return
    yield from ((form, *said[1:]) for form in verb_forms(said[0]))
    if len(said) > 1 and said[-1] not in PARTICLES and said[0] not in PREPOSITIONS:
        yield from ((*said[:-1], form) for form in verb_forms(said[-1]))


def _form(name: Name) -> str:
    """The form of the one verb in *name*."""
    if any(map(is_ing, name)):
        return "ing"
    return "past" if any(map(is_past, name)) else "base"


def _add_act(table: Table, name: Name, act: Act) -> None:
    meaning = table.get(name, NOTHING)
    if all(known.id != act.id for known in meaning.acts):
        table[name] = replace(meaning, acts=(*meaning.acts, act))


def _add_aliases(table: Table, sheet: Sheet) -> None:
    """A part of a name may stand for the whole where nothing else has that name."""
    found: dict[Name, list[str]] = defaultdict(list)
    many: set[Name] = set()
    for component in sheet.component:
        for name, is_plural in component_names(component):
            for short in _shortened(name):
                if component.id not in found[short]:
                    found[short].append(component.id)
                if is_plural and short[-1] == name[-1]:
                    many.add(short)
    wheeled = any(name[0] == "wheel" for c in sheet.component for name, _ in component_names(c))
    for short, every in found.items():
        if _is_placed(short, table, sheet) or (wheeled and short in _WHEELS):
            continue  # "wheels off", of a machine with wheel cylinders: no star wheels
        ids = _ending_so(short, every, sheet)
        meaning = table.get(short, NOTHING)
        if short[0] in BEGINS_NAME and len(short) == 1:
            if meaning == NOTHING:  # else it says something else here
                table[short] = Meaning(aliases=_called_first(short, ids, sheet))
            continue
        if meaning.characteristics and (len(short) > 1 or {c for c, _ in meaning.characteristics} & set(ids)):
            continue
        if not (meaning.parts or meaning.acts or meaning.tags):
            table[short] = replace(meaning, aliases=tuple(ids), many=short in many)


def _is_placed(short: Name, table: Table, sheet: Sheet) -> bool:
    """ "front disc" of the front disc bolt: that is the disc in front, where there is one."""
    parts = map(sheet.get, table.get(short[1:], NOTHING).parts) if len(short) > 1 else ()
    return any(part is not None and has_side(part, short[0]) for part in parts)


def _ending_so(short: Name, ids: list[str], sheet: Sheet) -> list[str]:
    """ "spring": of the parts so called in short those that are springs, not the spring seat."""
    if len(short) > 1 or len(ids) < 2:
        return ids
    parts = [sheet.get(c) for c in ids]
    ends = [c.id for c in parts if c is not None and any(n[-1:] == short for n, _ in component_names(c))]
    return ends or ids


def _called_first(short: Name, ids: list[str], sheet: Sheet) -> tuple[str, ...]:
    """ "main": the jet that the sheet calls so first, before the body that is also called the main body."""
    called = [c for c in sheet.component if c.id in ids and c.names]
    first = [c.id for c in called if spoken_form(c.names[0])[:1] == short]
    return tuple(first or ids)


def _shortened(name: Name) -> Iterable[Name]:
    """The beginnings and ends of *name*; of "spring on the unloader" the spring alone, no unloader."""
    at = next((at for at in range(1, len(name) - 1) if name[at] in _WHERE), 0)
    if at:
        yield name[:at]
        name = name[:at]
    for cut in range(1, len(name)):
        tail, head = name[cut:], name[:cut]
        if not (len(tail) == 1 and (tail[0] in TOO_COMMON - ENDS_NAME or len(tail[0]) < 3)):
            yield tail
        if not (len(head) == 1 and (head[0] in (TOO_COMMON - BEGINS_NAME) | STUFFS or len(head[0]) < 4)):
            yield head
