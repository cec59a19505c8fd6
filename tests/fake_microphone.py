"""A microphone that gives what it is told to, as fast as it is taken."""

from __future__ import annotations

import threading
from abc import ABC, abstractmethod
from collections.abc import Iterator
from typing import Self

from saywright.hearing.listener import Samples


class FakeMicrophone(ABC):
    """Nothing but `blocks` differs from one to the next: it plays, then waits for `ended`, set by `stop`."""

    name = "fake"

    def __init__(self, device: str | int | None = None, *, anew: bool = False) -> None:
        self.overflows = 0
        self.ended = threading.Event()

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        self.stop()

    def stop(self) -> None:
        self.ended.set()

    @abstractmethod
    def blocks(self) -> Iterator[Samples]:
        """What is heard."""
