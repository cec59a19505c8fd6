"""Formulas of a sheet: read into a tree, and every fault told with its line."""

from __future__ import annotations

import tomllib
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saywright.sheets.check import check_sheet
from saywright.sheets.formula import (
    Call,
    Constant,
    FormulaError,
    Operation,
    Reference,
    parse_formula,
    references,
)
from saywright.sheets.locate import locate

SHEET = """
[sheet]
id = "s"
title = "S"
[[component]]
id = "bush"
positions = ["upper", "lower one"]
[[component.characteristic]]
id = "bore"
unit = "mm"
places = ["top", "far end"]
[[component.characteristic]]
id = "depth"
unit = "mm"
[[component]]
id = "shaft"
[[component.characteristic]]
id = "diameter"
unit = "in"
[[component.characteristic]]
id = "heat"
unit = "degC"
[[component.characteristic]]
id = "pressure"
unit = "kPa"
[[component.characteristic]]
id = "result"
unit = "mm"
"""


def faults(formula: str, more: str = "") -> list[str]:
    """The faults of the sheet with this formula for the shaft's result, as printed."""
    text = f'{SHEET}formula = "{formula}"\n{more}'
    data = tomllib.loads(text, parse_float=Decimal)
    return [str(fault) for fault in check_sheet(data, lines=locate(text))]


def of(
    name: str, component: str | None = None, which: str | None = None, place: str | None = None
) -> Reference:
    """A name in a formula."""
    return Reference(component, which, name, place)


@pytest.mark.parametrize(
    ("text", "tree"),
    [
        ("bore", of("bore")),
        ("bore - shaft.diameter", Operation("-", of("bore"), of("diameter", "shaft"))),
        ("a - b - c", Operation("-", Operation("-", of("a"), of("b")), of("c"))),
        ("a + b * c", Operation("+", of("a"), Operation("*", of("b"), of("c")))),
        ("(a + b) / 2", Operation("/", Operation("+", of("a"), of("b")), Constant(Fraction(2), "1"))),
        ("-a", Operation("*", Constant(Fraction(-1), "1"), of("a"))),
        ("0.02 mm", Constant(Fraction("0.02"), "mm")),
        ("bush[lower_one].bore@far_end", of("bore", "bush", "lower_one", "far_end")),
        ("float[1].height", of("height", "float", "1")),
        ("range(bore)", Call("range", (of("bore"),))),
        ("max(a, b@top)", Call("max", (of("a"), of("b", place="top")))),
        (
            "min * 2",
            Operation("*", of("min"), Constant(Fraction(2), "1")),
        ),
    ],
)
def test_trees(text: str, tree: object) -> None:
    """Products bind before sums, equal ones from the left."""
    assert tree == parse_formula(text)


@pytest.mark.parametrize(
    "text",
    [
        "bore - shaft.diameter",
        "range(bush.bore)",
        "bush[upper].depth",
        "2 * diameter",
        "diameter * (1 in / 2 mm)",
    ],
)
def test_formulas_that_fit(text: str) -> None:
    """Lengths in any unit give a length; several are taken all by a function, or one by its position."""
    text = text.replace("bore - shaft.", "bush[upper].bore@top - shaft.")
    assert [] == faults(text)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("diameter +", "cannot be read at character 10; write it like bore - shaft.diameter"),
        ("diameter ** 2", "cannot be read at character 11; write it like bore - shaft.diameter"),
        ("__import__('os')", "cannot be read at character 11; write it like bore - shaft.diameter"),
        ("diametre", "names 'diametre', and shaft has no such characteristic; did you mean 'diameter'?"),
        ("bosh.depth", "names component 'bosh', which is not there; did you mean 'bush'?"),
        ("bush.depth", "names 'bush.depth', of which several are fitted; say which, like bush[upper].depth"),
        (
            "bush[left].depth",
            "names 'bush[left].depth', and there is no such position; known: upper, lower one",
        ),
        (
            "bush[upper].bore",
            "names 'bush[upper].bore', which is read at places; say which, like bush[upper].bore@place",
        ),
        (
            "bush[upper].bore@side",
            "names 'bush[upper].bore@side', and there is no such place; known: top, far end",
        ),
        ("diameter + pressure", "adds length and pressure; both must be of one kind"),
        ("diameter - 1", "subtracts length and plain numbers; both must be of one kind"),
        ("max(diameter, pressure)", "takes the max of length and pressure; all must be of one kind"),
        ("pressure", "gives pressure, and the unit mm is length; mend one"),
        ("diameter * diameter", "gives length^2, and the unit mm is length; mend one"),
        ("heat", "uses 'heat', a temperature, which is not computed with; leave it out"),
        ("3 mm", "names no characteristic; a fixed value needs no formula"),
        ("abs(diameter, diameter)", "has abs of more than one value; give it one"),
        ("result", "goes round in a circle: shaft.result → shaft.result; cut it somewhere"),
        ("diameter / 0", "divides by nought; write another divisor"),
        ("a" * 401, "is longer than 400 characters; compute parts of it on their own"),
    ],
)
def test_faults(text: str, told: str) -> None:
    """Each stands on the formula's line and key, in one line."""
    assert [f"line 29: component[2].characteristic[4].formula: {told}"] == faults(text)


