"""What cannot be used gets one clear line."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest
import soundfile as sf
from PIL import Image

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


@pytest.fixture
def job(saywright: Saywright, tmp_path: Path) -> str:
    """A job with a movement (s1) and a reading (s2)."""
    text = tmp_path / "talk.txt"
    text.write_text("bowl screws off four\nfloat height is eighteen point four two\n")
    made = saywright("jobs", "new", "--sheet", SHEET).out.strip()
    saywright("parse", text, "--job", made)
    return str(made)


@pytest.mark.parametrize(
    ("command", "code", "told"),
    [
        (("review", "correct", "JOB", "s2", "value="), 6, "s2: no value was given. "),
        (("review", "correct", "JOB", "s2", "component="), 6, "s2: the component cannot be left out"),
        (("review", "correct", "JOB", "s2", "value=18.4", "value=18.5"), 2, "'value' is given twice. "),
        (
            ("review", "correct", "JOB", "s2", f"value={'9' * 400}"),
            6,
            "s2: a value of 400 characters is none that was measured. Write it with 30 at the most",
        ),
        (("review", "accept", "JOB", "s2", "--by", " "), 2, "--by needs a name. "),
        (("time", "JOB", "--set", "float", "--minutes", "1e999"), 6, "'1e999' minutes as_found is no bench "),
        (("time", "JOB", "--set", "float", "--minutes", "nan"), 6, "'nan' minutes as_found is no bench time"),
        (("photos", "add", "JOB", "bare"), 2, "bare: there is no picture in this folder. Name another"),
        (("words", "add", "!?"), 2, "!?: no word was given. Give it as it is said, in letters"),
        (("--data", "", "jobs"), 2, "Invalid value for '--data': no folder is named "),
        (("export", "JOB", "--out", "bare"), 4, "bare: the file cannot be written (Is a directory). "),
        (("demo", "--audio", "bare"), 2, "bare/expected.json: cannot be read (No such file or directory). "),
        (("board", "--job", "", "--port", "0"), 5, "no such job. "),
        (("board", "--from-recording", "gone.wav", "--sheet", SHEET), 2, "gone.wav: no such file. "),
    ],
)
def test_one_line_and_nothing_kept(
    saywright: Saywright, job: str, command: tuple[str, ...], code: int, told: str
) -> None:
    """What cannot be done is told in one line, and the record is as it was."""
    Path("bare").mkdir()
    before = saywright("export", job).out + saywright("jobs").out
    ran = saywright(*(job if part == "JOB" else part for part in command))
    assert (code, 1) == (ran.code, ran.err.count("\n"))
    assert ran.err.startswith(f"saywright: {told}")
    assert before == saywright("export", job).out + saywright("jobs").out


@pytest.mark.parametrize(
    ("where", "told"),
    [
        (
            ("--component", "bowl_screw", "--which", "9"),
            "p1: there is no bowl screw '9'. Positions: 1, 2, 3, 4",
        ),
        (("--which", "9"), "p1: which of several is told, and not of what. Name the component "),
    ],
)
def test_a_picture_goes_to_no_place_that_is_not_there(
    saywright: Saywright, job: str, tmp_path: Path, where: tuple[str, ...], told: str
) -> None:
    """A position that the part does not have would be shown nowhere."""
    Image.effect_noise((400, 300), 60).convert("RGB").save(tmp_path / "a.jpg")
    saywright("photos", "add", job, "a.jpg")
    ran = saywright("review", "place", job, "p1", *where)
    assert (6, 1) == (ran.code, ran.err.count("\n"))
    assert ran.err.startswith(f"saywright: {told}")


@pytest.mark.parametrize("group", [(), ("sheet",), ("review",), ("photos",)])
def test_a_group_by_itself_shows_its_help(saywright: Saywright, group: tuple[str, ...]) -> None:
    """As it is with --help, line by line; nothing was asked for, so it is no success."""
    ran = saywright(*group)
    assert (2, saywright(*group, "--help").out) == (ran.code, ran.err)
