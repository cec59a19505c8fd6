"""`parts`: what came off and what went on."""

from __future__ import annotations

from dataclasses import asdict

import click

from saywright.bench import Bench
from saywright.cli.common import json_option, now, print_json, table, user_store


@click.command()
@click.argument("job")
@click.option("--at", "up_to", metavar="ITEM", help="As it was when this item had been said, like s12.")
@json_option
def parts(job: str, up_to: str | None, as_json: bool) -> None:
    """Parts off and on, by component: as it stands, or as it stood when an item had been said.

    Later corrections count: it is what is known today of that moment.

    \b
    Example:
      saywright parts 20260301-1 --at s12
    """
    with user_store() as store:
        found = Bench.resume(store, job, clock=now).parts(up_to)
    if as_json:
        print_json([{"name": one.name, **asdict(one.line), "told": one.told} for one in found])
    elif not found:
        click.echo("No part was said to come off or to go on.")
    else:
        rows = [
            _row(one.name, one.line.removed, one.line.fitted, one.line.renewed, one.told) for one in found
        ]
        click.echo(table(("Part", "Off", "On", "New of these", "Balance"), rows))


def _row(name: str, off: int, on: int, new: int, told: tuple[str, ...]) -> tuple[str, ...]:
    return name, str(off), str(on), str(new), ", ".join(told) or "balanced"
