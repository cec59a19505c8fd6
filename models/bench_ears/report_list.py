"""The list that figures are reported on: fixed by its hash, used once for a model that may ship.

Speakers, trades, frames and noise of its own. Human speech comes out of Debian's packages
(asterisk-core-sounds-en and its g722, pocketsphinx-testdata), recorded engines and blows out of torcs-data.
The one human speaker of the prompts is also heard in the choosing list, with other strings.
Edge: reads those packages, runs synthesisers.
"""

from __future__ import annotations

import gzip
import json
import random
import re
from dataclasses import asdict, dataclass
from hashlib import sha256
from pathlib import Path

import numpy as np
import text
from accuracy import human
from accuracy.clips import all_clips, make
from accuracy.surroundings import reverberate
from accuracy.voices import framed
from clips import CONDITIONS
from speech import EVALUATED, RATE_HZ, Samples, read_wav, say

SHA256 = "bd8aa5dd4113bb6a143a2efd603a6f9b2ae2551509322f87202736ae2d266239"
TRAP_TAKES = (1, 2, 3)
LINES, CORPUS_LINES, STRINGS, PROMPTS = 60, 36, 36, 60
_TRANSCRIPTS = Path("/usr/share/doc/asterisk-core-sounds-en/core-sounds-en.txt.gz")
_TURNING = ("*engine*.wav", "935.wav", "944.wav", "axle.wav", "road-ride.wav", "turbo1.wav")
_BLOWS = ("crash*.wav", "bottom_crash.wav", "gear_change*.wav", "skid_metal.wav")


@dataclass(frozen=True, slots=True)
class Entry:
    """One clip of the list."""

    part: str  # "bench", "corpus", "human", "spelled", "read", "prompts", "trap", "engine"
    words: str  # as said; "" where nothing is
    voice: str
    condition: str
    prompt: str = ""  # "" with a sheet: the sheet's own
    sheet: str = ""
    lead: str = ""  # typed just before, tells what is read
    truth: tuple[str, ...] = ()  # case lines
    seed: int = 0


def entries() -> list[Entry]:
    """The list; assert that it is the one that was fixed."""
    found = _entries()
    assert digest(found) == SHA256, "the list is not the one that was fixed: a voice or a package is another"
    return found


def digest(found: list[Entry]) -> str:
    """Of texts, voices, prompts and conditions."""
    rows = json.dumps([asdict(one) for one in found], sort_keys=True, ensure_ascii=False)
    return sha256(rows.encode()).hexdigest()


def sound(entry: Entry, noises: Path) -> Samples:
    """The clip's samples in its surroundings, (n_samples,) at 16 kHz. *noises*: sounds of torcs-data."""
    rng = np.random.default_rng(entry.seed)
    if entry.part == "engine":
        return (0.3 * recorded_noise(6 * RATE_HZ, rng, noises)).astype(np.float32)
    samples = _speech(entry)
    if entry.condition.startswith("noise"):
        loud = np.abs(samples) > 0.02 * np.max(np.abs(samples))
        power = float(np.mean(np.square(samples[loud], dtype=np.float64)))
        noise = recorded_noise(len(samples), rng, noises)
        gain = np.sqrt(power / np.mean(noise**2) / 10 ** (float(entry.condition.split()[1]) / 10))
        mixed = samples + gain * noise
        return (mixed * min(1.0, 0.98 / float(np.max(np.abs(mixed))))).astype(np.float32)
    return reverberate(samples, rng) if entry.condition == "reverb" else samples


