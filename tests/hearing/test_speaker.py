"""Reading back: what is spoken, and a sound system that fails."""

from __future__ import annotations

from pathlib import Path

import pytest

from saywright.errors import DeviceError
from saywright.hearing.speaker import EspeakSpeaker, find_speaker, spoken


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("Float height: 18.42\u00a0mm, as found", "Float height: 18.42 millimeters, as found"),
        ("torque 2.4\u00a0N·m.", "torque 2.4 newton meters."),
        ("gap 1\u00a0in", "gap 1 inch"),
        ("turned 90\u00a0°", "turned 90 degrees"),
        ("Main jet: 128. Clean", "Main jet: 128. Clean"),
        ("2 pads in", "2 pads in"),
    ],
)
def test_units_by_their_names(text: str, said: str) -> None:
    """A unit behind a value is spoken by its name; digits stay as they are."""
    assert said == spoken(text)


def program(folder: Path, script: str) -> str:
    """A stand-in for the synthesiser."""
    path = folder / "voice"
    path.write_text(f"#!/bin/sh\n{script}\n")
    path.chmod(0o755)
    return str(path)


def test_the_program_gets_the_text(tmp_path: Path) -> None:
    """The text goes to its standard input, as spoken."""
    EspeakSpeaker(program(tmp_path, f"cat > {tmp_path}/said"), "en").say("1.5 mm")
    assert "1.5 millimeters" == (tmp_path / "said").read_text()


def test_a_program_that_fails_is_told(tmp_path: Path) -> None:
    """Its last line is in the error."""
    with pytest.raises(DeviceError, match="failed \\(no sound card\\)"):
        EspeakSpeaker(program(tmp_path, "echo no sound card >&2; exit 1"), "en").say("one")


def test_a_loudspeaker_that_hangs(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """It is given up after a while that goes with the length of the text."""
    monkeypatch.setattr("saywright.hearing.speaker._START_S", 0.1)
    monkeypatch.setattr("saywright.hearing.speaker._WORD_S", 0.1)
    with pytest.raises(DeviceError, match="takes no sound"):
        EspeakSpeaker(program(tmp_path, "exec sleep 20"), "en").say("one")


def test_where_there_is_none(monkeypatch: pytest.MonkeyPatch) -> None:
    """Without the program there is no voice."""
    monkeypatch.setenv("PATH", "")
    assert find_speaker() is None
