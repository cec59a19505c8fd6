"""`across`: what all jobs of one sheet have in common."""

from __future__ import annotations

import textwrap

import click

from saywright.cli.common import WIDTH, json_option, print_json, table, user_store
from saywright.wiring.across import across_data, over_all


@click.command()
@click.argument("sheet")
@json_option
def across(sheet: str, as_json: bool) -> None:
    """What fails most over all jobs of a sheet, and how the values lie within their limits.

    Capability (Cp, Cpk) is that of the parts as they came in, and is told from 30 values on.

    \b
    Example:
      saywright across outboard-float-carburetor
    """
    with user_store() as store:
        found = over_all(store, sheet)
    if as_json:
        print_json(across_data(found))
        return
    click.echo(f"{found.jobs} job{'s' if found.jobs != 1 else ''}")
    if found.faults:
        rows = [(str(fault.jobs), f"of {fault.of}", fault.name) for fault in found.faults]
        click.echo(table(("Jobs", "Seen in", "What failed, as found"), rows))
    else:
        click.echo("Nothing was found to fail.")
    for spread in found.spreads:
        text = f"{spread.name}: {spread.sentence}"
        click.echo(textwrap.fill(text, WIDTH, subsequent_indent="  "))
