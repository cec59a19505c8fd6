"""A store with one job, and what is read off a stream of server-sent events."""

from __future__ import annotations

import asyncio
import json
from concurrent.futures import ThreadPoolExecutor
from datetime import UTC, datetime

import pytest

from saywright.record.events import JobDescribed, JobOpened
from saywright.sheets.model import Sheet
from saywright.store.memory import MemoryStore

JOB = "20260301-1"
AT = datetime(2026, 3, 1, 9, 30, tzinfo=UTC)


def opened(store):
    """The store with one job of one event."""
    sheet = Sheet(id="hand-pump", title="Hand pump")
    store.append(JOB, [JobOpened(job=JOB, title="Pump", sheet=sheet)], at=AT, actor="Ada", after_seq=0)
    return store


def describe(store, seq):
    """One more event, after event *seq*."""
    store.append(JOB, [JobDescribed(serial=f"HB-{seq}")], at=AT, actor="Ben", after_seq=seq)


def told(raw):
    """The messages in *raw* as (name, id, data)."""
    found = []
    for block in raw.decode().split("\n\n"):
        lines = dict(line.split(": ", 1) for line in block.splitlines() if not line.startswith(":"))
        if "event" in lines:
            found.append((lines["event"], lines.get("id"), json.loads(lines["data"])))
    return found


def run(watching):
    """What *watching* comes to, in an event loop of its own: a browser's may run in this thread."""
    with ThreadPoolExecutor(1) as pool:
        return pool.submit(asyncio.run, watching).result()


async def until(messages, wanted, *, limit_s=5.0):
    """Messages read until *wanted* holds for all read so far."""
    found = []
    async with asyncio.timeout(limit_s):
        while not wanted(found):
            found += told(await anext(messages))
    return found


def seqs(found):
    """Sequence numbers of the changes told."""
    return [data["seq"] for name, _, data in found if name == "changed"]


@pytest.fixture
def store():
    """A store in memory with one job."""
    made = opened(MemoryStore())
    yield made
    made.close()
