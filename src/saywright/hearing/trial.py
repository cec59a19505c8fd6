"""Two stretches from a microphone, one quiet and one spoken → will it do, and what to change. Pure."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

import numpy as np

from saywright.hearing.level import CLIP_PEAK, SILENT_DBFS, dbfs
from saywright.hearing.listener import SAMPLE_RATE_HZ, Samples

Verdict = Literal["good", "asks_more", "unfit"]

# Exact readings by speech above noise, natural voices: see docs/accuracy.md (clean, 15 dB, 5 dB).
GOOD_DB = 20.0
USABLE_DB = 12.0
FAINT_DBFS = -50.0  # speech below it loses its last bits in some converters
CLIPPED_SHARE = 0.001  # of the samples of the spoken stretch
_FRAME = SAMPLE_RATE_HZ // 50
_VOICED_DB = 6.0  # a frame this much above the noise is taken for speech
_LEAST_VOICED_S = 0.5


@dataclass(frozen=True)
class Trial:
    """How a microphone does."""

    noise_dbfs: float  # of the quiet stretch, −120…0
    speech_dbfs: float  # of what was spoken, the noise taken off, −120…0
    above_db: float  # speech above noise
    clipped: float  # share of samples at full scale while speaking, 0…1
    verdict: Verdict
    advice: tuple[str, ...]  # what to change, most urgent first; () where nothing


def tried(quiet: Samples, spoken: Samples, *, right: bool | None = None) -> Trial:
    """Judge a microphone. *right*: did the test reading come out as it was said; None: not tried."""
    noise = float(np.median(_powers(quiet))) if len(quiet) >= _FRAME else 0.0
    powers = _powers(spoken)
    voiced = powers[powers > max(noise, 1e-12) * 10 ** (_VOICED_DB / 10)]
    speech = max(0.0, float(voiced.mean()) - noise) if len(voiced) else 0.0
    heard_s = len(voiced) * _FRAME / SAMPLE_RATE_HZ
    clipped = float(np.mean(np.abs(spoken) >= CLIP_PEAK)) if len(spoken) else 0.0
    speech_dbfs, noise_dbfs = dbfs(speech), dbfs(noise)
    above_db = speech_dbfs - noise_dbfs if heard_s >= _LEAST_VOICED_S else 0.0
    dead = not len(spoken) or float(np.abs(spoken).max()) == 0.0
    advice = tuple(
        _advice(
            dead=dead,
            heard_s=heard_s,
            speech_dbfs=speech_dbfs,
            above_db=above_db,
            clipped=clipped,
            right=right,
        )
    )
    return Trial(
        noise_dbfs=noise_dbfs,
        speech_dbfs=speech_dbfs if heard_s >= _LEAST_VOICED_S else SILENT_DBFS,
        above_db=above_db,
        clipped=clipped,
        verdict=_verdict(above_db, clipped, right),
        advice=advice,
    )


def _powers(samples: Samples) -> np.ndarray:
    """Mean square of each whole frame of 20 ms."""
    frames = samples[: len(samples) // _FRAME * _FRAME].reshape(-1, _FRAME)
    found: np.ndarray = np.mean(np.square(frames.astype(np.float64)), axis=1)
    return found


def _verdict(above_db: float, clipped: float, right: bool | None) -> Verdict:
    if above_db < USABLE_DB or clipped > 10 * CLIPPED_SHARE:
        return "unfit"
    if above_db < GOOD_DB or clipped > CLIPPED_SHARE or right is False:
        return "asks_more"
    return "good"


def _advice(
    *, dead: bool, heard_s: float, speech_dbfs: float, above_db: float, clipped: float, right: bool | None
) -> Iterator[str]:
    if dead:
        yield "Nothing at all came in: the microphone is muted, or it is another one; see --list"
        return
    if clipped > CLIPPED_SHARE:
        yield "It is too loud: turn the input level down by a quarter, or move it away from the mouth"
    if heard_s < _LEAST_VOICED_S:
        yield "No speech was found above the noise: move it closer to the mouth, or turn its level up"
        return
    if above_db < GOOD_DB:
        yield "The noise is near the voice: wear it close to the mouth, or stop what runs beside you"
    if speech_dbfs < FAINT_DBFS and clipped <= CLIPPED_SHARE:
        yield "The voice is faint: turn the input level up"
    if right is False:
        yield "The test reading came out wrong: say it again, a little slower; then try another place"
