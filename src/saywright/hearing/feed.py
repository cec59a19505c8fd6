"""What a live sitting tells as it runs: words as they form, what they settle to, how the microphone does."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from saywright.hearing.words import Utterance

MicrophoneState = Literal[
    "listening",
    "paused",  # by voice, by key, or while the program itself speaks
    "clipped",  # too loud: the tops of the waves are cut
    "too_quiet",  # speech hardly stands above the noise
    "unplugged",  # the device is gone; it is looked for until it comes back
    "closed",
]


@dataclass(frozen=True)
class Partial:
    """Words of the utterance being spoken; they may still change.

    After a `Provisional` it says that the utterance goes on after all. "" where nothing came of it.
    """

    words: str


@dataclass(frozen=True)
class Provisional:
    """An utterance that seems to have ended: shown, not kept.

    Replaced by the `Settled` or the `Partial` that comes next.
    """

    utterance: Utterance


@dataclass(frozen=True)
class Settled:
    """An utterance that has ended, kept and understood."""

    utterance: Utterance
    heard_seq: int  # sequence number of its event


Command = Literal["pause", "resume", "undo", "read_back", "left", "next", "note"]


@dataclass(frozen=True)
class Commanded:
    """A command to the bench was spoken; "pause" and "resume" are obeyed already."""

    command: Command
    heard_seq: int  # sequence number of the event that holds the words


@dataclass(frozen=True)
class Microphone:
    """How the microphone does; told at each change of state and some ten times a second."""

    state: MicrophoneState
    level_dbfs: float  # of the last block, −120…0
    device: str = ""


@dataclass(frozen=True)
class Answered:
    """The words were an answer to what the record asked."""

    item: str  # id of the item it asked about
    accepted: bool  # False: taken out, since it was said anew
    words: str  # what was done, in one line
    heard_seq: int  # sequence number of the event that holds the words


Live = Partial | Provisional | Settled | Commanded | Answered | Microphone
