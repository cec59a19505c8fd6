"""What the tests of hearing share: an invented sheet, made speech, and where human recordings are."""

from __future__ import annotations

import io
import shutil
import subprocess
from decimal import Decimal
from functools import lru_cache
from pathlib import Path

import numpy as np
import pytest
import soundfile
import soxr

from saywright.hearing.listener import SAMPLE_RATE_HZ, Samples
from saywright.sheets.model import Action, Caution, Characteristic, Component, Condition, Instrument, Sheet

SHEET = Sheet(
    id="pump",
    title="Invented bilge pump",
    instrument=(Instrument(id="caliper", names=("caliper",)),),
    component=(
        Component(
            id="float",
            names=("float", "floats"),
            characteristic=(
                Characteristic(
                    id="height",
                    names=("float height", "height"),
                    unit="mm",
                    lower=Decimal("18.0"),
                    upper=Decimal("18.8"),
                    plausible=(Decimal(10), Decimal(30)),
                ),
            ),
        ),
        Component(
            id="main_jet",
            names=("main jet",),
            characteristic=(
                Characteristic(
                    id="size",
                    names=("size",),
                    unit="1",
                    allowed=(Decimal(125), Decimal(128), Decimal(130)),
                    plausible=(Decimal(60), Decimal(250)),
                ),
            ),
        ),
        Component(
            id="air_screw",
            names=("air screw",),
            characteristic=(
                Characteristic(
                    id="turns", names=("turns out",), unit="turn", plausible=(Decimal(0), Decimal(5))
                ),
            ),
        ),
        Component(id="o_ring", names=("drain o-ring",), renew=True),
        Component(id="reed", names=("reed",), count=2, positions=("left", "right")),
    ),
    condition=(
        Condition(id="scored", names=("scored", "chewed up")),
        Condition(id="clean", names=("clean",), good=True),
    ),
    action=(Action(id="replace", names=("replace", "replaced")),),
    caution=(Caution(id="air", when="compressed air", text="Eyes."),),
)

PAUSE = np.zeros(int(1.5 * SAMPLE_RATE_HZ), dtype=np.float32)
_PROMPTS = Path("/usr/share/asterisk/sounds/en_US_f_Allison")
_SPHINX_DATA = Path("/usr/share/pocketsphinx/test/data")


@lru_cache(maxsize=64)
def speech(text: str, voice: str = "en-us") -> Samples:
    """*text* said by espeak-ng, (n_samples,) at 16 kHz; the test fails where that is missing."""
    program = shutil.which("espeak-ng")
    if program is None:
        pytest.fail("espeak-ng is missing: run 'apt-get install espeak-ng'")
    said = subprocess.run(
        [program, "-v", voice, "-s", "140", "--stdout", text], check=True, capture_output=True
    ).stdout
    # The header written to a pipe does not know the length.
    samples, rate_hz = soundfile.read(io.BytesIO(_mend(said)), dtype="float32")
    made: Samples = soxr.resample(samples, rate_hz, SAMPLE_RATE_HZ).astype(np.float32)
    return made


def recording(*texts: str, voice: str = "en-us") -> Samples:
    """The texts one after the other, 1.5 s of silence around each."""
    parts = [PAUSE]
    for text in texts:
        parts += [speech(text, voice), PAUSE]
    return np.concatenate(parts)


def human_prompt(name: str) -> Samples:
    """A prompt by one US speaker, 8 kHz brought to 16 kHz; skips where the package is missing."""
    path = _PROMPTS / f"{name}.wav"
    if not path.is_file():
        pytest.skip("Debian package asterisk-core-sounds-en-wav is not installed")
    samples, rate_hz = soundfile.read(path, dtype="float32")
    made: Samples = soxr.resample(samples, rate_hz, SAMPLE_RATE_HZ).astype(np.float32)
    return made


def sphinx_sample(name: str) -> Samples:
    """A recording of pocketsphinx-testdata at 16 kHz; skips where the package is not installed."""
    path = _SPHINX_DATA / name
    if not path.is_file():
        pytest.skip("Debian package pocketsphinx-testdata is not installed")
    if path.suffix == ".raw":
        return np.frombuffer(path.read_bytes(), dtype="<i2").astype(np.float32) / 32768
    samples, rate_hz = soundfile.read(path, dtype="float32")
    assert rate_hz == SAMPLE_RATE_HZ
    read: Samples = samples
    return read


def _mend(wav: bytes) -> bytes:
    size = len(wav) - 44
    return wav[:4] + (size + 36).to_bytes(4, "little") + wav[8:40] + size.to_bytes(4, "little") + wav[44:]
