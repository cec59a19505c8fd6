"""The state between utterances."""

from __future__ import annotations

import random
from itertools import pairwise

import pytest

from saywright.hearing.words import typed
from saywright.understanding.discourse import Discourse
from saywright.understanding.parse import understand

TALK = (
    "bowl off",
    "main jet one twenty eight",
    "float height is eighteen point four",
    "needle's worn, needs replacing",
    "scratch that",
    "air screw one and a half turns out",
    "photo of the float",
    "no debris in the bowl",
    "bowl screws out",
    "upper bush eight point oh two",
    "the lower one eight point oh four",
    "going back together",
    "new bowl gasket on",
    "what time is it",
)


def size(value) -> int:
    """How many values a state holds, however deep."""
    if isinstance(value, str) or not hasattr(value, "__len__"):
        return 1
    inner = value.values() if hasattr(value, "values") else value
    return 1 + sum(size(v) for v in inner)


def sizes(state) -> int:
    """The size of everything a state remembers."""
    return sum(size(getattr(state, name)) for name in Discourse.__dataclass_fields__)


def test_the_state_stays_small(lexicon):
    """After 5,000 utterances the state holds no more than after the first 500."""
    draw, state, after = random.Random(7), Discourse(), {}
    for number in range(1, 5001):
        state, _ = understand(typed(draw.choice(TALK)), state, lexicon)
        if number in {500, 5000}:
            after[number] = max(after.values(), default=0), sizes(state)
    assert after[5000][1] <= 1.25 * after[500][1]


def test_live_and_at_once_are_the_same(lexicon):
    """Feeding utterance by utterance, keeping only the frozen state, gives what one go gives."""
    at_once, state = [], Discourse()
    for line in TALK:
        state, statements = understand(typed(line), state, lexicon)
        at_once.append(statements)
    states = [Discourse()]
    for line in TALK:
        states.append(understand(typed(line), states[-1], lexicon)[0])
    again = [
        understand(typed(line), before, lexicon)[1] for line, before in zip(TALK, states[:-1], strict=True)
    ]
    assert at_once == again


def test_understanding_leaves_the_state_before_as_it_was(lexicon):
    """A state is not changed by what comes after it."""
    states = [Discourse()]
    for line in TALK:
        states.append(understand(typed(line), states[-1], lexicon)[0])
    first = [
        understand(typed(line), a, lexicon)[0] for (a, _), line in zip(pairwise(states), TALK, strict=True)
    ]
    assert states[1:] == first


@pytest.mark.parametrize(
    ("lines", "component"),
    [
        (("main jet out", "it's worn"), "main_jet"),
        (("main jet out", "what time is it", "it's worn"), "main_jet"),
        (("main jet out", "float off", "it's worn"), "float"),
    ],
)
def test_it_is_the_part_in_hand(lexicon, lines, component):
    """ "It" is the part named last."""
    state = Discourse()
    for line in lines:
        state, statements = understand(typed(line), state, lexicon)
    assert [component] == [s.component for s in statements if s.kind == "condition"]
