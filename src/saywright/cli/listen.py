"""`listen`: the microphone, live, as plain lines."""

from __future__ import annotations

import signal

import click

from saywright.bench import Bench
from saywright.cli.common import bar, by_option, clock_text, note, sheet_option, user_store
from saywright.cli.ears import Choice, listener_options
from saywright.cli.hear import open_bench
from saywright.hearing.feed import Settled
from saywright.hearing.words import Utterance
from saywright.wiring.live import try_microphone


@click.command()
@sheet_option
@click.option("--job", metavar="JOB", help="Go on with this job. Default: a new one (needs --sheet).")
@click.option("--device", metavar="NAME", help="The microphone. Default: the system's.")
@listener_options
@by_option
def listen(
    *,
    sheet_name: str | None,
    job: str | None,
    device: str | None,
    engine: str | None,
    model: str | None,
    actor: str | None,
) -> None:
    """Hear the microphone into the record of a job, live. Ctrl-C ends it.

    Every second is on disk as it is spoken. A session that was cut off is heard on first.

    \b
    Example:
      saywright listen --sheet outboard-float-carburetor
    """
    try_microphone(device)
    with user_store() as store:
        bench = open_bench(store, job or "new", sheet_name, Choice(engine, model), actor)
        if job is not None:
            with bar("Hearing what was cut off") as step:
                show(bench, bench.hear_rest(progress=step))
        note(f"Job {bench.job_id}. Speak; Ctrl-C ends it.")
        _live(bench, device)
    note(f"Kept in job {bench.job_id}")


def _live(bench: Bench, device: str | None) -> None:
    session = bench.microphone(device)
    before = signal.signal(signal.SIGINT, lambda *_: session.stop())
    try:
        session.run(lambda told: show(bench, [told.utterance]) if isinstance(told, Settled) else None)
    finally:
        signal.signal(signal.SIGINT, before)
    if session.overflows:
        note(f"The system lost audio {session.overflows} times before it got here; the machine is too busy.")


def show(bench: Bench, heard: list[Utterance]) -> None:
    """Each utterance as a line, and below it what it was understood as."""
    for utterance in heard:
        click.echo(f"[{clock_text(utterance.start_s)}] {utterance.best.text}")
        for line in bench.told(utterance):
            click.echo(f"           {line}")