def test_an_unknown_unit_names_the_known_ones() -> None:
    """A number in a unit that is none."""
    assert "has a number in 'mmm', which is no unit; known: 1, mm," in faults("diameter - 2 mmm")[0]


def test_a_circle_over_others_is_told_with_its_way() -> None:
    """Two formulas that need each other: a fault on each."""
    found = faults(
        "other", '[[component.characteristic]]\nid = "other"\nunit = "mm"\nformula = "2 * result"\n'
    )
    assert [
        "line 29: component[2].characteristic[4].formula: "
        "goes round in a circle: shaft.result → shaft.other → shaft.result; cut it somewhere",
        "line 33: component[2].characteristic[5].formula: "
        "goes round in a circle: shaft.other → shaft.result → shaft.other; cut it somewhere",
    ] == found


def test_what_is_computed_is_not_read() -> None:
    """Keys of readings do not stand beside a formula."""
    assert [
        "line 29: component[2].characteristic[4].formula: "
        "stands beside when and restore; what is computed is not read, so leave that out"
    ] == faults("diameter", 'when = ["as_left"]\nrestore = true\n')


@pytest.mark.parametrize(
    ("more", "told"),
    [
        ('places = ["top"]\n', "places: needs two places or more, each with a name of its own"),
        ('places = ["top", "Top"]\n', "places: needs two places or more, each with a name of its own"),
        ("max_difference = 0.1\n", "max_difference: stands where only one is fitted; leave it out"),
    ],
)
def test_places_and_differences(more: str, told: str) -> None:
    """One place is no place, and one part differs from none."""
    text = SHEET + more
    found = check_sheet(tomllib.loads(text, parse_float=Decimal), lines=locate(text))
    assert [f"line 29: component[2].characteristic[4].{told}"] == [str(fault) for fault in found]


def test_other_faults_do_not_hide_those_of_formulas() -> None:
    """All faults at once: a crossed limit and a mistyped name."""
    found = faults("diametre", "lower = 3\nupper = 2\n")
    assert 2 == len(found)


@given(st.text("ab.+-*/()[]@, 0123456789mrange\u00e4_", max_size=60))
def test_any_text_is_a_tree_or_one_line(text: str) -> None:
    """Nothing else comes of a formula."""
    try:
        found = list(references(parse_formula(text)))
    except FormulaError as error:
        found = []
        told = str(error)
    else:
        told = ""
    assert all(isinstance(one, Reference) for one in found)
    assert "\n" not in told


@pytest.mark.parametrize("text", ["-" * 399 + "a", "(" * 199 + "a" + ")" * 199, "abs(" * 79 + "a" + ")" * 79])
def test_a_deep_formula_is_no_crash(text: str) -> None:
    """Four hundred signs are read, or refused in a line."""
    try:
        found = [str(one) for one in references(parse_formula(text))]
    except FormulaError:
        found = ["a"]
    assert ["a"] == found
