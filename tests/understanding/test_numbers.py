"""Numbers: words to every reading, ranked, and back again."""

from __future__ import annotations

import random
import re
from decimal import Decimal
from fractions import Fraction
from importlib.resources import files
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from num2words import num2words

from saywright.quantity import parse_value
from saywright.understanding.numbers.ranked import NumberReading, read_number
from strategies import (
    cardinal,
    decimal,
    decimals,
    grouped,
    mixed,
    randoms,
    spelled,
    utterances,
    whole_numbers,
)

CASES = Path(__file__).parents[1] / "cases"


def rows(name: str) -> list[list[str]]:
    """The rows of a case file: said, wanted, why."""
    lines = (CASES / name).read_text(encoding="utf-8").splitlines()
    return [line.split("\t") for line in lines if line and not line.startswith("#")]


def only(words: list[str]) -> NumberReading:
    """The one most likely reading, which must take every word."""
    readings = read_number(words)
    assert readings, words
    best = [reading for reading in readings if reading.cost == readings[0].cost]
    assert 1 == len(best), (words, best)
    assert len(words) == best[0].words, (words, best)
    return best[0]


def ranked(readings: tuple[NumberReading, ...]) -> str:
    """The readings as the case file writes them."""
    text = ""
    for index, reading in enumerate(readings):
        if index:
            text += " = " if reading.cost == readings[index - 1].cost else " | "
        text += reading.value + (" ordinal" if reading.how == "ordinal" else "")
    return text or "-"


class TestCases:
    """Rows that a technician can add to."""

    @pytest.mark.parametrize(("said", "wanted", "why"), rows("numbers.tsv"))
    def test_readings_in_their_order(self, said: str, wanted: str, why: str) -> None:
        """The likeliest readings are those of the row, in its order."""
        found = ranked(read_number(said.split()))
        assert wanted == found[: len(wanted)], why
        assert found[len(wanted) :] == "" or found[len(wanted) :].startswith(" |"), why

    @pytest.mark.parametrize(("said", "wanted", "why"), rows("numbers_homophones.tsv"))
    def test_words_that_sound_like_digits(self, said: str, wanted: str, why: str) -> None:
        """A word is taken by its sound only where a digit must stand, and then says so."""
        value, _, flag = wanted.partition(" ")
        best = read_number(said.split(), homophones=True)[0]
        assert (value, flag == "homophone") == (best.value, "homophone" in best.flags), why

    @pytest.mark.parametrize("said", ["point four to", "one two for", "one ate five"])
    def test_sounds_are_left_alone_unless_asked_for(self, said: str) -> None:
        """Without the switch no homophone becomes a digit."""
        assert all("homophone" not in reading.flags for reading in read_number(said.split()))


class TestGrammar:
    """The grammar file keeps to its own examples."""

    def test_every_example_in_the_comments_is_one_number(self) -> None:
        """Each "e.g." phrase of the grammar is read whole."""
        text = (files("saywright.understanding") / "grammar" / "numbers.lark").read_text(encoding="utf-8")
        lines = re.findall(r"// e\.g\. (.*)", text)
        examples = [phrase.strip() for line in lines for phrase in line.split(";")]
        assert 25 < len(examples)
        for phrase in examples:
            readings = read_number(phrase.split())
            assert readings, phrase
            assert len(phrase.split()) == readings[0].words, phrase


