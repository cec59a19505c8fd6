"""When each word was said: the listener's times against the synthesiser's own. Edge: runs festival."""

from __future__ import annotations

import subprocess
import tempfile
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from difflib import SequenceMatcher
from pathlib import Path

import numpy as np
import soundfile
import soxr

from saywright.hearing.listener import SAMPLE_RATE_HZ, Samples
from saywright.hearing.words import Word

from .clips import Clip
from .listening import feed, listener_for
from .voices import LEAD_S, framed

VOICES = ("cmu_us_slt_arctic_hts", "kal_diphone")
CLIPS = 30  # of each voice
_SCRIPT = """(voice_{voice})
(set! said (utt.synth (Utterance Text "{words}")))
(utt.save.wave said "{path}")
(define (told w)
  (format t "%s\\t%f\\t%f\\n" (item.name w) (item.feat w "word_start") (item.feat w "word_end")))
(mapcar told (utt.relation.items said (quote Word)))
"""


@dataclass(frozen=True, slots=True)
class Timed:
    """One word of the synthesiser and the same word as heard; seconds in the clip."""

    said: tuple[float, float]
    heard: tuple[float, float]


def section(clips: Sequence[Clip], engine: str) -> list[str]:
    """The table, line by line; nothing where festival is not installed."""
    rows = []
    for voice in VOICES:
        chosen = [c for c in clips if c.voice == f"festival {voice}" and c.condition == "clean"][:CLIPS]
        pairs = [pair for clip in chosen for pair in timed(clip, voice, engine)]
        if pairs:
            rows.append([f"festival {voice}", str(len(pairs)), *_figures(pairs)])
    lines = [
        "| voice | words | start, median | start, 95 % | end, median | end, 95 % | lit at its middle |",
        "|---|---|---|---|---|---|---|",
    ]
    return [*lines, *(f"| {' | '.join(row)} |" for row in rows)] if rows else []


def timed(clip: Clip, voice: str, engine: str) -> list[Timed]:
    """The words of a clip that were heard as said, with both times."""
    samples, said = speak(clip.words, voice)
    found = feed(listener_for(clip.sheet, engine), samples)
    return list(_matched(said, [word for utterance in found for word in utterance.best.words]))


def speak(words: str, voice: str) -> tuple[Samples, list[Word]]:
    """The words in a festival voice, framed, and when each is said."""
    with tempfile.TemporaryDirectory() as folder:
        script, path = Path(folder) / "say.scm", Path(folder) / "said.wav"
        script.write_text(_SCRIPT.format(voice=voice, words=words, path=path), encoding="utf-8")
        told = subprocess.run(["festival", "-b", str(script)], check=True, capture_output=True, text=True)
        samples, rate_hz = soundfile.read(path, dtype="float32")
    rows = [line.split("\t") for line in told.stdout.splitlines() if line.count("\t") == 2]
    said = [Word(text=t, start_s=LEAD_S + float(a), end_s=LEAD_S + float(b)) for t, a, b in rows]
    return framed(soxr.resample(samples, rate_hz, SAMPLE_RATE_HZ)), said


def _matched(said: Sequence[Word], heard: Sequence[Word]) -> Iterator[Timed]:
    texts = [word.text.lower() for word in said], [word.text for word in heard]
    for block in SequenceMatcher(None, *texts, autojunk=False).get_matching_blocks():
        for i in range(block.size):
            yield Timed(_span(said[block.a + i]), _span(heard[block.b + i]))


def _span(word: Word) -> tuple[float, float]:
    return word.start_s or 0.0, word.end_s or 0.0


def _figures(pairs: Sequence[Timed]) -> list[str]:
    figures = []
    for side in (0, 1):
        errors = [abs(pair.heard[side] - pair.said[side]) for pair in pairs]
        figures += [f"{np.median(errors):.3f} s", f"{np.quantile(errors, 0.95):.3f} s"]
    middle = [pair.heard[0] <= sum(pair.said) / 2 <= pair.heard[1] for pair in pairs]
    return [*figures, f"{np.mean(middle):.0%}"]
