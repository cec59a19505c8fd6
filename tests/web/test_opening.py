"""Opening a job: a long log keeps nobody from another job, and is read once."""

from __future__ import annotations

import sys
import threading
from datetime import UTC, datetime

import pytest

from saywright.errors import NotFoundError
from saywright.store.memory import MemoryStore
from saywright.web.session import Sessions
from saywright.web.state import Desk

LIMIT_S = 10.0


class Slow(MemoryStore):
    """A store that reads one job only when it is let."""

    def __init__(self, slow):
        super().__init__()
        self.slow, self.begun, self.go_on, self.reads = slow, threading.Event(), threading.Event(), 0

    def events(self, job_id, *, after_seq=0):
        """Wait where it is the slow job's first reading."""
        if job_id == self.slow and after_seq == 0:
            self.reads += 1
            self.begun.set()
            assert self.go_on.wait(LIMIT_S)
        return super().events(job_id, after_seq=after_seq)


@pytest.fixture
def desk():
    """A desk with a job that is slow to read and one that is not."""
    module = sys.modules["desk_job"]
    store = Slow("none yet")
    clock = module.Minutes()
    module.fill(store, clock)
    module.many_asking(store, clock, 3, "20260314-9")
    store.slow = "20260314-9"
    yield Desk(store, lambda: datetime.now(UTC), Sessions("Ada"))
    store.close()


def test_a_slow_job_keeps_nobody_from_another(desk):
    """While one log is read, another job opens; those who ask for the slow one share one reading."""
    found = []

    def read():
        found.append(desk.opened("20260314-9"))

    readers = [threading.Thread(target=read, daemon=True) for _ in range(3)]
    for reader in readers:
        reader.start()
    assert desk.store.begun.wait(LIMIT_S)
    assert "20260314-1" == desk.opened("20260314-1").bench.job_id
    assert [] == found
    desk.store.go_on.set()
    for reader in readers:
        reader.join(LIMIT_S)
    assert 3 == len(found)
    assert 1 == len({id(one) for one in found}) == desk.store.reads


def test_a_job_that_is_not_there_leaves_nothing_behind(desk):
    """Names that nobody has do not pile up, and are refused each time."""
    for _ in range(2):
        with pytest.raises(NotFoundError):
            desk.opened("../../mooring")
    assert {} == desk._opening
