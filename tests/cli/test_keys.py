"""Single keys, on a terminal of the test's own."""

from __future__ import annotations

import io
import os
import queue
import sys
import termios

import pytest

from saywright.cli.keys import keys


def test_keys_come_without_enter(monkeypatch: pytest.MonkeyPatch) -> None:
    """Each key is told at once; afterwards the terminal is as it was."""
    ours, theirs = os.openpty()
    before = termios.tcgetattr(theirs)
    pressed: queue.SimpleQueue[str] = queue.SimpleQueue()
    with os.fdopen(theirs) as terminal:
        monkeypatch.setattr(sys, "stdin", terminal)
        with keys(pressed.put) as there:
            assert there
            os.write(ours, b" q")
            assert [" ", "q"] == [pressed.get(timeout=10), pressed.get(timeout=10)]
        assert before == termios.tcgetattr(theirs)
    os.close(ours)


def test_no_terminal(monkeypatch: pytest.MonkeyPatch) -> None:
    """Where standard input is no terminal there are no keys."""
    monkeypatch.setattr(sys, "stdin", io.StringIO(" q"))
    with keys(lambda _: None) as there:
        assert not there
