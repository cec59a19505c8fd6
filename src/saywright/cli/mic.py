"""`mic`: will this microphone do, and what to change."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import asdict

import click
import numpy as np

from saywright.bench import Bench
from saywright.cli.common import (
    device_option,
    json_option,
    note,
    now,
    passing_store,
    print_json,
    sheet_option,
    table,
)
from saywright.cli.ears import Choice, listener_options, make_listener
from saywright.cli.words import shop_sheet
from saywright.hearing.listener import SAMPLE_RATE_HZ, Samples
from saywright.hearing.microphone import Microphone, list_devices
from saywright.hearing.trial import Trial, tried
from saywright.hearing.vocabulary import example, reading_name
from saywright.record.types import Record
from saywright.sheets.model import Characteristic, Component, Sheet

QUIET_S = 3.0
SPOKEN_S = 6.0
_SHEET = "outboard-float-carburetor"
_SAYS = {
    "good": "It will do.",
    "asks_more": "It will do, and more readings will ask than need be.",
    "unfit": "It will not do as it is.",
}


@click.command()
@sheet_option
@device_option
@click.option("--list", "list_only", is_flag=True, help="Only tell which microphones there are.")
@listener_options
@json_option
def mic(
    *,
    sheet_name: str | None,
    device: str | None,
    list_only: bool,
    engine: str | None,
    model: str | None,
    ears: str | None,
    as_json: bool,
) -> None:
    """Try a microphone: the noise around it, the level of the voice, clipping, a reading said aloud.

    Nothing is kept.

    \b
    Example:
      saywright mic --device headset
    """
    if list_only:
        _list(as_json)
        return
    sheet = shop_sheet(sheet_name or _SHEET)
    component, characteristic = _to_say(sheet)
    asked = f"{reading_name(component, characteristic)} {example(component, characteristic)}"
    with passing_store() as store:
        listener = make_listener(sheet, Choice(engine, model, ears))
        bench = Bench.open(store, sheet, clock=now, listener=listener)
        with Microphone(device) as microphone:
            blocks = microphone.blocks()
            note(f"Trying {microphone.name}.")
            note(f"Keep quiet for {QUIET_S:.0f} seconds, with the shop as it always is …")
            quiet = _stretch(blocks, QUIET_S)
            note(f"Now say, as you would at the bench:\n\n    {asked}\n")
            spoken = _stretch(blocks, SPOKEN_S)
            name = microphone.name
        heard = [*bench.hear(spoken), *bench.finish_hearing()]
        typed = Bench.open(store, sheet, clock=now)
        typed.say(asked)
        right = _came_out(bench.record(), typed.record())
    trial = tried(quiet, spoken, right=right)
    words = " / ".join(utterance.best.text for utterance in heard)
    if as_json:
        print_json(asdict(trial) | {"device": name, "said": asked, "heard": words, "right": right})
    else:
        _tell(trial, words, right)


def _list(as_json: bool) -> None:
    devices = list_devices()
    if as_json:
        print_json([asdict(device) for device in devices])
    elif not devices:
        click.echo("No microphone was found.")
    else:
        rows = [(str(one.number), f"{one.rate_hz} Hz", one.name) for one in devices]
        click.echo(table(("Number", "Rate", "Name"), rows))


def _to_say(sheet: Sheet) -> tuple[Component, Characteristic]:
    """What the test reading is about: a measured value that can be plausible, else the first of all."""
    every = [pair for pair in sheet.characteristics() if pair[1].formula is None]
    measured = [pair for pair in every if not pair[1].is_count]
    found = [*measured, *every]
    if not found:
        raise click.UsageError(f"Sheet {sheet.id} has nothing to read aloud; name another with --sheet.")
    return next((pair for pair in found if pair[1].plausible is not None), found[0])


def _stretch(blocks: Iterator[Samples], seconds: float) -> Samples:
    """The next *seconds* of the microphone, (n_samples,); less where it ends before."""
    taken: list[Samples] = []
    left = round(seconds * SAMPLE_RATE_HZ)
    while left > 0 and (block := next(blocks, None)) is not None:
        taken.append(block)
        left -= len(block)
    return np.concatenate(taken) if taken else np.zeros(0, dtype=np.float32)


def _came_out(record: Record, meant: Record) -> bool:
    """True where what was heard gave the reading that the words give, and no other."""

    def told(one: Record) -> list[tuple[str | None, str | None, str]]:
        return [(reading.component, reading.characteristic, reading.value) for reading in one.readings]

    return told(record) == told(meant)


def _tell(trial: Trial, words: str, right: bool) -> None:
    clipped = "none" if trial.clipped == 0 else f"{trial.clipped:.2%} of the samples"
    rows = [
        ("Noise", f"{trial.noise_dbfs:.0f} dBFS"),
        ("Voice", f"{trial.speech_dbfs:.0f} dBFS, {trial.above_db:.0f} dB above the noise"),
        ("Clipping", clipped),
        ("Heard", f"{words or 'nothing'} ({'right' if right else 'not as asked for'})"),
    ]
    for name, told in rows:
        click.echo(f"{name:<10}{told}")
    click.echo(f"\n{_SAYS[trial.verdict]}")
    for advice in trial.advice:
        click.echo(f"- {advice}")
