"""What cannot be used gets one clear line."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from .conftest import SHEET, Ran

Saywright = Callable[..., Ran]


def test_a_text_without_words_is_told(saywright: Saywright, tmp_path: Path) -> None:
    """An empty file is no fault, but does not pass in silence."""
    path = tmp_path / "notes.txt"
    path.write_text("\n???\n")
    ran = saywright("parse", path, "--sheet", SHEET)
    assert (0, f"{path}: there were no words in it") == (ran.code, ran.err.strip())


def test_the_faults_of_a_sheet_are_told_once(saywright: Saywright, tmp_path: Path) -> None:
    """Each on its line; the last line only counts them."""
    path = tmp_path / "bad.toml"
    path.write_text('[sheet]\nid = "x"\n\n[[component]]\nid = "a"\ncount = 0\n')
    ran = saywright("sheet", "check", path)
    lines = ran.out.splitlines()
    assert f"saywright: {path}: {len(lines)} faults. Mend each, then check again" == ran.err.strip()
    assert 1 == sum("component[1].count" in line for line in lines)
