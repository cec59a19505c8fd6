"""Hours of audio through a bench, faster than they were spoken: is memory flat, is an utterance lost?

Usage: python tools/long_run.py [--hours 8] [--engine whisper|sphinx|vosk]

The recording that ships is played again and again, with shop noise between, into one job as a microphone
would give it: to disk first, then to the listener, then into the record. Each round must give as many
utterances as the first, with the same words but for what a different silence before it changes.
"""

from __future__ import annotations

import argparse
import tempfile
import time
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

import numpy as np

from saywright.bench import Bench
from saywright.hearing.audio import read_audio
from saywright.hearing.choose import choose_listener
from saywright.hearing.listener import SAMPLE_RATE_HZ, Samples
from saywright.sheets.load import load_sheet
from saywright.store.eventlog import SqliteStore

ROOT = Path(__file__).parent.parent
ROUND_S = 1200.0
NOISE = 0.002  # root mean square between the rounds, of full scale
SHEET = "outboard-float-carburetor"


def main() -> None:
    """Play, count, print a row a round."""
    arguments = argparse.ArgumentParser(prog="long_run")
    arguments.add_argument("--hours", type=float, default=8.0)
    arguments.add_argument("--engine", default="whisper")
    chosen = arguments.parse_args()
    rounds = max(2, round(chosen.hours * 3600 / ROUND_S))
    sheet = load_sheet(SHEET)
    listener, why = choose_listener(sheet, engine=chosen.engine)
    print(f"{why}; {rounds} rounds of {ROUND_S / 60:.0f} minutes")
    print("| hours fed | utterances | same words as in round 1 | in memory | of real time |")
    print("|---|---|---|---|---|")
    first: list[str] = []
    lost = 0
    resident: list[float] = []
    with tempfile.TemporaryDirectory() as folder:
        store = SqliteStore(Path(folder))
        bench = Bench.open(store, sheet, clock=lambda: datetime.now(UTC), listener=listener)
        for number in range(1, rounds + 1):
            began = time.perf_counter()
            heard = [u.best.text for block in one_round() for u in bench.hear(block)]
            if number == rounds:
                heard += [u.best.text for u in bench.finish_hearing()]
            took_s = time.perf_counter() - began
            first = first or heard
            lost += max(0, len(first) - len(heard))
            same = sum(one == other for one, other in zip(first, heard, strict=False))
            resident.append(resident_mb())
            print(
                f"| {number * ROUND_S / 3600:.2f} | {len(heard)} | {same} of {len(first)} "
                f"| {resident[-1]:.0f} MB | {took_s / ROUND_S:.3f} |",
                flush=True,
            )
        store.close()
    half = len(resident) // 2
    slope = (resident[-1] - resident[half]) / max(1e-9, (len(resident) - 1 - half) * ROUND_S / 3600)
    print(f"\nLost: {lost} utterances. Growth in the second half: {slope:.1f} MB an hour, the record's own.")


def one_round() -> Iterator[Samples]:
    """The recording that ships, then noise, in blocks of a tenth of a second; the same each time."""
    random = np.random.default_rng(2026)
    left = round(ROUND_S * SAMPLE_RATE_HZ)
    for block in read_audio(ROOT / "demo_audio" / "bench-job.opus").blocks():
        left -= len(block)
        yield block
    size = SAMPLE_RATE_HZ // 10
    while left > 0:
        noise = random.standard_normal(min(size, left)) * NOISE
        left -= size
        yield noise.astype(np.float32)


def resident_mb() -> float:
    """Memory of this process that is in use now, MB (Linux)."""
    for line in Path("/proc/self/status").read_text(encoding="ascii").splitlines():
        if line.startswith("VmRSS:"):
            return int(line.split()[1]) / 1024
    return 0.0


if __name__ == "__main__":
    main()
