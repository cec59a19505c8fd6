"""`review`, `sign`, `desk`: people settle what asks, and stand for the record."""

from __future__ import annotations

from pathlib import Path

import click

from saywright.bench import Bench
from saywright.cli.common import by_option, note, now, print_json, table, user_store, who
from saywright.cli.common import json_option as _json
from saywright.cli.lan import reach_of, reach_options
from saywright.cli.people import signer

_seen = click.option(
    "--seen", type=int, metavar="EVENT", help="Event of the item as you saw it; refused if it changed."
)
_why = click.option("--why", default="", metavar="TEXT", help="The reason, for the record.")


@click.group()
def review() -> None:
    """Settle what asks, from the terminal. The desk does the same in a browser.

    \b
    Example:
      saywright review list 20260301-1
    """


@review.command("list")
@click.argument("job")
@_json
def list_open(job: str, as_json: bool) -> None:
    """What is open: what asks, what is missing.

    \b
    Example:
      saywright review list 20260301-1
    """
    with user_store() as store:
        items = Bench.resume(store, job, clock=now).record().open_items
    if as_json:
        print_json([item.model_dump(mode="json") for item in items])
    elif not items:
        click.echo("Nothing is open.")
    else:
        rows = [(i.id, i.text + (f" (explained: {i.explained})" if i.explained else "")) for i in items]
        click.echo(table(("Open item", "What"), rows))


@review.command()
@click.argument("job")
@click.argument("item")
@by_option
@_seen
def accept(job: str, item: str, actor: str | None, seen: int | None) -> None:
    """Stand for an item as it is.

    \b
    Example:
      saywright review accept 20260301-1 s12 --by Ada
    """
    with user_store() as store:
        event = Bench.resume(store, job, clock=now).accept(item, actor=who(actor), seen=seen)
    note(f"Event {event.seq}: {item} accepted by {event.actor}")


@review.command()
@click.argument("job")
@click.argument("item")
@click.argument("changes", nargs=-1, required=True, metavar="FIELD=VALUE...")
@by_option
@_why
@_seen
def correct(
    *, job: str, item: str, changes: tuple[str, ...], actor: str | None, why: str, seen: int | None
) -> None:
    """Give other values for fields of an item. An empty value stands for "not said".

    \b
    Example:
      saywright review correct 20260301-1 s12 value=18.40 --by Ada --why "played the clip"
    """
    given = {}
    for change in changes:
        field, sign_, value = change.partition("=")
        if not sign_:
            raise click.UsageError(f"'{change}' is not FIELD=VALUE.")
        if field.strip() in given:
            raise click.UsageError(f"'{field.strip()}' is given twice.")
        given[field.strip()] = typed_value(field.strip(), value.strip())
    with user_store() as store:
        event = Bench.resume(store, job, clock=now).correct(item, given, why=why, actor=who(actor), seen=seen)
    note(f"Event {event.seq}: {item} corrected by {event.actor}")


def typed_value(field: str, text: str) -> object:
    """The text as the record's type for this field; what does not fit is refused later."""
    if field in {"present", "approximate", "partial"} and text.lower() in {"yes", "no", "true", "false"}:
        return text.lower() in {"yes", "true"}
    if field in {"count", "quantity"} and text.isdigit():
        return int(text)
    if field == "conditions":
        return tuple(part.strip() for part in text.split(",") if part.strip())
    return text


@review.command()
@click.argument("job")
@click.argument("item")
@by_option
@_why
@_seen
def withdraw(job: str, item: str, actor: str | None, why: str, seen: int | None) -> None:
    """Take an item out of the record. What was said is kept.

    \b
    Example:
      saywright review withdraw 20260301-1 s12 --by Ada --why "said about another motor"
    """
    with user_store() as store:
        event = Bench.resume(store, job, clock=now).withdraw(item, why=why, actor=who(actor), seen=seen)
    note(f"Event {event.seq}: {item} withdrawn by {event.actor}")


@review.command()
@click.argument("job")
@click.argument("open_item")
@click.argument("why")
@by_option
def explain(job: str, open_item: str, why: str, actor: str | None) -> None:
    """State why an open item may stay open.

    \b
    Example:
      saywright review explain 20260301-1 missing:float.height@as_left "float not refitted" --by Ada
    """
    with user_store() as store:
        event = Bench.resume(store, job, clock=now).explain(open_item, why, actor=who(actor))
    note(f"Event {event.seq}: {open_item} explained by {event.actor}")


@review.command()
@click.argument("job")
@click.argument("photo")
@click.option("--mark", metavar="ITEM", help="The spoken mark it belongs to.")
@click.option("--component", metavar="ID", help="The part it shows, where no mark was spoken.")
@click.option("--which", metavar="NAME", help="Which of several.")
@by_option
def place(
    *, job: str, photo: str, mark: str | None, component: str | None, which: str | None, actor: str | None
) -> None:
    """Put a picture at a spoken mark or on a part; with neither, take it off its place.

    \b
    Example:
      saywright review place 20260301-1 p3 --mark s41 --by Ada
    """
    with user_store() as store:
        bench = Bench.resume(store, job, clock=now)
        event = bench.place_photo(photo, mark=mark, component=component, which=which, actor=who(actor))
    note(f"Event {event.seq}: {photo} placed by {event.actor}")


@click.command()
@click.argument("job")
@by_option
@click.option("--statement", default="The record is complete and correct.", show_default=True)
def sign(job: str, actor: str | None, statement: str) -> None:
    """Sign the record of a job. Refused while anything is open and not explained.

    Where people are named, the signer's passphrase is asked for, or read from standard input.

    \b
    Example:
      saywright sign 20260301-1 --by "Ada Holm"
    """
    with user_store() as store:
        name, role = signer(store.people, who(actor))
        signed = Bench.resume(store, job, clock=now).sign(actor=name, statement=statement, role=role)
    click.echo(f"Signed by {signed.by} at {signed.at:%Y-%m-%d %H:%M} UTC, record {signed.record_hash}")


@click.command()
@reach_options
@by_option
def desk(*, port: int, lan: bool, certificate: Path | None, key: Path | None, actor: str | None) -> None:
    """The review desk, in the browser of this machine, with --lan of its network too. Ctrl-C ends it.

    \b
    Example:
      saywright desk --port 8712
    """
    from saywright.web.app import serve  # noqa: PLC0415  (the web server is needed for this command only)

    with user_store() as store:
        reach = reach_of(lan, certificate, key)
        serve(store, now, port=port, actor=who(actor), reach=reach, announce=note)
