"""Who sits at the desk, and the token that each of the desk's own forms carries.

The cookie holds a random id, nothing else; what it stands for is kept here, in memory. The token is an
HMAC of that id under a key that is drawn when the desk starts, so a page of another site can know neither.
A sign-in draws a new id, so that one planted in a browser before is worth nothing after.
"""

from __future__ import annotations

import hashlib
import hmac
import secrets
import threading
import time
from collections import OrderedDict
from collections.abc import Callable
from dataclasses import dataclass, field

from starlette.requests import Request
from starlette.responses import Response

from saywright.errors import RefusedError
from saywright.people import Person, name_key
from saywright.web.attempts import Attempts
from saywright.web.errors import GuardError

COOKIE = "saywright_desk"
MAX_SESSIONS = 200  # without a sign-in; the one unused longest is forgotten first
MAX_SIGNED = 20  # open sign-ins of one person; the oldest ends first
IDLE_S = 4 * 3600.0  # a sign-in unused for so long has ended
LONGEST_S = 16 * 3600.0  # one used all the time ends then: a working day


@dataclass
class _Signed:
    """One sign-in."""

    name: str  # of the person, as the store has it
    began_s: float
    used_s: float


@dataclass
class Sessions:
    """The open sessions of this run of the desk."""

    default_actor: str
    key: bytes = field(default_factory=lambda: secrets.token_bytes(32))
    now_s: Callable[[], float] = time.monotonic
    attempts: Attempts = field(default_factory=Attempts)  # to sign in, and to sign
    _names: OrderedDict[str, str] = field(default_factory=OrderedDict)  # session id → name given at the desk
    _signed: dict[str, _Signed] = field(default_factory=dict)  # session id → sign-in
    _lock: threading.Lock = field(default_factory=threading.Lock)  # requests come in threads

    def of(self, request: Request) -> str:
        """The session id of this request; a new one where the browser has none that is known."""
        known = getattr(request.state, "session", None) or request.cookies.get(COOKIE, "")
        with self._lock:
            if self._living(known) is None:
                if known not in self._names:
                    known = secrets.token_urlsafe(24)
                    self._names[known] = self.default_actor
                    if len(self._names) > MAX_SESSIONS:
                        self._names.popitem(last=False)
                self._names.move_to_end(known)
        request.state.session = known
        return known

    def actor(self, request: Request) -> str:
        """The name that goes into the events: the person's, where somebody signed in."""
        person = person_of(request)
        if person is not None:
            return person.name
        known = self.of(request)
        with self._lock:
            return self._names.get(known, self.default_actor)

    def name(self, request: Request, actor: str) -> None:
        """Keep changes under this name from now on; refused where people sign in."""
        if person_of(request) is not None:
            raise RefusedError(
                "changes are kept under the name of who signed in",
                where="Name",
                to_do="Sign out, and let the other person sign in",
            )
        known = self.of(request)
        with self._lock:
            self._names[known] = actor

    def signed_name(self, session: str) -> str | None:
        """The name of who signed in under this id, and counts as used; None where nobody did, or it ended."""
        with self._lock:
            found = self._living(session)
            if found is None:
                return None
            found.used_s = self.now_s()
            return found.name

    def sign_in(self, request: Request, person: Person) -> None:
        """From now on this browser is the person's; the id it had before is worth nothing."""
        old, new, now_s = self.of(request), secrets.token_urlsafe(24), self.now_s()
        with self._lock:
            self._names.pop(old, None)
            self._signed.pop(old, None)
            self._signed[new] = _Signed(person.name, now_s, now_s)
            same = [id_ for id_, one in self._signed.items() if name_key(one.name) == name_key(person.name)]
            for id_ in same[:-MAX_SIGNED]:
                del self._signed[id_]
        request.state.session = new

    def sign_out(self, request: Request) -> None:
        """End the sign-in of this browser."""
        with self._lock:
            self._signed.pop(request.cookies.get(COOKIE, ""), None)
        request.state.session = ""

    def token(self, request: Request) -> str:
        """The token for the forms of this session."""
        return hmac.new(self.key, self.of(request).encode(), hashlib.sha256).hexdigest()

    def check(self, request: Request, token: str) -> None:
        """GuardError where the form does not carry this session's token."""
        if not hmac.compare_digest(self.token(request).encode(), token.encode()):
            raise GuardError(
                "the form is not from this run of the desk",
                to_do="Go back, copy what you typed, load the page again and send it from there",
            )

    def keep(self, request: Request, response: Response) -> Response:
        """*response* with the session cookie."""
        secure = request.url.scheme == "https"
        response.set_cookie(
            COOKIE, self.of(request), httponly=True, samesite="strict", path="/", secure=secure
        )
        return response

    def _living(self, session: str) -> _Signed | None:
        """The sign-in under this id, which has not ended. The lock is held."""
        found, now_s = self._signed.get(session), self.now_s()
        if found is None:
            return None
        if now_s - found.used_s > IDLE_S or now_s - found.began_s > LONGEST_S:
            del self._signed[session]
            return None
        return found


def person_of(request: Request) -> Person | None:
    """Who signed in, as the gate found them; None where the desk asks for no sign-in."""
    person: Person | None = getattr(request.state, "person", None)
    return person
