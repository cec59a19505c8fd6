"""Whole commentaries as text, scored against the record that should stand at their end.

Usage: python -m accuracy.commentaries [--check] [--totals] [PATH …]     (with tools/ on the path)
PATH is a commentary or a folder of them, those of tests/cases/commentaries if none is given. Each line that
came out otherwise is shown with what was missed (-) and what was surplus (+). --check only reads them
against their sheets; --totals prints a line for each and one for all.

Several pieces that one line moves or does the same to are one item, whether the row names each or says how
many; so is one value for all the pieces that a sheet only counts.
"""

from __future__ import annotations

import argparse
import sys
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from saywright.bench import Bench
from saywright.errors import SaywrightError
from saywright.quantity import parse_value
from saywright.record.types import Record
from saywright.scoring import KEYS, Score, score_keys
from saywright.sheets.model import Sheet
from saywright.store.memory import MemoryStore

from .commentary_gold import KINDS, Item, expected_of, paths_in, read_commentary
from .paths import CASES
from .tables import percent

FOLDER = CASES / "commentaries"
_AT = datetime(2026, 3, 14, tzinfo=UTC)


@dataclass(frozen=True, slots=True)
class Scored:
    """One commentary, taken in line by line, against what should stand at its end."""

    name: str
    scores: Mapping[str, Score]
    silent: tuple[str, ...]  # wrong readings that do not ask
    right_asks: tuple[bool, ...]  # of each right reading: does it ask?
    traps: int  # lines that must give no reading
    sprung: tuple[int, ...]  # those that gave one
    lines: tuple[str, ...]
    faults: Mapping[int, tuple[str, ...]]  # line → what was missed there (-) and what was surplus (+)


def score(path: Path) -> Scored:
    """Take the commentary in, and compare."""
    talk, sheet = read_commentary(path)
    expected, traps = expected_of(talk, sheet)
    store = MemoryStore()
    try:
        bench = Bench.open(store, sheet, clock=lambda: _AT)
        for line, (words, _) in enumerate(talk.lines, start=1):
            bench.say(words, line=line)
        record = bench.record()
    finally:
        store.close()
    found = {kind: _merged(kind, _live(record, kind), sheet) for kind in KINDS}
    wanted = {kind: _merged(kind, expected[kind], sheet) for kind in KINDS}
    read_at = {item["line"] for item in found["readings"]}
    return Scored(
        path.stem,
        {k: score_keys(k, [_key(k, i) for i in found[k]], [_key(k, i) for i in wanted[k]]) for k in KINDS},
        _silent(found["readings"], wanted["readings"]),
        tuple(item["asks"] for item in _answered(found["readings"], wanted["readings"])),
        len(traps),
        tuple(sorted(line for line in traps if line in read_at)),
        tuple(words for words, _ in talk.lines),
        _faults(found, wanted),
    )


def _live(record: Record, kind: str) -> list[Item]:
    items = [item for item in record.as_json()[kind] if item["superseded_by"] is None]
    return [{**item, "asks": any(flag["level"] == "ask" for flag in item["flags"])} for item in items]


def _merged(kind: str, items: Sequence[Item], sheet: Sheet) -> list[Item]:
    """The items with those of several pieces as one."""
    groups: dict[tuple[Any, ...], list[Item]] = {}
    for item in items:
        same = {**item, "which": None, "count": None}
        groups.setdefault((item["line"], item["which"] is None, *_key(kind, same)), []).append(item)
    return [one for group in groups.values() for one in _as_one(kind, group, sheet)]


def _as_one(kind: str, group: list[Item], sheet: Sheet) -> list[Item]:
    known = sheet.get(group[0]["component"])
    whiches = {item["which"] for item in group}
    counted = known is not None and not known.positions and whiches == set(known.whiches)
    if len(whiches) < 2 or kind == "conditions" or (kind == "readings" and not counted):
        return group
    return [{**group[0], "which": None, "count": sum(item.get("count", 1) for item in group)}]


def _silent(found: Iterable[Item], wanted: Iterable[Item]) -> tuple[str, ...]:
    """Readings wrong in value, part, which of several, characteristic or unit that do not ask."""
    left = Counter(_meaning(item) for item in wanted)
    wrong = []
    for item in sorted(found, key=lambda one: one["asks"]):  # what asks takes its answer last
        key = _meaning(item)
        left[key] -= 1
        if left[key] < 0 and not item["asks"]:
            wrong.append(
                f"{item['line']}: {item['component']} {item['which']} {item['value']}: {item['heard']}"
            )
    return tuple(wrong)


def _answered(found: Iterable[Item], wanted: Iterable[Item]) -> list[Item]:
    left = Counter(_key("readings", item) for item in wanted)
    right = []
    for item in sorted(found, key=lambda one: one["asks"]):
        key = _key("readings", item)
        left[key] -= 1
        if left[key] >= 0:
            right.append(item)
    return right


