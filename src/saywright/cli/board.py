"""`board`: the board over the bench and the desk, with a sitting that listens."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import click

from saywright.bench import Bench
from saywright.cli.arriving import opened_camera, pictures_arriving
from saywright.cli.common import bar, note, now, user_store, who
from saywright.cli.ears import Choice, make_listener
from saywright.cli.lan import reach_of, reach_options
from saywright.cli.sitting import find_voice, silent, sitting_options, speak
from saywright.cli.words import shop_sheet
from saywright.errors import DeviceError, ModelError
from saywright.hearing.audio import read_audio
from saywright.hearing.feed import Live
from saywright.hearing.listener import Listener
from saywright.hearing.playback import Playback
from saywright.sheets.model import Sheet
from saywright.store.protocol import Store
from saywright.web.app import serve
from saywright.web.board_sitting import BoardSitting
from saywright.web.stream import Streams
from saywright.wiring.live import Session
from saywright.wiring.readback import ReadBack
from saywright.wiring.shooting import Shooter


@click.command()
@sitting_options(without_job="Default: the newest, or with --sheet a new one.")
@click.option(
    "--from-recording",
    "recording",
    type=click.Path(path_type=Path),
    metavar="FILE",
    help="Play this recording in place of a microphone, as fast as it was spoken.",
)
@reach_options
def board(
    *,
    sheet_name: str | None,
    job: str | None,
    device: str | None,
    recording: Path | None,
    read_back: bool,
    photos: Path | None,
    camera: str | None,
    engine: str | None,
    model: str | None,
    ears: str | None,
    port: int,
    lan: bool,
    certificate: Path | None,
    key: Path | None,
    actor: str | None,
) -> None:
    """The board over the bench, and the desk, on this machine; the microphone is heard. Ctrl-C ends it.

    With --lan the network is let in too, where people sign in.
    Without a microphone or a recogniser the board says so and shows what comes from elsewhere.

    \b
    Example:
      saywright board --sheet outboard-float-carburetor
    """
    if recording is not None:
        read_audio(recording)  # what is no recording is told before a job is opened
    with user_store() as store, opened_camera(camera) as shooter:
        streams = Streams(store)
        bench, why_deaf = open_hearing(streams.store, job, sheet_name, Choice(engine, model, ears), actor)
        if job is not None and not why_deaf:
            hear_cut_off(bench)
        session, why_none = (None, why_deaf) if why_deaf else open_session(bench, device, recording)
        if why_none:
            note(f"Nothing listens: {why_none}")
        with following(bench, session if read_back else None, photos, shooter) as also:
            serve(
                store,
                now,
                port=port,
                actor=who(actor),
                reach=reach_of(lan, certificate, key),
                streams=streams,
                sitting=BoardSitting(bench, streams, session, why_none=why_none, also=also),
                announce=lambda where: note(f"Job {bench.job_id}\n{where}"),
            )
    note(f"Kept in job {bench.job_id}")


def hear_cut_off(bench: Bench) -> None:
    """What an earlier sitting left unheard."""
    with bar("Hearing what was cut off") as step:
        bench.hear_rest(progress=step)


@contextmanager
def following(
    bench: Bench, read_back: Session | None, photos: Path | None, shooter: Shooter | None
) -> Iterator[Callable[[Live], None]]:
    """What goes with what the session tells: pictures that arrive, and words read back into *read_back*."""
    with reading_back(bench, read_back) as spoken, pictures_arriving(bench, photos, shooter) as shown:

        def also(told: Live) -> None:
            shown(told)
            if spoken is not None:
                spoken(told)

        yield also


def open_hearing(
    store: Store, job: str | None, sheet_name: str | None, choice: Choice, actor: str | None
) -> tuple[Bench, str]:
    """The bench, and why it has no ears, "" where it has."""
    named = newest(store) if job is None and not sheet_name else job
    sheet = Bench.resume(store, named, clock=now).sheet if named is not None else shop_sheet(sheet_name or "")
    listener, why = ears(sheet, choice)
    if named is not None:
        return Bench.resume(store, named, clock=now, listener=listener, actor=who(actor)), why
    return Bench.open(store, sheet, clock=now, listener=listener, actor=who(actor)), why


def newest(store: Store) -> str:
    """The job opened last; a usage error where there is none."""
    jobs = store.jobs()
    if not jobs:
        raise click.UsageError(
            "There is no job yet. Name a bench sheet with --sheet; 'saywright sheet list' shows them."
        )
    return jobs[-1].id


def ears(sheet: Sheet, choice: Choice) -> tuple[Listener | None, str]:
    """A listener, or None and why there is none. One that was asked for by name must be there."""
    try:
        return make_listener(sheet, choice), ""
    except ModelError as error:
        if choice.engine or choice.model or choice.ears:
            raise
        return None, str(error)


@contextmanager
def reading_back(bench: Bench, session: Session | None) -> Iterator[Callable[[Live], None] | None]:
    """What speaks of what the session tells; None without one. MissingPartError where nothing can speak."""
    if session is None:
        yield None
        return
    with ReadBack(session, find_voice(bench.sheet.language), silent) as voice:
        yield lambda told: speak(bench, voice, told)


def open_session(bench: Bench, device: str | None, recording: Path | None) -> tuple[Session | None, str]:
    """What is listened to, or None and why. A microphone asked for by name must be there."""
    if recording is not None:
        playback = Playback(recording)
        session = bench.playing(lambda _device, _anew: playback)
        playback.ended = session.stop
        return session, ""
    try:
        return bench.microphone(device), ""
    except DeviceError as error:
        if device is not None:
            raise
        return None, str(error)
