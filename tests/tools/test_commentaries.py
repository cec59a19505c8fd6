"""Whole commentaries: their gold is read, and what came out is scored against it."""

from pathlib import Path

import pytest
from accuracy.commentaries import FOLDER, details, score, totals
from accuracy.commentary_gold import expected_of, paths_in, read_commentary

GOLD = """sheet: sidecar-brakes.toml

why: for the test
> front caliper off
  movement caliper/front removed 1
> both front pads out
  movement pad/front inner removed 1
  movement pad/front outer removed 1
> upper piston diameter is twenty nine point nine six
  reading piston/front upper.diameter {value} mm
> ten millimetre spanner
  trap
"""


def written(folder: Path, text: str) -> Path:
    """A commentary in a file."""
    path = folder / "talk.txt"
    path.write_text(text, encoding="utf-8")
    return path


def test_what_is_right_is_scored_so(tmp_path: Path) -> None:
    """Two pieces that one line moves are one item, whether the row names each or says how many."""
    done = score(written(tmp_path, GOLD.format(value="29.96")))
    assert (2, 2) == (done.scores["movements"].right, done.scores["movements"].expected)
    assert 1.0 == done.scores["readings"].f1
    assert ((), (), (False,)) == (done.silent, done.sprung, done.right_asks)
    assert {} == done.faults


def test_a_wrong_reading_that_does_not_ask_is_silent(tmp_path: Path) -> None:
    """What was missed and what was surplus is told at its line."""
    done = score(written(tmp_path, GOLD.format(value="29.69")))
    assert 1 == len(done.silent)
    assert "  - reading as_found piston front upper diameter 29.69 mm" in details(done)
    assert "| talk | 0.000 | – | – | 1.000 | 1 | – | 0 of 1 |" == totals([done])[-1]


def test_a_trap_that_gives_a_reading_is_sprung(tmp_path: Path) -> None:
    """The line is named."""
    text = GOLD.format(value="29.96") + "> lower piston diameter twenty nine point nine five\n  trap\n"
    assert (5,) == score(written(tmp_path, text)).sprung


@pytest.mark.parametrize("part", ["caliper/middle", "crankshaft"])
def test_a_part_that_the_sheet_lacks_is_named(tmp_path: Path, part: str) -> None:
    """So is the line."""
    path = written(tmp_path, GOLD.format(value="1").replace("caliper/front", part))
    with pytest.raises(ValueError, match=f"line 1: movement {part} removed 1"):
        expected_of(*read_commentary(path))


@pytest.mark.parametrize("path", paths_in([FOLDER]), ids=lambda path: path.stem)
def test_the_commentaries_fit_their_sheets(path: Path) -> None:
    """Every row names what its sheet has."""
    items, _ = expected_of(*read_commentary(path))
    assert items["readings"]
