"""Clips → what a listener heard, kept in the cache by what the clip and the listener are made of.

Edge: worker processes, one core each. Timing is not taken here: other work would disturb it.
"""

from __future__ import annotations

import json
import sys
from collections.abc import Sequence
from concurrent.futures import ProcessPoolExecutor
from hashlib import sha256
from multiprocessing import get_context
from pathlib import Path

import numpy as np
import soundfile

from saywright.hearing import adapters
from saywright.hearing.adapters import bench_ears
from saywright.hearing.choose import choose_listener
from saywright.hearing.listener import SAMPLE_RATE_HZ, Listener, Samples
from saywright.hearing.models import default_models_dirs
from saywright.hearing.sample_lines import sample_lines
from saywright.hearing.vocabulary import bench_prompt
from saywright.hearing.words import Utterance
from saywright.sheets.load import load_sheet

from .clips import Clip, folder_of, make, surround
from .paths import CACHE, sheet_name

BENCH_EARS = "bench ears"  # an engine here: Whisper with the adapter of models/bench_ears merged in
WORKERS = 2
BLOCK = SAMPLE_RATE_HZ // 10
_HEARING = Path(adapters.__file__).parents[1]
_CUTTING = ("adapters/cut.py", "adapters/silero.py", "cutting.py")
_SOURCES = {
    "whisper": ("adapters/whisper.py", "adapters/hypotheses.py", *_CUTTING),
    "sphinx": ("adapters/sphinx.py", "lm.py", "sample_lines.py", "pronounce.py", *_CUTTING),
    "vosk": ("adapters/vosk.py", "adapters/hypotheses.py"),
}
_SOURCES[BENCH_EARS] = _SOURCES["whisper"]
_held: dict[tuple[str, str], Listener] = {}  # of this process: the listener in use


def listen(clips: Sequence[Clip], engine: str) -> list[list[Utterance]]:
    """What *engine* heard in each clip, in order; heard now where the cache does not have it."""
    paths = [_heard_path(clip, engine) for clip in clips]
    todo = [(clip, engine, path) for clip, path in zip(clips, paths, strict=True) if not path.exists()]
    todo.sort(key=lambda one: one[0].sheet)
    if todo:
        # Not forked: a worker would inherit a listener whose threads stayed in the parent, and wait for them.
        with ProcessPoolExecutor(WORKERS, mp_context=get_context("spawn")) as pool:
            for done, _ in enumerate(pool.map(_hear, todo, chunksize=8), start=1):
                if done % 50 == 0 or done == len(todo):
                    print(
                        f"\r{engine}: {done} of {len(todo)} clips heard", end="", file=sys.stderr, flush=True
                    )
        print(file=sys.stderr)
    return [_load(path) for path in paths]


def sound(clip: Clip) -> Samples:
    """The clip's samples in its surroundings; the speech itself is made once and kept."""
    key = _hash(clip.words, clip.voice, clip.style, _code("voices.py", "human.py", "clips.py"))
    path = folder_of(CACHE, "audio") / f"{key}.flac"
    if not path.exists():
        part = path.with_suffix(f".{_hash(clip.condition)}.part")
        soundfile.write(part, make(clip), SAMPLE_RATE_HZ, format="FLAC", subtype="PCM_16")
        part.replace(path)
    samples, _ = soundfile.read(path, dtype="float32")
    return surround(clip, samples)


def listener_for(sheet: str, engine: str, threads: int = 1) -> Listener:
    """The listener of this process for a sheet; only the last one is kept."""
    if (sheet, engine) not in _held:
        _held.clear()
        bench = engine == BENCH_EARS
        _held[sheet, engine], _ = choose_listener(
            load_sheet(sheet_name(sheet)),
            engine=None if bench else engine,
            ears=bench_ears.BENCH if bench else None,
            models_dirs=default_models_dirs(),
            threads=threads,
        )
    return _held[sheet, engine]


def feed(listener: Listener, samples: Samples) -> list[Utterance]:
    """The utterances of one recording, fed as a microphone would."""
    found: list[Utterance] = []
    for start in range(0, len(samples), BLOCK):
        found += listener.feed(samples[start : start + BLOCK])
    return found + listener.finish()


def _hear(one: tuple[Clip, str, Path]) -> None:
    clip, engine, path = one
    heard = feed(listener_for(clip.sheet, engine), np.ascontiguousarray(sound(clip)))
    part = path.with_suffix(".part")
    part.write_text(json.dumps([utterance.model_dump(mode="json") for utterance in heard]), encoding="utf-8")
    part.replace(path)


def _load(path: Path) -> list[Utterance]:
    return [Utterance.model_validate(item) for item in json.loads(path.read_text(encoding="utf-8"))]


def _heard_path(clip: Clip, engine: str) -> Path:
    folder = folder_of(CACHE, "heard")
    key = _hash(
        clip.words,
        clip.voice,
        clip.style,
        clip.condition,
        _code("voices.py", "human.py", "surroundings.py"),
        _listener_key(clip.sheet, engine),
    )
    return folder / f"{key}.json"


_keys: dict[tuple[str, str], str] = {}


def _listener_key(sheet: str, engine: str) -> str:
    """Changes when what the listener is made of does."""
    if (sheet, engine) not in _keys:
        loaded = load_sheet(sheet_name(sheet))
        sources = "".join((_HEARING / name).read_text(encoding="utf-8") for name in _SOURCES[engine])
        prompted = engine in ("whisper", BENCH_EARS)
        told = bench_prompt(loaded) if prompted else "\n".join(sample_lines(loaded))
        told += bench_ears.MERGED_SHA256 if engine == BENCH_EARS else ""
        _keys[sheet, engine] = _hash(engine, told, sources)
    return _keys[sheet, engine]


def _code(*names: str) -> str:
    return "".join((Path(__file__).parent / name).read_text(encoding="utf-8") for name in names)


def _hash(*parts: str) -> str:
    return sha256("\0".join(parts).encode()).hexdigest()[:32]
