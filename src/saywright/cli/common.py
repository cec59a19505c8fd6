"""What several commands share: the data folder, the store, time, names, printing."""

from __future__ import annotations

import errno
import getpass
import json
import os
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import click
import platformdirs
from rich.console import Console
from rich.progress import BarColumn, Progress, TextColumn, TimeRemainingColumn

from saywright.errors import DiskFullError, StoreError
from saywright.store.eventlog import SqliteStore
from saywright.store.memory import MemoryStore

WIDTH = 80  # columns of everything printed for people

json_option = click.option("--json", "as_json", is_flag=True, help="Print JSON and nothing else.")
sheet_option = click.option(
    "--sheet", "sheet_name", metavar="SHEET", help="Id of a shipped bench sheet, or a TOML file."
)
device_option = click.option(
    "--device", metavar="NAME", help="The microphone: part of its name, or its number. Default: the system's."
)
by_option = click.option(
    "--by", "actor", metavar="NAME", help="Your name, for the record. Default: the login name."
)


def data_folder(given: Path | None) -> Path:
    """The folder given, else SAYWRIGHT_DATA, else the user's data folder."""
    if given is not None:
        return given
    named = os.environ.get("SAYWRIGHT_DATA")
    return Path(named) if named else Path(platformdirs.user_data_dir("saywright", appauthor=False))


@contextmanager
def user_store() -> Iterator[SqliteStore]:
    """The store of the data folder that the command line names."""
    store = SqliteStore(data_folder(click.get_current_context().find_root().obj))
    try:
        yield store
    finally:
        store.close()


@contextmanager
def passing_store() -> Iterator[MemoryStore]:
    """A store that leaves nothing behind."""
    store = MemoryStore()
    try:
        yield store
    finally:
        store.close()


def now() -> datetime:
    """The time, UTC."""
    return datetime.now(UTC)


def who(given: str | None) -> str:
    """The name for the events: the one given, else the login name; a usage error for an empty one."""
    if given is not None:
        if not given.strip():  # as from --by "$NAME" with nothing in it: nobody is signed for by mistake
            raise click.UsageError("--by needs a name.")
        return given.strip()
    try:
        return getpass.getuser()
    except (OSError, KeyError):
        return "technician"


def need_sheet(given: str | None) -> str:
    """The sheet named; a usage error where none is."""
    if given is None:
        raise click.UsageError(
            "Name a bench sheet with --sheet; 'saywright sheet list' shows those that ship."
        )
    return given


def print_json(data: Any) -> None:
    """Plain data to standard output."""
    click.echo(json.dumps(data, indent=2, ensure_ascii=False))


def note(text: str) -> None:
    """A line for the person, beside the result."""
    click.echo(text, err=True)


def write_file(path: Path, content: bytes) -> Path:
    """Write a file, its folder too; StoreError, one line, where that cannot be."""
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content)
    except OSError as error:
        kind = DiskFullError if error.errno in {errno.ENOSPC, errno.EDQUOT, errno.EFBIG} else StoreError
        raise kind(
            f"the file cannot be written ({error.strerror})", where=str(path), to_do="Name another place"
        ) from None
    return path


def clock_text(seconds: float | None) -> str:
    """Seconds as mm:ss.t, from an hour on h:mm:ss.t; blanks where not known."""
    if seconds is None:
        return " " * 7
    minutes, tenths = divmod(round(seconds * 10), 600)
    hours, minutes = divmod(minutes, 60)
    head = f"{hours}:{minutes:02d}" if hours else f"{minutes:02d}"
    return f"{head}:{tenths // 10:02d}.{tenths % 10}"


@contextmanager
def bar(what: str) -> Iterator[Any]:
    """A progress bar on standard error; give it (done, total). Silent where that is no terminal."""
    console = Console(stderr=True)
    progress = Progress(
        TextColumn("{task.description}"),
        BarColumn(bar_width=30),
        TextColumn("{task.percentage:>3.0f} %"),
        TimeRemainingColumn(),
        console=console,
        disable=not console.is_terminal,
        transient=True,
        redirect_stdout=False,
    )
    with progress:
        task = progress.add_task(what, total=None)

        def step(done: float, total: float | None) -> None:
            progress.update(task, completed=done, total=total)

        yield step


def table(header: Sequence[str], rows: Sequence[Sequence[str]], *, width: int = WIDTH) -> str:
    """A plain table; the last column is wrapped so that no line passes *width*."""
    wide = [max([len(header[i]), *(len(row[i]) for row in rows)]) for i in range(len(header))]
    room = max(12, width - sum(wide[:-1]) - 2 * (len(header) - 1))
    wide[-1] = min(wide[-1], room)
    lines = [_line(header, wide), "  ".join("-" * w for w in wide)]
    for row in rows:
        parts = _wrapped(row[-1], wide[-1])
        lines.append(_line([*row[:-1], parts[0]], wide))
        lines += [_line([""] * (len(row) - 1) + [part], wide) for part in parts[1:]]
    return "\n".join(lines)


def _line(cells: Sequence[str], wide: Sequence[int]) -> str:
    return "  ".join(cell.ljust(w) for cell, w in zip(cells, wide, strict=True)).rstrip()


def _wrapped(text: str, width: int) -> list[str]:
    lines, current = [], ""
    for word in text.split():
        if current and len(current) + 1 + len(word) > width:
            lines.append(current)
            current = word
        else:
            current = f"{current} {word}".strip()
    return [*lines, current]
