"""How long hearing takes, as a ratio to the length of the audio: below 1 it keeps up with a person.

Every listener whose model is on this machine hears the demo's recording.

Usage: python tools/bench_hearing.py [SECONDS]   (how much of the recording; 60 where not given)
"""

from __future__ import annotations

import sys
import time
from pathlib import Path

from saywright.errors import ModelError
from saywright.hearing.audio import read_audio
from saywright.hearing.choose import ENGINES, choose_listener
from saywright.hearing.listener import SAMPLE_RATE_HZ, Listener, Samples
from saywright.hearing.models import default_models_dirs
from saywright.sheets.load import load_sheet

RECORDING = Path(__file__).parent.parent / "demo_audio" / "bench-job.opus"
BLOCK = SAMPLE_RATE_HZ // 10


def hear(listener: Listener, blocks: list[Samples]) -> int:
    """Feed it all, as a microphone would; the number of utterances."""
    heard = sum(len(listener.feed(block)) for block in blocks)
    return heard + len(listener.finish())


def read(seconds: float) -> list[Samples]:
    """The first *seconds* of the recording in blocks of a tenth of a second."""
    blocks: list[Samples] = []
    left = int(seconds * SAMPLE_RATE_HZ)
    for stretch in read_audio(RECORDING).blocks():
        kept = stretch[:left]
        left -= len(kept)
        blocks += [kept[at : at + BLOCK] for at in range(0, len(kept), BLOCK)]
        if not left:
            break
    return blocks


def main(arguments: list[str]) -> None:
    """Print a line for each listener."""
    blocks = read(float(arguments[0]) if arguments else 60.0)
    length_s = sum(len(block) for block in blocks) / SAMPLE_RATE_HZ
    sheet = load_sheet("outboard-float-carburetor")
    print("time over length of the audio   utterances   listener")
    for engine in ENGINES:
        try:
            listener, _ = choose_listener(sheet, engine=engine, models_dirs=default_models_dirs())
        except ModelError as error:
            print(f"{'–':>29}   {'–':>10}   {engine}: {error}")
            continue
        started = time.perf_counter()
        utterances = hear(listener, blocks)
        took_s = time.perf_counter() - started
        print(f"{took_s / length_s:29.2f}   {utterances:10}   {listener.name}")


if __name__ == "__main__":
    main(sys.argv[1:])
