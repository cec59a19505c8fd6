"""Human speech out of Debian packages: one speaker's prompts put in a row, and sentences read aloud.

The recordings stay in their packages; nothing of them is kept in the project. Edge: reads files.
"""

from __future__ import annotations

import random
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

import av
import numpy as np
import soundfile
import soxr

from saywright.hearing.listener import SAMPLE_RATE_HZ, Samples
from saywright.hearing.spoken import ONES, TENS

from .voices import framed

PROMPTS = Path("/usr/share/asterisk/sounds/en_US_f_Allison")  # asterisk-core-sounds-en-g722, 16 kHz
SENTENCES = Path("/usr/share/pocketsphinx/test/data/librivox")  # pocketsphinx-testdata
SPEAKER = "human prompts"
READER = "human reader"
_GAP_S = 0.04
_SEED = 41
_DIGITS = ONES[:10]
_TEENS = dict(enumerate(ONES[10:], 10))
_TENS = dict(enumerate(TENS[2:], 2))


@dataclass(frozen=True, slots=True)
class Spoken:
    """A string of recorded words, and the line typed before it, which says what is read."""

    lead: str
    words: str
    truth: tuple[str, ...]


def have_prompts() -> bool:
    """True where the recorded digits are installed."""
    return (PROMPTS / "digits" / "1.g722").is_file()


def strings(count: int) -> list[Spoken]:
    """*count* different readings, the truth first, in the forms the recorded words allow; seeded."""
    rng = random.Random(_SEED)
    found: dict[str, Spoken] = {}
    while len(found) < count:
        turn = len(found) % 4
        if turn in (0, 1):
            value = rng.randint(1700, 1999) if turn == 0 else rng.randint(2000, 2950)
            digits = f"{value // 100}.{value % 100:02d}"
            words = f"{_two(value // 100)} dot {_one_by_one(digits.partition('.')[2])}"
            one = Spoken("float height", words, (f"reading float.height {digits} mm",))
        elif turn == 2:
            size = rng.randint(110, 199)
            words = rng.choice((f"one {_two(size % 100)}", _one_by_one(str(size))))
            one = Spoken("main jet", words, (f"reading main_jet.size {size} 1",))
        else:
            size = rng.randint(31, 88)
            one = Spoken("pilot jet", _two(size), (f"reading pilot_jet.size {size} 1",))
        found.setdefault(one.words, one)
    return list(found.values())


def spelled(count: int) -> list[Spoken]:
    """Strings of the spelling alphabet and digits; they name nothing, so they mean nothing for the record."""
    rng = random.Random(_SEED)
    names = (
        "bravo",
        "charlie",
        "echo",
        "hotel",
        "kilo",
        "lima",
        "mike",
        "november",
        "romeo",
        "tango",
        "victor",
    )
    return [Spoken("", " ".join([*rng.sample(names, 2), *rng.sample(_DIGITS, 3)]), ()) for _ in range(count)]


def sentences() -> list[tuple[str, str]]:
    """(file, words) of the sentences read aloud; none where the package is missing."""
    listing = SENTENCES / "transcription"
    if not listing.is_file():
        return []
    found = []
    for line in listing.read_text(encoding="utf-8").splitlines():
        words, _, name = line.rpartition("</s>")
        found.append((name.strip(" ()"), words.replace("<s>", "").strip()))
    return found


def speak(words: str) -> Samples:
    """The recorded words in a row, (n_samples,) at 16 kHz, silence around them."""
    gap = np.zeros(int(_GAP_S * SAMPLE_RATE_HZ), dtype=np.float32)
    return framed(np.concatenate([part for word in words.split() for part in (_word(word), gap)]))


def read_sentence(name: str) -> Samples:
    """One sentence read aloud, silence around it."""
    samples, rate_hz = soundfile.read(SENTENCES / f"{name}.wav", dtype="float32")
    return framed(soxr.resample(samples, rate_hz, SAMPLE_RATE_HZ))


@lru_cache(maxsize=64)
def _word(word: str) -> Samples:
    """One recorded word without the silence around it."""
    with av.open(str(PROMPTS / _file(word)), format="g722") as container:
        frames = [frame.to_ndarray().reshape(-1).astype(np.float32) for frame in container.decode(audio=0)]
    samples: Samples = np.concatenate(frames) / np.float32(32768)
    loud = np.flatnonzero(np.abs(samples) > 0.02 * np.max(np.abs(samples)))
    margin = SAMPLE_RATE_HZ // 50
    return samples[max(0, loud[0] - margin) : loud[-1] + margin]


def _file(word: str) -> str:
    if word == "dot":
        return "letters/dot.g722"
    numbers = {**dict(enumerate(_DIGITS)), **_TEENS, **{10 * tens: name for tens, name in _TENS.items()}}
    number = next((number for number, name in numbers.items() if name == word), None)
    return f"digits/{number}.g722" if number is not None else f"phonetic/{word[0]}_p.g722"


def _two(number: int) -> str:
    """10 … 99 in words."""
    if number < 20:
        return _TEENS[number]
    return _TENS[number // 10] + (f" {_DIGITS[number % 10]}" if number % 10 else "")


def _one_by_one(digits: str) -> str:
    return " ".join(_DIGITS[int(digit)] for digit in digits)
