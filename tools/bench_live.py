"""How long a person waits live: from the end of speech to the provisional and to the settled words.

Utterances of about three seconds are said in real time to a PortAudio device (a PulseAudio server
of its own), through a whole sitting: microphone, disk, voice detector, recogniser, understanding.
The limits are those the project promises for the 95th percentile on two cores. As the machine may
be busy with other things, the cost of decoding alone is told beside them, and the load.

Usage: PYTHONPATH=tools:tests python tools/bench_live.py [COUNT]   (utterances; 20 where not given)
"""

from __future__ import annotations

import os
import sys
import threading
import time
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Any

import numpy as np
from accuracy.listening import listener_for
from bench_hearing import SHEET, recordings, speech_end_s

import sound_server
from saywright.bench import Bench
from saywright.errors import ModelError
from saywright.hearing.feed import Live, Provisional, Settled
from saywright.hearing.listener import SAMPLE_RATE_HZ, Listener, Samples
from saywright.sheets.load import load_sheet
from saywright.store.memory import MemoryStore

COUNT = 20
LIMITS_S = {"provisional": 0.7, "settled": 1.2}
_SILENCE_S = 2.0


@dataclass(slots=True)
class Waits:
    """Seconds, one an utterance."""

    provisional: list[float]
    settled: list[float]
    decode: list[float]  # by the clock
    processor: list[float]  # of all threads of this process meanwhile
    missed: int = 0  # utterances that settled without having been provisional


def timed(listener: Any, waits: Waits) -> None:
    """Have *listener* note what each recognition takes."""
    recognise: Callable[[Any], Any] = listener.recognise

    def noted(piece: Any) -> Any:
        began_s, began_cpu_s = time.perf_counter(), time.process_time()
        found = recognise(piece)
        waits.decode.append(time.perf_counter() - began_s)
        waits.processor.append(time.process_time() - began_cpu_s)
        return found

    listener.recognise = noted


def measure(listener: Listener, sounds: list[Samples]) -> Waits:
    """Say all *sounds* to a sitting, one after the other."""
    waits = Waits([], [], [], [])
    timed(listener, waits)
    store = MemoryStore()
    bench = Bench.open(store, load_sheet(SHEET), clock=lambda: datetime.now(UTC), listener=listener)
    told: list[tuple[float, Live]] = []
    with sound_server.SoundServer() as server:
        session = bench.microphone(sound_server.DEVICE)
        thread = threading.Thread(
            target=session.run, args=(lambda one: told.append((time.monotonic(), one)),)
        )
        thread.start()
        time.sleep(1.0)
        for samples in sounds:
            del told[:]
            silence = np.zeros(round(_SILENCE_S * SAMPLE_RATE_HZ), np.float32)
            spoken = server.say(np.concatenate([samples, silence]))
            spoken.wait(60)
            note(waits, told, spoken.began_s + speech_end_s(samples))
        session.stop()
        thread.join()
    store.close()
    return waits


def note(waits: Waits, told: list[tuple[float, Live]], ended_s: float) -> None:
    """What one utterance took from its end, where it was heard to its end."""
    seemed = [at_s - ended_s for at_s, one in told if isinstance(one, Provisional)]
    settled = [at_s - ended_s for at_s, one in told if isinstance(one, Settled)]
    if settled and settled[-1] > 0:
        waits.settled.append(settled[-1])
        if seemed and seemed[-1] > 0:
            waits.provisional.append(seemed[-1])
        else:
            waits.missed += 1


def line(name: str, values: list[float], limit_s: float | None) -> str:
    """Percentiles of one wait, and its ratio to the limit."""
    if not values:
        return f"{name}: none"
    half, most = (float(np.percentile(values, share)) for share in (50, 95))
    against = f"; limit {limit_s:.1f} s, ratio {most / limit_s:.2f}" if limit_s else ""
    return f"{name}: {half:.2f} s (50 %), {most:.2f} s (95 %){against}"


def main(count: int) -> None:
    """Print the figures, or why there are none."""
    lacking = sound_server.missing()
    sounds = [] if lacking else recordings(count)
    if not sounds:
        print(f"live: left out: {lacking or 'no synthesiser is installed (tools/system-packages accuracy)'}")
        return
    try:
        listener = listener_for(SHEET, "whisper", threads=2)
    except ModelError as error:
        print(f"live: left out: {error}")
        return
    before = os.getloadavg()[0]
    waits = measure(listener, sounds)
    print(f"live, {listener.name}, {len(sounds)} utterances of about 3 s, load {before:.1f} when begun")
    for name, limit_s in LIMITS_S.items():
        print(line(f"  end of speech to {name}", getattr(waits, name), limit_s))
    print(f"  settled without having been provisional: {waits.missed}")
    print(line("  decoding alone", waits.decode, None))
    print(line("  decoding alone, processor time", waits.processor, None))


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else COUNT)
