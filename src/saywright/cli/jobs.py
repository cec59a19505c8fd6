"""`jobs` and `history`: what is on record."""

from __future__ import annotations

import textwrap

import click

from saywright.bench import Bench
from saywright.cli.common import (
    WIDTH,
    by_option,
    json_option,
    need_sheet,
    now,
    print_json,
    sheet_option,
    table,
    user_store,
    who,
)
from saywright.cli.words import shop_sheet
from saywright.errors import NotFoundError
from saywright.store.protocol import JobRow
from saywright.wiring.history import Visit, course_data, course_sentences, courses, visits


@click.group(invoke_without_command=True)
@json_option
@click.pass_context
def jobs(ctx: click.Context, as_json: bool) -> None:
    """The jobs on record; 'jobs new' opens one.

    \b
    Example:
      saywright jobs
    """
    if ctx.invoked_subcommand is not None:
        return
    with user_store() as store:
        rows = store.jobs()
    if as_json:
        print_json([_plain(row) for row in rows])
    elif not rows:
        click.echo("No jobs yet. 'saywright jobs new --sheet SHEET' opens one.")
    else:
        cells = [(r.id, f"{r.opened_at:%Y-%m-%d}", r.serial or "", r.customer or "", _title(r)) for r in rows]
        click.echo(table(("Job", "Opened", "Serial", "Customer", "Title"), cells))


@jobs.command()
@sheet_option
@click.option("--title", metavar="TEXT")
@click.option("--item", metavar="TEXT", help="What is worked on.")
@click.option("--serial", metavar="TEXT", help="Its serial number.")
@click.option("--customer", metavar="TEXT")
@by_option
def new(
    *,
    sheet_name: str | None,
    title: str | None,
    item: str | None,
    serial: str | None,
    customer: str | None,
    actor: str | None,
) -> None:
    """Open a job and print its id.

    \b
    Example:
      saywright jobs new --sheet outboard-float-carburetor --serial H-1042 --customer "Harbour office"
    """
    sheet = shop_sheet(need_sheet(sheet_name))
    with user_store() as store:
        bench = Bench.open(
            store,
            sheet,
            clock=now,
            title=title,
            item=item,
            serial=serial,
            customer=customer,
            actor=who(actor),
        )
    click.echo(bench.job_id)


@click.command()
@click.argument("serial")
@json_option
def history(serial: str, as_json: bool) -> None:
    """What was found and left at each visit of the item with this serial number.

    Then, for each value read more than once: whether it changed since the visit before, where it is
    heading, and its control chart. With --json: `visits` and `courses`.

    \b
    Example:
      saywright history H-1042
    """
    with user_store() as store:
        found = visits(store, serial)
    if not found:
        raise NotFoundError(
            "no job with this serial number", where=serial, to_do="'saywright jobs' lists the jobs"
        )
    each = courses(found)
    if as_json:
        print_json({"visits": [_visit(v) for v in found], "courses": [course_data(c) for c in each]})
        return
    rows = [
        (f"{visit.opened_at:%Y-%m-%d}", visit.job_id, line.name, line.found or "–", line.left or "–")
        for visit in found
        for line in visit.lines
    ]
    if not rows:
        click.echo("No readings were taken.")
        return
    click.echo(table(("Date", "Job", "Reading", "As found", "As left"), rows))
    for course in each:
        told = course_sentences(course)
        if told:
            click.echo(f"\n{course.name}")
            for text in told:
                click.echo(textwrap.fill(text, WIDTH, initial_indent="  ", subsequent_indent="  "))


def _title(row: JobRow) -> str:
    """The title, and how many recordings wait to be heard on."""
    if not row.unheard:
        return row.title
    what = "1 recording" if row.unheard == 1 else f"{row.unheard} recordings"
    return f"{row.title} [{what} not heard to the end]"


def _plain(row: JobRow) -> dict[str, object]:
    return {
        "id": row.id,
        "title": row.title,
        "sheet": row.sheet,
        "item": row.item,
        "serial": row.serial,
        "customer": row.customer,
        "opened_at": row.opened_at.isoformat(),
        "events": row.events,
        "unheard": row.unheard,
    }


def _visit(visit: Visit) -> dict[str, object]:
    return {
        "job": visit.job_id,
        "opened_at": visit.opened_at.isoformat(),
        "readings": [
            {
                "component": line.component,
                "which": line.which,
                "characteristic": line.characteristic,
                "place": line.place,
                "as_found": line.found,
                "as_left": line.left,
                "asks": line.asks,
            }
            for line in visit.lines
        ],
    }
