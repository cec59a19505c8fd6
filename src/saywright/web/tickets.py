"""Codes that let a phone send pictures of one job for a quarter of an hour, and do nothing else.

A code is made of the ticket's id under a key drawn when the desk starts, so that it can be shown again
without being kept; kept is its SHA-256.
"""

from __future__ import annotations

import base64
import hashlib
import hmac
import secrets
import threading
import time
from collections import OrderedDict
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

from saywright.errors import NotFoundError, RefusedError

LIFE_S = 15 * 60.0
MAX_PICTURES = 200  # that one code brings
MAX_TICKETS = 100  # open at once; the oldest is closed first
MAX_LINES = 40  # results shown, the newest


@dataclass(frozen=True, slots=True)
class Line:
    """What became of one picture."""

    good: bool  # False: it could not be used
    text: str


@dataclass
class Ticket:
    """One code, as long as it is good."""

    id: str  # in addresses of the desk; opens nothing by itself
    job_id: str
    opened_by: str  # the name under which the pictures are taken in
    ends_s: float  # by `Tickets.now_s`
    sent: int = 0  # pictures that came, good or not
    lines: list[Line] = field(default_factory=list)  # newest first


@dataclass
class Tickets:
    """The codes of this run of the desk."""

    now_s: Callable[[], float] = time.monotonic
    _key: bytes = field(default_factory=lambda: secrets.token_bytes(32))
    _open: OrderedDict[str, Ticket] = field(default_factory=OrderedDict)  # SHA-256 of the code → ticket
    _lock: threading.Lock = field(default_factory=threading.Lock)

    def open(self, job_id: str, opened_by: str) -> Ticket:
        """A new code for this job."""
        ticket = Ticket(secrets.token_hex(8), job_id, opened_by, self.now_s() + LIFE_S)
        with self._lock:
            self._open[_hash(self.code(ticket))] = ticket
            if len(self._open) > MAX_TICKETS:
                self._open.popitem(last=False)
        return ticket

    def code(self, ticket: Ticket) -> str:
        """The code itself, 22 letters and digits with 128 bits that nobody can guess."""
        made = hmac.new(self._key, ticket.id.encode(), hashlib.sha256).digest()[:16]
        return base64.urlsafe_b64encode(made).decode().rstrip("=")

    def by_code(self, code: str) -> Ticket:
        """The ticket of this code; NotFoundError where there is none, or it has ended."""
        with self._lock:
            found = self._open.get(_hash(code))
            if found is None or self._ended(found):
                raise NotFoundError(
                    "this code is not good any more", to_do="Have a new one opened at the desk, and scan that"
                )
            return found

    def by_id(self, ticket_id: str, job_id: str, opened_by: str) -> Ticket:
        """The ticket that this person opened for this job; NotFoundError where there is none, or it ended."""
        with self._lock:
            for found in self._open.values():
                mine = found.job_id == job_id and found.opened_by == opened_by
                if mine and found.id == ticket_id and not self._ended(found):
                    return found
        raise NotFoundError("this code is closed", to_do="Open a new one for the job")

    def close(self, ticket: Ticket) -> None:
        """Good for nothing from now on."""
        with self._lock:
            self._open.pop(_hash(self.code(ticket)), None)

    def left_s(self, ticket: Ticket) -> float:
        """How long it is still good, in seconds."""
        return max(0.0, ticket.ends_s - self.now_s())

    def count(self, ticket: Ticket, pictures: int) -> None:
        """So many more came; RefusedError where the code may not bring as many."""
        with self._lock:
            if ticket.sent + pictures > MAX_PICTURES:
                raise RefusedError(
                    f"one code brings {MAX_PICTURES} pictures at most", to_do="Open another at the desk"
                )
            ticket.sent += pictures

    def tell(self, ticket: Ticket, lines: Sequence[Line]) -> None:
        """What became of the pictures that came last."""
        with self._lock:
            ticket.lines[:0] = lines
            del ticket.lines[MAX_LINES:]

    def _ended(self, ticket: Ticket) -> bool:
        return self.now_s() >= ticket.ends_s


def _hash(code: str) -> str:
    return hashlib.sha256(code.encode("utf-8", "surrogatepass")).hexdigest()
