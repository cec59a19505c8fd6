"""What a model hears of the report list, through the listener that ships: kept as JSON, one file a model.

Usage: python report.py --model NAME=FOLDER --noises FOLDER --out FOLDER
Each use of the list is a row in docs/ears.md.
"""

from __future__ import annotations

import argparse
import json
import random
from functools import lru_cache
from pathlib import Path

import numpy as np
from accuracy.listening import feed
from accuracy.paths import sheet_name
from report_list import Entry, entries, sound

from saywright.hearing.adapters.whisper import WhisperListener
from saywright.hearing.vocabulary import prompt
from saywright.sheets.load import load_sheet


def main() -> None:
    """Hear the list with one model."""
    arguments = argparse.ArgumentParser(prog="report")
    arguments.add_argument("--model", required=True, help="NAME=FOLDER")
    arguments.add_argument("--noises", type=Path, required=True)
    arguments.add_argument("--out", type=Path, required=True)
    chosen = arguments.parse_args()
    name, _, folder = chosen.model.partition("=")
    listener = WhisperListener(Path(folder), threads=1, name=f"whisper {name}")
    listed = entries()
    heard: list[object] = [None] * len(listed)  # None: not yet
    order = list(range(len(listed)))
    random.Random(5).shuffle(order)  # what is there after a break is a fair part of the list
    for done, i in enumerate(order, start=1):
        listener.set_prompt(told(listed[i]))
        found = feed(listener, kept_sound(listed[i], i, chosen.noises, chosen.out / "sound"))
        heard[i] = [one.model_dump(mode="json") for one in found]
        if done % 50 == 0 or done == len(order):
            print(f"{name}: {done} heard", flush=True)
            (chosen.out / f"{name}.json").write_text(json.dumps(heard), encoding="utf-8")


def told(entry: Entry) -> str:
    """What the listener is told before: the sheet's own prompt, or the entry's."""
    return sheet_prompt(entry.sheet) if entry.sheet else entry.prompt


@lru_cache
def sheet_prompt(sheet: str) -> str:
    """Of a sheet that ships, or of the cases."""
    return prompt(load_sheet(sheet_name(sheet)))


def kept_sound(entry: Entry, number: int, noises: Path, folder: Path) -> np.ndarray:
    """The clip, made once for all models."""
    folder.mkdir(parents=True, exist_ok=True)
    path = folder / f"{number}.npy"
    if not path.exists():
        part = folder / f"{number}.part.npy"
        np.save(part, sound(entry, noises))
        part.replace(path)
    samples: np.ndarray = np.load(path)
    return samples


if __name__ == "__main__":
    main()
