"""What no statement covers: small words go into the quote beside them, the rest is a remark."""

from __future__ import annotations

import pytest

from saywright.hearing.words import Hypothesis, Utterance, Word, typed
from saywright.sheets import load_sheet
from saywright.understanding.discourse import Discourse
from saywright.understanding.lexicon import Lexicon, build_lexicon
from saywright.understanding.parse import understand


@pytest.fixture(scope="module")
def carburetor() -> Lexicon:
    """The words of the carburetor's sheet."""
    return build_lexicon(load_sheet("outboard-float-carburetor"))


def quotes(words: str, lexicon: Lexicon) -> list[tuple[str, str]]:
    """Kind and quote of each statement of *words*."""
    return [(s.kind, s.heard) for s in understand(typed(words), Discourse(), lexicon)[1]]


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("there is no fuel inside the float", ["condition"]),
        ("we are not replacing the return spring", ["action"]),
        ("i cleaned the strainer", ["action"]),
        ("there is a crack in the float bowl", ["condition"]),
        ("main jet is scored too", ["condition"]),
        ("the drain screw is out again", ["movement"]),
    ],
)
def test_a_quote_keeps_its_small_words(carburetor: Lexicon, words: str, told: list[str]) -> None:
    """The first word is not lost, and does not stand alone as a remark."""
    assert [(kind, words) for kind in told] == quotes(words, carburetor)


@pytest.mark.parametrize(
    ("words", "remarks"),
    [
        ("blew out the pilot jet with compressed air", ["with compressed air"]),
        ("the main jet lifts out with a pick", ["with a pick"]),
        ("there we are then", ["there we are then"]),
    ],
)
def test_words_that_say_something_are_kept_by_themselves(
    carburetor: Lexicon, words: str, remarks: list[str]
) -> None:
    """What means something of its own is a remark, as before, and talk without a statement is one."""
    assert remarks == [heard for kind, heard in quotes(words, carburetor) if kind == "remark"]


def test_no_word_is_in_two_quotes_or_in_none(carburetor: Lexicon) -> None:
    """A small word between two statements goes with the second."""
    words = "main jet is out but there is a scratch on the float"
    told = quotes(words, carburetor)
    assert words.split() == " ".join(heard for _, heard in told).split()


def test_the_quote_begins_when_its_first_word_does(carburetor: Lexicon) -> None:
    """The clip that is played holds the word that the quote shows."""
    spoken = ["there", "is", "no", "fuel", "inside", "the", "float"]
    timed = tuple(Word(text=text, start_s=at / 2, end_s=at / 2 + 0.4) for at, text in enumerate(spoken))
    heard = Utterance(
        hypotheses=(Hypothesis(words=timed, probability=1.0),), start_s=0.0, end_s=4.0, listener="scripted"
    )
    (found,) = understand(heard, Discourse(), carburetor)[1]
    assert (0.0, 3.4) == (found.start_s, found.end_s)


def test_a_value_joined_over_a_pause_keeps_its_quote(carburetor: Lexicon) -> None:
    """What began in the utterance before is not quoted anew."""
    state, _ = understand(typed("float height eighteen"), Discourse(), carburetor)
    _, told = understand(typed("point four two there"), state, carburetor)
    assert "float height eighteen … point four two" in [s.heard for s in told]
