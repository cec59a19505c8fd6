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
