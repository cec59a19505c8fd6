"""A formula over values, with how much the result moves with each of them. Exact; no number is rounded."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from saywright.sheets.formula import Call, Constant, Node, Operation, Reference
from saywright.units import get_unit


class NotComputedError(Exception):
    """A value that cannot be had; the text says why, without a capital or a full stop."""


@dataclass(frozen=True, slots=True)
class Linear:
    """A value in base units, and its partial derivative by each input."""

    value: Fraction
    slopes: Mapping[Hashable, Fraction] = field(default_factory=dict)

    def plus(self, other: Linear, weight: Fraction = Fraction(1)) -> Linear:
        """self + weight · other."""
        return _sum(self.value + weight * other.value, (self, Fraction(1)), (other, weight))

    def times(self, other: Linear) -> Linear:
        """self · other."""
        return _sum(self.value * other.value, (self, other.value), (other, self.value))

    def over(self, other: Linear) -> Linear:
        """self / other; NotComputedError where that is nought."""
        if other.value == 0:
            raise NotComputedError("it would be divided by nought")
        value = self.value / other.value
        return _sum(value, (self, 1 / other.value), (other, -value / other.value))


# What a name stands for; True asks for all its places and positions.
Values = Callable[[Reference, bool], tuple[Linear, ...]]


def evaluate(node: Node, values: Values) -> Linear:
    """The formula's value; NotComputedError where an input is lacking or it would divide by nought.

    Where two values are the largest alike, the first one's slope is taken.
    """
    match node:
        case Constant():
            return Linear(node.value * get_unit(node.unit).factor)
        case Reference():
            (one,) = values(node, False)
            return one
        case Operation():
            return _joined(node, evaluate(node.left, values), evaluate(node.right, values))
        case Call(function="abs"):
            one = evaluate(node.arguments[0], values)
            return one if one.value >= 0 else Linear(Fraction(0)).plus(one, Fraction(-1))
        case Call():
            return _of_several(node, values)


def _joined(node: Operation, left: Linear, right: Linear) -> Linear:
    match node.operator:
        case "+":
            return left.plus(right)
        case "-":
            return left.plus(right, Fraction(-1))
        case "*":
            return left.times(right)
        case "/":
            return left.over(right)


def _of_several(node: Call, values: Values) -> Linear:
    every: list[Linear] = []
    for argument in node.arguments:
        every += values(argument, True) if isinstance(argument, Reference) else [evaluate(argument, values)]
    # The last of the smallest: where all are alike, the range still is of two values, and has their doubt.
    largest, smallest = max(every, key=lambda one: one.value), min(every[::-1], key=lambda one: one.value)
    match node.function:
        case "max":
            return largest
        case "min":
            return smallest
        case "range":
            return largest.plus(smallest, Fraction(-1))
        case _:
            total = Linear(Fraction(0))
            for one in every:
                total = total.plus(one, Fraction(1, len(every)))
            return total


def _sum(value: Fraction, *terms: tuple[Linear, Fraction]) -> Linear:
    slopes: dict[Hashable, Fraction] = {}
    for term, weight in terms:
        for key, slope in term.slopes.items():
            slopes[key] = slopes.get(key, Fraction(0)) + weight * slope
    return Linear(value, slopes)
