"""Which listener a command hears with."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import click

from saywright.cli.common import data_folder, note
from saywright.hearing.adapters.bench_ears import EARS
from saywright.hearing.choose import ENGINES, choose_listener
from saywright.hearing.listener import Listener
from saywright.hearing.models import default_models_dirs
from saywright.sheets.model import Sheet


@dataclass(frozen=True, slots=True)
class Choice:
    """What the command line says about the listener; None leaves it to what is installed."""

    engine: str | None = None
    model: str | None = None
    ears: str | None = None


def listener_options(command: Callable[..., Any]) -> Callable[..., Any]:
    """The options that name a listener and its model."""
    engine = click.option(
        "--engine", type=click.Choice(ENGINES), help="Default: the best one whose model is here."
    )
    model = click.option(
        "--model", metavar="MODEL", help="Folder of its model, or the name of one that is here."
    )
    ears = click.option(
        "--ears",
        type=click.Choice(EARS),
        help="Whisper tiny.en as it is, or trained on bench talk (docs/ears.md tells when). Default: base.",
    )
    return engine(model(ears(command)))


def models_folder() -> Path:
    """Where models that are fetched go: beside the jobs."""
    return data_folder(click.get_current_context().find_root().obj) / "models"


def models_folders() -> tuple[Path, ...]:
    """Where models are looked for."""
    return tuple(dict.fromkeys((*default_models_dirs(), models_folder().resolve())))


def make_listener(sheet: Sheet, choice: Choice) -> Listener:
    """The listener for this sheet; what was chosen, and why, is told on standard error."""
    listener, why = choose_listener(
        sheet,
        engine=choice.engine,
        model=choice.model,
        ears=choice.ears,
        models_dirs=models_folders(),
    )
    note(f"Listener: {why}")
    return listener
