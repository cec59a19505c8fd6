"""How loud the microphone is: from blocks to what a person should be told. Pure.

Levels are in dBFS: a sine that just touches full scale has −3 dBFS of power.
"""

from __future__ import annotations

from collections import deque
from math import log10
from typing import Literal

import numpy as np

SILENT_DBFS = -120.0
CLIP_PEAK = 0.99  # of full scale: a converter that is overdriven sits on its last step
CLIPPED_FOR_S = 2.0  # how long a clipped block is told
QUIET_DB = 10.0  # speech less than this above the noise is hard to hear right
FLOOR_S = 20.0  # of blocks the noise floor is taken from
_FLOOR_SHARE = 0.1  # of the blocks that are quieter than the noise floor
_SPEECH_SHARE = 0.8  # of an utterance's blocks that are quieter than its speech level

Quality = Literal["listening", "clipped", "too_quiet"]


def dbfs(power: float) -> float:
    """Mean square of samples in −1…1 as dBFS, −120…0."""
    return max(SILENT_DBFS, min(0.0, 10 * log10(power))) if power > 0 else SILENT_DBFS


class LevelWatch:
    """Follows one recording's blocks and utterances; `quality` is what holds now."""

    def __init__(self) -> None:
        self._levels: deque[tuple[float, float]] = deque()  # (end of the block in s, level in dBFS)
        self._now_s = 0.0  # from the start of the recording
        self._clipped_s: float | None = None  # when last
        self._quiet = False

    @property
    def quality(self) -> Quality:
        """Too loud, too quiet, or neither."""
        if self._clipped_s is not None and self._now_s - self._clipped_s < CLIPPED_FOR_S:
            return "clipped"
        return "too_quiet" if self._quiet else "listening"

    def block(self, seconds: float, peak: float, power: float) -> None:
        """The next block: its length, its highest |sample| and its mean square."""
        self.skip(seconds)
        self._levels.append((self._now_s, dbfs(power)))
        if peak >= CLIP_PEAK:
            self._clipped_s = self._now_s

    def skip(self, seconds: float) -> None:
        """Time in which the microphone was shut."""
        self._now_s += seconds
        while self._levels and self._levels[0][0] < self._now_s - FLOOR_S:
            self._levels.popleft()

    def utterance(self, start_s: float, end_s: float) -> None:
        """Somebody spoke from *start_s* to *end_s* of the recording: compare that with the noise around."""
        every = [level for _, level in self._levels]
        spoken = [level for at_s, level in self._levels if start_s < at_s <= end_s]
        if spoken:
            above_db = np.quantile(spoken, _SPEECH_SHARE) - np.quantile(every, _FLOOR_SHARE)
            self._quiet = bool(above_db < QUIET_DB)
