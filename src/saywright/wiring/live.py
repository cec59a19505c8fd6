"""The microphone into a job.

What is recorded goes to disk in a thread of its own, however long a listener thinks.
"""

from __future__ import annotations

import queue
import threading
from collections.abc import Callable

from saywright.hearing.listener import Samples
from saywright.hearing.microphone import Microphone
from saywright.hearing.words import Utterance
from saywright.wiring.sound import Ears


def try_microphone(device: str | None) -> None:
    """Open and close it; DeviceError where that cannot be. For use before a job is opened."""
    with Microphone(device):
        pass


class Session:
    """One sitting at the microphone. `run` returns after `stop`, when the last word is understood."""

    def __init__(self, ears: Ears, device: str | None) -> None:
        """Open the microphone; DeviceError where that cannot be."""
        self._ears = ears
        self._microphone = Microphone(device)
        self._blocks: queue.SimpleQueue[Samples | None] = queue.SimpleQueue()
        self._fault: Exception | None = None

    @property
    def overflows(self) -> int:
        """Times that the system lost audio before it reached this program."""
        return self._microphone.overflows

    def run(self, told: Callable[[list[Utterance]], None]) -> None:
        """Record and hear until `stop`; *told* gets the utterances as they end.

        What goes wrong with the disk or the device is raised after the words so far are understood.
        What goes wrong with hearing is raised at once; the rest of the recording is heard later.
        """
        with self._microphone:
            self._ears.begin()
            writer = threading.Thread(target=self._write, name="recording")
            writer.start()
            try:
                while (block := self._blocks.get()) is not None:
                    told(self._ears.listen(block))
            except BaseException:
                self.stop()
                writer.join()
                self._ears.leave()
                raise
            self.stop()
            writer.join()
            told(self._ears.finish())
        if self._fault is not None:
            raise self._fault

    def stop(self) -> None:
        """Record no more; may be called from a signal handler."""
        self._microphone.stop()

    def _write(self) -> None:
        try:
            for block in self._microphone.blocks():
                self._ears.record(block)
                self._blocks.put(block)
        except Exception as error:  # raised by `run`, in the thread that can tell it
            self._fault = error
        finally:
            self._blocks.put(None)
