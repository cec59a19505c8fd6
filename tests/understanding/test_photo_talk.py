"""What is said of the picture announced last."""

from __future__ import annotations

import pytest

from saywright.hearing.words import typed
from saywright.sheets import load_sheet
from saywright.understanding.discourse import Discourse
from saywright.understanding.lexicon import Lexicon, build_lexicon
from saywright.understanding.parse import understand
from saywright.understanding.statements import Correction, PhotoMark, Statement


@pytest.fixture(scope="module")
def lexicon() -> Lexicon:
    """The words of the demo's sheet."""
    return build_lexicon(load_sheet("outboard-float-carburetor"))


def said(lexicon: Lexicon, *lines: str) -> list[Statement]:
    """What the lines, a minute apart, are understood as."""
    state, found = Discourse(), []
    for number, line in enumerate(lines):
        state, statements = understand(typed(line, start_s=60.0 * number), state, lexicon)
        found += statements
    return found


@pytest.mark.parametrize("words", ["that's the after", "that is the after", "ok that's the after picture"])
def test_the_after_keeps_the_time_of_its_picture(lexicon: Lexicon, words: str) -> None:
    """The mark is as left from now on; its time is that at which the picture was taken."""
    first, second, correction = said(lexicon, "photo of the float", words)
    assert isinstance(first, PhotoMark)
    assert isinstance(second, PhotoMark)
    assert isinstance(correction, Correction)
    assert ("as_found", "as_left") == (first.stage, second.stage)
    assert (first.component, first.start_s) == (second.component, second.start_s)
    assert (first.id,) == correction.supersedes


@pytest.mark.parametrize(
    "words",
    [
        "photo of the float that's the after",
        "that's the after photo of the float",
        "photo of the float after",
    ],
)
def test_the_after_in_one_breath(lexicon: Lexicon, words: str) -> None:
    """A picture announced as the after is as left."""
    marks = [s for s in said(lexicon, words) if isinstance(s, PhotoMark)]
    assert [("float", "as_left")] == [(m.component, m.stage) for m in marks]


def test_the_bad_one_gives_way_to_the_next(lexicon: Lexicon) -> None:
    """The new mark has the part of the old one and its own time, which is when the next picture is taken."""
    first, second, correction = said(lexicon, "photo of the float", "bad one, again")
    assert isinstance(second, PhotoMark)
    assert isinstance(correction, Correction)
    assert ("float", 60.0) == (second.component, second.start_s)
    assert ((first.id,), second.id) == (correction.supersedes, correction.by)
