"""The microphone's own thread: sound to disk as it comes, then on to the sitting, in order.

However long a listener or a person thinks, nothing waits here. A recording is one unbroken stretch
of time: a pause or a microphone that went away ends it, and a new one begins after.
"""

from __future__ import annotations

import queue
import threading
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Literal, Protocol

import numpy as np

from saywright.errors import DeviceError
from saywright.hearing.listener import Samples
from saywright.hearing.microphone import Microphone
from saywright.wiring.sound import Recording

RETRY_S = 1.0  # between looks for a microphone that went away

Mode = Literal[
    "listening",
    "muted",  # the program speaks: time goes on, the recording holds silence
    "dozing",  # paused by voice: sound is heard for the word to go on, and not kept
    "paused",  # nothing is heard
]


@dataclass(frozen=True, slots=True)
class Begun:
    """A recording has begun."""

    recording: Recording


@dataclass(frozen=True, slots=True)
class Block:
    """The next stretch of the recording, on disk already."""

    samples: Samples
    mode: Mode
    peak: float  # highest |sample| that came from the device, also where it is not passed on
    power: float  # mean square of the same


@dataclass(frozen=True, slots=True)
class Ended:
    """The recording has ended."""

    recording: Recording


@dataclass(frozen=True, slots=True)
class Device:
    """The microphone is open, or gone."""

    present: bool


@dataclass(frozen=True, slots=True)
class Closed:
    """Nothing more comes. *fault*: what ended it, None where it was stopped."""

    fault: Exception | None


@dataclass(frozen=True, slots=True)
class Woken:
    """A recogniser has something to fetch, or somebody asked for something."""


class Source(Protocol):
    """What sound comes from: a microphone, or what stands in for one."""

    name: str
    overflows: int  # times that sound was lost before it got here

    def __enter__(self) -> Source: ...

    def __exit__(self, *_: object) -> None: ...

    def stop(self) -> None:
        """No more; `blocks` gives what is left and ends."""
        ...

    def blocks(self) -> Iterator[Samples]:
        """Blocks, (n_samples,) float32 mono 16 kHz, as they come; DeviceError where it goes away."""
        ...


Opened = Callable[[str | int | None, bool], Source]  # device, and whether it is looked for anew

Token = Begun | Block | Ended | Device | Closed | Woken


class Capture:
    """Reads one microphone until `stop`."""

    def __init__(
        self, device: str | int | None, begin: Callable[[], Recording], opened: Opened | None = None
    ) -> None:
        """Open the microphone; DeviceError where that cannot be. *begin* makes a recording.

        *opened* opens something else in its place.
        """
        self._open: Opened = opened or (lambda device, anew: Microphone(device, anew=anew))
        self.tokens: queue.SimpleQueue[Token] = queue.SimpleQueue()
        self.mode: Mode = "listening"
        self._device = device
        self._begin = begin
        self._microphone: Source | None = self._open(device, False)
        self.device_name = self._microphone.name
        self._lost = 0  # overflows of microphones that are closed
        self._recording: Recording | None = None
        self._stopped = threading.Event()
        self._thread = threading.Thread(target=self._work, name="recording", daemon=True)

    @property
    def overflows(self) -> int:
        """Times that the system lost audio before it reached this program."""
        microphone = self._microphone
        return self._lost + (microphone.overflows if microphone is not None else 0)

    def start(self) -> None:
        """Begin to record."""
        self._thread.start()

    def stop(self) -> None:
        """Record no more; `tokens` ends with `Closed`. From any thread, also from a signal handler."""
        self._stopped.set()
        microphone = self._microphone
        if microphone is not None:
            microphone.stop()

    def join(self) -> None:
        """Wait for the thread."""
        self._thread.join()

    def _work(self) -> None:
        fault: Exception | None = None
        try:
            while self._microphone is not None:
                self._read(self._microphone)
                self._microphone = self._found_again()
        except Exception as error:  # raised by the sitting, in the thread that can tell it
            fault = error
        finally:
            self._end()
            self.tokens.put(Closed(fault))

    def _read(self, microphone: Source) -> None:
        """Record until it is stopped or goes away."""
        try:
            with microphone:
                self.tokens.put(Device(present=True))
                if self._stopped.is_set():
                    microphone.stop()
                for block in microphone.blocks():
                    self._take(block)
        except DeviceError:
            self._end()
            if not self._stopped.is_set():
                self.tokens.put(Device(present=False))
        finally:
            self._lost += microphone.overflows
            self._microphone = None

    def _found_again(self) -> Source | None:
        """The microphone, once it is back; None where it was stopped."""
        while not self._stopped.wait(RETRY_S):
            try:
                found = self._open(self._device, True)
            except DeviceError:
                continue
            self.device_name = found.name
            return found
        return None

    def _take(self, block: Samples) -> None:
        mode = self.mode
        peak, power = float(np.max(np.abs(block))), float(np.mean(np.square(block)))
        if mode in ("paused", "dozing"):
            self._end()
        elif self._recording is None:
            self._recording = self._begin()
            self.tokens.put(Begun(self._recording))
        if mode in ("muted", "paused"):
            block = np.zeros_like(block)
        if self._recording is not None:
            self._recording.write(block)
        self.tokens.put(Block(block, mode, peak, power))

    def _end(self) -> None:
        recording, self._recording = self._recording, None
        if recording is not None:
            self.tokens.put(Ended(recording))
