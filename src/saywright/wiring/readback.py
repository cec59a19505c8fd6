"""What was understood, spoken back, with the microphone shut meanwhile."""

from __future__ import annotations

import queue
import threading
import time
from collections.abc import Callable

from saywright.errors import DeviceError
from saywright.hearing.speaker import Speaker
from saywright.wiring.live import Session

_TAIL_S = 0.25  # the room's echo of the last word


class ReadBack:
    """Speaks texts in order, in a thread of its own, into a sitting; use it in a `with` block."""

    def __init__(self, session: Session, speaker: Speaker, failed: Callable[[DeviceError], None]) -> None:
        """*failed* is told when the sound system fails, once; after it nothing more is spoken."""
        self._failed = failed
        self._silent = False
        self._session = session
        self._speaker = speaker
        self._texts: queue.SimpleQueue[str | None] = queue.SimpleQueue()
        self._thread = threading.Thread(target=self._work, name="reading back", daemon=True)

    def __enter__(self) -> ReadBack:
        self._thread.start()
        return self

    def __exit__(self, *_: object) -> None:
        self._texts.put(None)
        self._thread.join()

    def say(self, text: str) -> None:
        """Speak it after what is waiting; returns at once. The microphone is shut from now on."""
        if text and not self._silent:
            self._session.mute()
            self._texts.put(text)

    def _work(self) -> None:
        while (text := self._texts.get()) is not None:
            try:
                if not self._silent:
                    self._speaker.say(text)
                    time.sleep(_TAIL_S)
            except DeviceError as error:
                self._silent = True
                self._failed(error)
            finally:
                self._session.unmute()
