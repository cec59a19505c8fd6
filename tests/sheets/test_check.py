"""Faults of a sheet: each is told, with its key and its line."""

from __future__ import annotations

import tomllib
from decimal import Decimal

import pytest

from saywright.sheets.check import check_sheet
from saywright.sheets.locate import locate

HEAD = '[sheet]\nid = "s"\ntitle = "S"\n'
PART = HEAD + '[[component]]\nid = "pad"\n'
VALUE = PART + '[[component.characteristic]]\nid = "height"\nunit = "mm"\n'
CALIPER = '[[instrument]]\nid = "caliper"\nunit = "mm"\n'
GAUGE = '[[instrument]]\nid = "gauge"\nunit = "psi"\n'


def faults(text: str) -> list[str]:
    """The faults of a sheet's text, as printed."""
    data = tomllib.loads(text, parse_float=Decimal)
    return [str(fault) for fault in check_sheet(data, lines=locate(text))]


@pytest.mark.parametrize(
    "text", [HEAD, PART, VALUE, VALUE + 'lower = 1\nupper = 1\ninstrument = "caliper"\n' + CALIPER]
)
def test_a_proper_sheet_has_none(text: str) -> None:
    """Nothing is found where nothing is wrong."""
    assert [] == faults(text)


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        ("", "whole file: sheet: missing; a sheet begins with [sheet], with an id and a title"),
        ("sheet = 1\n", "line 1: sheet: must be a table, written [sheet]"),
        ('[sheet]\ntitle = "S"\n', "line 1: sheet.id: missing; every sheet needs it"),
        (HEAD + "[[components]]\n", "line 4: components: unknown key; did you mean 'component'?"),
        (HEAD + "[component]\n", "line 4: component: must be written as tables, each headed [[component]]"),
        (
            HEAD + '[[component]]\nnames = ["x"]\n',
            "line 4: component[1].id: missing; every component needs it",
        ),
        (
            VALUE + "lowwer = 3\n",
            "line 9: component[1].characteristic[1].lowwer: unknown key; did you mean 'lower'?",
        ),
        (
            VALUE + 'lower = "3"\n',
            "line 9: component[1].characteristic[1].lower: must be a number, like 18.40, not '3'",
        ),
        (
            VALUE + "lower = true\n",
            "line 9: component[1].characteristic[1].lower: must be a number, like 18.40, not true",
        ),
        (
            VALUE + "lower = nan\n",
            "line 9: component[1].characteristic[1].lower: must be a number, like 18.40, not NaN",
        ),
        (PART + "count = 0\n", "line 6: component[1].count: must be a whole number, 1 or more, not 0"),
        (PART + "count = 2.0\n", "line 6: component[1].count: must be a whole number, 1 or more, not 2.0"),
        (PART + 'renew = "yes"\n', "line 6: component[1].renew: must be true or false, not 'yes'"),
        (
            PART + 'names = "pad"\n',
            "line 6: component[1].names: must be a list of texts, none empty, like [\"main jet\"], not 'pad'",
        ),
        (
            PART + 'names = ["a", " "]\n',
            "line 6: component[1].names: must be a list of texts, none empty, "
            "like [\"main jet\"], not ['a', ' ']",
        ),
        (
            PART + "names = []\n",
            "line 6: component[1].names: is empty; say how people call it, or leave it out",
        ),
        (PART + 'names = ["Pad", "pad"]\n', "line 6: component[1].names: 'pad' is there twice"),
        (
            PART + '[[component]]\nid = "pad"\n',
            "line 7: component[2].id: component 'pad' is there already, as component[1]; rename one",
        ),
        (
            VALUE + "lower = 3\nupper = 2\n",
            "line 9: component[1].characteristic[1].lower: 3 is above the upper limit 2; mend one",
        ),
        (
            VALUE + "plausible = [30, 10]\n",
            "line 9: component[1].characteristic[1].plausible: 30 is not below 10; write the smaller first",
        ),
        (
            VALUE + "plausible = [10]\n",
            "line 9: component[1].characteristic[1].plausible: must be two numbers, like [10, 30], not [10]",
        ),
        (
            VALUE + "upper = 31\nplausible = [10, 30]\n",
            "line 9: component[1].characteristic[1].upper: 31 is outside plausible, 10 to 30; "
            "every good reading there would ask",
        ),
        (
            VALUE + "nominal = 12\ntolerance = 3\nplausible = [10, 30]\n",
            "line 9: component[1].characteristic[1].nominal: 9 is outside plausible, 10 to 30; "
            "every good reading there would ask",
        ),
        (
            VALUE + "allowed = [5, 12]\nplausible = [10, 30]\n",
            "line 9: component[1].characteristic[1].allowed: 5 is outside plausible, 10 to 30; "
            "every good reading there would ask",
        ),
        (
            VALUE + "nominal = 3\n",
            "line 9: component[1].characteristic[1].nominal: "
            "needs a tolerance beside it; or give lower and upper",
        ),
        (
            VALUE + "tolerance = 3\n",
            "line 9: component[1].characteristic[1].tolerance: needs a nominal beside it",
        ),
        (
            VALUE + "nominal = 3\ntolerance = 1\nupper = 4\n",
            "line 9: component[1].characteristic[1].nominal: "
            "stands beside lower or upper; use one form of limits",
        ),
        (
            VALUE + "allowed = [1, 2]\nlower = 1\n",
            "line 9: component[1].characteristic[1].allowed: "
            "stands beside lower; use allowed sizes or limits",
        ),
        (
            VALUE + "allowed = [1, 1.0]\n",
            "line 9: component[1].characteristic[1].allowed: 1.0 is there twice",
        ),
        (
            VALUE + 'when = ["as found"]\n',
            "line 9: component[1].characteristic[1].when: "
            "must be a list out of as_found, as_left, not ['as found']",
        ),
        (
            VALUE + 'instrument = "calliper"\n' + CALIPER,
            "line 9: component[1].characteristic[1].instrument: "
            "no instrument 'calliper'; did you mean 'caliper'?",
        ),
        (
            VALUE + 'instrument = "caliper"\n',
            "line 9: component[1].characteristic[1].instrument: no instrument 'caliper'; none is defined",
        ),
        (
            VALUE + 'instrument = "gauge"\n' + GAUGE,
            "line 9: component[1].characteristic[1].instrument: 'gauge' reads psi (pressure), "
            "and this is in mm (length); name another instrument",
        ),
        (
            CALIPER + "resolution = 0\n" + HEAD,
            "line 4: instrument[1].resolution: must be a number above 0, not 0",
        ),
        (
            CALIPER + "max_permissible_error = -0.1\n" + HEAD,
            "line 4: instrument[1].max_permissible_error: must be a number, 0 or more, not -0.1",
        ),
        (
            PART + 'count = 3\npositions = ["left", "right"]\n',
            "line 7: component[1].positions: names 2, but count is 3; make them agree",
        ),
        (
            PART + 'positions = ["left", "Left"]\n',
            "line 6: component[1].positions: 'Left' is there twice; each position needs its own name",
        ),
        (
            PART + "positions = []\n",
            "line 6: component[1].positions: is empty; name each one that is fitted, or leave it out",
        ),
        (PART + 'inside = "pat"\n', "line 6: component[1].inside: no component 'pat'; did you mean 'pad'?"),
        (
            PART + 'inside = "pad"\n',
            "line 6: component[1].inside: a part cannot sit in itself: 'pad' in 'pad'",
        ),
        (
            HEAD + 'rule = "strict"\n',
            "line 4: sheet.rule: must be one of iso14253, simple, guarded, not 'strict'",
        ),
        (
            HEAD + '[[caution]]\nwhen = "fuel"\n',
            "line 4: caution[1].text: missing; a caution says what to beware of",
        ),
        (HEAD + '[[unit]]\ncode = "mm"\n', "line 4: unit[1].names: missing; every unit needs it"),
        (
            HEAD + '[[condition]]\nid = "a"\nnames = ["worn"]\n[[condition]]\nid = "worn"\n',
            "line 7: condition[2].names: 'worn' is also a name of condition 'a'; keep one",
        ),
    ],
)
def test_each_fault(text: str, fault: str) -> None:
    """One thing wrong gives one fault: its line, its key, what is wrong and what to do."""
    assert [fault] == faults(text)


