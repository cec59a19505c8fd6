"""A reading beside which a word was lost, swapped or misheard asks."""

from __future__ import annotations

import pytest

from saywright.hearing.words import typed
from saywright.sheets.load import load_sheet
from saywright.understanding.discourse import Discourse
from saywright.understanding.lexicon import Lexicon, build_lexicon
from saywright.understanding.parse import understand
from saywright.understanding.statements import Reading


@pytest.fixture(scope="module")
def carburetor() -> Lexicon:
    """The lexicon of the sheet that ships."""
    return build_lexicon(load_sheet("outboard-float-carburetor"))


def _asks(words: str, lexicon: Lexicon) -> list[bool]:
    """Of each reading in *words*, whether it asks."""
    _, made = understand(typed(words), Discourse(), lexicon)
    return [s.asks for s in made if isinstance(s, Reading)]


@pytest.mark.parametrize(
    "words",
    [
        "air screw one and a turns out",
        "air screw two a and half turns out",
        "air screw two and the quarter turns out",
        "air screw four team turns out",
        "float height eighteen pint",
        "throttle shaft diameter seven point nine fine",
        "throttle shaft diameter seven point nine",
        "throttle shaft diameter seven point nine six on the",
        "float height between in eighteen",
    ],
)
def test_traces_of_a_lost_word_ask(words: str, carburetor: Lexicon) -> None:
    """What is left of the number shows that some of it is gone."""
    asks = _asks(words, carburetor)
    assert (True, True) == (bool(asks), all(asks))


@pytest.mark.parametrize(
    "words",
    [
        "air screw one and a half turns out",
        "throttle shaft diameter seven point nine six",
        "float height eighteen point four two and a bit of varnish on it",
        "main jet is a one twenty eight",
    ],
)
def test_whole_numbers_do_not_ask(words: str, carburetor: Lexicon) -> None:
    """Nothing is missing, and nothing asks."""
    assert [False] == _asks(words, carburetor)


@pytest.mark.parametrize(
    ("words", "asks"),
    [
        ("float height twenty one point seven three", False),  # limits 18.0 to 18.8, plausible 10 to 30
        ("main jet one forty", False),  # 125, 128 or 130, plausible to 250
        ("float height ten point four two", True),  # of a lost "eight" in "eighteen" only a ten is left
        ("main jet twenty one eight", True),  # "one twenty eight" with its words swapped
        ("main jet one thirteen", True),  # or one thirty
    ],
)
def test_a_plausible_finding_asks_only_where_a_slip_explains_it(
    words: str, asks: bool, carburetor: Lexicon
) -> None:
    """Far outside the limits is what a worn part is; it asks where a lost or swapped word makes it so."""
    assert [asks] == _asks(words, carburetor)
