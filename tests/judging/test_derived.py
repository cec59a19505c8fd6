"""Computed values: exact, with their uncertainty propagated, judged like readings."""

from __future__ import annotations

import math
from decimal import Decimal
from fractions import Fraction

import pytest
import uncertainties
from hypothesis import given
from hypothesis import strategies as st

from judging.conftest import EMPTY
from judging.said import ASK, reading, record_of
from saywright.judging.derived import derived
from saywright.sheets.model import Characteristic, Component, Instrument, Sheet

D, F = Decimal, Fraction
MIKE = Instrument(id="mike", resolution=D("0.001"), max_permissible_error=D("0.004"))


def char(name: str, unit: str = "mm", **given: object) -> Characteristic:
    """A characteristic read with the micrometer, or computed."""
    read = {} if "formula" in given else {"instrument": "mike"}
    return Characteristic.model_validate({"id": name, "unit": unit, **read, **given})


def sheet_of(*components: Component) -> Sheet:
    """A sheet with these parts."""
    return Sheet(id="s", title="S", source="Invented", instrument=(MIKE,), component=components)


SHAFT = sheet_of(
    Component(
        id="bush",
        positions=("upper", "lower"),
        characteristic=(
            char("bore", max_difference=D("0.02")),
            char("clearance", formula="bore - shaft.diameter", lower=D("0.02"), upper=D("0.08")),
        ),
    ),
    Component(id="shaft", characteristic=(char("diameter"),)),
)
BARREL = sheet_of(
    Component(
        id="barrel",
        characteristic=(
            char("bore", places=("top", "far end")),
            char("taper", formula="range(bore)", upper=D("0.03")),
            char("mean", formula="mean(bore)"),
            char("ratio", "1", formula="bore@top / bore@far_end"),
            char("twice", formula="taper + taper"),
        ),
    )
)


def bore(item: str, value: str, which: str = "upper", **given: object):
    """A bush's bore."""
    return reading(item, value, component="bush", which=which, characteristic="bore", **given)


def shaft(item: str, value: str, **given: object):
    """The shaft's diameter."""
    return reading(item, value, component="shaft", characteristic="diameter", **given)


def at(item: str, value: str, place: str | None, **given: object):
    """The barrel's bore at a place."""
    return reading(item, value, component="barrel", characteristic="bore", place=place, **given)


def computed(record, sheet: Sheet):
    """The values that could be computed."""
    return [one for one in derived(record, sheet) if one.value is not None]


def test_clearance_with_its_budget() -> None:
    """8.030 − 7.975 mm; u² is twice the micrometer's, exactly (JCGM 100:2008, 5.1.2)."""
    (found,) = computed(record_of(EMPTY, bore("s1", "8.030"), shaft("s2", "7.975")), SHAFT)
    assert (F("0.055"), ("s1", "s2"), "upper") == (found.value, found.inputs, found.which)
    one = F("0.000001") / 12 + F("0.000016") / 3
    assert 2 * one == found.judgement.budget.variance
    assert (
        "Upper bush clearance 0.055 mm, computed from upper bush bore 8.03 mm and shaft diameter 7.975 mm, "
        "is within the limits (0.02 to 0.08 mm), 0.025 mm from the nearer limit, more than the 0.0055 mm "
        "kept clear for uncertainty: it conforms; the probability that it conforms is more than 99.9 %."
        == found.judgement.sentence
    )


def test_undecided_names_what_to_read_better() -> None:
    """No repeats are promised for a computed value; the largest share of the doubt is named."""
    (found,) = computed(record_of(EMPTY, bore("s1", "8.05"), shaft("s2", "7.973")), SHAFT)
    assert "undecided" == found.judgement.decision
    assert found.judgement.sentence.endswith(
        "72 % of the doubt is that of upper bush bore 8.05 mm. Read that more finely, or more often."
    )


def test_only_one_stage_and_all_inputs() -> None:
    """A bore as found and a shaft as left make no clearance; what is lacking is told."""
    record = record_of(EMPTY, bore("s1", "8.03"), shaft("s2", "7.97", stage="as_left"))
    found = derived(record, SHAFT)
    assert [("upper", "as_found", None), ("upper", "as_left", None), ("lower", "as_left", None)] == [
        (one.which, one.stage, one.value) for one in found
    ]
    assert "Upper bush clearance was not computed: the shaft diameter was not read as found." == (
        found[0].judgement.sentence
    )
    assert () == derived(record_of(EMPTY, shaft("s2", "7.97", stage="as_left")), BARREL)


def test_asks_are_inherited() -> None:
    """A computed value is provisional while one of its readings asks."""
    record = record_of(EMPTY, bore("s1", "8.03", flags=ASK), shaft("s2", "7.97"))
    assert [True] == [one.provisional for one in computed(record, SHAFT)]


