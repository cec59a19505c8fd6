"""Formulas of a sheet: text → tree, with names and units checked. Pure; nothing is ever evaluated as Python.

A formula is made of characteristics, numbers, + - * / and brackets, and of `abs`, `min`, `max`, `mean`
and `range` (the largest less the smallest). A characteristic is named by its id; one of another component
as `component.id`, one of several positions as `component[position].id`, at a named place `id@place`.
A number may carry a unit: `0.02 mm`. Where a space would stand in a name, an underscore does.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import Any, Literal

from lark import Lark, Token, Transformer
from lark.exceptions import LarkError, UnexpectedInput, VisitError

from saywright.units import UNITS

_GRAMMAR = r"""
?start: sum
?sum: product | sum "+" product -> add | sum "-" product -> subtract
?product: signed | product "*" signed -> multiply | product "/" signed -> divide
?signed: atom | "-" signed -> negate
?atom: NUMBER [NAME] -> constant | call | reference | "(" sum ")"
call: FUNCTION "(" sum ("," sum)* ")"
reference: [NAME position? "."] NAME ["@" NAME]
position: "[" (NAME | NUMBER) "]"
FUNCTION.2: /(abs|min|max|mean|range)(?=\s*\()/
NAME: /[^\W\d]\w*/
NUMBER: /\d+(\.\d+)?/
%ignore /\s+/
"""
TEMPERATURE = "temperature"  # kind of unit; its scales have zeros of their own
LONGEST = 400  # characters; keeps the depth of the tree within bounds

Function = Literal["abs", "min", "max", "mean", "range"]
Operator = Literal["+", "-", "*", "/"]
Powers = tuple[tuple[str, int], ...]  # kinds of unit with their exponents, sorted, none zero


@dataclass(frozen=True, slots=True)
class Constant:
    """A number with its unit."""

    value: Fraction
    unit: str  # code; "1" for a plain number


@dataclass(frozen=True, slots=True)
class Reference:
    """A characteristic, as named in the formula."""

    component: str | None  # None: the component the formula stands in
    which: str | None  # position; None: the same as that of the result, or the only one
    characteristic: str
    place: str | None  # named place on the part; None: none, or for `range` and `mean` all of them

    def __str__(self) -> str:
        head = f"{self.component}{f'[{self.which}]' if self.which else ''}." if self.component else ""
        return f"{head}{self.characteristic}{f'@{self.place}' if self.place else ''}"


@dataclass(frozen=True, slots=True)
class Operation:
    """Two trees, joined."""

    operator: Operator
    left: Node
    right: Node


@dataclass(frozen=True, slots=True)
class Call:
    """A function of trees."""

    function: Function
    arguments: tuple[Node, ...]


Node = Constant | Reference | Operation | Call


class FormulaError(ValueError):
    """A formula that cannot be used; its text says what is wrong and what to do."""


@lru_cache(maxsize=512)
def parse_formula(text: str) -> Node:
    """The tree of a formula; FormulaError, one line, where it is none."""
    if len(text) > LONGEST:
        raise FormulaError(f"is longer than {LONGEST} characters; compute parts of it on their own")
    try:
        tree: Node = _Tree().transform(_PARSER.parse(text))
    except VisitError as error:
        raise FormulaError(str(error.orig_exc)) from None
    except UnexpectedInput as error:
        at = getattr(error, "column", -1)
        place = f"at character {at}" if isinstance(at, int) and 0 < at <= len(text) else "at its end"
        raise FormulaError(f"cannot be read {place}; write it like bore - shaft.diameter") from None
    except (LarkError, RecursionError):
        raise FormulaError("cannot be read; write it like bore - shaft.diameter") from None
    return tree


def references(node: Node) -> Iterator[Reference]:
    """Every characteristic named in the formula, in the order written."""
    match node:
        case Reference():
            yield node
        case Operation():
            yield from references(node.left)
            yield from references(node.right)
        case Call():
            for argument in node.arguments:
                yield from references(argument)
        case Constant():
            pass


class _Tree(Transformer[Token, Any]):
    """Lark's tree → ours."""

    def constant(self, parts: list[Any]) -> Constant:
        number, unit = parts
        code = str(unit) if unit is not None else "1"
        if code not in UNITS:
            raise FormulaError(f"has a number in '{code}', which is no unit; known: {', '.join(UNITS)}")
        if UNITS[code].kind == TEMPERATURE:
            raise FormulaError("has a temperature, which is not computed with; leave it out")
        return Constant(Fraction(str(number)), code)

    def reference(self, parts: list[Any]) -> Reference:
        *head, characteristic, place = parts
        named = [part for part in head if part is not None]
        component = str(named[0]) if named else None
        which = str(named[1]) if len(named) > 1 else None
        return Reference(component, which, str(characteristic), None if place is None else str(place))

    def position(self, parts: list[Any]) -> str:
        return str(parts[0])

    def call(self, parts: list[Any]) -> Call:
        function, *arguments = parts
        if function == "abs" and len(arguments) != 1:
            raise FormulaError("has abs of more than one value; give it one")
        return Call(str(function), tuple(arguments))  # type: ignore[arg-type]  # the grammar names no other

    def negate(self, parts: list[Any]) -> Operation:
        return Operation("*", Constant(Fraction(-1), "1"), parts[0])

    def add(self, parts: list[Any]) -> Operation:
        return Operation("+", parts[0], parts[1])

    def subtract(self, parts: list[Any]) -> Operation:
        return Operation("-", parts[0], parts[1])

    def multiply(self, parts: list[Any]) -> Operation:
        return Operation("*", parts[0], parts[1])

    def divide(self, parts: list[Any]) -> Operation:
        return Operation("/", parts[0], parts[1])


_PARSER = Lark(_GRAMMAR, parser="lalr", maybe_placeholders=True)
