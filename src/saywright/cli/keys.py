"""Single keys from the terminal, without Enter."""

from __future__ import annotations

import os
import select
import sys
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress

_LOOK_S = 0.2  # how often it is asked whether to end


@contextmanager
def keys(pressed: Callable[[str], None]) -> Iterator[bool]:
    """Call *pressed* with each key, from a thread of its own; gives False where there is no such terminal."""
    try:
        import termios  # noqa: PLC0415  not on every system
        import tty  # noqa: PLC0415

        number = sys.stdin.fileno()
        before = termios.tcgetattr(number)
    except (ImportError, OSError, ValueError, termios.error):
        yield False
        return
    ended = threading.Event()
    reader = threading.Thread(target=_read, args=(number, pressed, ended), name="keys", daemon=True)
    tty.setcbreak(number)
    reader.start()
    try:
        yield True
    finally:
        ended.set()
        reader.join()
        with suppress(termios.error):
            termios.tcsetattr(number, termios.TCSADRAIN, before)


def _read(number: int, pressed: Callable[[str], None], ended: threading.Event) -> None:
    while not ended.is_set():
        ready, _, _ = select.select([number], [], [], _LOOK_S)
        if ready:
            given = os.read(number, 1)
            if not given:
                return
            pressed(given.decode("ascii", "ignore"))
