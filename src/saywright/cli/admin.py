"""`verify`, `sheet`, `models`, `schema`: the house's own affairs."""

from __future__ import annotations

from dataclasses import asdict

import click

from saywright.cli.common import bar, json_option, print_json, table, user_store
from saywright.cli.ears import models_folder, models_folders
from saywright.errors import InputError, StoreError
from saywright.hearing.models import get_model, installed_at, known_models
from saywright.record.types import json_schema
from saywright.sheets.load import check_file, list_sheets
from saywright.wiring.verify import verify_job


@click.command()
@click.argument("jobs", nargs=-1, metavar="[JOB]...")
@json_option
def verify(jobs: tuple[str, ...], as_json: bool) -> None:
    """Check that no event or file of a job was altered; without JOB, of all jobs.

    \b
    Example:
      saywright verify 20260301-1
    """
    found: list[dict[str, str | int | None]] = []
    broken: StoreError | None = None
    with user_store() as store, bar("Checking") as step:
        chosen = jobs or tuple(row.id for row in store.jobs())
        for number, job in enumerate(chosen):
            step(number, len(chosen))
            try:
                last, files = verify_job(store, job)
                found.append({"job": job, "hash": last, "files": files, "fault": None})
            except StoreError as error:
                broken = broken or error
                found.append({"job": job, "hash": None, "files": None, "fault": error.what})
    if as_json:
        print_json(found)
    elif not found:
        click.echo("No jobs yet.")
    else:
        cells = [
            (
                str(row["job"]),
                f"whole, {row['files']} files; {row['hash']}" if row["hash"] else str(row["fault"]),
            )
            for row in found
        ]
        click.echo(table(("Job", "Record"), cells))
    if broken:
        raise broken


@click.group()
def sheet() -> None:
    """Bench sheets: list, check.

    \b
    Example:
      saywright sheet check my-pump.toml
    """


@sheet.command("list")
@json_option
def list_shipped(as_json: bool) -> None:
    """The sheets that ship.

    \b
    Example:
      saywright sheet list
    """
    if as_json:
        print_json([asdict(found) for found in list_sheets()])
    else:
        click.echo(table(("Sheet", "For"), [(found.id, found.title) for found in list_sheets()]))


@sheet.command()
@click.argument("file")
@json_option
def check(file: str, as_json: bool) -> None:
    """Everything wrong with a sheet, each with its line and key.

    \b
    Example:
      saywright sheet check my-pump.toml
    """
    faults = check_file(file)
    if as_json:
        print_json([asdict(fault) for fault in faults])
    elif not faults:
        click.echo(f"{file}: no fault found")
    else:
        for fault in faults:
            click.echo(f"{file}: {fault}")
    if faults:
        count = len(faults)
        raise InputError(
            f"{count} fault{'s' if count != 1 else ''}", where=file, to_do="Mend each, then check again"
        )


@click.group()
def models() -> None:
    """Recognisers' models: list, get.

    \b
    Example:
      saywright models list
    """


@models.command("list")
@json_option
def list_known(as_json: bool) -> None:
    """The models known, and which of them are here.

    \b
    Example:
      saywright models list
    """
    found = [(entry, installed_at(entry, models_folders())) for entry in known_models()]
    if as_json:
        print_json([entry.model_dump(mode="json") | {"installed_at": place} for entry, place in found])
        return
    rows = [
        (
            entry.name,
            entry.engine,
            f"{entry.size_mb} MB",
            "" if entry.error_rate is None else f"{entry.error_rate} %",
            "" if entry.time_ratio is None else f"{entry.time_ratio}, {entry.memory_mb} MB",
            "yes" if place else "no",
        )
        for entry, place in found
    ]
    click.echo(table(("Model", "Engine", "Size", "Errors", "Cost", "Here"), rows))
    click.echo("\nErrors: published word error rate. Tests differ: --json tells which, from where, and the")
    click.echo("licence. Cost: time to hear over length of the audio, and memory, measured on two cores;")
    click.echo("none where the model could not be had to measure.")


@models.command()
@click.argument("name")
def get(name: str) -> None:
    """Fetch a model into the data folder. The one command that uses the network.

    \b
    Example:
      saywright models get vosk-model-small-en-us-0.15
    """
    with bar(f"Fetching {name}") as step:
        place = get_model(name, into=models_folder(), progress=step)
    click.echo(str(place))


@click.command()
def schema() -> None:
    """JSON Schema of the record, as printed by parse, hear and export.

    \b
    Example:
      saywright schema > record.schema.json
    """
    print_json(json_schema())
