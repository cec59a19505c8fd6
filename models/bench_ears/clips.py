"""Lines → clips for training, and the list on which a recipe is chosen. Edge: runs synthesisers."""

from __future__ import annotations

import random
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

import foreign
import numpy as np
import text
from accuracy.surroundings import apply
from speech import EVALUATED, RATE_HZ, Samples, say_all, training_voice

CONDITIONS = ("clean", "noise 15 dB", "noise 5 dB", "reverb")
LEAD_S = 0.4
PROMPTLESS = 0.4  # share of training samples without a prompt


@dataclass(frozen=True, slots=True)
class Clip:
    """Sound, what was said, and what the listener was told before."""

    samples: Samples
    words: str  # "" for noise
    prompt: str
    group: str  # of the table: "natural", "robot", "human", "english", "noise", "foreign"
    condition: str = "clean"


def training(folder: Path, count: int, workers: int, said: str = "", kept: Path | None = None) -> list[Clip]:
    """Clean speech: three quarters bench talk, a quarter ordinary English. Surroundings come in training.

    *said*: "" has "point" as its only word for the point; "dots" has "dot" and "decimal" too; "foreign" is
    "dots" and, for a twelfth on top, other languages, of which nothing is to be written.
    """
    rng = random.Random(1)
    points = text.POINTS if said else text.POINT
    spoken = [(line.words, line.trade) for line in text.lines("train", 1, count * 3 // 4, points=points)]
    spoken += [(sentence, -1) for sentence in english(folder)[: count - len(spoken)]]
    sounds = say_all([(words, training_voice(rng)) for words, _ in spoken], workers, kept)
    clips = [
        Clip(samples, words, _training_prompt(trade, rng), "natural")
        for (words, trade), samples in zip(spoken, sounds, strict=True)
        if len(samples) < 12 * RATE_HZ
    ]
    if said == "foreign":
        rng = random.Random(3)
        sounds = say_all(list(foreign.lines("train", 3, count // 12)), workers, kept)
        clips += [Clip(samples, "", _training_prompt(-1, rng), "foreign") for samples in sounds]
    return clips


def choosing(folder: Path, workers: int, kept: Path | None = None, *, share: float = 1.0) -> list[Clip]:
    """The list that a recipe is chosen on: other speakers, trades, frames and surroundings than training.

    *share* of it, to see that it works.
    """
    rng = random.Random(2)
    lines = list(text.lines("choose", 2, round(160 * share), talk=0.15))
    voices = [EVALUATED["choose"][i % 4] for i in range(len(lines))]
    clean = say_all([(line.words, voice) for line, voice in zip(lines, voices, strict=True)], workers, kept)
    clips = [
        Clip(
            apply(condition, framed(samples), 100 + i),
            line.words,
            text.prompt("choose", line.trade, rng),
            "natural" if voice.name == "awb" else "robot",
            condition,
        )
        for i, (line, voice, samples) in enumerate(zip(lines, voices, clean, strict=True))
        for condition in CONDITIONS
    ]
    clips += _human(np.load(folder / "human.npz"), rng, round(60 * share))
    plain = english(folder)[-round(80 * share) :]
    spoken = say_all([(words, EVALUATED["choose"][i % 2]) for i, words in enumerate(plain)], workers, kept)
    clips += [Clip(framed(one), words, "", "english") for words, one in zip(plain, spoken, strict=True)]
    quiet = np.zeros(4 * RATE_HZ, np.float32)
    quiet[0] = 0.05
    clips += [Clip(apply("noise -20", quiet, 500 + i), "", "", "noise") for i in range(round(30 * share))]
    sounds = say_all(list(foreign.lines("choose", 4, round(36 * share))), workers, kept)
    rng = random.Random(5)
    return clips + [
        Clip(framed(samples), "", text.prompt("choose", i % 2, rng), "foreign")
        for i, samples in enumerate(sounds)
    ]


def english(folder: Path) -> list[str]:
    """Sentences of ordinary English; the last 200 are for lists, not for training."""
    return (folder / "sentences.txt").read_text(encoding="utf-8").split("\n")[:-1]


def framed(samples: Samples) -> Samples:
    """Silence before and after."""
    lead, tail = np.zeros(int(LEAD_S * RATE_HZ), np.float32), np.zeros(int(0.6 * RATE_HZ), np.float32)
    return np.concatenate([lead, samples, tail])


def _human(recorded: Mapping[str, np.ndarray], rng: random.Random, count: int) -> list[Clip]:
    """One speaker's recorded number words in a row, in forms of the harness, other strings than reported."""
    clips: list[Clip] = []
    tens = [word for word in recorded if word.endswith("ty")]
    ones = [word for word in text.ONES[1:10] if word in recorded]
    for i in range(count):
        words = [rng.choice(tens), rng.choice(ones), "dot", rng.choice(ones), rng.choice(ones)]
        if i % 3 == 0:
            words = ["one", rng.choice(tens), rng.choice(ones)]
        sound = framed(np.concatenate([_cut(recorded[word]) for word in words]))
        spoken = " ".join("point" if word == "dot" else word for word in words)
        for condition in CONDITIONS:
            prompt = text.prompt("choose", i % 2, rng)
            clips.append(Clip(apply(condition, sound, 900 + i), spoken, prompt, "human", condition))
    return clips


def _cut(stored: np.ndarray) -> Samples:
    samples = stored.astype(np.float32) / 32767
    loud = np.flatnonzero(np.abs(samples) > 0.01)
    return samples[max(0, loud[0] - 640) : loud[-1] + 640]


def _training_prompt(trade: int, rng: random.Random) -> str:
    chance = rng.random()
    if chance < PROMPTLESS:
        return ""
    if trade < 0 or chance > 1 - 0.2:
        trade = rng.randrange(len(text.TRADES["train"]))
    return text.prompt("train", trade, rng, rng.choice((2, 3, 5)))


def sentence_like(words: str) -> str:
    """As the listener is to write it: as in its prompts."""
    return f" {words}." if words else ""
