"""Measures: number, unit, hedge, sign and range in running words."""

from __future__ import annotations

import random
import sys
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from saywright.quantity import parse_value
from saywright.understanding.quantities.measures import Measure, find_measures
from saywright.units import UNITS, spoken_units
from strategies import cardinal, decimal, decimals, mixed, randoms, utterances

UNIT_NAMES = spoken_units()
CASES = Path(__file__).parents[1] / "cases" / "measures.tsv"
FILLERS = ("so", "the", "float", "reads", "well", "it's", "bent", "on", "left", "side")

fillers = st.lists(st.sampled_from(FILLERS), max_size=3)


def rows() -> list[list[str]]:
    """The rows of the case file: said, wanted, why."""
    lines = CASES.read_text(encoding="utf-8").splitlines()
    return [line.split("\t") for line in lines if line and not line.startswith("#")]


def find(said: str) -> tuple[Measure, ...]:
    """The measures in the words of *said*."""
    return find_measures(said.split(), UNIT_NAMES)


def written(measure: Measure) -> str:
    """A measure as the case file writes it."""
    text = measure.readings[0].value + (f"..{measure.second[0].value}" if measure.second else "")
    unit = measure.unit or "/".join(measure.units)
    marks = ["~"] if measure.approximate else []
    marks += [measure.sign] if measure.sign else []
    marks += ["!" + ",".join(measure.flags)] if measure.flags else []
    return " ".join([text, *([unit] if unit else []), *marks])


class TestCases:
    """Rows that a technician can add to."""

    @pytest.mark.parametrize(("said", "wanted", "why"), rows())
    def test_measures_of_a_phrase(self, said: str, wanted: str, why: str) -> None:
        """Values, units and marks are those of the row."""
        assert wanted == ("; ".join(written(measure) for measure in find(said)) or "-"), why


class TestParts:
    """Single fields."""

    def test_the_span_holds_sign_and_hedge(self) -> None:
        """Words that belong to the measure are inside its span, others are not."""
        measure = find("gap is just under two thou on the left")[0]
        assert (2, 6) == (measure.start, measure.end)
        assert "just under" == measure.hedge

    def test_the_unit_keeps_its_words(self) -> None:
        """The spoken name is kept beside the code."""
        measure = find("five pounds per square inch")[0]
        assert ("psi", "pounds per square inch", ()) == (measure.unit, measure.unit_said, measure.units)

    def test_an_ambiguous_unit_has_no_code(self) -> None:
        """A name with several meanings leaves the choice to the caller."""
        measure = find("two mil")[0]
        assert (None, "mil") == (measure.unit, measure.unit_said)

    def test_both_readings_of_a_thing_and_a_number(self) -> None:
        """ "The left one twenty eight" may be 128, or the left one with 28."""
        values = {reading.value for reading in find("the left one twenty eight")[0].readings}
        assert {"128", "28"} <= values

    @pytest.mark.parametrize(
        ("said", "value", "behind"),
        [
            ("cylinder two ninety psi", "290", "90"),
            ("piston one eighteen point four", "118.4", "18.4"),
            ("number two one eighteen", "2118", "118"),
        ],
    )
    def test_a_position_in_front_of_the_value(self, said: str, value: str, behind: str) -> None:
        """The readings without the first digit are kept beside the others."""
        measure = find(said)[0]
        assert (value, behind) == (measure.readings[0].value, measure.behind_first[0].value)

    def test_both_readings_of_a_sound(self) -> None:
        """The value without the word that sounds like a digit stays possible."""
        values = [reading.value for reading in find("point four to")[0].readings]
        assert ["0.42", "0.4"] == values

    @pytest.mark.parametrize(
        ("said", "sounding"),
        [("main jet to sixty seven", "267"), ("reads for point two", "4.2"), ("to and a half turns", "2.5")],
    )
    def test_a_sound_in_front_is_a_dear_reading(self, said: str, sounding: str) -> None:
        """The value with the word before it as a digit is there, costs more and is marked."""
        readings = find(said)[0].readings
        found = next(reading for reading in readings if reading.value == sounding)
        assert 3 <= found.cost - readings[0].cost
        assert "homophone" in found.flags

    def test_five_thirty_seconds_keeps_the_time(self) -> None:
        """Both the share and the count are there; no unit is decided."""
        measure = find("five thirty seconds")[0]
        assert {"0.15625", "530"} <= {reading.value for reading in measure.readings}
        assert (None, ("s",)) == (measure.unit, measure.units)

    def test_names_of_the_sheet_count_as_units(self) -> None:
        """A sheet may bring its own spoken unit."""
        measure = find_measures(["three", "clicks"], {"clicks": ("1",)})[0]
        assert ("1", "clicks") == (measure.unit, measure.unit_said)

    @pytest.mark.parametrize("name", sorted(UNIT_NAMES))
    def test_every_spoken_unit_is_found(self, name: str) -> None:
        """Each name of the unit table is recognised behind a number, whole."""
        # "Um" is a unit only where it is written.
        measure = find(f"7 {name}" if name == "um" else f"seven {name}")[0]
        assert name == measure.unit_said
        assert set(UNIT_NAMES[name]) <= {measure.unit, *measure.units}
        assert {measure.unit, *measure.units} - {None} <= set(UNITS)


