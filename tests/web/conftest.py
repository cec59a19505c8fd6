"""A browser at a desk with one job."""

from __future__ import annotations

import re
import socket
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest
from starlette.testclient import TestClient

from loading import load
from saywright.bench import Bench
from saywright.store.memory import MemoryStore
from saywright.store.protocol import JobRow, Store
from saywright.web.app import create_app
from saywright.web.stream import Streams

ADDRESS = "http://127.0.0.1:8643"


def _load(name: str) -> ModuleType:
    """A module of this folder that holds no tests."""
    return load(Path(__file__).with_name(f"{name}.py"), f"desk_{name}")


JOB = _load("job")
BROWSER = _load("browser")
STAFF = _load("staff")
chromium = BROWSER.chromium
hung = _load("hung").hung
store = _load("streaming").store
cheap = STAFF.cheap


@pytest.fixture
def staff(cheap: None) -> Iterator[Any]:
    """A desk on a network with a person of each role."""
    yield from STAFF.make_staff(JOB, lan=True)


@pytest.fixture
def staff_tools() -> ModuleType:
    """The module that makes desks with people."""
    return STAFF


@pytest.fixture(scope="session")
def browser_tools() -> ModuleType:
    """The module with windows, a server and the sizes of screens."""
    return BROWSER


@dataclass
class Visit:
    """A browser at the desk."""

    client: TestClient
    store: Store
    clock: Callable[[], datetime]

    def bench(self) -> Bench:
        """The job as the log has it now."""
        return Bench.resume(self.store, JOB.JOB, clock=self.clock)

    def token(self) -> str:
        """The token of this browser's session."""
        found = re.search(r'name="token" value="([0-9a-f]{64})"', self.client.get("/").text)
        assert found is not None
        return found[1]

    def record_hash(self) -> str:
        """The hash of the record, as the signing page sends it back."""
        return str(self.bench().record().record_hash)

    def post(self, path: str, data: dict[str, object] | None = None, **more: object):  # type: ignore[no-untyped-def]
        """Send a form of the job's page, with its token."""
        return self.client.post(
            f"/jobs/{JOB.JOB}{path}", data={"token": self.token(), **(data or {})}, **more
        )


@pytest.fixture
def visit() -> Iterator[Visit]:
    """A browser at a desk with one job."""
    store, clock = MemoryStore(), JOB.Minutes()
    JOB.fill(store, clock)
    with TestClient(
        create_app(store, clock, actor="Ada"), base_url=ADDRESS, follow_redirects=False
    ) as client:
        yield Visit(client, store, clock)
    store.close()


@dataclass
class Desk:
    """A desk that answers on a port, for browsers."""

    address: str
    store: Store
    clock: Callable[[], datetime]
    chromium: Any

    def bench(self, job: str = JOB.JOB) -> Bench:
        """The job as the log has it now."""
        return Bench.resume(self.store, job, clock=self.clock)

    def screen(self, **more: Any) -> Any:
        """A window at this desk; `with` closes it."""
        return BROWSER.screen(self.chromium, self.address, **more)


@pytest.fixture
def desk(chromium: Any) -> Iterator[Desk]:
    """A desk with one job, open to browsers."""
    store, clock = MemoryStore(), JOB.Minutes()
    JOB.fill(store, clock)
    streams = Streams(store)
    app = create_app(store, clock, actor="Ada", streams=streams)
    with BROWSER.serving(app, streams=streams) as address:
        yield Desk(address, store, clock, chromium)
    store.close()


@pytest.fixture
def jpeg() -> bytes:
    """A picture that is not in the job yet."""
    return JOB.picture((60, 120, 200))


@pytest.fixture
def taken_port() -> Iterator[int]:
    """A port of loopback that another program listens on."""
    with socket.socket() as other:
        other.bind(("127.0.0.1", 0))
        other.listen()
        yield other.getsockname()[1]


@pytest.fixture
def failing_client() -> Iterator[TestClient]:
    """A browser at a desk whose store fails in a way that nobody foresaw."""

    class Failing(MemoryStore):
        def jobs(self) -> tuple[JobRow, ...]:
            raise ZeroDivisionError("boiler")

    store = Failing()
    app = create_app(store, JOB.Minutes())
    with TestClient(app, base_url=ADDRESS, raise_server_exceptions=False) as client:
        yield client
    store.close()
