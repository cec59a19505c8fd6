"""PocketSphinx: words of the sheet only, with times and doubts."""

import numpy as np
import pytest

from hearing_support import PAUSE, SHEET, recording, sphinx_sample
from saywright.errors import ModelError
from saywright.hearing.adapters.sphinx import SphinxListener
from saywright.hearing.sample_lines import sample_lines
from saywright.hearing.vocabulary import words

pytestmark = pytest.mark.slow


def test_only_words_of_the_sheet_are_heard() -> None:
    """Whatever is said, the words come from the sheet, each with a time and a confidence."""
    listener = SphinxListener(sample_lines(SHEET))
    heard = (
        listener.feed(recording("main jet one twenty eight", "my dog likes the garden")) + listener.finish()
    )
    known = {word for line in sample_lines(SHEET) for word in line.split()}
    assert set(words(SHEET)) <= known
    for one in heard:
        assert {word.text for way in one.hypotheses for word in way.words} <= known
        assert all(word.start_s is not None for word in one.best.words)


@pytest.mark.parametrize("word", ["flatwasher", "juliett"])
def test_words_the_dictionary_lacks_can_be_heard(word: str) -> None:
    """A made pronunciation is enough for a word to be told from others."""
    listener = SphinxListener(
        f"order a new {one} today" for one in ("circlip", "carburettor", "flatwasher", "juliett")
    )
    heard = listener.feed(recording(f"order a new {word} today")) + listener.finish()
    assert [f"order a new {word} today"] == [one.best.text for one in heard]


def test_human_digits_through_a_small_model() -> None:
    """TIDIGITS item dhd.2934z of Debian pocketsphinx-testdata, transcript "two nine three four zero"."""
    digits = "zero one two three four five six seven eight nine".split()  # noqa: SIM905  reads better
    listener = SphinxListener([f"{a} {b} {c}" for a in digits for b in digits for c in digits])
    audio = np.concatenate([PAUSE, sphinx_sample("tidigits/dhd.2934z.raw"), PAUSE])
    (one,) = listener.feed(audio) + listener.finish()
    assert "two nine three four zero" == one.best.text


def test_nothing_to_listen_for() -> None:
    """A sheet without a word is told."""
    with pytest.raises(ModelError, match="the sheet has no words to listen for"):
        SphinxListener([])
