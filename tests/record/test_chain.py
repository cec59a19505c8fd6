"""The hash chain: what is altered, removed or put in is found, and named."""

from __future__ import annotations

import hashlib
from datetime import UTC, datetime

import pytest

from saywright.errors import ChainError
from saywright.record import events as ev
from saywright.record.chain import GENESIS, content_hash, event_hash, link, verify

AT = datetime(2025, 3, 4, 8, 0, tzinfo=UTC)


@pytest.fixture
def chain(log) -> list[ev.Event]:
    """Four linked events."""
    for n in range(3):
        log.add(ev.JobDescribed(item=f"pump {n}"), actor="Ines")
    return log.events


def test_empty_and_whole_chain(chain: list[ev.Event]) -> None:
    """An empty chain ends in zeros; a whole one in the hash of its last event."""
    assert GENESIS == verify([])
    assert chain[-1].hash == verify(chain)
    assert [1, 2, 3, 4] == [event.seq for event in chain]


def test_hash_is_sha256_of_the_stated_text() -> None:
    """The content is JSON with sorted keys and no spaces, so that any program can check it (FIPS 180-4)."""
    text = (
        '{"actor":"Inés","at":"2025-03-04T08:00:00+00:00","payload":{"customer":null,"item":null,'
        '"kind":"job_described","serial":"K 1","title":null},"previous":"' + GENESIS + '","seq":1}'
    )
    payload = ev.JobDescribed(serial="K 1")
    expected = hashlib.sha256(text.encode()).hexdigest()
    assert expected == event_hash(1, AT, "Inés", payload, GENESIS)
    assert expected == content_hash(1, AT.isoformat(), "Inés", payload.model_dump(mode="json"), GENESIS)


def test_sha256_itself() -> None:
    """The digest of "abc" is that of FIPS 180-4's example (from memory, recomputed)."""
    expected = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
    assert expected == hashlib.sha256(b"abc").hexdigest()


@pytest.mark.parametrize(
    "change", [{"actor": "Otto"}, {"at": AT.replace(year=2024)}, {"payload": ev.JobDescribed(item="gone")}]
)
def test_altered_content(chain: list[ev.Event], change: dict[str, object]) -> None:
    """Whatever part of an event is altered, the event is named."""
    chain[1] = chain[1].model_copy(update=change)
    with pytest.raises(ChainError) as broken:
        verify(chain, "job j1")
    assert "job j1: event 2 was altered. Restore the log from a backup" == str(broken.value)


def test_altered_with_a_new_hash(chain: list[ev.Event]) -> None:
    """A forged event that carries its own right hash breaks the link of the one after."""
    chain[1] = link(ev.JobDescribed(item="forged"), at=chain[1].at, actor="Ines", after=chain[0])
    with pytest.raises(ChainError, match="the log: event 3 was altered"):
        verify(chain)


@pytest.mark.parametrize("lost", [0, 1, 2])
def test_lost_event(chain: list[ev.Event], lost: int) -> None:
    """A hole is named by the number of the event that is not there."""
    del chain[lost]
    with pytest.raises(ChainError, match=f"the log: event {lost + 1} is missing"):
        verify(chain)


def test_swapped_events(chain: list[ev.Event]) -> None:
    """Events in another order do not verify."""
    chain[1], chain[2] = chain[2], chain[1]
    with pytest.raises(ChainError, match="event 2 is missing"):
        verify(chain)


def test_survives_storage(chain: list[ev.Event]) -> None:
    """Written as JSON and read again, the chain still verifies."""
    stored = [event.model_dump_json() for event in chain]
    assert chain[-1].hash == verify(ev.Event.model_validate_json(text) for text in stored)
