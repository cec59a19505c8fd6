"""Lines → clips for training, and the list on which a recipe is chosen. Edge: runs synthesisers."""

from __future__ import annotations

import random
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

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
    group: str  # of the table: "natural", "robot", "human", "english", "noise"
    condition: str = "clean"


def training(folder: Path, count: int, workers: int) -> list[Clip]:
    """Clean speech: three quarters bench talk, a quarter ordinary English. Surroundings come in training."""
    rng = random.Random(1)
    said = [(line.words, line.trade) for line in text.lines("train", 1, count * 3 // 4)]
    said += [(sentence, -1) for sentence in english(folder)[: count - len(said)]]
    sounds = say_all([(words, training_voice(rng)) for words, _ in said], workers)
    return [
        Clip(samples, words, _training_prompt(trade, rng), "natural")
        for (words, trade), samples in zip(said, sounds, strict=True)
        if len(samples) < 12 * RATE_HZ
    ]


def choosing(folder: Path, workers: int) -> list[Clip]:
    """The list that a recipe is chosen on: other speakers, trades, frames and surroundings than training."""
    rng = random.Random(2)
    lines = list(text.lines("choose", 2, 160, talk=0.15))
    voices = [EVALUATED["choose"][i % 4] for i in range(len(lines))]
    clean = say_all([(line.words, voice) for line, voice in zip(lines, voices, strict=True)], workers)
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
    clips += _human(np.load(folder / "human.npz"), rng)
    plain = english(folder)[-80:]
    spoken = say_all([(words, EVALUATED["choose"][i % 2]) for i, words in enumerate(plain)], workers)
    clips += [Clip(framed(one), words, "", "english") for words, one in zip(plain, spoken, strict=True)]
    quiet = np.zeros(4 * RATE_HZ, np.float32)
    quiet[0] = 0.05
    clips += [Clip(apply("noise -20", quiet, 500 + i), "", "", "noise") for i in range(30)]
    return clips


def english(folder: Path) -> list[str]:
    """Sentences of ordinary English; the last 200 are for lists, not for training."""
    return (folder / "sentences.txt").read_text(encoding="utf-8").split("\n")[:-1]


def framed(samples: Samples) -> Samples:
    """Silence before and after."""
    lead, tail = np.zeros(int(LEAD_S * RATE_HZ), np.float32), np.zeros(int(0.6 * RATE_HZ), np.float32)
    return np.concatenate([lead, samples, tail])


def _human(recorded: Mapping[str, np.ndarray], rng: random.Random) -> list[Clip]:
    """One speaker's recorded number words in a row, in forms of the harness, other strings than reported."""
    clips: list[Clip] = []
    tens = [word for word in recorded if word.endswith("ty")]
    ones = [word for word in text.ONES[1:10] if word in recorded]
    for i in range(60):
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
