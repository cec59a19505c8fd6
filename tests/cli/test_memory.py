"""How often the garbage collector searches."""

from __future__ import annotations

import gc

import pytest

from saywright.cli.main import main
from saywright.hearing.words import typed
from saywright.sheets.load import load_sheet
from saywright.understanding.discourse import Discourse
from saywright.understanding.lexicon import build_lexicon
from saywright.understanding.parse import understand


@pytest.fixture
def thresholds():
    """Those of the tests, put back behind it."""
    kept = gc.get_threshold()
    yield kept
    gc.set_threshold(*kept)


def test_the_command_line_lets_the_collector_search_seldom(thresholds):
    """From its start on."""
    with pytest.raises(SystemExit):
        main(["--version"])
    assert gc.get_threshold()[0] > 10 * thresholds[0]


def test_nothing_that_is_understood_is_in_a_ring():
    """So that nothing waits for the collector: it is freed where nothing refers to it any more."""
    lexicon, state = build_lexicon(load_sheet("outboard-float-carburetor")), Discourse()
    lines = (
        "float height is eighteen point four two",
        "no eighteen point five",
        "bowl gasket's split",
        "undo",
    )
    for line in lines:  # grammars and memories are filled
        state, _ = understand(typed(line), state, lexicon)
    gc.collect()
    gc.disable()
    try:
        for line in lines:
            state, _ = understand(typed(line), state, lexicon)
        assert gc.collect() == 0
    finally:
        gc.enable()
