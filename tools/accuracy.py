"""How well Saywright hears and understands, into docs/accuracy.md.

The demo's job is compared with its expected record. It is taken in as text, which shows what
understanding alone does, and as audio through every listener whose model is on this machine.

Usage: python tools/accuracy.py [FILE]
"""

from __future__ import annotations

import contextlib
import io
import json
import re
import sys
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest

from saywright.bench import Bench
from saywright.errors import ModelError
from saywright.hearing.choose import ENGINES, choose_listener
from saywright.hearing.models import default_models_dirs
from saywright.record.events import AudioAdded, Heard
from saywright.scoring import Result, compare
from saywright.sheets.load import load_sheet
from saywright.sheets.model import Sheet
from saywright.store.memory import MemoryStore

ROOT = Path(__file__).parent.parent
AUDIO = ROOT / "demo_audio"
SOUNDS = {".opus", ".ogg", ".wav", ".flac", ".mp3", ".m4a"}
KINDS = ("readings", "conditions", "actions", "movements", "identifiers")


@dataclass(frozen=True)
class Run:
    """One way of taking the job in."""

    name: str
    result: Result
    word_errors: float | None  # share of the words of the commentary; None for text
    time_ratio: float | None  # time taken over length of the audio; None for text


class RowCounter:
    """A pytest plugin that counts the rows of tests/cases that come out as written, by their file."""

    def __init__(self) -> None:
        self.counts: dict[str, tuple[int, int]] = {}  # file → right, all

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        """Count one row."""
        if report.when != "call":
            return
        spoken = re.search(r"\[([\w-]+\.txt)", report.nodeid)
        file = spoken[1] if spoken else Path(report.nodeid.split("::")[0]).stem.removeprefix("test_") + ".tsv"
        right, rows = self.counts.get(file, (0, 0))
        self.counts[file] = (right + (report.outcome == "passed"), rows + 1)


def count_rows() -> dict[str, tuple[int, int]]:
    """Each file of tests/cases with how many of its rows come out as written, and how many it has."""
    counter = RowCounter()
    folder = ROOT / "tests" / "understanding"
    files = [str(folder / f"test_{name}.py") for name in ("cases", "numbers", "measures")]
    with contextlib.redirect_stdout(io.StringIO()):  # rows that fail are counted, not told
        pytest.main([*files, "-k", "test_talk or TestCases", "--tb=no"], plugins=[counter])
    return counter.counts


def read_expected() -> tuple[Sheet, dict[str, Any]]:
    """The sheet of the demo's job and the record that should come out."""
    data: dict[str, Any] = json.loads((AUDIO / "expected.json").read_text(encoding="utf-8"))
    expected = data.get("record", data)
    return load_sheet(str(data.get("sheet", "outboard-float-carburetor"))), expected


def spoken_words() -> list[str]:
    """The words of the commentary, without times and punctuation."""
    text = (AUDIO / "commentary.txt").read_text(encoding="utf-8")
    return words_of(re.sub(r"^\[[\d:.]+\]", "", text, flags=re.MULTILINE))


def words_of(text: str) -> list[str]:
    """Words in lower case, without punctuation."""
    return re.findall(r"[a-z0-9']+", text.lower())


def edits(wanted: Sequence[str], found: Sequence[str]) -> int:
    """Fewest words put in, left out or changed between the two (Levenshtein distance over words)."""
    row = list(range(len(found) + 1))
    for number, word in enumerate(wanted, start=1):
        before, row[0] = row[0], number
        for place, other in enumerate(found, start=1):
            before, row[place] = row[place], min(row[place] + 1, row[place - 1] + 1, before + (word != other))
    return row[-1]


def run(
    name: str, sheet: Sheet, expected: dict[str, Any], take_in: Callable[[Bench], None], **more: Any
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


def read_commentary(bench: Bench) -> None:
    """The commentary as text."""
    bench.say_file(AUDIO / "commentary.txt")


def runs() -> list[Run]:
    """The job as text, then through each listener that is here."""
    sheet, expected = read_expected()
    done = [run("text", sheet, expected, read_commentary)]
    files = sorted(path for path in AUDIO.iterdir() if path.suffix in SOUNDS)
    for engine in ENGINES:
        try:
            listener, _ = choose_listener(sheet, engine=engine, models_dirs=default_models_dirs())
        except ModelError as error:
            print(f"{engine}: left out: {error}", file=sys.stderr)
            continue

        def hear(bench: Bench) -> None:
            for path in files:
                bench.hear_file(path)

        done.append(run(f"audio, {listener.name}", sheet, expected, hear, listener=listener))
    return done


def percent(share: float | None) -> str:
    """A share in percent, or a dash."""
    return "–" if share is None else f"{100 * share:.1f} %"


def rows_table(counts: dict[str, tuple[int, int]]) -> list[str]:
    """The rows of tests/cases as a table."""
    lines = ["## Rows of tests/cases", "", "| file | as written | rows |", "|---|---|---|"]
    lines += [f"| {file} | {right} | {rows} |" for file, (right, rows) in sorted(counts.items())]
    right, rows = (sum(column) for column in zip(*counts.values(), strict=True))
    return [*lines, f"| all | {right} ({percent(right / rows)}) | {rows} |"]


def page(done: Sequence[Run], counts: dict[str, tuple[int, int]]) -> str:
    """The figures as Markdown."""
    heads = " | ".join(f"{kind} F1" for kind in KINDS)
    lines = [
        "# Accuracy",
        "",
        "Made by `make accuracy`: the demo's job against its expected record. An item is right when",
        "everything that must agree agrees: part, which of several, characteristic, digits, unit, stage.",
        "A *silent error* is a wrong reading that does not ask. *Asked* is its price: the share of right",
        "readings that ask. *Time* is that of hearing and understanding over the length of the audio.",
        "",
        f"| the job as | words wrong | {heads} | silent errors | asked | time |",
        f"|---|{'---|' * (len(KINDS) + 4)}",
    ]
    for one in done:
        scores = {score.kind: score for score in one.result.scores}
        kinds = " | ".join(f"{scores[kind].f1:.3f}" if kind in scores else "–" for kind in KINDS)
        ratio = "–" if one.time_ratio is None else f"{one.time_ratio:.2f}"
        asked = percent(one.result.ask_share)
        silent = len(one.result.silent)
        lines.append(f"| {one.name} | {percent(one.word_errors)} | {kinds} | {silent} | {asked} | {ratio} |")
    lines += ["", *rows_table(counts)]
    for one in done:
        lines += ["", f"## What went wrong: {one.name}", "", *wrong(one.result)]
    return "\n".join(lines) + "\n"


def wrong(result: Result) -> list[str]:
    """Each silent error, each item missed, each item too many."""
    found = [
        f"- silent: {s.component} {s.characteristic} {s.value} {s.unit}, from “{s.heard}”"
        for s in result.silent
    ]
    for score in result.scores:
        found += [f"- {score.kind}, missed: {told(key)}" for key in score.missed]
        found += [f"- {score.kind}, too many: {told(key)}" for key in score.surplus]
    return found or ["Nothing."]


def told(key: tuple[Any, ...]) -> str:
    """What identifies an item, in one line."""
    return ", ".join("none" if part is None else str(part) for part in key)


def main(arguments: list[str]) -> None:
    """Measure, print, and write the page."""
    text = page(runs(), count_rows())
    print(text)
    Path(arguments[0] if arguments else ROOT / "docs" / "accuracy.md").write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main(sys.argv[1:])
