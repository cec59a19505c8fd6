"""The microphone, with a stand-in for PortAudio."""

import subprocess
import sys
import threading
import types
from typing import Any

import numpy as np
import pytest

from saywright.errors import DeviceError
from saywright.hearing.microphone import Microphone, list_devices


class PortAudioError(Exception):
    """As the library raises."""


class Stream:
    """Calls back with blocks as PortAudio would."""

    def __init__(self, *, callback: Any, blocksize: int, samplerate: int, **_: Any) -> None:
        self.callback, self.blocksize, self.samplerate, self.active = callback, blocksize, samplerate, False

    def start(self) -> None:
        """Two seconds of audio at once, faster than anyone reads."""
        self.active = True
        for number in range(64):
            data = np.full((self.blocksize, 1), number / 1000, dtype=np.float32)
            self.callback(data, self.blocksize, None, types.SimpleNamespace(input_overflow=number == 3))
            data[:] = 9.0  # the library uses its buffer again

    def stop(self) -> None:
        """No more."""
        self.active = False

    def close(self) -> None:
        """Nothing to free."""


def library(**changes: Any) -> types.ModuleType:
    """A stand-in for sounddevice with one microphone and one loudspeaker."""
    made = types.ModuleType("sounddevice")
    devices = [
        {"name": "Speaker", "max_input_channels": 0, "default_samplerate": 44100.0},
        {"name": "Headset", "max_input_channels": 1, "default_samplerate": 48000.0},
    ]

    def query(device: Any = None, kind: str | None = None) -> Any:
        if kind is None:
            return devices
        if device == "none":
            raise ValueError("No input device matching 'none'")
        return devices[1]

    parts = {
        "PortAudioError": PortAudioError,
        "InputStream": Stream,
        "query_devices": query,
        "check_input_settings": lambda **_: None,
    }
    for name, value in {**parts, **changes}.items():
        setattr(made, name, value)
    return made


def test_devices_are_those_that_record(monkeypatch: pytest.MonkeyPatch) -> None:
    """Loudspeakers are left out; the number is the one to name it by."""
    monkeypatch.setitem(sys.modules, "sounddevice", library())
    assert [(1, "Headset", 48000)] == [(one.number, one.name, one.rate_hz) for one in list_devices()]


def test_no_block_is_dropped(monkeypatch: pytest.MonkeyPatch) -> None:
    """All that was recorded before anyone read comes, in order, as a copy; overflows are counted."""
    monkeypatch.setitem(sys.modules, "sounddevice", library())
    with Microphone("head") as microphone:
        microphone.stop()
        blocks = list(microphone.blocks())
    assert "Headset" == microphone.name
    assert [number / 1000 for number in range(64)] == [round(float(block[0]), 3) for block in blocks]
    assert 32768 == sum(map(len, blocks))
    assert 1 == microphone.overflows


def test_another_rate_is_resampled(monkeypatch: pytest.MonkeyPatch) -> None:
    """A device that cannot record at 16 kHz records at its own rate; 16 kHz comes out, to the last sample."""

    def refuse(**_: Any) -> None:
        raise PortAudioError("Invalid sample rate")

    monkeypatch.setitem(sys.modules, "sounddevice", library(check_input_settings=refuse))
    with Microphone() as microphone:
        microphone.stop()
        assert 32768 == pytest.approx(sum(map(len, microphone.blocks())), abs=2)


def test_a_device_that_goes_away(monkeypatch: pytest.MonkeyPatch) -> None:
    """When the stream dies, what was recorded comes first, then one clear line."""
    monkeypatch.setitem(sys.modules, "sounddevice", library())
    with Microphone() as microphone:
        threading.Timer(0.1, microphone._stream.stop).start()
        blocks = microphone.blocks()
        assert 64 == len([next(blocks) for _ in range(64)])
        with pytest.raises(DeviceError, match="the microphone went away; what was recorded before is kept"):
            next(blocks)


def test_no_such_device(monkeypatch: pytest.MonkeyPatch) -> None:
    """A device that is not there is named, with those that are."""
    monkeypatch.setitem(sys.modules, "sounddevice", library())
    with pytest.raises(DeviceError) as caught:
        Microphone("none")
    assert "none: there is no such microphone. There is: 'Headset'" == str(caught.value)


@pytest.mark.parametrize("named", ["head", "HEADSET", "1", 1])
def test_a_device_by_part_of_its_name_or_its_number(
    named: str | int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Upper and lower case are the same."""
    monkeypatch.setitem(sys.modules, "sounddevice", library())
    assert "Headset" == Microphone(named).name


def test_a_part_that_two_devices_have(monkeypatch: pytest.MonkeyPatch) -> None:
    """Where a part of a name fits two, none is opened by chance."""
    both = [
        {"name": name, "max_input_channels": 1, "default_samplerate": 48000.0}
        for name in ("Headset left", "Headset right")
    ]
    monkeypatch.setitem(sys.modules, "sounddevice", library(query_devices=lambda *_: both))
    with pytest.raises(DeviceError, match=r"more than one .*'Headset left', 'Headset right'"):
        Microphone("headset")


def test_without_portaudio(monkeypatch: pytest.MonkeyPatch) -> None:
    """Without the system's library the line says how to install it."""

    class Finder:
        """Raises as sounddevice does where PortAudio is missing."""

        def find_spec(self, name: str, *_: Any) -> None:
            if name == "sounddevice":
                raise OSError("PortAudio library not found")

    monkeypatch.delitem(sys.modules, "sounddevice", raising=False)
    monkeypatch.setattr(sys, "meta_path", [Finder(), *sys.meta_path])
    with pytest.raises(DeviceError) as caught:
        list_devices()
    assert (
        "PortAudio, which drives the microphone, is not installed. Run 'apt-get install libportaudio2'; "
        "audio files can be heard without it" == str(caught.value)
    )


@pytest.mark.skipif(sys.platform != "linux", reason="the variable's name is the GNU C library's")
def test_what_c_libraries_print_goes_nowhere() -> None:
    """PortAudio's and ALSA's pages are not shown; what Python writes is."""
    code = (
        "import ctypes, sys; from saywright.hearing import microphone; microphone._hush()\n"
        "library = ctypes.CDLL(None); errors = ctypes.c_void_p.in_dll(library, 'stderr')\n"
        "library.fputs(b'a page of ALSA', errors); library.fflush(errors)\n"
        "print('ours', file=sys.stderr)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert "ours\n" == done.stderr
