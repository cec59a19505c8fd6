"""How fast hearing is: from the end of speech to its text, over the length of the audio, and how much memory.

Every listener whose model is on this machine hears utterances of about three seconds, fed in
tenths of a second as a microphone would. The wait is the pause after which an utterance counts
as ended, plus the time its decoding took; it is what a person waits for. Each listener runs in
a process of its own, with two threads, as by default.

Usage: python tools/bench_hearing.py [COUNT]   (how many utterances; 40 where not given)
"""

from __future__ import annotations

import multiprocessing
import sys
import time
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from accuracy.clips import all_clips
from accuracy.listening import BLOCK, listener_for, sound

from saywright.errors import ModelError
from saywright.hearing.choose import ENGINES
from saywright.hearing.listener import SAMPLE_RATE_HZ, Listener, Samples

SHEET = "outboard-float-carburetor"
LENGTH_S = (2.5, 3.5)  # of speech, without the silence around it
COUNT = 40


@dataclass(frozen=True, slots=True)
class Speed:
    """What one listener takes."""

    listener: str
    utterances: int
    wait_s: tuple[float, float]  # from the end of speech to the text, 50th and 95th percentile
    decode_s: tuple[float, float]  # of it, the time of decoding
    time_ratio: float  # time taken over length of the audio, silence included
    memory_mb: float  # most that the process held


def speech_end_s(samples: Samples) -> float:
    """The last moment that is louder than a hundredth of the loudest."""
    loud = np.flatnonzero(np.abs(samples) > 0.01 * np.max(np.abs(samples)))
    return float(loud[-1] + 1) / SAMPLE_RATE_HZ


def recordings(count: int) -> list[Samples]:
    """At most *count* clean utterances of about three seconds."""
    found: list[Samples] = []
    for clip in all_clips():
        if len(found) == count:
            break
        if (clip.sheet, clip.group, clip.condition, clip.half) != (SHEET, "natural", "clean", "reported"):
            continue
        samples = sound(clip)
        start = int(np.flatnonzero(np.abs(samples) > 0.01)[0]) / SAMPLE_RATE_HZ
        if LENGTH_S[0] <= speech_end_s(samples) - start <= LENGTH_S[1]:
            found.append(samples)
    return found


def one(listener: Listener, samples: Samples) -> tuple[float, float, float]:
    """(wait, decoding, time in all) in seconds for one recording; the wait for its last utterance."""
    end_s, all_s, wait_s, decode_s = speech_end_s(samples), 0.0, 0.0, 0.0
    for start in range(0, len(samples), BLOCK):
        block = samples[start : start + BLOCK]
        began = time.perf_counter()
        heard = listener.feed(block)
        took_s = time.perf_counter() - began
        all_s += took_s
        if heard:
            wait_s, decode_s = (start + len(block)) / SAMPLE_RATE_HZ - end_s + took_s, took_s
    began = time.perf_counter()
    if listener.finish():
        decode_s = time.perf_counter() - began
        wait_s = len(samples) / SAMPLE_RATE_HZ - end_s + decode_s
    return wait_s, decode_s, all_s + time.perf_counter() - began


def peak_mb() -> float:
    """The most memory this process held; the system's other count also holds that of its parent."""
    for line in Path("/proc/self/status").read_text(encoding="ascii").splitlines():
        if line.startswith("VmHWM:"):
            return int(line.split()[1]) / 1024
    return 0.0


def measure(engine: str, count: int) -> Speed | str:
    """What *engine* takes, in this process; why not, where it is not here."""
    try:
        listener = listener_for(SHEET, engine, threads=2)
    except ModelError as error:
        return str(error)
    clips = recordings(count)
    if not clips:
        return "no synthesiser is installed (tools/system-packages accuracy)"
    one(listener, clips[0])  # what is loaded late
    took = [one(listener, samples) for samples in clips]
    waits, decodes = ([row[column] for row in took] for column in (0, 1))
    return Speed(
        listener.name,
        len(took),
        _percentiles(waits),
        _percentiles(decodes),
        sum(row[2] for row in took) / (sum(map(len, clips)) / SAMPLE_RATE_HZ),
        peak_mb(),
    )


def measure_apart(engine: str, count: int) -> Speed | str:
    """`measure` in a fresh process, so that memory is its own."""
    with ProcessPoolExecutor(1, mp_context=multiprocessing.get_context("spawn")) as pool:
        return pool.submit(measure, engine, count).result()


def table(count: int) -> list[str]:
    """The figures as a Markdown table."""
    lines = [
        "| listener | utterances | wait, 50 % | wait, 95 % | decoding, 50 % | 95 % | time / audio | memory |",
        "|---|---|---|---|---|---|---|---|",
    ]
    for engine in ENGINES:
        found = measure_apart(engine, count)
        if isinstance(found, str):
            print(f"{engine}: left out: {found}", file=sys.stderr)
            continue
        lines.append(
            f"| {found.listener} | {found.utterances} | {found.wait_s[0]:.2f} s | {found.wait_s[1]:.2f} s "
            f"| {found.decode_s[0]:.2f} s | {found.decode_s[1]:.2f} s | {found.time_ratio:.3f} "
            f"| {found.memory_mb:.0f} MB |"
        )
    return lines


def _percentiles(values: list[float]) -> tuple[float, float]:
    return float(np.percentile(values, 50)), float(np.percentile(values, 95))


if __name__ == "__main__":
    print("\n".join(table(int(sys.argv[1]) if len(sys.argv) > 1 else COUNT)))
