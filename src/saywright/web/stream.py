"""What happens to a job, as server-sent events: each event of its log, and what a live sitting tells.

    id: 57
    event: changed
    data: {"seq": 57, "kind": "understood", "at": "2026-03-01T09:30:00+00:00", "actor": "saywright"}

    event: live
    data: {"type": "partial", "words": "float height is"}

A reader that comes back with Last-Event-ID, or asks with `?after=`, gets every event later than
that. Of what is live only the newest of each type is kept, so a slow reader costs nothing.
"""

from __future__ import annotations

import asyncio
import contextlib
import json
import threading
from collections.abc import AsyncIterator, Callable, Sequence
from dataclasses import dataclass, field
from typing import Any

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response, StreamingResponse

from saywright.errors import NotFoundError, SaywrightError
from saywright.record.events import Event
from saywright.store.protocol import Store
from saywright.web.stream_store import NotifyingStore

POLL_S = 0.2  # what another process appended is seen after this at the latest
BEAT_S = 15.0  # a line without meaning, so that nothing between takes the connection for dead
KEPT = 2000  # events of a watched job kept ready; whoever lacks more reads them from the store
_MAX_DIGITS = 12

Live = dict[str, Any]  # plain data with its "type"


@dataclass(frozen=True, slots=True)
class Change:
    """One event of a log, without its payload."""

    seq: int
    kind: str  # of the payload
    at: str  # ISO 8601, UTC
    actor: str

    @property
    def message(self) -> bytes:
        """As a reader gets it."""
        data = {"seq": self.seq, "kind": self.kind, "at": self.at, "actor": self.actor}
        return _message("changed", data, seq=self.seq)


@dataclass(eq=False)
class _Reader:
    """One open connection."""

    seq: int  # of the last event it was given
    wake: asyncio.Event = field(default_factory=asyncio.Event)
    given: dict[str, int] = field(default_factory=dict)  # type → version of what it was given live


@dataclass(eq=False)
class _Channel:
    """A job that somebody watches. Touched in its event loop only."""

    job_id: str
    loop: asyncio.AbstractEventLoop
    base: int  # sequence number before the first of `changes`
    changes: list[Change] = field(default_factory=list)
    readers: set[_Reader] = field(default_factory=set)
    dirty: asyncio.Event = field(default_factory=asyncio.Event)
    poller: asyncio.Task[None] | None = None

    @property
    def last(self) -> int:
        """Sequence number of the newest event known."""
        return self.base + len(self.changes)

    def take(self, events: Sequence[Event]) -> None:
        """Add what is new, and wake who waits for it."""
        self.changes += [_change(event) for event in events if event.seq > self.last]
        if (surplus := len(self.changes) - KEPT) > 0:
            del self.changes[:surplus]
            self.base += surplus
        if events:
            self.wake()

    def wake(self) -> None:
        """Every reader looks what there is."""
        for reader in self.readers:
            reader.wake.set()


