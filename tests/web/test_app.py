"""The server on loopback, as a program of its own."""

from __future__ import annotations

import re
import signal
import subprocess
import sys
import urllib.request

import pytest

SERVE = """
from datetime import UTC, datetime
from saywright.store.memory import MemoryStore
from saywright.web.app import serve
serve(MemoryStore(), lambda: datetime.now(UTC), port=0, announce=lambda line: print(line, flush=True))
"""


@pytest.mark.slow
def test_the_desk_serves_until_interrupted():
    """It tells its address, answers there, and ends on Ctrl-C without a traceback."""
    pipes = {"stdout": subprocess.PIPE, "stderr": subprocess.PIPE, "text": True}
    with subprocess.Popen([sys.executable, "-c", SERVE], **pipes) as program:
        try:
            address = re.search(r"http://127\.0\.0\.1:\d+", program.stdout.readline())
            assert address is not None
            with urllib.request.urlopen(address[0], timeout=20) as answer:
                assert b"No job yet" in answer.read()
            program.send_signal(signal.SIGINT)
            _, complaints = program.communicate(timeout=20)
        finally:
            program.kill()
    assert "" == complaints
    assert 0 == program.returncode
