"""The lexicon of the sheet that ships, built once."""

from __future__ import annotations

import pytest

from saywright.sheets import load_sheet
from saywright.understanding.lexicon import Lexicon, build_lexicon


@pytest.fixture(scope="session")
def lexicon() -> Lexicon:
    """The outboard carburetor's."""
    return build_lexicon(load_sheet("outboard-float-carburetor"))
