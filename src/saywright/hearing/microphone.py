"""A microphone → blocks of samples. PortAudio is touched only when a microphone is wanted.

The callback puts every block into a queue without an upper bound: while a listener thinks,
nothing that was said is dropped.
"""

from __future__ import annotations

import ctypes
import os
import queue
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass
from functools import cache
from typing import Any

import numpy as np

from saywright.errors import DeviceError
from saywright.hearing.listener import SAMPLE_RATE_HZ, Samples

_BLOCK_S = 0.032  # short, as the end of speech is noticed a block late at worst
_GONE_S = 1.5  # without a block from an open microphone, and it is taken to be gone
_NO_LIBRARY = "PortAudio, which drives the microphone, is not installed"
_INSTALL = "Run 'apt-get install libportaudio2'; audio files can be heard without it"


@dataclass(frozen=True, slots=True)
class Device:
    """A microphone that can be named."""

    number: int
    name: str
    channels: int
    rate_hz: int  # the one it prefers


def list_devices() -> tuple[Device, ...]:
    """Every device that can record; DeviceError where PortAudio is missing."""
    sounddevice = _library()
    return tuple(
        Device(number, str(entry["name"]), int(entry["max_input_channels"]), int(entry["default_samplerate"]))
        for number, entry in enumerate(sounddevice.query_devices())
        if entry["max_input_channels"] > 0
    )


class Microphone:
    """An open microphone; use it in a `with` block and read `blocks`."""

    def __init__(self, device: str | int | None = None, *, anew: bool = False) -> None:
        """*device*: part of a name, a number, or None for the system's own choice.

        *anew*: look for devices again, as those plugged in since are not seen otherwise. Every
        open microphone of this process is closed by that.
        """
        self.overflows = 0  # times the system lost audio before it reached this program
        self._queue: queue.SimpleQueue[Samples | None] = queue.SimpleQueue()
        sounddevice = _library()
        self._error_class = sounddevice.PortAudioError
        try:
            if anew:
                sounddevice._terminate()
                sounddevice._initialize()
            number, self.name, own_rate_hz = _choose(sounddevice, device)
            self._rate_hz = _rate(sounddevice, number, own_rate_hz)
            self._stream = sounddevice.InputStream(
                device=number,
                channels=1,
                samplerate=self._rate_hz,
                dtype="float32",
                blocksize=round(self._rate_hz * _BLOCK_S),
                callback=self._take,
            )
        except (sounddevice.PortAudioError, ValueError) as error:
            raise _device_error(device, error) from None

    def __enter__(self) -> Microphone:
        try:
            self._stream.start()
        except self._error_class as error:
            raise _device_error(self.name, error) from None
        return self

    def __exit__(self, *_: object) -> None:
        self.stop()
        with suppress(self._error_class):  # of a device that is gone
            self._stream.close()

    def stop(self) -> None:
        """Record no more; `blocks` gives what is left and ends."""
        with suppress(self._error_class):
            self._stream.stop()
        self._queue.put(None)

    def blocks(self) -> Iterator[Samples]:
        """Blocks, (n_samples,) float32 mono 16 kHz, until `stop`; DeviceError where it goes away."""
        resampler = _resampler(self._rate_hz)
        while True:
            try:
                block = self._queue.get(timeout=_GONE_S)
            except queue.Empty:
                raise DeviceError(
                    "the microphone went away; what was recorded before is kept",
                    where=self.name,
                    to_do="Plug it in and start again",
                ) from None
            last = block is None
            given: Samples = np.zeros(0, dtype=np.float32) if block is None else block
            samples = given if resampler is None else resampler.resample_chunk(given, last=last)
            if len(samples):
                yield samples
            if last:
                return

    def _take(self, data: Any, _frames: int, _time: Any, status: Any) -> None:
        if status.input_overflow:
            self.overflows += 1
        self._queue.put(np.array(data[:, 0], dtype=np.float32))


@cache
def _hush() -> None:
    """Send what C libraries print to standard error nowhere, from now on.

    PortAudio and ALSA print a page of their own at each look for devices, and while an unplugged one
    is looked for that is once a second. What went wrong comes back as an error all the same. Python and
    C++ do not write through this; where the C library has no such variable nothing is changed.
    """
    with suppress(OSError, ValueError, AttributeError):
        library = ctypes.CDLL(None)
        errors = ctypes.c_void_p.in_dll(library, "stderr")
        library.fopen.restype = ctypes.c_void_p
        nowhere = library.fopen(os.devnull.encode(), b"w")
        if nowhere:
            errors.value = nowhere


def _library() -> Any:
    _hush()
    try:
        import sounddevice  # noqa: PLC0415  fails where PortAudio is missing, so only when wanted
    except OSError:
        raise DeviceError(_NO_LIBRARY, to_do=_INSTALL) from None
    except ImportError:
        raise DeviceError("sounddevice is not installed", to_do="Run 'pip install sounddevice'") from None
    return sounddevice


def _choose(sounddevice: Any, device: str | int | None) -> tuple[int | None, str, int]:
    """Number, whole name and own rate of the device; DeviceError names those there are where none fits."""
    if device is None:
        entry = sounddevice.query_devices(None, "input")
        return None, str(entry["name"]), int(entry["default_samplerate"])
    devices = list_devices()
    wanted = str(device).strip().casefold()
    found = (
        [one for one in devices if str(one.number) == wanted]
        or [one for one in devices if one.name.casefold() == wanted]
        or [one for one in devices if wanted in one.name.casefold()]
    )
    if len({one.name for one in found}) != 1:
        names = ", ".join(f"'{one.name}'" for one in found or devices) or "none"
        raise DeviceError(
            "more than one microphone has this in its name" if found else "there is no such microphone",
            where=str(device),
            to_do=f"There {'are' if len(found or devices) > 1 else 'is'}: {names}",
        )
    return found[0].number, found[0].name, found[0].rate_hz


def _rate(sounddevice: Any, number: int | None, own_hz: int) -> int:
    """The rate to record at: 16 kHz where the device can, else its own."""
    try:
        sounddevice.check_input_settings(
            device=number, channels=1, samplerate=SAMPLE_RATE_HZ, dtype="float32"
        )
    except (sounddevice.PortAudioError, ValueError):
        return own_hz
    return SAMPLE_RATE_HZ


def _resampler(rate_hz: int) -> Any:
    import soxr  # noqa: PLC0415

    if rate_hz == SAMPLE_RATE_HZ:
        return None
    return soxr.ResampleStream(rate_hz, SAMPLE_RATE_HZ, 1, dtype="float32", quality="HQ")


def _device_error(device: str | int | None, error: Exception) -> DeviceError:
    text = str(error).splitlines()[0] if str(error) else type(error).__name__
    return DeviceError(
        f"the microphone cannot be opened ({text})",
        where="" if device is None else str(device),
        to_do="Plug one in, or name another with --device",
    )
