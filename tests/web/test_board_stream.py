"""Server-sent events: nothing is lost, nothing piles up, nothing goes on after the last reader left."""

from __future__ import annotations

import asyncio
import threading

from saywright.errors import NotFoundError
from saywright.store.eventlog import SqliteStore
from saywright.web import stream
from saywright.web.stream import Streams

from .streaming import JOB, describe, opened, run, seqs, told, until


def test_an_event_appended_through_the_streams_is_told(store):
    """Sequence number, kind, time and actor of a new event, with its id for the browser."""

    async def watch():
        streams = Streams(store)
        messages = await streams.follow(JOB)
        await anext(messages)
        describe(streams.store, 1)
        found = await until(messages, bool)
        await messages.aclose()
        return found

    data = {"seq": 2, "kind": "job_described", "at": "2026-03-01T09:30:00+00:00", "actor": "Ben"}
    assert [("changed", "2", data)] == run(watch())


def test_what_another_process_appended_is_told(tmp_path):
    """The log is looked at again and again, so who writes does not matter."""
    mine, other = opened(SqliteStore(tmp_path)), SqliteStore(tmp_path)

    async def watch():
        messages = await Streams(mine).follow(JOB)
        await anext(messages)
        describe(other, 1)
        found = await until(messages, seqs)
        await messages.aclose()
        return seqs(found)

    try:
        assert [2] == run(watch())
    finally:
        mine.close()
        other.close()


def test_a_reader_that_comes_back_gets_all_it_missed(store):
    """Everything later than the event it saw last, in order, once."""
    for seq in range(1, 6):
        describe(store, seq)

    async def watch():
        streams = Streams(store)
        first = await streams.follow(JOB, after=6)
        await anext(first)
        messages = await streams.follow(JOB, after=2)
        found = await until(messages, lambda found: len(seqs(found)) >= 4)
        describe(streams.store, 6)
        found += await until(messages, seqs)
        await messages.aclose()
        await first.aclose()
        return seqs(found)

    assert [3, 4, 5, 6, 7] == run(watch())


def test_nothing_is_lost_when_events_come_faster_than_they_are_kept_ready(store, monkeypatch):
    """A reader left behind reads from the store what is no longer kept ready."""
    monkeypatch.setattr(stream, "KEPT", 3)

    async def watch():
        streams = Streams(store)
        messages = await streams.follow(JOB)
        await anext(messages)
        for seq in range(1, 21):
            describe(store, seq)
        streams.notify(JOB)
        found = await until(messages, lambda found: seqs(found)[-1:] == [21])
        await messages.aclose()
        return seqs(found)

    assert list(range(2, 22)) == run(watch())


def test_five_writers_and_many_readers_lose_nothing(tmp_path):
    """Each of 20 readers gets each of 50 events once and in order, appended from five threads."""
    store = opened(SqliteStore(tmp_path))
    turn = threading.Lock()
    seq = 1

    def write(streams):
        nonlocal seq
        for _ in range(10):
            with turn:
                describe(streams.store, seq)
                seq += 1

    async def watch():
        streams = Streams(store)
        readers = [await streams.follow(JOB) for _ in range(20)]
        for messages in readers:
            await anext(messages)
        writers = [threading.Thread(target=write, args=(streams,)) for _ in range(5)]
        for writer in writers:
            writer.start()
        found = await asyncio.gather(
            *(until(m, lambda found: len(seqs(found)) >= 50, limit_s=30) for m in readers)
        )
        for messages in readers:
            await messages.aclose()
        for writer in writers:
            writer.join()
        return [seqs(one) for one in found]

    try:
        assert [list(range(2, 52))] * 20 == run(watch())
    finally:
        store.close()


def test_of_what_is_live_the_newest_is_told(store):
    """A slow reader gets the words as they are now, not every state they went through."""

    async def watch():
        streams = Streams(store)
        messages = await streams.follow(JOB)
        await anext(messages)
        for words in ("float", "float height", "float height is"):
            streams.tell(JOB, {"type": "partial", "words": words})
        found = await until(messages, bool)
        await messages.aclose()
        return found

    assert [("live", None, {"type": "partial", "words": "float height is"})] == run(watch())


def test_who_comes_late_gets_the_microphone_and_no_words_that_are_settled(store):
    """The newest of each type is kept; what has settled is no longer shown as being spoken."""

    async def watch():
        streams = Streams(store)
        streams.tell(JOB, {"type": "microphone", "state": "listening"})
        streams.tell(JOB, {"type": "partial", "words": "float"})
        streams.tell(JOB, {"type": "settled", "seq": 1})
        messages = await streams.follow(JOB)
        await anext(messages)
        found = told(await anext(messages))
        await messages.aclose()
        return [data["type"] for _, _, data in found]

    assert ["microphone", "settled"] == run(watch())


def test_nothing_goes_on_after_the_last_reader_left(store):
    """The poller of a job ends with its last reader, and a hundred readers leave nothing behind."""

    async def watch():
        streams = Streams(store)
        before = asyncio.all_tasks()
        for _ in range(100):
            messages = await streams.follow(JOB)
            await anext(messages)
            await messages.aclose()
        await asyncio.sleep(0)
        return streams.readers, asyncio.all_tasks() - before

    assert (0, set()) == run(watch())


def test_a_quiet_stream_beats(store, monkeypatch):
    """A line without meaning keeps the connection open."""
    monkeypatch.setattr(stream, "BEAT_S", 0.01)

    async def watch():
        messages = await Streams(store).follow(JOB)
        await anext(messages)
        beat = await anext(messages)
        await messages.aclose()
        return beat

    assert b": beat\n\n" == run(watch())


def test_closing_ends_every_stream(store):
    """The server can stop while boards are open."""

    async def watch():
        streams = Streams(store)
        messages = await streams.follow(JOB)
        await anext(messages)
        threading.Timer(0.05, streams.close).start()
        async with asyncio.timeout(5):
            return [message async for message in messages]

    assert [] == run(watch())


def test_a_store_that_fails_for_a_moment_does_not_end_the_stream(store):
    """The stream goes on when the store does."""

    async def watch():
        streams = Streams(store)
        messages = await streams.follow(JOB)
        await anext(messages)
        good = store.events
        store.events = lambda *_, **__: (_ for _ in ()).throw(NotFoundError("gone for a moment"))
        streams.notify(JOB)
        await asyncio.sleep(0.05)
        store.events = good
        describe(store, 1)
        found = await until(messages, seqs)
        await messages.aclose()
        return seqs(found)

    assert [2] == run(watch())
