"""What may be said at a bench, drawn from its sheet."""

import re
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hearing_support import SHEET
from saywright.hearing import vocabulary
from saywright.hearing.sample_lines import sample_lines
from saywright.sheets.model import Characteristic, Component, Sheet


def test_phrases_hold_every_name_of_the_sheet() -> None:
    """Parts, positions, characteristics, conditions, actions, units, triggers, numbers are all in."""
    wanted = {
        "main jet",
        "floats",
        "left",
        "float height",
        "chewed up",
        "replaced",
        "millimeters",
        "compressed air",
    }
    assert wanted <= set(vocabulary.phrases(SHEET))
    assert {"seventeen", "point", "caliper"} <= set(vocabulary.phrases(SHEET))


def test_phrases_are_as_listeners_write() -> None:
    """Lower case, no punctuation, hyphens split, none twice."""
    phrases = vocabulary.phrases(SHEET)
    assert "drain o ring" in phrases
    assert len(set(phrases)) == len(phrases)
    assert all(re.fullmatch(r"[a-z']+( [a-z']+)*", phrase) for phrase in phrases)


def test_words_are_those_of_the_phrases() -> None:
    """Each word once."""
    words = vocabulary.words(SHEET)
    assert {"ring", "jet", "eleven"} <= set(words)
    assert len(set(words)) == len(words)


def test_prompt_is_in_number_words() -> None:
    """A prompt names the parts, holds readings and never a digit."""
    prompt = vocabulary.prompt(SHEET)
    assert not any(mark.isdigit() for mark in prompt)
    assert re.search(
        r"float height \w+ \w+ point \w+ \w+ millimeters\.|float height \w+ point \w+ \w+ millimeters\.",
        prompt,
    )
    assert all(component.label.replace("-", " ") in prompt for component in SHEET.component)


def test_prompt_is_the_same_each_time() -> None:
    """The same sheet gives the same prompt."""
    assert vocabulary.prompt(SHEET) == vocabulary.prompt(SHEET.model_copy(deep=True))


def test_a_zero_is_said_in_both_ways() -> None:
    """Some readings of a prompt have "point oh", so that an "oh" is not taken for a "two"."""
    characteristic = SHEET.component[0].characteristic[0]
    said = [vocabulary.example(SHEET.component[0], characteristic, salt) for salt in range(50)]
    assert any(" point oh " in one for one in said)
    assert any(" zero " in one for one in said)


def test_turns_are_said_the_way_of_the_sheet() -> None:
    """A screw that is counted in is not said to be out."""
    turns = Characteristic(id="turns", names=("turns in",), unit="turn", plausible=(Decimal(0), Decimal(5)))
    part = Component(id="stop", names=("stop screw",), characteristic=(turns,))
    prompt = vocabulary.prompt(SHEET.model_copy(update={"component": (part,)}))
    assert re.search(r"stop screw [\w ]*turns? in\.", prompt)


def test_expected_parts_come_last() -> None:
    """What is expected next stands nearest to the speech."""
    assert vocabulary.prompt(SHEET, ["main_jet"]).split(". ")[-1].startswith("main jet")
    assert vocabulary.prompt(SHEET, ["air_screw", "main_jet"]).split(". ")[-1].startswith("air screw")


def test_prompt_holds_no_limit_and_no_allowed_size() -> None:
    """Sampled values are plausible, but never the right answer."""
    for component, characteristic in SHEET.characteristics():
        for salt in range(200):
            value = vocabulary.sample_value(component, characteristic, salt)
            low, high = characteristic.plausible or (value, value)
            assert low <= value <= high
            assert value not in (*characteristic.allowed, characteristic.lower, characteristic.upper)


@pytest.mark.parametrize("room", [10, 40, 100])
def test_prompt_keeps_to_its_room(room: int) -> None:
    """A large sheet does not overflow the listener's prompt."""
    parts = tuple(
        Component(
            id=f"p{i}",
            names=(f"part letter {chr(97 + i % 26)}",),
            characteristic=SHEET.component[0].characteristic,
        )
        for i in range(60)
    )
    prompt = vocabulary.prompt(SHEET.model_copy(update={"component": parts}), max_tokens=room)
    assert sum(vocabulary.tokens(line) for line in prompt.split(". ")) <= room


@given(
    low=st.decimals(0, 500, places=2),
    width=st.decimals(0, 500, places=2),
    unit=st.sampled_from(["mm", "1", "turn", "bar", "thou", "deg"]),
)
def test_any_range_gives_words(low: Decimal, width: Decimal, unit: str) -> None:
    """Whatever the plausible range, an example is words only."""
    characteristic = Characteristic(id="c", names=("depth",), unit=unit, plausible=(low, low + width))
    said = vocabulary.example(Component(id="p"), characteristic)
    assert re.fullmatch(r"[a-z]+( [a-z]+)*", said)


def test_a_sheet_without_ranges_still_prompts() -> None:
    """Neither limits nor plausible range are needed."""
    sheet = Sheet(
        id="s", title="s", component=(Component(id="pin", characteristic=(Characteristic(id="size"),)),)
    )
    assert vocabulary.prompt(sheet).startswith("pin ") or " pin " in vocabulary.prompt(sheet)


def test_an_empty_sheet_prompts_nothing() -> None:
    """No parts, no prompt."""
    assert "" == vocabulary.prompt(Sheet(id="s", title="s"))


@pytest.mark.parametrize(
    ("component", "characteristic", "name"),
    [
        ("float", "float height", "float height"),
        ("main jet", "size", "main jet"),
        ("air screw", "depth", "air screw depth"),
        ("inlet seat", "seat bore", "inlet seat bore"),
    ],
)
def test_reading_name(component: str, characteristic: str, name: str) -> None:
    """A part and what is read on it make one name without a word twice."""
    given_part = Component(id="p", names=(component,))
    assert name == vocabulary.reading_name(given_part, Characteristic(id="c", names=(characteristic,)))


def test_sample_lines_cover_the_sheet() -> None:
    """The lines a language model is trained on hold every word of the sheet and no digit."""
    lines = sample_lines(SHEET)
    said = {word for line in lines for word in line.split()}
    assert set(vocabulary.words(SHEET)) <= said
    assert not any(mark.isdigit() for word in said for mark in word)
    assert lines == sample_lines(SHEET)


def test_the_commands_come_before_the_parts() -> None:
    """What is said to the bench stands at the head of the prompt and takes nothing of the parts' room."""
    whole = vocabulary.bench_prompt(SHEET)
    assert whole.endswith(vocabulary.prompt(SHEET))
    assert whole.startswith("pause listening. resume listening. read that back. undo that. what is left.")
