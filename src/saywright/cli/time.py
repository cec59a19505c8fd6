"""`time`: the bench time of a job, and its corrections."""

from __future__ import annotations

import click

from saywright.bench import Bench
from saywright.cli.common import by_option, json_option, now, print_json, table, user_store, who


@click.command()
@click.argument("job")
@click.option("--set", "component", metavar="COMPONENT", help="Part whose time is corrected; with --minutes.")
@click.option("--stage", type=click.Choice(["as_found", "as_left"]), default="as_found", show_default=True)
@click.option("--minutes", metavar="NUMBER", help="The right time, like 12 or 7.5.")
@click.option("--why", default="", metavar="TEXT")
@by_option
@json_option
def time(
    *,
    job: str,
    component: str | None,
    stage: str,
    minutes: str | None,
    why: str,
    actor: str | None,
    as_json: bool,
) -> None:
    """How long each part was worked on, from when things were said.

    \b
    Example:
      saywright time 20260301-1
      saywright time 20260301-1 --set main_jet --minutes 12 --why "phone call"
    """
    if (component is None) != (minutes is None):
        raise click.UsageError("--set and --minutes belong together.")
    with user_store() as store:
        bench = Bench.resume(store, job, clock=now)
        if component is not None and minutes is not None:
            bench.correct_time(component, stage, minutes, why=why, actor=who(actor))
        found = bench.time_data()
    if as_json:
        print_json(found)
        return
    rows = [(line["label"], line["stage"].replace("_", " "), line["told"]) for line in found["lines"]]
    if not rows:
        click.echo("No utterance of this job has a time.")
        return
    click.echo(table(("Part", "Stage", "Time"), rows))
    click.echo(found["told"])
