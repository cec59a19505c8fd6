"""Every row of tests/cases/speech and not_yet: the words, and what they must be understood as."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import pytest

from saywright.hearing.words import typed
from saywright.sheets import load_sheet
from saywright.understanding.discourse import Discourse
from saywright.understanding.lexicon import Lexicon, build_lexicon
from saywright.understanding.parse import understand
from saywright.understanding.statements import Statement

CASES = Path(__file__).parents[1] / "cases"


@dataclass(frozen=True)
class Talk:
    """One talk: utterances with what each must give."""

    where: str
    why: str
    sheet: str
    lines: tuple[tuple[str, tuple[str, ...]], ...]


def talks_in(path: Path) -> list[Talk]:
    talks: list[Talk] = []
    sheet, why, where = "", "", ""
    lines: list[tuple[str, list[str]]] = []

    def close() -> None:
        if lines:
            talks.append(
                Talk(where, why, sheet, tuple((words, tuple(sorted(rows))) for words, rows in lines))
            )
        lines.clear()

    for number, raw in enumerate(path.read_text(encoding="utf-8").splitlines(), start=1):
        line = raw.rstrip()
        if not line or line.startswith("#"):
            continue
        if line.startswith("sheet:"):
            close()
            sheet = line.partition(":")[2].strip()
        elif line.startswith("why:"):
            close()
            why, where = line.partition(":")[2].strip(), f"{path.name}:{number}"
        elif line.startswith(">"):
            lines.append((line[1:].strip(), []))
        elif line.startswith(" "):
            lines[-1][1].append(" ".join(line.split()))
        else:
            raise ValueError(f"{path.name}:{number}: not a case line: {line}")
    close()
    return talks


def _told(statement: Statement) -> str | None:
    """The case line of a statement; None for a remark."""
    match statement.kind:
        case "reading":
            place = f"@{statement.place}" if statement.place else ""
            named = f"{_part(statement)}.{statement.characteristic}{place}"
            text = f"reading {named} {statement.value} {statement.unit}"
        case "condition":
            text = f"condition {_part(statement)} {statement.condition}"
            text += "" if statement.present else " not"
            text += f" {statement.severity}" if statement.severity else ""
        case "action":
            text = f"action {_part(statement)} {statement.action} {statement.status}"
            text += f" x{statement.quantity}" if statement.quantity else ""
        case "movement":
            text = f"movement {_part(statement)} {statement.movement} {statement.count}"
            text += f" {statement.part}" if statement.part else ""
        case "identifier":
            text = f"identifier {statement.identifier} {statement.value}" + (
                " partial" if statement.partial else ""
            )
        case "photo":
            text = f"photo {_part(statement)}"
        case "unclear":
            return "unclear"
        case "correction":
            again = f" again {len(statement.restores)}" if statement.restores else ""
            return f"corrected {len(statement.supersedes)}{again}"
        case "command":
            return f"command {statement.command}"
        case _:
            return None
    staged = statement.kind in {"reading", "condition"} and statement.stage == "as_left"
    return text + (" as_left" if staged else "") + (" asks" if statement.asks else "")


def _part(statement: Statement) -> str:
    component = getattr(statement, "component", None) or "-"
    which = getattr(statement, "which", None)
    return f"{component}/{which}" if which else component


def _loosen(expected: tuple[str, ...], got: tuple[str, ...]) -> tuple[str, ...]:
    """Settle "asks?" the way it came out."""
    settled = []
    for row in expected:
        if row.endswith(" asks?"):
            plain = row.removesuffix(" asks?")
            row = f"{plain} asks" if f"{plain} asks" in got else plain  # noqa: PLW2901
        settled.append(row)
    return tuple(sorted(settled))


def _all(folder: str) -> list[Talk]:
    return [talk for path in sorted((CASES / folder).glob("*.txt")) for talk in talks_in(path)]


@pytest.fixture(scope="module")
def lexicons() -> dict[str, Lexicon]:
    """One lexicon a sheet, built once."""
    return {}


def lexicon_of(name: str, lexicons: dict[str, Lexicon]) -> Lexicon:
    if name not in lexicons:
        path = CASES / "sheets" / name
        lexicons[name] = build_lexicon(load_sheet(str(path) if path.exists() else name))
    return lexicons[name]


def check(words: str, expected: tuple[str, ...], state: Discourse, lexicon: Lexicon) -> Discourse:
    """The state after *words*, which must give exactly the statements *expected*."""
    state, statements = understand(typed(words, line=1), state, lexicon)
    got = tuple(sorted(row for row in map(_told, statements) if row is not None))
    assert _loosen(expected, got) == got, words
    return state


@pytest.mark.parametrize("talk", _all("speech"), ids=lambda talk: f"{talk.where} {talk.why}")
def test_talk(talk: Talk, lexicons: dict[str, Lexicon]) -> None:
    """The talk gives exactly the statements written beneath its lines."""
    state = Discourse()
    for words, expected in talk.lines:
        state = check(words, expected, state, lexicon_of(talk.sheet, lexicons))


@pytest.mark.parametrize("talk", _all("not_yet"), ids=lambda talk: f"{talk.where} {talk.why}")
def test_not_yet(talk: Talk, lexicons: dict[str, Lexicon], request: pytest.FixtureRequest) -> None:
    """All but the last line are understood; the last is not, and says so by failing when it is."""
    state = Discourse()
    lexicon = lexicon_of(talk.sheet, lexicons)
    for words, expected in talk.lines[:-1]:
        state = check(words, expected, state, lexicon)
    request.applymarker(pytest.mark.xfail(reason="not understood yet", strict=True, raises=AssertionError))
    check(*talk.lines[-1], state, lexicon)