@pytest.mark.parametrize(
    ("wrong", "meant"),
    [("Nm", "N.m"), ("milimeter", "mm"), ("inches", "in"), ("Psi", "psi"), ("foot pounds", "lbf.ft")],
)
def test_unknown_unit_names_the_known_ones(wrong: str, meant: str) -> None:
    """The nearest code is offered, also for a unit written as it is spoken, and all codes are listed."""
    (fault,) = faults(PART + f'[[component.characteristic]]\nid = "h"\nunit = "{wrong}"\n')
    head = "line 8: component[1].characteristic[1].unit"
    assert fault.startswith(f"{head}: unknown unit '{wrong}'; did you mean '{meant}'? known: 1, mm, ")


def test_a_unit_like_no_other() -> None:
    """Nothing is near: the codes are listed."""
    (fault,) = faults(PART + '[[component.characteristic]]\nid = "h"\nunit = "furlong"\n')
    assert "unknown unit 'furlong'; known: 1, mm, " in fault


def test_names_repeated_among_characteristics_of_one_part() -> None:
    """Within a part a name must say which value is meant; in another part it may be there again."""
    one = '[[component.characteristic]]\nid = "a"\nnames = ["diameter"]\n'
    two = '[[component.characteristic]]\nid = "b"\nnames = ["Diameter"]\n'
    assert 1 == len(faults(PART + one + two))
    assert [] == faults(PART + one + '[[component]]\nid = "other"\n' + two)


