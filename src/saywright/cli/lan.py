"""What the commands that serve pages share: how far they are reached."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import click

from saywright.web.lan import DEFAULT_PORT, MAX_PORT, Reach

_FILE = click.Path(path_type=Path, dir_okay=False)


def reach_options(command: Callable[..., Any]) -> Callable[..., Any]:
    """The options --port, --lan, --certificate and --key, given to the command by these names."""
    for option in (
        click.option("--key", type=_FILE, help="Its private key, PEM. Default: in the same file."),
        click.option("--certificate", type=_FILE, help="Encrypt with this certificate, PEM."),
        click.option(
            "--lan", is_flag=True, help="Let the network in too. Needs a person: 'saywright people add'."
        ),
        click.option(
            "--port",
            type=click.IntRange(0, MAX_PORT),
            default=DEFAULT_PORT,
            show_default=True,
            help="Port on this machine; 0 takes any that is free.",
        ),
    ):
        command = option(command)
    return command


def reach_of(lan: bool, certificate: Path | None, key: Path | None) -> Reach:
    """How far the server is reached, as the options say."""
    return Reach(lan=lan, certificate=certificate, key=key)
