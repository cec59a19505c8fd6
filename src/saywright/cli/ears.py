"""Which listener a command hears with."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import click

from saywright.cli.common import data_folder, note
from saywright.hearing.listener import Listener
from saywright.sheets.model import Sheet


@dataclass(frozen=True, slots=True)
class Choice:
    """What the command line says about the listener; None leaves it to what is installed."""

    listener: str | None = None
    model: Path | None = None


def listener_options(command: Callable[..., Any]) -> Callable[..., Any]:
    """The options that name a listener and its model."""
    named = click.option(
        "--listener",
        "listener_name",
        metavar="NAME",
        help="vosk, whisper or sphinx. Default: the best one whose model is here.",
    )
    model = click.option(
        "--model", type=click.Path(path_type=Path), metavar="FOLDER", help="Folder of its model."
    )
    return named(model(command))


def make_listener(sheet: Sheet, choice: Choice) -> Listener:
    """The listener for this sheet; what was chosen, and why, is told on standard error."""
    from saywright.hearing.choose import choose_listener  # noqa: PLC0415  (recognisers are slow to load)

    folder = data_folder(click.get_current_context().find_root().obj) / "models"
    chosen = choose_listener(sheet, listener=choice.listener, model=choice.model, folders=(Path("models"), folder))
    note(f"Listener: {chosen.listener.name} ({chosen.why})")
    return chosen.listener
