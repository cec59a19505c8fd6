"""Numbers that are not for the record by the words around them."""

from __future__ import annotations

import pytest

from saywright.hearing.words import typed
from saywright.understanding.discourse import Discourse
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.parse import understand
from saywright.understanding.statements import Reading, Remark


@pytest.mark.parametrize(
    ("words", "reason"),
    [
        ("main jet is on shelf four", "the number of something else"),
        ("it's the float needle four out of five", "so many out of so many"),
        ("float height so eighteen point four is what they ask for", "quoted limit"),
        ("floats are good four off the left", "how many came off"),
        ("throttle bore quarter turn round", "where it was measured"),
        ("carb off a sixty eight twin eight inch", "the number of something else"),
    ],
)
def test_why_it_is_no_reading(words: str, reason: str, lexicon: Lexicon) -> None:
    """The words are kept with the reason, and nothing is read in them."""
    _, made = understand(typed(words), Discourse(), lexicon)
    assert reason in {s.reason for s in made if isinstance(s, Remark)}
    assert [] == [s for s in made if isinstance(s, Reading)]


def test_the_same_words_with_a_value(lexicon: Lexicon) -> None:
    """What is named by its characteristic is read, whatever unknown noun stands near."""
    _, made = understand(typed("main jet size is one twenty eight on shelf four"), Discourse(), lexicon)
    assert ["128"] == [s.value for s in made if isinstance(s, Reading)]


def test_a_machine_told_by_one_number_word(lexicon: Lexicon) -> None:
    """A number of one word that ends the talk is looked at like any other; its words are kept."""
    _, made = understand(typed("carb off a sixty"), Discourse(), lexicon)
    assert ["carb off a sixty"] == [s.heard for s in made]