class Streams:
    """All open streams of one server. One poller a watched job, no thread a reader."""

    def __init__(self, store: Store) -> None:
        """Over *store*. Who appends through `self.store` is seen at once, others after `POLL_S`."""
        self.store = NotifyingStore(store, self.notify)
        self._channels: dict[str, _Channel] = {}
        self._live: dict[str, dict[str, tuple[int, Live]]] = {}  # job → type → version, newest
        self._version = 0
        self._lock = threading.Lock()
        self._closed = False

    @property
    def readers(self) -> int:
        """Connections that are open."""
        with self._lock:
            return sum(len(channel.readers) for channel in self._channels.values())

    def notify(self, job_id: str) -> None:
        """Something was appended to the job. From any thread."""
        self._call(job_id, lambda channel: channel.dirty.set())

    def tell(self, job_id: str, live: Live) -> None:
        """Something live, told to whoever watches; the newest of its type is kept for who comes later.

        "settled" takes "partial" and "provisional" away. From any thread.
        """
        with self._lock:
            known = self._live.setdefault(job_id, {})
            if live["type"] == "settled":
                known.pop("partial", None)
                known.pop("provisional", None)
            self._version += 1
            known[live["type"]] = (self._version, live)
        self._call(job_id, lambda channel: channel.wake())

    def live(self, job_id: str) -> dict[str, Live]:
        """The newest of each type."""
        with self._lock:
            return {name: live for name, (_, live) in self._live.get(job_id, {}).items()}

    def forget(self, job_id: str) -> None:
        """The sitting has ended; nothing of it is live any more."""
        with self._lock:
            self._live.pop(job_id, None)

    def close(self) -> None:
        """End every stream, so that the server can stop. From any thread."""
        self._closed = True
        with self._lock:
            watched = tuple(self._channels)
        for job_id in watched:
            self._call(job_id, lambda channel: channel.wake())

    async def follow(self, job_id: str, *, after: int | None = None) -> AsyncIterator[bytes]:
        """Messages without end, later than event *after*; None: from now on. NotFoundError: no such job."""
        missed: tuple[Event, ...] = ()
        if after is not None:
            # The event seen last is asked for too: without it nobody knows that it was there at all.
            found = await run_in_threadpool(self.store.events, job_id, after_seq=max(0, after - 1))
            missed = tuple(event for event in found if event.seq > after)
            after = after if found else None
        if after is None:
            after = await run_in_threadpool(self._last, job_id)
        return self._messages(job_id, after, missed)

    async def _messages(self, job_id: str, after: int, missed: tuple[Event, ...]) -> AsyncIterator[bytes]:
        last = missed[-1].seq if missed else after
        channel, reader = self._join(job_id, last)
        try:
            yield b"retry: 1000\n" + _message("hello", {"seq": last})
            if missed:
                yield b"".join(_change(event).message for event in missed)
            while not self._closed:
                if found := await self._news(channel, reader):
                    yield found
                try:
                    await asyncio.wait_for(reader.wake.wait(), BEAT_S)
                except TimeoutError:
                    yield b": beat\n\n"
                reader.wake.clear()
        finally:
            self._leave(channel, reader)

    async def _news(self, channel: _Channel, reader: _Reader) -> bytes:
        """All that this reader was not given yet."""
        if reader.seq < channel.base:
            events = await run_in_threadpool(self.store.events, channel.job_id, after_seq=reader.seq)
            changes = [_change(event) for event in events]
        else:
            changes = channel.changes[reader.seq - channel.base :]
        if changes:
            reader.seq = changes[-1].seq
        with self._lock:
            newest = sorted(self._live.get(channel.job_id, {}).items(), key=lambda one: one[1][0])
        parts = [change.message for change in changes]
        for name, (version, live) in newest:
            if reader.given.get(name) != version:
                reader.given[name] = version
                parts.append(_message("live", live))
        return b"".join(parts)

    async def _poll(self, channel: _Channel) -> None:
        """Read what is new as long as anybody watches."""
        while True:
            with contextlib.suppress(TimeoutError):
                await asyncio.wait_for(channel.dirty.wait(), POLL_S)
            channel.dirty.clear()
            # A store that fails for a moment must not end the streams; they go on when it does.
            with contextlib.suppress(SaywrightError):
                channel.take(
                    await run_in_threadpool(self.store.events, channel.job_id, after_seq=channel.last)
                )

    def _join(self, job_id: str, seq: int) -> tuple[_Channel, _Reader]:
        loop = asyncio.get_running_loop()
        reader = _Reader(seq)
        with self._lock:
            channel = self._channels.get(job_id)
            if channel is None or channel.loop is not loop:
                channel = self._channels[job_id] = _Channel(job_id, loop, base=seq)
                channel.poller = loop.create_task(self._poll(channel))
            channel.readers.add(reader)
        return channel, reader

    def _leave(self, channel: _Channel, reader: _Reader) -> None:
        with self._lock:
            channel.readers.discard(reader)
            if channel.readers:
                return
            if self._channels.get(channel.job_id) is channel:
                del self._channels[channel.job_id]
        if channel.poller is not None:
            channel.poller.cancel()

    def _call(self, job_id: str, act: Callable[[_Channel], None]) -> None:
        """Do *act* in the event loop of the job's channel, where there is one."""
        with self._lock:
            channel = self._channels.get(job_id)
        if channel is not None:
            with contextlib.suppress(RuntimeError):  # the loop has ended meanwhile
                channel.loop.call_soon_threadsafe(act, channel)

    def _last(self, job_id: str) -> int:
        """Sequence number of the newest event: they are counted from 1 without a gap."""
        row = next((row for row in self.store.jobs() if row.id == job_id), None)
        if row is None:
            raise NotFoundError("no such job", where=job_id, to_do="'saywright jobs' lists them")
        return row.events


async def stream(request: Request) -> Response:
    """GET /jobs/{job}/stream: from Last-Event-ID, else from `?after=`, else from now on."""
    streams: Streams = request.app.state.streams
    wanted = request.headers.get("last-event-id") or request.query_params.get("after", "")
    known = wanted.isascii() and wanted.isdigit() and len(wanted) <= _MAX_DIGITS
    messages = await streams.follow(request.path_params["job"], after=int(wanted) if known else None)
    headers = {"cache-control": "no-store", "x-accel-buffering": "no"}
    return StreamingResponse(messages, media_type="text/event-stream", headers=headers)


def _change(event: Event) -> Change:
    return Change(event.seq, event.payload.kind, event.at.isoformat(), event.actor)


def _message(name: str, data: dict[str, Any], *, seq: int | None = None) -> bytes:
    """One message; JSON holds no line breaks, so one data line carries it."""
    head = f"id: {seq}\n" if seq is not None else ""
    return f"{head}event: {name}\ndata: {json.dumps(data, ensure_ascii=False)}\n\n".encode()