def recorded_noise(length: int, rng: np.random.Generator, noises: Path) -> np.ndarray:
    """An engine that turns, and blows on metal now and then; peak 1."""
    turning = _one_of(noises, _TURNING, rng)
    out = np.resize(turning, length).astype(np.float64)
    out /= np.sqrt(np.mean(out**2)) + 1e-9
    for _ in range(max(1, length // (2 * RATE_HZ))):
        blow = _one_of(noises, _BLOWS, rng)[: 2 * RATE_HZ]
        at = int(rng.integers(0, length))
        kept = min(len(blow), length - at)
        out[at : at + kept] += rng.uniform(1, 4) * blow[:kept] / (np.max(np.abs(blow)) + 1e-9)
    peaked: np.ndarray = out / np.max(np.abs(out))
    return peaked


def _entries() -> list[Entry]:
    base = [*_bench(), *_corpus(), *_human()]
    surrounded = [
        Entry(**{**asdict(one), "truth": one.truth, "condition": condition, "seed": 4 * i + n})
        for i, one in enumerate(base)
        for n, condition in enumerate(CONDITIONS)
    ]
    demo = "outboard-float-carburetor"
    plain = [Entry("spelled", one.words, human.SPEAKER, "clean", sheet=demo) for one in human.spelled(10)]
    plain += [Entry("read", words, human.READER, "clean", sheet=demo) for _, words in human.sentences()]
    plain += [Entry("prompts", words, name, "clean", sheet=demo) for name, words in _prompts()]
    takes = tuple(f", {number}" for number in TRAP_TAKES)
    plain += [
        Entry("trap", "", clip.voice, "clean", sheet=demo)
        for clip in all_clips()
        if clip.group == "trap" and clip.voice.endswith(takes)
    ]
    plain += [Entry("engine", "", "recorded", "clean", sheet=demo, seed=9000 + i) for i in range(12)]
    return surrounded + plain


def _bench() -> list[Entry]:
    rng = random.Random(33)
    lines = text.lines("report", 3, LINES, talk=0.1)
    return [
        Entry("bench", line.words, str(i % 4), "clean", prompt=text.prompt("report", line.trade, rng, 7))
        for i, line in enumerate(lines)
    ]


def _corpus() -> list[Entry]:
    """Lines of tools/corpus, of its reported half, in the voices of this list."""
    clips = {
        clip.words: clip
        for clip in all_clips()
        if clip.half == "reported" and clip.group == "natural" and clip.condition == "clean" and clip.truth
    }
    order = sorted(clips, key=lambda words: sha256(words.encode()).hexdigest())
    return [
        Entry("corpus", words, str(i % 4), "clean", sheet=clips[words].sheet, truth=clips[words].truth)
        for i, words in enumerate(order[:CORPUS_LINES])
    ]


def _human() -> list[Entry]:
    """Strings with a word that no string of the choosing list has: zero, or ten to nineteen."""
    others = {"zero", *text.ONES[10:]}
    kept = [one for one in human.strings(150) if others & set(one.words.split())]
    return [
        Entry(
            "human",
            one.words,
            human.SPEAKER,
            "clean",
            sheet="outboard-float-carburetor",
            lead=one.lead,
            truth=one.truth,
        )
        for one in kept[:STRINGS]
    ]


def _prompts() -> list[tuple[str, str]]:
    """(file, words) of whole sentences of the human speaker: ordinary English."""
    found = []
    for line in gzip.decompress(_TRANSCRIPTS.read_bytes()).decode().splitlines():
        name, _, said = line.partition(": ")
        words = " ".join(re.sub(r"[^a-z' ]", " ", said.lower()).split())
        plain = not re.search(r"[\[\]<>()\d/-]", said) and 5 <= len(words.split()) <= 14
        if plain and (human.PROMPTS / f"{name}.wav").is_file():
            found.append((name, words))
    random.Random(34).shuffle(found)
    return sorted(found[:PROMPTS])


def _speech(entry: Entry) -> Samples:
    if entry.part in ("bench", "corpus"):
        return framed(say(entry.words, EVALUATED["report"][int(entry.voice)]))
    if entry.part in ("human", "spelled"):
        return human.speak(entry.words)
    if entry.part == "read":
        return human.read_sentence(next(n for n, words in human.sentences() if words == entry.words))
    if entry.part == "prompts":
        return framed(read_wav(human.PROMPTS / f"{entry.voice}.wav"))
    return make(next(clip for clip in all_clips() if clip.group == "trap" and clip.voice == entry.voice))


def _one_of(noises: Path, patterns: tuple[str, ...], rng: np.random.Generator) -> np.ndarray:
    paths = sorted({path for pattern in patterns for path in noises.glob(pattern)})
    samples: np.ndarray = read_any(paths[int(rng.integers(len(paths)))])
    return samples


def read_any(path: Path) -> np.ndarray:
    """A recording of any rate and width as mono at 16 kHz."""
    import soundfile  # noqa: PLC0415
    import soxr  # noqa: PLC0415

    samples, rate_hz = soundfile.read(path, dtype="float32", always_2d=True)
    out: np.ndarray = soxr.resample(samples.mean(axis=1), rate_hz, RATE_HZ)
    return out
