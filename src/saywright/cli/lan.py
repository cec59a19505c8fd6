"""What the commands that serve pages share: how far they are reached."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import click

from saywright.web.lan import Reach

_FILE = click.Path(path_type=Path, dir_okay=False)


def reach_options(command: Callable[..., Any]) -> Callable[..., Any]:
    """The options --lan, --certificate and --key, given to the command as `lan`, `certificate`, `key`."""
    for option in (
        click.option("--key", type=_FILE, help="Its private key, PEM. Default: in the same file."),
        click.option("--certificate", type=_FILE, help="Encrypt with this certificate, PEM."),
        click.option(
            "--lan", is_flag=True, help="Let the network in too. Needs a person: 'saywright people add'."
        ),
    ):
        command = option(command)
    return command


def reach_of(lan: bool, certificate: Path | None, key: Path | None) -> Reach:
    """How far the server is reached, as the options say."""
    return Reach(lan=lan, certificate=certificate, key=key)
