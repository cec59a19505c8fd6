"""The demo's job against its expected record, as text and through each listener."""

from __future__ import annotations

import json
import re
import sys
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Any

from saywright.bench import Bench
from saywright.errors import ModelError
from saywright.hearing.choose import ENGINES, choose_listener
from saywright.hearing.models import default_models_dirs
from saywright.record.events import AudioAdded, Heard
from saywright.scoring import Result, compare
from saywright.sheets.load import load_sheet
from saywright.sheets.model import Sheet
from saywright.store.memory import MemoryStore

from .edits import edits, words_of
from .paths import ROOT
from .tables import percent

AUDIO = ROOT / "demo_audio"
SOUNDS = {".opus", ".ogg", ".wav", ".flac", ".mp3", ".m4a"}
KINDS = ("readings", "conditions", "actions", "movements", "identifiers")


@dataclass(frozen=True, slots=True)
class Run:
    """One way of taking the job in."""

    name: str
    result: Result
    word_errors: float | None  # share of the words of the commentary; None for text
    time_ratio: float | None  # time taken over length of the audio; None for text


def read_expected() -> tuple[Sheet, dict[str, Any]]:
    """The sheet of the demo's job and the record that should come out."""
    data: dict[str, Any] = json.loads((AUDIO / "expected.json").read_text(encoding="utf-8"))
    expected = data.get("record", data)
    return load_sheet(str(data.get("sheet", "outboard-float-carburetor"))), expected


def spoken_words() -> list[str]:
    """The words of the commentary, without times and punctuation."""
    text = (AUDIO / "commentary.txt").read_text(encoding="utf-8")
    return words_of(re.sub(r"^\[[\d:.]+\]", "", text, flags=re.MULTILINE))


def run(
    name: str, sheet: Sheet, expected: dict[str, Any], take_in: Callable[[Bench], object], **more: Any
) -> Run:
    """Take the job in by *take_in* and compare what came out."""
    store = MemoryStore()
    try:
        bench = Bench.open(store, sheet, clock=lambda: datetime.now(UTC), **more)
        started = time.monotonic()
        take_in(bench)
        took_s = time.monotonic() - started
        heard = [e.payload.utterance.best.text for e in bench.events() if isinstance(e.payload, Heard)]
        lengths = [e.payload.duration_s or 0.0 for e in bench.events() if isinstance(e.payload, AudioAdded)]
        wanted = spoken_words()
        return Run(
            name,
            compare(bench.record(), expected),
            edits(wanted, words_of(" ".join(heard))) / len(wanted) if lengths else None,
            took_s / sum(lengths) if sum(lengths) else None,
        )
    finally:
        store.close()


def runs() -> list[Run]:
    """The job as text, then through each listener that is here."""
    sheet, expected = read_expected()
    done = [run("text", sheet, expected, lambda bench: bench.say_file(AUDIO / "commentary.txt"))]
    files = sorted(path for path in AUDIO.iterdir() if path.suffix in SOUNDS)
    for engine in ENGINES:
        try:
            listener, _ = choose_listener(sheet, engine=engine, models_dirs=default_models_dirs())
        except ModelError as error:
            print(f"{engine}: left out: {error}", file=sys.stderr)
            continue
        done.append(
            run(
                f"audio, {listener.name}",
                sheet,
                expected,
                lambda bench: [bench.hear_file(path) for path in files],
                listener=listener,
            )
        )
    return done


def table(done: Sequence[Run]) -> list[str]:
    """The figures as a Markdown table."""
    heads = " | ".join(f"{kind} F1" for kind in KINDS)
    lines = [
        f"| the job as | words wrong | {heads} | silent errors | asked | time |",
        f"|---|{'---|' * (len(KINDS) + 4)}",
    ]
    for one in done:
        scores = {score.kind: score for score in one.result.scores}
        kinds = " | ".join(f"{scores[kind].f1:.3f}" if kind in scores else "–" for kind in KINDS)
        ratio = "–" if one.time_ratio is None else f"{one.time_ratio:.2f}"
        asked, silent = percent(one.result.ask_share), len(one.result.silent)
        lines.append(f"| {one.name} | {percent(one.word_errors)} | {kinds} | {silent} | {asked} | {ratio} |")
    return lines
