"""What `board` and `listen` have in common: the options of a sitting, and what is spoken in it."""

from __future__ import annotations

from collections.abc import Callable
from functools import reduce
from typing import Any

import click

from saywright.bench import Bench
from saywright.cli.arriving import picture_options
from saywright.cli.common import by_option, device_option, note, sheet_option
from saywright.cli.ears import listener_options
from saywright.errors import DeviceError, MissingPartError
from saywright.hearing.feed import Answered, Commanded, Live, Settled
from saywright.hearing.speaker import Speaker, find_speaker
from saywright.wiring.readback import ReadBack

Command = Callable[..., Any]

ANSWERED = ("undo", "read_back", "left", "next")  # commands whose answer is spoken


def sitting_options(*, without_job: str) -> Callable[[Command], Command]:
    """The options of a sitting; *without_job* tells what happens where no job is named."""
    options: tuple[Callable[[Command], Command], ...] = (
        sheet_option,
        click.option("--job", metavar="JOB", help=f"Go on with this job. {without_job}"),
        device_option,
        click.option(
            "--read-back",
            is_flag=True,
            help="Speak what was understood; the microphone is shut meanwhile.",
        ),
        picture_options,
        listener_options,
        by_option,
    )
    return lambda command: reduce(lambda made, option: option(made), reversed(options), command)


def find_voice(language: str = "en") -> Speaker:
    """What speaks; MissingPartError where nothing does."""
    speaker = find_speaker(language)
    if speaker is None:
        raise MissingPartError(
            "espeak-ng, which reads back, is not installed",
            to_do="Run 'apt-get install espeak-ng', or leave --read-back out",
        )
    return speaker


def silent(error: DeviceError) -> None:
    """The sound system failed: told once, and the sitting goes on."""
    note(f"Nothing is read back any more: {error}")


def speak(bench: Bench, voice: ReadBack, told: Live) -> None:
    """Speak of what a sitting tells: what was understood, what was asked for, what was answered."""
    if isinstance(told, Settled) and bench.gave(told.heard_seq):
        voice.say(bench.answer("read_back"))
    elif isinstance(told, Commanded) and told.command in ANSWERED:
        voice.say(bench.answer(told.command))
    elif isinstance(told, Answered):
        voice.say(told.words)
