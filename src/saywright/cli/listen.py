"""`listen`: the microphone, live."""

from __future__ import annotations

import signal
from collections.abc import Callable
from contextlib import ExitStack
from pathlib import Path

import click

from saywright.bench import Bench
from saywright.cli.arriving import opened_camera, pictures_arriving
from saywright.cli.common import bar, note, user_store
from saywright.cli.ears import Choice
from saywright.cli.hear import NEW, open_bench
from saywright.cli.keys import keys
from saywright.cli.live_view import lines_of, open_view
from saywright.cli.sitting import find_voice, silent, sitting_options, speak
from saywright.hearing.feed import Live
from saywright.wiring.live import Session, try_microphone
from saywright.wiring.readback import ReadBack


@click.command()
@sitting_options(without_job="Default: a new one (needs --sheet).")
def listen(
    *,
    sheet_name: str | None,
    job: str | None,
    device: str | None,
    read_back: bool,
    photos: Path | None,
    camera: str | None,
    engine: str | None,
    model: str | None,
    ears: str | None,
    actor: str | None,
) -> None:
    """Hear the microphone into the record of a job, live.

    In a terminal the space bar pauses and goes on, q ends it; so do the words "pause listening"
    and "resume listening", and Ctrl-C. After a pause by key nothing is heard; after one by voice
    only the word to go on is, and nothing else is kept.

    Every second is on disk as it is spoken. A session that was cut off is heard on first.

    \b
    Example:
      saywright listen --sheet outboard-float-carburetor
    """
    if read_back:
        find_voice()
    try_microphone(device)
    with user_store() as store, opened_camera(camera) as shooter:
        bench = open_bench(store, NEW if job is None else job, sheet_name, Choice(engine, model, ears), actor)
        if job is not None:
            with bar("Hearing what was cut off") as step:
                for utterance in bench.hear_rest(progress=step):
                    click.echo("\n".join(lines_of(bench, utterance)))
        note(f"Job {bench.job_id}. Speak; Ctrl-C ends it.")
        with pictures_arriving(bench, photos, shooter) as also:
            _live(bench, device, also, read_back=read_back)
    note(f"Kept in job {bench.job_id}")


def _live(bench: Bench, device: str | None, also: Callable[[Live], None], *, read_back: bool) -> None:
    session = bench.microphone(device)
    before = signal.signal(signal.SIGINT, lambda *_: session.stop())
    try:
        with ExitStack() as stack:
            view = stack.enter_context(open_view(bench))
            if stack.enter_context(keys(lambda key: _press(session, key))):
                note("Space pauses and goes on, q ends it.")
            speaker = find_voice(bench.sheet.language) if read_back else None
            voice = stack.enter_context(ReadBack(session, speaker, silent)) if speaker else None

            def tell(told: Live) -> None:
                also(told)
                view.show(told)
                if voice is not None:
                    speak(bench, voice, told)

            session.run(tell)
    finally:
        signal.signal(signal.SIGINT, before)
    if session.overflows:
        note(f"The system lost audio {session.overflows} times before it got here; the machine is too busy.")


def _press(session: Session, key: str) -> None:
    if key in ("q", "Q"):
        session.stop()
    elif key == " ":
        if session.paused:
            session.resume()
        else:
            session.pause()
