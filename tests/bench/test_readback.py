"""Reading back into a sitting: the microphone is shut meanwhile; a loudspeaker that fails is told once."""

from __future__ import annotations

import threading

from saywright.errors import DeviceError
from saywright.wiring.readback import ReadBack


class Shutter:
    """Stands for a session: counts who wants silence."""

    def __init__(self) -> None:
        self.wanted = 0

    def mute(self) -> None:
        self.wanted += 1

    def unmute(self) -> None:
        self.wanted -= 1


class Voice:
    """Notes what it says and whether the microphone was shut."""

    def __init__(self, shutter: Shutter, *, fails: bool = False) -> None:
        self.shutter, self.fails = shutter, fails
        self.said: list[tuple[str, bool]] = []
        self.gate = threading.Event()

    def say(self, text: str) -> None:
        assert self.gate.wait(10)
        self.said.append((text, self.shutter.wanted > 0))
        if self.fails:
            raise DeviceError("the loudspeaker takes no sound")


def test_the_microphone_is_shut_from_the_call_to_the_last_word() -> None:
    """It is shut at once, not when the voice begins, and open again at the end."""
    shutter = Shutter()
    voice = Voice(shutter)
    with ReadBack(shutter, voice, lambda _: None) as back:
        back.say("one")
        back.say("two")
        back.say("")
        assert 2 == shutter.wanted
        voice.gate.set()
    assert [("one", True), ("two", True)] == voice.said
    assert 0 == shutter.wanted


def test_a_loudspeaker_that_fails_is_told_once() -> None:
    """After it nothing is spoken and the microphone is never shut for it again."""
    shutter = Shutter()
    voice = Voice(shutter, fails=True)
    told: list[str] = []
    with ReadBack(shutter, voice, lambda error: told.append(error.what)) as back:
        back.say("one")
        back.say("two")
        voice.gate.set()
    assert ["the loudspeaker takes no sound"] == told
    assert [("one", True)] == voice.said
    assert 0 == shutter.wanted
