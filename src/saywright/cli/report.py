"""`report` and `export`: the record out of the house."""

from __future__ import annotations

from pathlib import Path

import click

from saywright.bench import Bench
from saywright.cli.common import bar, now, user_store, write_file

_SUFFIXES = {"json": "json", "csv": "csv", "parts": "parts.csv", "text": "txt", "pdf": "pdf", "html": "html"}


@click.command()
@click.argument("job")
@click.option(
    "--out", type=click.Path(path_type=Path, file_okay=False), default=Path(), help="Folder for the files."
)
@click.option("--format", "formats", type=click.Choice(["pdf", "html"]), multiple=True, help="Default: both.")
@click.option("--time", "with_time", is_flag=True, help="With the bench time by part.")
def report(job: str, out: Path, formats: tuple[str, ...], with_time: bool) -> None:
    """The report for the customer, PDF and HTML.

    \b
    Example:
      saywright report 20260301-1 --out ~/reports
    """
    with user_store() as store, bar("Setting the report") as step:
        bench = Bench.resume(store, job, clock=now)
        step(0, None)
        made = bench.report(formats or ("pdf", "html"), with_time=with_time)
    for name, content in made.items():
        click.echo(str(write_file(out / f"saywright-{job}.{name}", content)))


@click.command()
@click.argument("job")
@click.option("--format", "form", type=click.Choice(list(_SUFFIXES)), default="json", show_default=True)
@click.option("--out", type=click.Path(path_type=Path), help="File to write; '-' or none: standard output.")
def export(job: str, form: str, out: Path | None) -> None:
    """The record in another form.

    \b
    Example:
      saywright export 20260301-1 --format parts --out order.csv
    """
    with user_store() as store:
        bench = Bench.resume(store, job, clock=now)
        content = bench.report([form])[form] if form in {"pdf", "html"} else bench.export(form)
    if out is None or str(out) == "-":
        click.echo(content, nl=False)
    else:
        click.echo(str(write_file(out, content)))
