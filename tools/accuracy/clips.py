"""Which clips there are: every utterance of the corpus in a voice and in each of the surroundings.

Utterances fall into two halves by a hash of their words; voices are in one half only. What is
tuned is tuned on one, what is reported is measured on the other. The human prompts are one
speaker's, in both halves, with different strings.
"""

from __future__ import annotations

from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path

import numpy as np

from saywright.hearing.listener import SAMPLE_RATE_HZ, Samples

from . import human
from .cases import read_talks
from .paths import CORPUS
from .surroundings import CONDITIONS, apply, shop_noise
from .voices import VOICES, framed, say, voices_of

HUMAN_STRINGS = 100
_DEMO_SHEET = "outboard-float-carburetor"


@dataclass(frozen=True, slots=True)
class Clip:
    """One utterance as one voice says it in one surrounding."""

    sheet: str
    words: str  # as said; "" where nothing is said
    truth: tuple[str, ...]  # case lines
    half: str  # "tuning" or "reported"
    style: str  # "terse", "talk", "string", "spelled", "sentence", "trap"
    voice: str
    group: str  # "natural", "robot", "human", "trap"
    condition: str
    lead: str = ""  # typed just before, tells what is read; "" where nothing is

    @property
    def seed(self) -> int:
        """Of the surroundings; the same for the same clip."""
        return _number(f"{self.words}/{self.voice}/{self.condition}")


def half_of(words: str) -> str:
    """The half an utterance is in."""
    return ("tuning", "reported")[_number(words) % 2]


def all_clips() -> list[Clip]:
    """Every clip: synthetic voices, human recordings, and what must not be taken for a reading."""
    return [*_corpus(), *_human(), *_traps()]


def quick(clips: list[Clip]) -> list[Clip]:
    """One in eight, by a hash of the words, so that an utterance keeps all its surroundings."""
    return [clip for clip in clips if clip.group == "trap" or _number("quick " + clip.words) % 8 == 0]


def make(clip: Clip) -> Samples:
    """The clip's samples before its surroundings, (n_samples,) at 16 kHz."""
    if clip.group == "trap":
        return _make_trap(clip)
    if clip.voice == human.SPEAKER:
        return human.speak(clip.words)
    if clip.voice == human.READER:
        name = next(name for name, words in human.sentences() if words == clip.words)
        return human.read_sentence(name)
    return say(clip.words, next(voice for voice in VOICES if voice.name == clip.voice))


def surround(clip: Clip, samples: Samples) -> Samples:
    """The clip in its surroundings."""
    return apply(clip.condition, samples, clip.seed)


def _corpus() -> list[Clip]:
    found: list[Clip] = []
    for path in sorted(CORPUS.glob("*.txt")):
        for talk in read_talks(path):
            ((words, truth),) = talk.lines
            half = half_of(words)
            for natural, conditions in ((True, CONDITIONS), (False, CONDITIONS[:1])):
                voices = voices_of(half, natural=natural)
                if not voices:
                    continue
                voice = voices[_number("voice " + words) % len(voices)]
                group = "natural" if natural else "robot"
                found += [
                    Clip(talk.sheet, words, truth, half, talk.why, voice.name, group, condition)
                    for condition in conditions
                ]
    return found


def _human() -> list[Clip]:
    found: list[Clip] = []
    if human.have_prompts():
        for style, spoken in (
            *(("string", one) for one in human.strings(HUMAN_STRINGS)),
            *(("spelled", one) for one in human.spelled(10)),
        ):
            found += [
                Clip(
                    _DEMO_SHEET,
                    spoken.words,
                    spoken.truth,
                    half_of(spoken.words) if style == "string" else "reported",
                    style,
                    human.SPEAKER,
                    "human",
                    condition,
                    spoken.lead,
                )
                for condition in (CONDITIONS if style == "string" else CONDITIONS[:1])
            ]
    found += [
        Clip(_DEMO_SHEET, words, (), "reported", "sentence", human.READER, "human", "clean")
        for _, words in human.sentences()
    ]
    return found


_FOREIGN = {
    "de": "der Schwimmer ist achtzehn Komma vier Millimeter hoch und die Düse ist frei",
    "fr": "la hauteur du flotteur est de dix huit virgule quatre millimètres",
    "es": "la altura del flotador es de dieciocho coma cuatro milímetros",
    "it": "l'altezza del galleggiante è di diciotto virgola quattro millimetri",
    "pl": "wysokość pływaka wynosi osiemnaście przecinek cztery milimetra",
}
_TWO = ("float height eighteen point four two", "so i told him the boat would be ready by the weekend")


_TAKES = 10
_SPEAKERS = ("", "+m3", "+f2", "+m1", "+f1", "+m5", "+f4", "+m7", "+f5", "+m2")  # espeak-ng's, one a take


def _traps() -> list[Clip]:
    """Sounds from which nothing may be taken without an ask; each ten times with other seeds and voices."""
    names = [
        "silence",
        "shop noise",
        "air gun",
        "music",
        "two at once",
        *(f"language {code}" for code in _FOREIGN),
    ]
    return [
        Clip(_DEMO_SHEET, "", (), "reported", "trap", f"{name}, {take}", "trap", "clean")
        for name in names
        for take in range(1, _TAKES + 1)
    ]


def _make_trap(clip: Clip) -> Samples:
    rng = np.random.default_rng(clip.seed)
    name, _, take = clip.voice.partition(", ")
    seconds = np.arange(5 * SAMPLE_RATE_HZ) / SAMPLE_RATE_HZ
    if name == "silence":
        return (rng.standard_normal(len(seconds)) * 0.0005).astype(np.float32)
    if name == "shop noise":
        return framed(shop_noise(len(seconds), rng).astype(np.float32))
    if name == "air gun":
        gate = (np.sin(2 * np.pi * rng.uniform(0.3, 0.9) * seconds) > 0).astype(np.float64)
        return framed((rng.standard_normal(len(seconds)) * gate).astype(np.float32))
    if name == "music":
        notes = rng.choice([220.0, 247.0, 262.0, 294.0, 330.0, 349.0, 392.0], size=20)
        pitch = np.repeat(notes, len(seconds) // 20)
        tune = np.sum(
            [np.sin(2 * np.pi * np.cumsum(pitch) * k / SAMPLE_RATE_HZ) / k for k in (1, 2, 3)], axis=0
        )
        return framed(tune.astype(np.float32))
    voices = [voice for voice in VOICES if voice.half == "reported"]
    if name == "two at once":
        count, number = len(voices), int(take) - 1
        pair = voices[number % count], voices[(number + 1 + number // count) % count]
        first, second = (say(words, voice) for words, voice in zip(_TWO, pair, strict=True))
        length = min(len(first), len(second))
        return framed(first[:length] + second[:length])
    return _foreign(name.split()[1], take)


def _foreign(code: str, take: str) -> Samples:
    from .voices import Voice  # noqa: PLC0415  a voice that is in no half

    variant = code + _SPEAKERS[int(take) - 1]
    return say(_FOREIGN[code], Voice(f"espeak-ng {variant}", "espeak-ng", False, ""))


def _number(text: str) -> int:
    return int.from_bytes(sha256(text.encode()).digest()[:6], "big")


def folder_of(cache: Path, kind: str) -> Path:
    """A folder of the cache, made where it is missing."""
    folder = cache / kind
    folder.mkdir(parents=True, exist_ok=True)
    return folder
