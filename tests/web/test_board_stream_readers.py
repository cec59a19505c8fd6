"""Who reads a stream: where it starts, who asks for what is not there."""

from __future__ import annotations

import pytest
from starlette.applications import Starlette
from starlette.routing import Route
from starlette.testclient import TestClient

from saywright.errors import NotFoundError
from saywright.web import stream
from saywright.web.stream import Streams

from .streaming import JOB, describe, run, seqs, told, until


@pytest.mark.parametrize(
    ("query", "header", "expected"),
    [("after=1", {}, [2, 3]), ("after=1", {"last-event-id": "2"}, [3]), ("after=x", {}, [])],
)
def test_the_route_starts_where_the_reader_stopped(store, query, header, expected):
    """Last-Event-ID comes before `after`; nonsense means from now on."""
    describe(store, 1)
    describe(store, 2)
    app = Starlette(routes=[Route("/jobs/{job}/stream", stream.stream)])
    app.state.streams = Streams(store)
    app.state.streams.close()  # what is there already is told, then the stream ends
    with TestClient(app) as client:
        answer = client.get(f"/jobs/{JOB}/stream?{query}", headers=header)
    assert "text/event-stream; charset=utf-8" == answer.headers["content-type"]
    assert expected == seqs(told(answer.content))


def test_a_reader_from_the_future_keeps_no_event_from_others(store):
    """A sequence number that was never given means from now on."""

    async def watch():
        streams = Streams(store)
        liar = await streams.follow(JOB, after=999)
        await anext(liar)
        messages = await streams.follow(JOB)
        await anext(messages)
        describe(streams.store, 1)
        found = [seqs(await until(one, seqs)) for one in (messages, liar)]
        await messages.aclose()
        await liar.aclose()
        return found

    assert [[2], [2]] == run(watch())


def test_a_job_that_is_not_there(store):
    """No stream is opened for it."""

    async def watch(after):
        await Streams(store).follow("nowhere", after=after)

    for after in (None, 0):
        with pytest.raises(NotFoundError, match=r"^nowhere: no such job"):
            run(watch(after))