def test_difference_between_two_alike() -> None:
    """8.034 against 8.010 mm, 0.02 mm allowed: told apart, with both readings."""
    found = derived(record_of(EMPTY, bore("s1", "8.034"), bore("s2", "8.010", "lower")), SHAFT)
    (pair,) = [one for one in found if one.difference]
    assert (F("0.024"), ("s1", "s2"), "undecided") == (pair.value, pair.inputs, pair.judgement.decision)
    assert pair.judgement.sentence.startswith("Bush bore, difference 0.024 mm, computed from upper bush bore")
    wide = derived(record_of(EMPTY, bore("s1", "8.05"), bore("s2", "8.01", "lower")), SHAFT)
    assert ["does_not_conform"] == [one.judgement.decision for one in wide if one.difference]


def test_no_difference_is_not_without_doubt() -> None:
    """Two equal readings differ by nought, and that is no better known than any other difference."""
    found = computed(record_of(EMPTY, bore("s1", "8.030"), bore("s2", "8.030", "lower")), SHAFT)
    (pair,) = [one for one in found if one.difference]
    assert 0 == pair.value
    assert 2 * (F("0.000001") / 12 + F("0.000016") / 3) == pair.judgement.budget.variance


def test_places() -> None:
    """Taper over the places; the mean of them; a ratio, whose parts pull against each other."""
    record = record_of(EMPTY, at("s1", "40.020", "top"), at("s2", "40.000", "far end"))
    taper, mean, ratio, twice = derived(record, BARREL)
    assert [F("0.02"), F("40.01"), F("40.02") / 40, F("0.04")] == [
        one.value for one in (taper, mean, ratio, twice)
    ]
    u2 = F("0.000001") / 12 + F("0.000016") / 3
    assert u2 / 2 == mean.judgement.budget.variance
    assert 4 * taper.judgement.budget.variance == twice.judgement.budget.variance  # one input, twice over
    assert u2 / 1600 + u2 * F("40.02") ** 2 / 40**4 == ratio.judgement.budget.variance


def test_a_place_not_read_is_told() -> None:
    """A bore read without its place stands for none of them."""
    found = derived(record_of(EMPTY, at("s1", "40.02", "top"), at("s2", "40.00", None)), BARREL)
    assert "Barrel taper was not computed: the barrel bore at far end was not read as found." == (
        found[0].judgement.sentence
    )


def test_half_of_the_places_are_told_and_fewer_are_not() -> None:
    """Two of four places: what is lacking is named. One of four: nothing was begun."""
    places = ("top", "middle", "low", "bottom")
    sheet = sheet_of(
        Component(
            id="barrel",
            characteristic=(char("bore", places=places), char("taper", formula="range(bore)")),
        )
    )
    one, two = at("s1", "40.02", "top"), at("s2", "40.01", "low")
    (found,) = derived(record_of(EMPTY, one, two), sheet)
    assert (
        "Barrel taper was not computed: the barrel bore at middle and the barrel bore at bottom were not "
        "read as found." == found.judgement.sentence
    )
    assert () == derived(record_of(EMPTY, one), sheet)


def test_units_and_repeats() -> None:
    """Inches are computed in the result's unit; two readings of a bore give degrees of freedom."""
    record = record_of(
        EMPTY,
        bore("s1", "8.030"),
        bore("s2", "8.034", repeat_of="s1"),
        shaft("s3", "0.3140", unit="in"),
    )
    (found,) = computed(record, SHAFT)
    assert F("8.032") - F("0.314") * F("25.4") == found.value
    assert found.judgement.budget.degrees is not None
    assert ("s1", "s2", "s3") == found.inputs


def test_divided_by_nought() -> None:
    """No crash, a sentence."""
    (_, _, ratio, _) = derived(
        record_of(EMPTY, at("s1", "40.02", "top"), at("s2", "0.00", "far end")), BARREL
    )
    assert ratio.value is None
    assert ratio.judgement.sentence.endswith("was not computed: it would be divided by nought.")


FORMULAS = {
    "a - b": lambda a, b: a - b,
    "a * b / (a + b)": lambda a, b: a * b / (a + b),
    "2 * a / b - b / a": lambda a, b: 2 * a / b - b / a,
    "(a - b) * (a - b) + a * b": lambda a, b: (a - b) * (a - b) + a * b,
    "mean(a, b, a)": lambda a, b: (a + b + a) / 3,
}


@pytest.mark.parametrize("formula", FORMULAS)
@given(st.decimals(1, 50, places=2), st.decimals(1, 50, places=2))
def test_against_uncertainties(formula: str, a: Decimal, b: Decimal) -> None:
    """Value and standard uncertainty as the PyPI package `uncertainties` propagates them."""
    sheet = sheet_of(
        Component(
            id="x", characteristic=(char("a", "turn"), char("b", "turn"), char("c", "turn", formula=formula))
        )
    )
    record = record_of(
        EMPTY,
        *(reading(f"s{n}", str(value), unit="turn", component="x", characteristic=name)
          for n, (name, value) in enumerate((("a", a), ("b", b)))),
    )  # fmt: skip
    (found,) = computed(record, sheet)
    u = 0.01 / math.sqrt(12)
    expected = FORMULAS[formula](uncertainties.ufloat(float(a), u), uncertainties.ufloat(float(b), u))
    assert found.value is not None
    assert expected.nominal_value == pytest.approx(float(found.value), rel=1e-12, abs=1e-12)
    assert expected.std_dev == pytest.approx(found.judgement.u, rel=1e-9, abs=1e-12)
