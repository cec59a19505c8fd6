"""`hear` and `parse`: audio or text in, words and record out."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from saywright.bench import Bench
from saywright.cli.common import (
    bar,
    by_option,
    clock_text,
    json_option,
    need_sheet,
    note,
    now,
    passing_store,
    print_json,
    sheet_option,
    user_store,
    who,
)
from saywright.cli.ears import Choice, listener_options, make_listener
from saywright.cli.words import shop_sheet
from saywright.hearing.audio import read_audio
from saywright.hearing.words import Utterance
from saywright.store.protocol import Store

NEW = "new"  # in place of a job's id
_CUT_S = 0.5  # so much less than its head promises, and a recording is told as cut off

_job_option = click.option(
    "--job", metavar="JOB", help="Put it into the record of this job; 'new' opens one (needs --sheet)."
)


@click.command()
@click.argument("audio", nargs=-1, type=click.Path(path_type=Path))
@sheet_option
@_job_option
@listener_options
@by_option
@json_option
def hear(
    *,
    audio: tuple[Path, ...],
    sheet_name: str | None,
    job: str | None,
    engine: str | None,
    model: str | None,
    ears: str | None,
    actor: str | None,
    as_json: bool,
) -> None:
    """Recordings to words, and with --job into the record.

    Without --job nothing is kept. With --json the record is printed. A recording that was cut
    off is heard on from where it stopped: give it again, or no recording and the job, for all of them.

    \b
    Example:
      saywright hear strip-down.m4a --sheet outboard-float-carburetor
    """
    if not audio and job in (None, NEW):
        raise click.UsageError("Name a recording, or with --job a job whose recordings were cut off.")
    for path in audio:
        read_audio(path)  # what is no recording is told before a job is opened or anything heard
    with passing_store() if job is None else user_store() as store:
        bench = open_bench(store, job, sheet_name, Choice(engine, model, ears), actor)
        if job == NEW:
            note(f"Job {bench.job_id}")
        for path in audio:
            _hear_one(bench, path, quiet=as_json)
        if not audio:
            _hear_rest(bench, quiet=as_json)
        if as_json:
            print_json(bench.record().as_json())


def _hear_one(bench: Bench, path: Path, *, quiet: bool) -> None:
    done_s = 0.0
    with bar(f"Hearing {path.name}") as step:

        def progress(seconds: float, whole_s: float | None) -> None:
            nonlocal done_s
            done_s = seconds
            step(seconds, whole_s)

        heard = bench.hear_file(path, progress=progress)
    audio = read_audio(path)
    # The length that other formats tell is an estimate.
    if audio.engine == "sndfile" and audio.duration_s and done_s < audio.duration_s - _CUT_S:
        note(f"{path}: it breaks off after {done_s:.0f} s of {audio.duration_s:.0f} s; all before was heard")
    if not heard:
        note(f"{path}: no speech was heard in it")
    _show(heard, quiet=quiet)


def _hear_rest(bench: Bench, *, quiet: bool) -> None:
    with bar("Hearing what was cut off") as step:
        heard = bench.hear_rest(progress=step)
    if not heard:
        note("Nothing was left to be heard")
    _show(heard, quiet=quiet)


def _show(heard: list[Utterance], *, quiet: bool) -> None:
    if not quiet:
        for utterance in heard:
            click.echo(f"[{clock_text(utterance.start_s)}] {utterance.best.text}")


def open_bench(
    store: Store, job: str | None, sheet_name: str | None, choice: Choice, actor: str | None
) -> Bench:
    """A bench with ears: on the job named, or on a new one for the sheet named."""
    if job is None or job == NEW:
        sheet = shop_sheet(need_sheet(sheet_name))
        return Bench.open(store, sheet, clock=now, listener=make_listener(sheet, choice), actor=who(actor))
    sheet = Bench.resume(store, job, clock=now).sheet
    return Bench.resume(store, job, clock=now, listener=make_listener(sheet, choice), actor=who(actor))


@click.command()
@click.argument("text", type=click.Path(path_type=Path, allow_dash=True))
@sheet_option
@_job_option
@by_option
@json_option
def parse(text: Path, sheet_name: str | None, job: str | None, actor: str | None, as_json: bool) -> None:
    """Text to statements and record, no audio. '-' reads standard input.

    One utterance a line, each with an optional start time:
    [04:12.6] float height is eighteen point four

    Without --job nothing is kept.

    \b
    Example:
      echo "float height is eighteen point four two" |
        saywright parse - --sheet outboard-float-carburetor --json
    """
    with passing_store() if job is None else user_store() as store:
        if job is None or job == NEW:
            bench = Bench.open(store, shop_sheet(need_sheet(sheet_name)), clock=now, actor=who(actor))
        else:
            bench = Bench.resume(store, job, clock=now, actor=who(actor))
        if str(text) == "-":
            said = bench.say_bytes(sys.stdin.buffer.read(), where="standard input")
        else:
            said = bench.say_file(text)
        if not said:
            note(f"{'standard input' if str(text) == '-' else text}: there were no words in it")
        if job == NEW:
            note(f"Job {bench.job_id}")
        if as_json:
            print_json(bench.record().as_json())
        else:
            click.echo(bench.export("text").decode(), nl=False)
