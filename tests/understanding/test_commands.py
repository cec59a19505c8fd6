"""Bench commands and their undoing, in the state between utterances."""

from __future__ import annotations

from pathlib import Path

import pytest

from saywright.hearing.words import Hypothesis, Utterance, Word, typed
from saywright.understanding.discourse import Discourse
from saywright.understanding.parse import understand
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


def test_of_several_hearings_the_likelier_counts(lexicon):
    """A command that only an unlikely hearing holds is not obeyed."""
    texts = (("and do that", 0.7), ("undo that", 0.3))
    heard = tuple(
        Hypothesis(words=tuple(Word(text=word) for word in text.split()), probability=share)
        for text, share in texts
    )
    utterance = Utterance(hypotheses=heard, listener="player")
    _, statements = understand(utterance, Discourse(), lexicon)
    assert ["remark"] == [s.kind for s in statements]
