"""Write the page of every command, made from its own --help.

Usage: python tools/command_pages.py [FILE]; without FILE, to standard output.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path

import click

from saywright.cli.main import cli

HEAD = """# Commands

Made from `--help` by `make docs`. Exit code 0 only when what was asked was done; an error is one
line that says what was wrong, with what, and what to do about it.
"""
WIDTH = 88


def commands(command: click.Command, path: str, parent: click.Context | None) -> Iterator[tuple[str, str]]:
    """The command and all below it: full name, help text."""
    context = click.Context(
        command,
        info_name=path.rsplit(" ", 1)[-1],
        parent=parent,
        max_content_width=WIDTH,
        terminal_width=WIDTH,
        help_option_names=["-h", "--help"],
    )
    yield path, command.get_help(context)
    if isinstance(command, click.Group):
        for name in command.list_commands(context):
            inner = command.get_command(context, name)
            if inner is not None and not inner.hidden:
                yield from commands(inner, f"{path} {name}", context)


def page() -> str:
    """The whole page as Markdown."""
    parts = [f"## {name}\n\n```text\n{text}\n```\n" for name, text in commands(cli, "saywright", None)]
    return "\n".join([HEAD, *parts])


def main(arguments: list[str]) -> None:
    """Write the page to the file named, or print it."""
    if arguments:
        Path(arguments[0]).write_text(page(), encoding="utf-8")
    else:
        sys.stdout.write(page())


if __name__ == "__main__":
    main(sys.argv[1:])