def test_a_circle_of_parts() -> None:
    """Two parts cannot sit in each other; both are told."""
    text = HEAD + '[[component]]\nid = "a"\ninside = "b"\n[[component]]\nid = "b"\ninside = "a"\n'
    assert [6, 9] == [int(fault.split(":")[0].removeprefix("line ")) for fault in faults(text)]


def test_all_faults_are_told_in_the_order_of_the_file() -> None:
    """Nine things wrong are nine faults, not the first alone."""
    text = """[sheet]
id = "s"
colour = "red"
[[instrument]]
id = "caliper"
resolution = "fine"
[[component]]
id = "pad"
count = 0
[[component.characteristic]]
id = "a"
unit = "furlong"
instrument = "rule"
[[component]]
id = "pad"
[[component.characteristic]]
id = "b"
lower = 9
upper = 3
uper = 4
"""
    told = [(fault.line, fault.key) for fault in check_sheet(tomllib.loads(text), lines=locate(text))]
    assert [
        (1, "sheet.title"),
        (3, "sheet.colour"),
        (6, "instrument[1].resolution"),
        (9, "component[1].count"),
        (12, "component[1].characteristic[1].unit"),
        (13, "component[1].characteristic[1].instrument"),
        (15, "component[2].id"),
        (18, "component[2].characteristic[1].lower"),
        (20, "component[2].characteristic[1].uper"),
    ] == told


def test_a_base_counts_as_defined() -> None:
    """An instrument of the base may be named, and a refined limit is held against the base's other one."""
    base = {
        "sheet": {"id": "b", "title": "B"},
        "instrument": [{"id": "caliper", "unit": "mm"}],
        "component": [
            {"id": "pad", "characteristic": [{"id": "height", "unit": "mm", "lower": 5, "upper": 6}]}
        ],
    }
    text = VALUE.replace('unit = "mm"\n', "") + 'instrument = "caliper"\nlower = 7\n'
    found = check_sheet(tomllib.loads(text), base=base, lines=locate(text))
    assert ["component[1].characteristic[1].lower"] == [fault.key for fault in found]


def test_without_lines_the_faults_are_the_same() -> None:
    """Where the text is not at hand the faults come without lines."""
    (fault,) = check_sheet({"sheet": {"id": "s"}})
    assert (None, "sheet.title") == (fault.line, fault.key)