class TestThereAndBack:
    """Values put among other words come out again."""

    @given(decimals, randoms, st.sampled_from(["mm", "thou", "psi", "newton meters", ""]), fillers, fillers)
    def test_decimals_in_running_words(
        self, digits: str, rng: random.Random, unit: str, before: list[str], after: list[str]
    ) -> None:
        """A decimal with its unit is found wherever it stands."""
        said = [*before, *decimal(digits, rng), *unit.split(), *after]
        measures = find_measures(said, UNIT_NAMES)
        assert [digits] == [measure.readings[0].value for measure in measures]
        assert (unit or None) == measures[0].unit_said

    @given(st.integers(2, 999), st.booleans())
    def test_thousandths(self, number: int, with_and: bool) -> None:
        """Whole thousandths keep their unit."""
        said = [*cardinal(number, with_and=with_and), "thousandths"]
        assert (str(number), "thou") == (find_measures(said, UNIT_NAMES)[0].readings[0].value, "thou")

    @given(st.integers(1, 9), st.sampled_from([(1, 2), (1, 4), (3, 4), (1, 8), (5, 8)]))
    def test_a_share_behind_the_unit_is_the_same_value(self, whole: int, share: tuple[int, int]) -> None:
        """ "Two turns and a quarter" is "two and a quarter turns"."""
        inner = [*mixed(whole, *share), "turns"]
        outer = [*cardinal(whole), "turns", "and", *mixed(0, *share)]
        found = [find_measures(said, UNIT_NAMES) for said in (inner, outer)]
        assert [1, 1] == [len(measures) for measures in found]
        assert found[0][0].readings[0].value == found[1][0].readings[0].value
        assert ["turn", "turn"] == [measures[0].unit for measures in found]


class TestTotal:
    """Any words give an answer."""

    @given(utterances)
    @settings(max_examples=500)
    def test_never_an_exception(self, words: list[str]) -> None:
        """Spans are in order, inside the words, and every value is a number."""
        at = 0
        for measure in find_measures(words, UNIT_NAMES):
            assert at <= measure.start < measure.end <= len(words)
            assert measure.readings
            for reading in (*measure.readings, *measure.second):
                parse_value(reading.value)
            at = measure.end

    @given(utterances)
    @settings(max_examples=100)
    def test_the_same_words_give_the_same_measures(self, words: list[str]) -> None:
        """Nothing is remembered between calls."""
        assert find_measures(words, UNIT_NAMES) == find_measures(tuple(words), dict(UNIT_NAMES))

    @pytest.mark.parametrize(
        "phrase",
        [
            "one hundred and five thousand",
            "two",
            "between one and",
            "oh",
            "a half",
            "about",
            "double",
            "point",
            "one and",
            "minus",
            "twenty to",
        ],
    )
    def test_time_grows_with_length_only(self, phrase: str) -> None:
        """Four times the words take some four times the work, whatever they are; sixteen were quadratic."""

        def calls(count: int) -> int:
            words = (f"{phrase} " * count).split()[:count]
            seen = [0]

            def note(_frame: object, event: str, _arg: object) -> None:
                seen[0] += event in ("call", "c_call")

            sys.setprofile(note)
            try:
                find_measures(words, UNIT_NAMES)
            finally:
                sys.setprofile(None)
            return seen[0]

        assert 5 * calls(600) > calls(2400)
