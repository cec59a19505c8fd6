"""What cannot be used gets one clear line."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest
import soundfile as sf

from saywright.hearing.listener import SAMPLE_RATE_HZ

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


def test_what_is_no_recording_opens_no_job(saywright: Saywright, tmp_path: Path, audio: Path) -> None:
    """One bad name among several: it is told, nothing is heard, and no empty job is left."""
    path = tmp_path / "notes.wav"
    path.write_text("no sound in here")
    ran = saywright("hear", audio, path, "--sheet", SHEET, "--job", "new")
    assert 2 == ran.code
    assert ran.err.startswith(f"saywright: {path}: not a sound recording, or damaged.")
    assert "No jobs yet" in saywright("jobs").out


@pytest.mark.parametrize("suffix", ["wav", "flac"])
def test_a_recording_that_breaks_off_is_told(
    saywright: Saywright, ears: None, tmp_path: Path, suffix: str
) -> None:
    """What is there is heard, and how much is missing is said."""
    path = tmp_path / f"cut.{suffix}"
    sound = np.random.default_rng(1).uniform(-0.5, 0.5, 10 * SAMPLE_RATE_HZ)
    sf.write(path, sound, SAMPLE_RATE_HZ)
    whole = path.read_bytes()
    path.write_bytes(whole[: len(whole) // 2])
    ran = saywright("hear", path, "--sheet", SHEET)
    assert 0 == ran.code
    assert "s of 10 s; all before was heard" in ran.err
    path.write_bytes(whole)
    assert "breaks off" not in saywright("hear", path, "--sheet", SHEET).err
