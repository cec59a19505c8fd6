"""What is wrong with the formulas of a sheet: unknown names, units that do not fit, circles. Pure."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import suppress

from pydantic import ValidationError

from saywright.sheets.form import Data, hint, well_formed
from saywright.sheets.formula import (
    TEMPERATURE,
    Call,
    Constant,
    FormulaError,
    Node,
    Operation,
    Powers,
    Reference,
    parse_formula,
    references,
)
from saywright.sheets.merge import filled_in
from saywright.sheets.model import Characteristic, Component
from saywright.units import UNITS

Place = tuple[str, str]  # component, characteristic
_OVER_ALL = ("range", "mean", "min", "max")  # functions that take a value of each place and position
_NUMBER = "number"  # the kind of plain numbers


def well_built(components: Mapping[str, Data]) -> dict[str, Component]:
    """Raw components as far as they are well-formed; one that cannot be built at all is left out."""
    whole: dict[str, Component] = {}
    for component_id, entry in components.items():
        inner = [well_formed("characteristic", one) for one in entry.get("characteristic", ())]
        known = filled_in({**entry, "characteristic": [one for one in inner if "id" in one]})
        with suppress(ValidationError):
            whole[component_id] = Component.model_validate(known)
    return whole


def formula_faults(components: Mapping[str, Component]) -> Iterator[tuple[Place, str]]:
    """(component, characteristic), what is wrong: for every formula that cannot be used."""
    for component in components.values():
        for own in component.characteristic:
            if own.formula is None:
                continue
            fault = _fault(component, own, components)
            if fault is not None:
                yield (component.id, own.id), fault


def _fault(component: Component, own: Characteristic, components: Mapping[str, Component]) -> str | None:
    try:
        node = parse_formula(own.formula or "")
        if not any(references(node)):
            raise FormulaError("names no characteristic; a fixed value needs no formula")
        _check_circle((component.id, own.id), node, components)
        found = _powers(node, component, components)
        if own.unit in UNITS:
            _check_result(found, own.unit)
    except FormulaError as error:
        return str(error)
    return None


def operand(
    reference: Reference, component: Component, components: Mapping[str, Component]
) -> tuple[Component, Characteristic]:
    """What a name in a formula of *component* stands for; FormulaError where there is no such thing."""
    where = component
    if reference.component is not None:
        if reference.component not in components:
            near = hint(reference.component, components)
            raise FormulaError(f"names component '{reference.component}', which is not there; {near}")
        where = components[reference.component]
    found = where.get(reference.characteristic)
    if found is None:
        near = hint(reference.characteristic, [one.id for one in where.characteristic])
        raise FormulaError(f"names '{reference}', and {where.id} has no such characteristic; {near}")
    return where, found


def _check_circle(start: Place, node: Node, components: Mapping[str, Component]) -> None:
    """FormulaError where the value would be needed to compute it."""
    way: list[tuple[Place, Node]] = [(start, node)]
    above: dict[Place, Place] = {}
    seen = {start}
    while way:
        at, tree = way.pop()
        for reference in references(tree):
            where, found = operand(reference, components[at[0]], components)
            to = (where.id, found.id)
            if to == start:
                raise FormulaError(f"goes round in a circle: {_circle(start, at, above)}; cut it somewhere")
            if found.formula is not None and to not in seen:
                seen.add(to)
                above[to] = at
                way.append((to, parse_formula(found.formula)))


def _circle(start: Place, at: Place, above: Mapping[Place, Place]) -> str:
    steps = [at]
    while steps[0] != start:
        steps.insert(0, above[steps[0]])
    return " → ".join(f"{component}.{one}" for component, one in [*steps, start])


def _powers(
    node: Node, component: Component, components: Mapping[str, Component], *, over_all: bool = False
) -> Powers:
    """The kinds of unit of a tree; FormulaError where unlike kinds are added or compared."""
    match node:
        case Constant():
            return _kind(node.unit)
        case Reference():
            where, found = operand(node, component, components)
            _check_one(node, where, found, component, over_all=over_all)
            if found.unit in UNITS and UNITS[found.unit].kind == TEMPERATURE:
                raise FormulaError(f"uses '{node}', a temperature, which is not computed with; leave it out")
            return _kind(found.unit)
        case Operation(operator="+" | "-"):
            left, right = (_powers(side, component, components) for side in (node.left, node.right))
            if left != right:
                verb = "adds" if node.operator == "+" else "subtracts"
                raise FormulaError(f"{verb} {_told(left)} and {_told(right)}; both must be of one kind")
            return left
        case Operation(operator="/", right=Constant(value=0)):
            raise FormulaError("divides by nought; write another divisor")
        case Operation():
            sign = 1 if node.operator == "*" else -1
            left, right = (_powers(side, component, components) for side in (node.left, node.right))
            powers = dict(left)
            for kind, power in right:
                powers[kind] = powers.get(kind, 0) + sign * power
            return tuple(sorted((kind, power) for kind, power in powers.items() if power))
        case Call():
            inner = node.function in _OVER_ALL
            kinds = [_powers(one, component, components, over_all=inner) for one in node.arguments]
            if len(set(kinds)) > 1:
                told = " and ".join(_told(kind) for kind in dict.fromkeys(kinds))
                raise FormulaError(f"takes the {node.function} of {told}; all must be of one kind")
            return kinds[0]


def _check_one(
    reference: Reference,
    where: Component,
    found: Characteristic,
    component: Component,
    *,
    over_all: bool,
) -> None:
    """FormulaError where the name does not lead to one value, and no function takes them all."""
    if reference.which is not None and as_position(reference.which, where) is None:
        there = ", ".join(where.whiches) or "only one is fitted"
        raise FormulaError(f"names '{reference}', and there is no such position; known: {there}")
    if reference.place is not None and as_place(reference.place, found) is None:
        there = ", ".join(found.places) or "none"
        raise FormulaError(f"names '{reference}', and there is no such place; known: {there}")
    if over_all:
        return
    if found.places and reference.place is None:
        raise FormulaError(f"names '{reference}', which is read at places; say which, like {reference}@place")
    alike = where.whiches == component.whiches
    if where.whiches and reference.which is None and not alike:
        example = f"{where.id}[{where.whiches[0].replace(' ', '_')}].{found.id}"
        raise FormulaError(f"names '{reference}', of which several are fitted; say which, like {example}")


def as_position(name: str, component: Component) -> str | None:
    """The position of this name, underscores for spaces; None where there is none."""
    return next((which for which in component.whiches if which.replace(" ", "_") == name), None)


def as_place(name: str, characteristic: Characteristic) -> str | None:
    """The place of this name, underscores for spaces; None where there is none."""
    return next((place for place in characteristic.places if place.replace(" ", "_") == name), None)


def _check_result(found: Powers, unit: str) -> None:
    if found != _kind(unit):
        raise FormulaError(f"gives {_told(found)}, and the unit {unit} is {_told(_kind(unit))}; mend one")


def _kind(unit: str) -> Powers:
    kind = UNITS[unit].kind if unit in UNITS else unit
    return () if kind == _NUMBER else ((kind, 1),)


def _told(powers: Powers) -> str:
    if not powers:
        return "plain numbers"
    return " × ".join(kind if power == 1 else f"{kind}^{power}" for kind, power in powers)
