"""The `saywright` command. Every failure becomes one line and an exit code here, and nowhere else."""

from __future__ import annotations

import importlib
import sys
import tempfile
import traceback
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import click

from saywright.cli.common import data_folder
from saywright.cli.memory import search_seldom
from saywright.errors import SaywrightError

# Command → where it lives and what it does, so that a command loads its own stages only.
COMMANDS: dict[str, tuple[str, str]] = {
    "demo": ("saywright.cli.demo:demo", "The whole job on the recording and the pictures that ship."),
    "hear": ("saywright.cli.hear:hear", "Recordings to words, and with --job into the record."),
    "listen": ("saywright.cli.listen:listen", "The same from the microphone, live."),
    "parse": ("saywright.cli.hear:parse", "Text to statements and record, no audio."),
    "photos": ("saywright.cli.photos:photos", "Pictures into a job, and to their spoken marks."),
    "marker": ("saywright.cli.marker:marker", "The card that gives a picture its scale, as PDF."),
    "board": ("saywright.cli.board:board", "The board over the bench, live, and the desk beside it."),
    "desk": ("saywright.cli.review:desk", "The review desk, in the browser of this machine."),
    "review": ("saywright.cli.review:review", "Settle what asks, from the terminal."),
    "sign": ("saywright.cli.review:sign", "Sign the record of a job."),
    "report": ("saywright.cli.report:report", "The report for the customer, PDF and HTML."),
    "export": ("saywright.cli.report:export", "The record in another form."),
    "parts": ("saywright.cli.parts:parts", "Parts off and on: as it stands, or as it stood at an item."),
    "jobs": ("saywright.cli.jobs:jobs", "The jobs on record; 'jobs new' opens one."),
    "history": ("saywright.cli.jobs:history", "What was found and left at each visit of one item."),
    "across": ("saywright.cli.across:across", "What fails most over all jobs of a sheet, and capability."),
    "time": ("saywright.cli.time:time", "How long each part was worked on; corrections of it."),
    "verify": ("saywright.cli.admin:verify", "Check that no event and no file was altered."),
    "sheet": ("saywright.cli.admin:sheet", "Bench sheets: list, check."),
    "mic": ("saywright.cli.mic:mic", "Try a microphone: will it do, and what to change."),
    "words": ("saywright.cli.words:words", "The shop's own words: list, add, remove."),
    "people": ("saywright.cli.people:people", "Who may sign in, and as what: list, add, role, remove."),
    "models": ("saywright.cli.admin:models", "Recognisers' models: list, get."),
    "schema": ("saywright.cli.admin:schema", "JSON Schema of the record."),
}


class _Lazy(click.Group):
    """A group whose commands are imported when they are run."""

    def list_commands(self, ctx: click.Context) -> list[str]:  # noqa: ARG002
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:  # noqa: ARG002
        if cmd_name not in COMMANDS:
            return None
        module, _, name = COMMANDS[cmd_name][0].partition(":")
        command = getattr(importlib.import_module(module), name)
        assert isinstance(command, click.Command)
        return command

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:  # noqa: ARG002
        with formatter.section("Commands"):
            formatter.write_dl([(name, told) for name, (_, told) in COMMANDS.items()])


class _Folder(click.Path):
    """A folder that is named. Without a name it would be the one we stand in, and filled there."""

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> Any:
        if value == "":
            self.fail("no folder is named", param, ctx)
        return super().convert(value, param, ctx)


@click.group(cls=_Lazy, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(package_name="saywright", message="saywright %(version)s")
@click.option(
    "--data",
    type=_Folder(path_type=Path, file_okay=False),
    envvar="SAYWRIGHT_DATA",
    help="Folder for jobs, recordings and pictures. Also SAYWRIGHT_DATA.",
)
@click.pass_context
def cli(ctx: click.Context, data: Path | None) -> None:
    """Say what you find while your hands are in the part; get a judged, traceable record and a report.

    Nothing leaves this machine.

    \b
    Example:
      saywright parse notes.txt --sheet outboard-float-carburetor
    """
    ctx.obj = data


def main(args: list[str] | None = None) -> None:
    """Run the command line and exit."""
    search_seldom()
    sys.exit(run(args))


def run(args: list[str] | None = None) -> int:
    """Run the command line; the exit code."""
    given = sys.argv[1:] if args is None else args
    try:
        cli.main(args=given, prog_name="saywright", standalone_mode=False)
    except SaywrightError as error:
        return _tell(str(error), error.exit_code)
    except click.exceptions.NoArgsIsHelpError as error:
        click.echo(error.ctx.get_help() if error.ctx else error.format_message(), err=True)
        return 2
    except click.exceptions.Exit as error:
        return error.exit_code
    except click.ClickException as error:
        return _tell(f"{error.format_message()} {_try_help(error)}".strip(), 2)
    except (click.Abort, KeyboardInterrupt):
        return _tell("stopped; everything committed before is kept", 130)
    except BrokenPipeError:
        sys.stderr.close()
        return 0
    except Exception as error:  # the one place for faults of ours: one line, the rest in a file
        return _tell(f"a fault in the program ({type(error).__name__}: {error}). {_logged(given)}", 70)
    return 0


def _try_help(error: click.ClickException) -> str:
    context = getattr(error, "ctx", None)
    return f"Try '{context.command_path} --help'." if context else ""


def _tell(text: str, code: int) -> int:
    click.echo("saywright: " + " ".join(text.split()), err=True)
    return code


def _logged(args: list[str]) -> str:
    """Keep the traceback in the data folder, or where files can be written; where it is."""
    now = datetime.now(UTC)
    text = f"{now.isoformat()}\nsaywright {' '.join(args)}\n{traceback.format_exc()}\n"
    for folder in (data_folder(_given_data(args)) / "logs", Path(tempfile.gettempdir())):
        try:
            folder.mkdir(parents=True, exist_ok=True)
            place = folder / f"saywright-fault-{now:%Y%m%d-%H%M%S}.log"
            place.write_text(text, encoding="utf-8")
        except OSError:
            continue
        return f"What happened is in {place}"
    return "It could not be written to a file"


def _given_data(args: list[str]) -> Path | None:
    for index, arg in enumerate(args):
        if arg == "--data" and index + 1 < len(args):
            return Path(args[index + 1])
        if arg.startswith("--data="):
            return Path(arg.removeprefix("--data="))
    return None
