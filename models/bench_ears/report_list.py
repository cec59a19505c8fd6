"""The lists that figures are reported on: fixed by their hash, used once for a model that may ship.

"report" is for adapters whose training text has only "point", "again" for those that came after it: other
trades, frames, lines, strings and seeds; the speakers that are recorded are the same, as there are no others.
Speakers, trades, frames and noise of its own. Human speech comes out of Debian's packages
(asterisk-core-sounds-en and its g722, pocketsphinx-testdata), recorded engines and blows out of torcs-data.
The one human speaker of the prompts is also heard in the choosing list, with other strings.
Edge: reads those packages, runs synthesisers.
"""

from __future__ import annotations

import gzip
import json
import os
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
from lists import LISTS, Which
from speech import EVALUATED, RATE_HZ, Samples, read_wav, say

from saywright.hearing.spoken import say_integer

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


def entries(name: str = "report") -> list[Entry]:
    """The list; assert that it is the one that was fixed."""
    which = LISTS[name]
    found = _entries(which)
    assert digest(found) == which.sha256, "not the list that was fixed: a voice or a package is another"
    return found


def digest(found: list[Entry]) -> str:
    """Of texts, voices, prompts and conditions."""
    rows = json.dumps([asdict(one) for one in found], sort_keys=True, ensure_ascii=False)
    return sha256(rows.encode()).hexdigest()


def sound(entry: Entry, noises: Path, speech: Path, name: str = "report") -> Samples:
    """The clip's samples in its surroundings, (n_samples,) at 16 kHz.

    *noises*: sounds of torcs-data. *speech*: a folder of clean speech, said where it is missing.
    """
    rng = np.random.default_rng(entry.seed)
    if entry.part == "engine":
        return (0.3 * recorded_noise(6 * RATE_HZ, rng, noises)).astype(np.float32)
    samples = kept_speech(entry, speech, name)
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


def kept_speech(entry: Entry, folder: Path, name: str = "report") -> Samples:
    """The clip without surroundings, 16 bits, made once; another machine can be given the folder."""
    import soundfile  # noqa: PLC0415

    folder.mkdir(parents=True, exist_ok=True)
    path = (
        folder
        / f"{sha256(repr((name, entry.part, entry.words, entry.voice)).encode()).hexdigest()[:24]}.flac"
    )
    if not path.exists():
        part = path.with_suffix(f".{os.getpid()}.part")
        soundfile.write(part, _speech(entry, name), RATE_HZ, format="FLAC", subtype="PCM_16")
        part.replace(path)
    samples: Samples = soundfile.read(path, dtype="float32")[0]
    return samples


def _entries(which: Which) -> list[Entry]:
    human_strings = _human(which) if which.name == "report" else _more_human(which)
    base = [*_bench(which), *_corpus(which), *human_strings]
    begin = which.sounds_from
    surrounded = [
        Entry(**{**asdict(one), "truth": one.truth, "condition": condition, "seed": begin + 4 * i + n})
        for i, one in enumerate(base)
        for n, condition in enumerate(CONDITIONS)
    ]
    demo = "outboard-float-carburetor"
    spelled = human.spelled(which.spelled_from + 10)[which.spelled_from :]
    plain = [Entry("spelled", one.words, human.SPEAKER, "clean", sheet=demo) for one in spelled]
    plain += [Entry("read", words, human.READER, "clean", sheet=demo) for _, words in human.sentences()]
    plain += [Entry("prompts", words, name, "clean", sheet=demo) for name, words in _prompts(which)]
    takes = tuple(f", {number}" for number in which.takes)
    plain += [
        Entry("trap", "", clip.voice, "clean", sheet=demo)
        for clip in all_clips()
        if clip.group == "trap" and clip.voice.endswith(takes)
    ]
    plain += [Entry("engine", "", "recorded", "clean", sheet=demo, seed=begin + 9000 + i) for i in range(12)]
    return surrounded + plain


def _bench(which: Which) -> list[Entry]:
    rng = random.Random(30 + which.seed)
    lines = text.lines(which.name, which.seed, which.lines, talk=0.1)
    return [
        Entry("bench", line.words, str(i % 4), "clean", prompt=text.prompt(which.name, line.trade, rng, 7))
        for i, line in enumerate(lines)
    ]


def _corpus(which: Which) -> list[Entry]:
    """Lines of tools/corpus, of its reported half, in the voices of the list."""
    clips = {
        clip.words: clip
        for clip in all_clips()
        if clip.half == "reported" and clip.group == "natural" and clip.condition == "clean" and clip.truth
    }
    order = sorted(clips, key=lambda words: sha256(words.encode()).hexdigest())
    return [
        Entry("corpus", words, str(i % 4), "clean", sheet=clips[words].sheet, truth=clips[words].truth)
        for i, words in enumerate(order[which.corpus_from : which.corpus_from + which.corpus_lines])
    ]


def _human(which: Which) -> list[Entry]:
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
        for one in kept[: which.strings]
    ]


def _more_human(which: Which) -> list[Entry]:
    """Other strings in the same forms, each with zero or ten to nineteen in it: on no other list."""
    used = {one.words for one in human.strings(150)}
    for earlier in LISTS.values():
        if earlier.name == which.name and earlier.seed < which.seed:
            used |= {entry.words for entry in _more_human(earlier)}
    rng = random.Random(31 + which.seed)
    found: dict[str, Entry] = {}
    while len(found) < which.strings:
        words, lead, truth = _with_point(rng) if which.points_only or len(found) % 3 < 2 else _whole(rng)
        if words not in used and {"zero", *text.ONES[10:]} & set(words.split()):
            sheet = "outboard-float-carburetor"
            found[words] = Entry(
                "human", words, human.SPEAKER, "clean", sheet=sheet, lead=lead, truth=(truth,)
            )
    return list(found.values())


def _with_point(rng: random.Random) -> tuple[str, str, str]:
    """Words, the line typed before, the truth."""
    whole, first, second = rng.randint(10, 29), rng.randrange(10), rng.randrange(10)
    words = f"{say_integer(whole)} dot {text.ONES[first]} {text.ONES[second]}"
    return words, "float height", f"reading float.height {whole}.{first}{second} mm"


def _whole(rng: random.Random) -> tuple[str, str, str]:
    size = rng.randint(110, 199)
    forms = (f"one {say_integer(size % 100)}", " ".join(text.ONES[int(digit)] for digit in str(size)))
    return rng.choice(forms), "main jet", f"reading main_jet.size {size} 1"


def _prompts(which: Which) -> list[tuple[str, str]]:
    """(file, words) of whole sentences of the human speaker: ordinary English."""
    found = []
    for line in gzip.decompress(_TRANSCRIPTS.read_bytes()).decode().splitlines():
        name, _, said = line.partition(": ")
        words = " ".join(re.sub(r"[^a-z' ]", " ", said.lower()).split())
        plain = not re.search(r"[\[\]<>()\d/-]", said) and 5 <= len(words.split()) <= 14
        if plain and (human.PROMPTS / f"{name}.wav").is_file():
            found.append((name, words))
    random.Random(34).shuffle(found)
    return sorted(found[which.prompts_from : which.prompts_from + which.prompts])


def _speech(entry: Entry, name: str) -> Samples:
    if entry.part in ("bench", "corpus"):
        return framed(say(entry.words, EVALUATED[LISTS[name].name][int(entry.voice)]))
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
