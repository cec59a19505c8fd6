"""A desk on a network, with a person of each role, and browsers that sign in."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from contextlib import ExitStack
from dataclasses import dataclass, field
from typing import Any

import pytest
from argon2 import PasswordHasher
from starlette.testclient import TestClient

from saywright.people import Role
from saywright.store.memory import MemoryStore
from saywright.store.passphrase import Hasher
from saywright.store.protocol import Store
from saywright.web.app import create_app
from saywright.web.lan import Reach
from saywright.web.stream import Streams

NETWORK = "http://192.0.2.7:8643"  # TEST-NET-1 of RFC 5737
HTML = {"accept": "text/html"}
PASSPHRASES = {"Tess": "low tide at seven", "Rune": "the slip is wet", "Vera": "gulls on the crane"}
ROLES = {"Tess": Role.TECHNICIAN, "Rune": Role.REVIEWER, "Vera": Role.VIEWER}


@dataclass
class Clock:
    """Seconds that go on when told to."""

    s: float = 1000.0

    def __call__(self) -> float:
        """Seconds from some start."""
        return self.s


@dataclass
class Staff:
    """The desk and who comes to it."""

    store: Store
    app: Any
    seconds: Clock
    job: Any  # the module that fills the job
    clock: Callable[[], Any]
    _open: ExitStack = field(default_factory=ExitStack)

    @property
    def state(self) -> Any:
        """What the routes share."""
        return self.app.app.app.state

    def browser(self, *, address: str = NETWORK, came_from: str = "192.0.2.40") -> TestClient:
        """A browser without a sign-in, on another machine."""
        client = TestClient(
            self.app, base_url=address, follow_redirects=False, client=(came_from, 50_000), headers=HTML
        )
        return self._open.enter_context(client)

    def signed_in(self, name: str, **more: Any) -> TestClient:
        """A browser of this person."""
        client = self.browser(**more)
        answer = self.sign_in(client, name, PASSPHRASES[name])
        assert 303 == answer.status_code, answer.text
        return client

    def sign_in(self, client: TestClient, name: str, passphrase: str, **more: str) -> Any:
        """Send the form of the sign-in page."""
        form = {
            "token": token(client, "/sign-in"),
            "name": name,
            "passphrase": passphrase,
            "next": "/",
            **more,
        }
        return client.post("/sign-in", data=form)

    def post(self, client: TestClient, path: str, data: dict[str, object] | None = None, **more: Any) -> Any:
        """Send a form of the job's page, with its token."""
        return client.post(
            f"/jobs/{self.job.JOB}{path}", data={"token": token(client), **(data or {})}, **more
        )

    def sign(self, client: TestClient, passphrase: str) -> Any:
        """Send the form of the signing page as it stands, with a name that does not count."""
        form = {"statement": "I stand for it", "name": "Somebody else", "passphrase": passphrase}
        return self.post(client, "/sign", {**form, "seen": self.events()[-1].hash})

    def events(self) -> tuple[Any, ...]:
        """The log of the job."""
        return self.store.events(self.job.JOB)

    def close(self) -> None:
        """Let go of browsers and files."""
        self._open.close()
        self.store.close()


def token(client: TestClient, path: str = "/") -> str:
    """The token of this browser's session."""
    found = re.search(r'name="token" value="([0-9a-f]{64})"', client.get(path).text)
    assert found is not None
    return found[1]


@pytest.fixture
def cheap(monkeypatch: pytest.MonkeyPatch) -> None:
    """Hashes of the least cost that argon2 allows, so that tests are quick."""
    hasher = Hasher(PasswordHasher(time_cost=1, memory_cost=8, parallelism=1))
    monkeypatch.setattr("saywright.store.passphrase.HASHER", hasher)


def make_staff(job: Any, *, lan: bool, people: bool = True, hostile: str = "") -> Iterator[Staff]:
    """A desk with one job; *people*: a person of each role, and one with a *hostile* name."""
    store, clock, seconds = MemoryStore(), job.Minutes(), Clock()
    job.fill(store, clock)
    for name in PASSPHRASES if people else ():
        store.people.add(name, ROLES[name], PASSPHRASES[name], by="Kit")
    if hostile:
        store.people.add(hostile, Role.TECHNICIAN, "a name that bites", by="Kit")
    app = create_app(store, clock, actor="Ada", reach=Reach(lan=lan), streams=Streams(store))
    made = Staff(store, app, seconds, job, clock)
    made.state.desk.sessions.now_s = seconds
    made.state.tickets.now_s = seconds
    yield made
    made.close()
