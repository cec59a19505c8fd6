"""Values told by their verb: how fast a machine runs, and how long something took."""

from __future__ import annotations

from pathlib import Path

import pytest

from saywright.hearing.words import typed
from saywright.sheets import load_sheet
from saywright.understanding.discourse import Discourse
from saywright.understanding.lexicon import Lexicon, build_lexicon
from saywright.understanding.parse import understand
from saywright.understanding.statements import Reading

_SHEET = """
[sheet]
id = "cellar-pump"
title = "Invented cellar pump with a motor"
revision = "A"
extends = "base"

[[component]]
id = "motor"
names = ["motor"]
[[component.characteristic]]
id = "speed"
names = ["speed"]
unit = "rpm"
plausible = [800, 5000]

[[component]]
id = "pump"
names = ["pump"]
[[component.characteristic]]
id = "priming_time"
names = ["priming time"]
unit = "s"
plausible = [5, 120]
"""


@pytest.fixture(scope="module")
def lexicon(tmp_path_factory: pytest.TempPathFactory) -> Lexicon:
    path: Path = tmp_path_factory.mktemp("sheets") / "cellar-pump.toml"
    path.write_text(_SHEET, encoding="utf-8")
    return build_lexicon(load_sheet(path))


def _read(words: str, lexicon: Lexicon) -> list[tuple[str, str]]:
    """Characteristic and value of each reading that asks nothing."""
    _, made = understand(typed(words), Discourse(), lexicon)
    return [(s.characteristic, s.value) for s in made if isinstance(s, Reading) and not s.asks]


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        ("started it eighteen hundred revs", ("speed", "1800")),
        ("it's running at eighteen hundred revs", ("speed", "1800")),
        ("primed in forty seconds", ("priming_time", "40")),
    ],
)
def test_verb_tells_what_a_value_is_of(words: str, expected: tuple[str, str], lexicon: Lexicon) -> None:
    """The only speed or time of the sheet is read where the machine ran or was primed."""
    assert [expected] == _read(words, lexicon)


@pytest.mark.parametrize("behind", ["to warm it up", "for a while", "until it's warm", "while it warms up"])
def test_speed_that_serves_a_purpose_is_no_reading(behind: str, lexicon: Lexicon) -> None:
    """A speed that the machine is run at for something is how it was run, not what was read."""
    assert [] == _read(f"running it at fifteen hundred revs {behind}", lexicon)
