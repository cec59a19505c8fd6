"""What a model hears of a report list, through the listener that ships: kept as JSON, one file a model.

Usage: python report.py --model NAME=FOLDER --noises FOLDER --out FOLDER [--list again] [--workers 2]
Each use of the list is a row in docs/ears.md.
"""

from __future__ import annotations

import argparse
import json
import os
import random
from concurrent.futures import ProcessPoolExecutor
from functools import lru_cache, partial
from pathlib import Path
from typing import Any

import numpy as np
from accuracy.listening import feed
from accuracy.paths import sheet_name
from report_list import LISTS, Entry, entries, sound

from saywright.hearing.adapters.whisper import WhisperListener
from saywright.hearing.vocabulary import bench_prompt
from saywright.sheets.load import load_sheet


def main() -> None:
    """Hear the list with one model."""
    arguments = argparse.ArgumentParser(prog="report")
    arguments.add_argument("--model", required=True, help="NAME=FOLDER")
    arguments.add_argument("--noises", type=Path, required=True)
    arguments.add_argument("--out", type=Path, required=True)
    arguments.add_argument("--list", default="report", choices=LISTS)
    arguments.add_argument("--workers", type=int, default=1)
    chosen = arguments.parse_args()
    name, _, folder = chosen.model.partition("=")
    count = len(entries(chosen.list))
    heard: list[object] = [None] * count  # None: not yet
    order = list(range(count))
    random.Random(5).shuffle(order)  # what is there after a break is a fair part of the list
    begin = partial(_begin, folder, name, chosen.list, chosen.noises, chosen.out / f"sound-{chosen.list}")
    with ProcessPoolExecutor(chosen.workers, initializer=begin) as pool:
        for done, (i, found) in enumerate(zip(order, pool.map(_hear, order), strict=True), start=1):
            heard[i] = found
            if done % 50 == 0 or done == count:
                print(f"{name}: {done} heard", flush=True)
                (chosen.out / f"{name}.json").write_text(json.dumps(heard), encoding="utf-8")


_of: dict[str, Any] = {}  # of this process: its listener and where sounds are


def _begin(folder: str, name: str, list_name: str, noises: Path, sounds: Path) -> None:
    """Once in each process."""
    listener = WhisperListener(Path(folder), threads=1, name=f"whisper {name}")
    _of.update(
        listener=listener, entries=entries(list_name), list_name=list_name, noises=noises, sounds=sounds
    )


def _hear(i: int) -> list[object]:
    """What is heard of one clip."""
    _of["listener"].set_prompt(told(_of["entries"][i]))
    found = feed(_of["listener"], kept_sound(_of["entries"][i], i))
    return [one.model_dump(mode="json") for one in found]


def told(entry: Entry) -> str:
    """What the listener is told before: the sheet's own prompt, or the entry's."""
    return sheet_prompt(entry.sheet) if entry.sheet else entry.prompt


@lru_cache
def sheet_prompt(sheet: str) -> str:
    """Of a sheet that ships, or of the cases."""
    return bench_prompt(load_sheet(sheet_name(sheet)))


def kept_sound(entry: Entry, number: int) -> np.ndarray:
    """The clip, made once for all models."""
    _of["sounds"].mkdir(parents=True, exist_ok=True)
    path = _of["sounds"] / f"{number}.npy"
    if not path.exists():
        part = _of["sounds"] / f"{number}.{os.getpid()}.part.npy"
        np.save(part, sound(entry, _of["noises"], _of["sounds"].parent / "speech", _of["list_name"]))
        part.replace(path)
    samples: np.ndarray = np.load(path)
    return samples


if __name__ == "__main__":
    main()
