"""`people`: who may sign in at the desk and the board, and as what."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from typing import Any

import click

from saywright.cli.common import by_option, json_option, note, print_json, table, user_store, who
from saywright.errors import InputError, RefusedError
from saywright.people import MIN_PASSPHRASE, TOLD, Person, PersonChange, Right, Role
from saywright.store.protocol import People

_role = click.option(
    "--role",
    type=click.Choice([role.value for role in Role]),
    default=Role.TECHNICIAN.value,
    show_default=True,
    help="technician: everything; reviewer: all but the microphone; viewer: reads.",
)


@click.group()
def people() -> None:
    """Who may sign in at the desk and the board: list, add, role, passphrase, remove, history.

    Once anybody is named, the desk asks for a sign-in; --lan needs that.

    \b
    Example:
      saywright people add "Ada Holm" --role technician
    """


@people.command("list")
@json_option
def list_people(as_json: bool) -> None:
    """Everybody, with the role, and whether they are still let in.

    \b
    Example:
      saywright people list
    """
    with user_store() as store:
        found = store.people.all()
    plain = [
        {"name": one.name, "role": one.role.value, "active": one.active, "may": _may(one)} for one in found
    ]
    rows = [(one.name, one.role.value if one.active else "removed", ", ".join(_may(one))) for one in found]
    nobody = "Nobody yet, so the desk asks for no sign-in. 'saywright people add NAME' names somebody."
    _show(plain if as_json else None, ("Name", "Role", "May"), rows, nothing=nobody)


@people.command()
@click.argument("name")
@_role
@by_option
def add(name: str, role: str, actor: str | None) -> None:
    """Name a person. The passphrase or PIN is asked for, or read from standard input.

    \b
    Example:
      saywright people add "Ada Holm" --role technician
    """
    with user_store() as store:
        person = store.people.add(name, Role(role), _passphrase(), by=who(actor))
    note(f"{person.name} may sign in as {person.role.value}")


@people.command("role")
@click.argument("name")
@click.argument("role", type=click.Choice([role.value for role in Role]))
@by_option
def set_role(name: str, role: str, actor: str | None) -> None:
    """Give a person another role. It holds from their next click.

    \b
    Example:
      saywright people role "Ada Holm" reviewer
    """
    with user_store() as store:
        person = store.people.set_role(name, Role(role), by=who(actor))
    note(f"{person.name} is {person.role.value} from now on")


@people.command()
@click.argument("name")
@by_option
def passphrase(name: str, actor: str | None) -> None:
    """Give a person another passphrase. It is asked for, or read from standard input.

    \b
    Example:
      saywright people passphrase "Ada Holm"
    """
    with user_store() as store:
        store.people.active(name)  # before anything is asked for
        person = store.people.set_passphrase(name, _passphrase(), by=who(actor))
    note(f"{person.name} has another passphrase from now on")


@people.command()
@click.argument("name")
@by_option
def remove(name: str, actor: str | None) -> None:
    """Let a person in no more. What they did stays in the record under their name.

    \b
    Example:
      saywright people remove "Ada Holm"
    """
    with user_store() as store:
        person = store.people.remove(name, by=who(actor))
        last = not store.people.defined()
    note(f"{person.name} is let in no more")
    if last:
        note("Nobody is left, so the desk asks for no sign-in, and answers on this machine only")


@people.command()
@json_option
def history(as_json: bool) -> None:
    """Every change of who may sign in: when, by whom, what.

    \b
    Example:
      saywright people history
    """
    with user_store() as store:
        found = store.people.history()
    plain = [
        {
            "at": one.at.isoformat(),
            "by": one.actor,
            "name": one.name,
            "change": one.change,
            "role": one.role.value,
        }
        for one in found
    ]
    rows = [(f"{one.at:%Y-%m-%d %H:%M} UTC", one.actor, one.name, _told(one)) for one in found]
    _show(
        plain if as_json else None, ("When", "By", "Name", "What"), rows, nothing="Nothing was changed yet."
    )


def _show(
    plain: list[dict[str, Any]] | None,
    head: tuple[str, ...],
    rows: Sequence[tuple[str, ...]],
    *,
    nothing: str,
) -> None:
    """As JSON where there is *plain* data, else a table, or the line for *nothing*."""
    if plain is not None:
        print_json(plain)
    else:
        click.echo(table(head, rows) if rows else nothing)


def _told(change: PersonChange) -> str:
    role = change.role.value
    return {
        "added": f"may sign in as {role}",
        "role": f"is {role} from then on",
        "passphrase": "has another passphrase",
        "removed": "is let in no more",
    }[change.change]


def _may(person: Person) -> list[str]:
    return [TOLD[right] for right in Right if person.may(right)]


def _passphrase() -> str:
    return _asked(f"PIN or passphrase, {MIN_PASSPHRASE} characters or more", again=True)


def _asked(wanted: str, *, again: bool) -> str:
    """Typed without being shown, twice where *again*; a line of standard input where that is no terminal."""
    if not sys.stdin.isatty():
        given = sys.stdin.readline().rstrip("\r\n")
        if not given:
            raise InputError(
                "no passphrase came",
                where="standard input",
                to_do="Type it at a terminal, or pipe one line in",
            )
        return given
    typed: str = click.prompt(wanted, hide_input=True, confirmation_prompt="Once more" if again else False)
    return typed


def signer(known: People, name: str) -> tuple[str, str | None]:
    """Who signs, and in which role; where people are named, only one who may, with the passphrase."""
    if not known.defined():
        return name, None
    person = known.get(name)
    if person is None or not person.may(Right.SIGN):
        raise RefusedError(
            "nobody of this name may sign",
            where=name,
            to_do="Give one with --by; 'saywright people list' tells",
        )
    if known.check(person.name, _asked(f"PIN or passphrase of {person.name}", again=False)) is None:
        raise RefusedError("the passphrase is not right", where=person.name, to_do="Try again")
    return person.name, person.role.value
