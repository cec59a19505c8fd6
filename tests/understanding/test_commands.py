"""Bench commands and their undoing, in the state between utterances."""

from __future__ import annotations

from pathlib import Path

import pytest

from saywright.hearing.words import Hypothesis, Utterance, Word, typed
from saywright.understanding.discourse import Discourse
from saywright.understanding.parse import understand
from saywright.understanding.sounds.command_sounds import SOUND_ALIKE
from saywright.understanding.statements import BenchCommand

from .test_discourse import TALK

BOOKS = ("stage", "counting", "first", "latest", "seen", "off", "paused")
CASES = Path(__file__).parents[1] / "cases" / "speech"


def books(state):
    """What is known in *state*."""
    return {name: getattr(state, name) for name in BOOKS}


def test_undo_after_each_utterance_is_as_if_it_was_not_said(lexicon):
    """Whatever an utterance changed, an undo right behind it gives the state before it."""
    state = Discourse()
    for line in TALK:
        after, _ = understand(typed(line), state, lexicon)
        undone, _ = understand(typed("undo"), after, lexicon)
        if len(after.steps) > len(state.steps):
            assert books(state) == books(undone), line
        state = after


def test_a_row_of_undos_leads_back_to_the_start(lexicon):
    """As many undos as utterances give an empty record, and one more changes nothing."""
    state = Discourse()
    for line in TALK[:3]:
        state, _ = understand(typed(line), state, lexicon)
    for _ in range(4):
        state, _ = understand(typed("undo"), state, lexicon)
    assert books(Discourse()) == books(state)


def test_ids_are_not_given_twice(lexicon):
    """Numbers go on over undos, so that no id names two things."""
    state, ids = Discourse(), []
    for line in (TALK[1], "undo", TALK[2], "undo", "undo", TALK[1]):
        state, statements = understand(typed(line), state, lexicon)
        ids += [s.id for s in statements]
    assert len(set(ids)) == len(ids)


@pytest.mark.parametrize("path", sorted(CASES.glob("*.txt")), ids=lambda path: path.stem)
def test_running_talk_gives_no_command(path, lexicon):
    """No line of the cases with one more word before and behind it is a command."""
    said = [line[1:].strip() for line in path.read_text(encoding="utf-8").splitlines() if line[:1] == ">"]
    for line in said:
        _, statements = understand(typed(f"well {line} there"), Discourse(), lexicon)
        assert not any(isinstance(s, BenchCommand) for s in statements), line


def _heard(*hypotheses):
    """An utterance of a recogniser, (text, probability) best first."""
    return Utterance(
        hypotheses=tuple(
            Hypothesis(words=tuple(Word(text=word) for word in text.split()), probability=probability)
            for text, probability in hypotheses
        ),
        start_s=0.0,
        end_s=1.0,
        listener="whisper tiny.en",
    )


def _commands_of(utterance, lexicon, *, before="float height is eighteen point four"):
    state, _ = understand(typed(before), Discourse(), lexicon)
    _, statements = understand(utterance, state, lexicon)
    return [s.command for s in statements if isinstance(s, BenchCommand)]


@pytest.mark.parametrize(
    ("words", "command"),
    [("and do that", "undo"), ("fast listening", "pause"), ("thread that back", "read_back")],
)
def test_a_sound_alike_is_a_command_only_where_it_was_heard(words, command, lexicon):
    """A recogniser writes another word of the same sound; a person who types means what is typed."""
    assert [command] == _commands_of(_heard((words, 1.0)), lexicon)
    assert [] == _commands_of(typed(words), lexicon)


def test_sound_alikes_are_no_row_of_the_cases(lexicon):
    """Nothing that the cases have somebody say is taken for a command by its sound."""
    said = [
        line[1:].strip().lower().rstrip(".?!")
        for path in CASES.glob("*.txt")
        for line in path.read_text(encoding="utf-8").splitlines()
        if line[:1] == ">"
    ]
    assert set() == {tuple(line.split()) for line in said} & set(SOUND_ALIKE)


@pytest.mark.parametrize(
    ("hypotheses", "commands"),
    [
        ([("do that", 0.6), ("undo that", 0.4)], ["undo"]),
        ([("do that", 0.95), ("undo that", 0.05)], []),
        ([("and two", 0.6), ("and do", 0.4)], []),  # by its sound alone, and less likely
        ([("and two", 0.6), ("undo", 0.4)], []),  # one word
        ([("bowl off", 0.6), ("undo that", 0.4)], []),  # the other tells something
    ],
)
def test_a_command_beside_words_that_tell_nothing(hypotheses, commands, lexicon):
    """Where the likeliest words tell nothing, a command among the others is taken from a tenth on."""
    assert commands == _commands_of(_heard(*hypotheses), lexicon)
