"""Would the technician's own voice help? Forty sentences of voices held out whole, measured.

Usage: python enrol.py speak FOLDER          make the clips (synthesisers)
       python enrol.py train PACK FOLDER     train on 10, 20 and 40 of each voice and score; time one step
                                             of training on two cores

Starts from the bench ears that ship. Not part of Saywright: docs/ears.md tells why.
"""

from __future__ import annotations

import json
import random
import sys
import time
from pathlib import Path

import numpy as np
import text
import torch
from accuracy.surroundings import apply
from clips import Clip, framed
from kit import Kit
from net import Whisper
from scoring import hear, score
from speech import Samples, Voice, say_all
from train import Run, merged, train

VOICES = (
    Voice("flite", "rms"),
    Voice("flite", "kal16"),
    Voice("text2wave", "ked_diphone"),
)
READ_OUT, ASKED = 40, 60
COUNTS = (10, 20, 40)
STEPS, BATCH = 80, 32
STRENGTHS = (0.5, 1.0)
EARS = 0.5  # strength of the adapter that ships
CONDITIONS = ("clean", "noise 5 dB")


def speak(folder: Path) -> None:
    """One file: of each voice forty lines to learn from and sixty others to be asked."""
    folder.mkdir(parents=True, exist_ok=True)
    lines = [line.words for line in text.lines("choose", 7, READ_OUT + ASKED, talk=0.0)]
    made: dict[str, Samples] = {}
    for voice in VOICES:
        for i, samples in enumerate(say_all([(words, voice) for words in lines], 2)):
            made[f"{voice.name}/{i}"] = (samples * 32767).astype(np.int16)
    np.savez_compressed(folder / "enrol.npz", **made)


def clips_of(folder: Path, voice: str) -> tuple[list[Clip], list[Clip]]:
    """What is read out, and what is asked in each of the surroundings."""
    rng = random.Random(8)
    lines = list(text.lines("choose", 7, READ_OUT + ASKED, talk=0.0))
    with np.load(folder / "enrol.npz") as stored:
        sounds = [stored[f"{voice}/{i}"].astype(np.float32) / 32767 for i in range(len(lines))]
    prompts = [text.prompt("choose", line.trade, rng) for line in lines]
    learned = [Clip(sounds[i], lines[i].words, prompts[i], "natural") for i in range(READ_OUT)]
    asked = [
        Clip(apply(condition, framed(sounds[i]), 70 + i), lines[i].words, prompts[i], "natural", condition)
        for i in range(READ_OUT, READ_OUT + ASKED)
        for condition in CONDITIONS
    ]
    return learned, asked


def measure(pack: Path, folder: Path) -> None:
    """Print a row for each voice, count and strength."""
    kit = Kit(pack)
    base = kit.weights
    with np.load(Path(__file__).parent / "adapter.npz") as adapter:
        ears = merged(base, dict(adapter), EARS)
    for voice in VOICES:
        learned, asked = clips_of(folder, voice.name)
        for name, weights in (("base", base), ("bench ears", ears)):
            told(voice.name, name, score(asked, hear(kit, Whisper(weights, 0).to(kit.device), asked)))
        for count in COUNTS:
            for seed in (1, 2):
                kit.weights, kit.train = ears, learned[:count]
                changes = train(kit, Run(4, STEPS, seed, batch=BATCH)).changes()
                for strength in STRENGTHS:
                    model = Whisper(merged(ears, changes, strength), 0).to(kit.device)
                    label = f"{count} sentences, seed {seed}, strength {strength}"
                    told(voice.name, label, score(asked, hear(kit, model, asked)))
    kit.device, kit.on_gpu = torch.device("cpu"), False
    kit.filters = kit.filters.cpu()
    torch.set_num_threads(2)
    began = time.time()
    train(kit, Run(4, 2, 1, batch=BATCH))
    print(f"two cores: {(time.time() - began) / 2:.1f} s a step of {BATCH}", flush=True)


def told(voice: str, name: str, table: dict[str, float]) -> None:
    """One row."""
    row = {key: round(value) for key, value in table.items() if key.startswith("natural")}
    print(json.dumps({"voice": voice, "after": name, **row}), flush=True)


if __name__ == "__main__":
    if sys.argv[1] == "speak":
        speak(Path(sys.argv[2]))
    else:
        measure(Path(sys.argv[2]), Path(sys.argv[3]))
