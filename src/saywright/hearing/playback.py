"""A recording in place of a microphone: its sound comes as fast as it was spoken.

For rehearsals, and for trying a board without anybody speaking.
"""

from __future__ import annotations

import threading
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import numpy as np

from saywright.hearing.audio import read_audio
from saywright.hearing.listener import SAMPLE_RATE_HZ, Samples

_BLOCK_S = 0.1
_TAIL_S = 2.0  # of silence after it, so that the last words settle as they do in a room


class Playback:
    """Stands where a `Microphone` stands; use it in a `with` block and read `blocks`."""

    overflows = 0  # nothing is lost

    def __init__(self, path: Path) -> None:
        """AudioError where *path* is no recording."""
        self._audio = read_audio(path)
        self.name = path.name
        self.ended: Callable[[], None] | None = None  # called once it was played to its end
        self._stopped = threading.Event()

    def __enter__(self) -> Playback:
        return self

    def __exit__(self, *_: object) -> None:
        self.stop()

    def stop(self) -> None:
        """Play no more; `blocks` ends."""
        self._stopped.set()

    def blocks(self) -> Iterator[Samples]:
        """Blocks, (n_samples,) float32 mono 16 kHz, each when the last of its samples would be spoken."""
        began_s = time.monotonic()
        given = 0
        for block in self._pieces():
            given += len(block)
            wait_s = began_s + given / SAMPLE_RATE_HZ - time.monotonic()
            if self._stopped.wait(max(0.0, wait_s)):
                return
            yield block
        if self.ended is not None:
            self.ended()

    def _pieces(self) -> Iterator[Samples]:
        size = round(_BLOCK_S * SAMPLE_RATE_HZ)
        for stretch in self._audio.blocks():
            for first in range(0, len(stretch), size):
                yield stretch[first : first + size]
        for _ in range(round(_TAIL_S / _BLOCK_S)):
            yield np.zeros(size, dtype=np.float32)