def _meaning(item: Item) -> tuple[Any, ...]:
    which, value = item["which"], parse_value(str(item["value"]))
    return item["component"], which, item["characteristic"], value, item["unit"]


def _faults(
    found: Mapping[str, Sequence[Item]], expected: Mapping[str, Sequence[Item]]
) -> dict[int, tuple[str, ...]]:
    told: dict[int, list[str]] = {}
    for kind in KINDS:
        live = list(found[kind])
        _leave_equal(kind, wanted := list(expected[kind]), live, by_line=True)
        _leave_equal(kind, wanted, live, by_line=False)
        for sign, left in (("-", wanted), ("+", live)):
            for item in left:
                asks = item.get("asks", False)
                text = " ".join(str(part) for part in _key(kind, item) if part is not None)
                text = f"  {sign} {kind[:-1]} {text}" + (" asks" if asks else "")
                silent = sign == "+" and kind == "readings" and not asks
                told.setdefault(item["line"] or 0, []).append(text + ("   SILENT?" if silent else ""))
    return {line: tuple(texts) for line, texts in sorted(told.items())}


def _leave_equal(kind: str, wanted: list[Item], live: list[Item], *, by_line: bool) -> None:
    """Take what agrees out of both lists."""
    for item in list(wanted):
        for other in live:
            if _key(kind, item) == _key(kind, other) and (not by_line or item["line"] == other["line"]):
                wanted.remove(item)
                live.remove(other)
                break


def _key(kind: str, item: Item) -> tuple[Any, ...]:
    return tuple(item.get(field) for field in KEYS[kind])


def totals(done: Sequence[Scored]) -> list[str]:
    """The figures as a Markdown table, a row for each commentary and one for all."""
    lines = [
        f"| commentary | {' | '.join(f'{kind} F1' for kind in KINDS)} | silent | asks | traps sprung |",
        f"|---|{'---|' * (len(KINDS) + 3)}",
    ]
    lines += [_row(one.name, [one]) for one in done]
    return [*lines, _row("all", done)] if len(done) > 1 else lines


def _row(name: str, done: Sequence[Scored]) -> str:
    cells = []
    for kind in KINDS:
        scores = [one.scores[kind] for one in done]
        total = sum(one.found + one.expected for one in scores)
        cells.append(f"{2 * sum(one.right for one in scores) / total:.3f}" if total else "–")
    asks = [ask for one in done for ask in one.right_asks]
    cells += [str(sum(len(one.silent) for one in done)), percent(sum(asks) / len(asks) if asks else None)]
    sprung = sum(len(one.sprung) for one in done)
    return f"| {name} | {' | '.join(cells)} | {sprung} of {sum(one.traps for one in done)} |"


def first_sight() -> list[str]:
    """The figures at first sight as a Markdown table, as `totals` gave them then."""
    lines = (FOLDER / "first-sight.tsv").read_text(encoding="utf-8").splitlines()
    head, *rows = [f"| {line.replace(chr(9), ' | ')} |" for line in lines if not line.startswith("#")]
    return [head, f"|{'---|' * head.count(' | ')}---|", *rows]


def details(one: Scored) -> list[str]:
    """Each line that came out otherwise, with what was missed and what was surplus there."""
    lines = [f"## {one.name}"]
    for line in sorted({*one.faults, *one.sprung}):
        trap = "  TRAP" if line in one.sprung else ""
        lines += [f"{line}: {one.lines[line - 1] if line else '?'}{trap}", *one.faults.get(line, ())]
    return [*lines, "silent:", *(f"  {text}" for text in one.silent)]


def main() -> int:
    """Do what the arguments ask; 1 where a commentary cannot be read."""
    arguments = argparse.ArgumentParser(prog="accuracy.commentaries")
    arguments.add_argument("paths", nargs="*", type=Path, default=[FOLDER])
    arguments.add_argument("--check", action="store_true")
    arguments.add_argument("--totals", action="store_true")
    chosen = arguments.parse_args()
    faults, done = 0, []
    for path in paths_in(chosen.paths):
        try:
            talk, sheet = read_commentary(path)
            expected_of(talk, sheet)
        except (OSError, ValueError, SaywrightError) as error:
            print(f"{path}: {error}", file=sys.stderr)
            faults = 1
            continue
        if chosen.check:
            print(f"{path.name}: {len(talk.lines)} lines, fine")
        else:
            done.append(score(path))
    if done:
        lines = [] if chosen.totals else [line for one in done for line in details(one)]
        print("\n".join([*lines, *totals(done)]))
    return faults


if __name__ == "__main__":
    sys.exit(main())