class TestThereAndBack:
    """Digits to words and back to the same digits."""

    def test_num2words_is_the_inverse_up_to_9999(self) -> None:
        """Every number from 0 to 9,999 as the num2words package says it."""
        for number in range(10_000):
            words = re.sub(r"[,-]", " ", num2words(number)).split()
            for said in (words, [word for word in words if word != "and"]):
                assert str(number) == only(said).value, said

    def test_num2words_decimals(self) -> None:
        """Decimals to three places; num2words drops trailing zeros, so they are compared without."""
        rng = random.Random(2)
        for _ in range(2_000):
            value = Decimal(rng.randrange(1, 100_000)) / 1000
            words = re.sub(r"[,-]", " ", num2words(value.normalize())).split()
            assert value == Decimal(only(words).value), words

    @given(whole_numbers, st.booleans(), st.booleans())
    def test_cardinals(self, number: int, with_and: bool, article: bool) -> None:
        """Cardinals to 999,999, with and without and, with a for one."""
        said = cardinal(number, with_and=with_and, article=article)
        assert str(number) == only(said).value

    @given(st.integers(101, 9_999))
    def test_group_forms(self, number: int) -> None:
        """Two digits at a time: "one twenty eight", "eleven oh five"."""
        said = grouped(number)
        if said is not None and len(said) > 1:
            best = read_number(said)
            assert str(number) in {reading.value for reading in best if reading.cost == best[0].cost}
            assert len(said) == best[0].words

    @given(st.text("0123456789", min_size=2, max_size=12), randoms, st.booleans())
    def test_digits_one_by_one(self, digits: str, rng: random.Random, alphabet: bool) -> None:
        """Digit strings keep every zero, also those that lead."""
        said = spelled(digits, rng, alphabet=alphabet)
        if said[0] == "oh" and set(said) == {"oh"}:
            assert () == read_number(said)
        elif len(said) > 1:
            assert digits == read_number(said)[0].value

    @given(decimals, randoms)
    def test_decimals_keep_their_places(self, digits: str, rng: random.Random) -> None:
        """A decimal comes back with the places that were said."""
        assert digits == only(decimal(digits, rng)).value

    @given(st.integers(0, 200), st.sampled_from([2, 4, 8, 16, 64]), st.data())
    def test_mixed_numbers_are_exact(self, whole: int, bottom: int, data: st.DataObject) -> None:
        """Shares of powers of two become exact decimals."""
        top = 2 * data.draw(st.integers(1, bottom // 2)) - 1
        reading = only(mixed(whole, top, bottom))
        assert Fraction(top, bottom) + whole == parse_value(reading.value)
        assert "/" not in reading.value

    @given(st.integers(1, 31).map(lambda top: top | 1))
    def test_thirty_seconds_may_be_a_time(self, top: int) -> None:
        """The share comes first and takes the word seconds; the other readings leave it."""
        said = mixed(0, top, 32)
        readings = read_number(said)
        assert Fraction(top, 32) == parse_value(readings[0].value)
        assert len(said) == readings[0].words
        assert {len(said) - 1} == {reading.words for reading in readings[1:]}


class TestDoubt:
    """What does not fit is marked."""

    @pytest.mark.parametrize(
        "said",
        [
            "eighteen point of three",
            "two million",
            "sixty fourths",
            "two half turns",
            "one seven eighths",
            "two halves",
            "five eighth",
            "eighteen point four and a half",
            "one two oh I dropped it",
        ],
    )
    def test_words_that_do_not_fit_are_odd(self, said: str) -> None:
        """Words left over that belong to numbers mark the reading."""
        assert "odd" in read_number(said.split())[0].flags

    @pytest.mark.parametrize("said", ["18.42", "#60", "2 six seven", "1 and a half"])
    def test_figures_are_marked(self, said: str) -> None:
        """A number that came as figures says so."""
        assert "figures" in read_number(said.split())[0].flags

    def test_two_hundreds_are_two_numbers(self) -> None:
        """The first stops before the word that belongs to the second."""
        words = ["one", "hundred", "twenty", "two", "hundred"]
        assert ("100", 2) == (read_number(words)[0].value, read_number(words)[0].words)
        assert "2200" == read_number(words, 2)[0].value

    def test_letters_and_exclamations_are_no_zeros(self) -> None:
        """ "Two o rings" is two, not twenty."""
        assert "2" == read_number(["two", "o", "rings"])[0].value
        assert "2" == read_number(["two", "oh", "rings"])[0].value
        assert () == read_number(["oh", "that", "is", "bent"])
        assert () == read_number(["oh"] * 40)


class TestTotal:
    """Any words give an answer, in time that grows with their number."""

    @given(utterances, st.booleans())
    @settings(max_examples=400)
    def test_never_an_exception(self, words: list[str], homophones: bool) -> None:
        """Every reading is a number and stays inside the words."""
        for start in range(len(words) + 1):
            for reading in read_number(words, start, homophones=homophones):
                parse_value(reading.value)
                assert 0 < reading.words <= len(words) - start
                assert 0 <= reading.cost

    @given(utterances)
    @settings(max_examples=100)
    def test_best_first(self, words: list[str]) -> None:
        """Readings come in the order of their cost, no value twice in one span."""
        readings = read_number(words)
        assert sorted(reading.cost for reading in readings) == [reading.cost for reading in readings]
        assert len(readings) == len({(reading.value, reading.words) for reading in readings})

    def test_long_runs_are_cut(self) -> None:
        """A run past the limit is cut and says so; a hundred times the words give the same reading."""
        reading = read_number(["two"] * 1_000)[0]
        assert "odd" in reading.flags
        assert reading == read_number(["two"] * 100_000)[0]
