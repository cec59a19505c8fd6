"""Who sits at the desk, and the token that each of the desk's own forms carries.

The cookie holds a random id, nothing else. The token is an HMAC of that id under a key that is
drawn when the desk starts, so a page of another site can know neither.
"""

from __future__ import annotations

import hashlib
import hmac
import secrets
import threading
from collections import OrderedDict
from dataclasses import dataclass, field

from starlette.requests import Request
from starlette.responses import Response

from saywright.web.errors import GuardError

COOKIE = "saywright_desk"
MAX_SESSIONS = 200  # the one unused longest is forgotten first


@dataclass
class Sessions:
    """The open sessions of this run of the desk."""

    default_actor: str
    key: bytes = field(default_factory=lambda: secrets.token_bytes(32))
    _names: OrderedDict[str, str] = field(default_factory=OrderedDict)  # session id → name of the person
    _lock: threading.Lock = field(default_factory=threading.Lock)  # requests come in threads

    def of(self, request: Request) -> str:
        """The session id of this request; a new one where the browser has none that is known."""
        known = getattr(request.state, "session", None) or request.cookies.get(COOKIE, "")
        with self._lock:
            if known not in self._names:
                known = secrets.token_urlsafe(24)
                self._names[known] = self.default_actor
                if len(self._names) > MAX_SESSIONS:
                    self._names.popitem(last=False)
            self._names.move_to_end(known)
        request.state.session = known
        return known

    def actor(self, request: Request) -> str:
        """The name that goes into the events."""
        known = self.of(request)
        with self._lock:
            return self._names.get(known, self.default_actor)

    def name(self, request: Request, actor: str) -> None:
        """Keep changes under this name from now on."""
        known = self.of(request)
        with self._lock:
            self._names[known] = actor

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
        response.set_cookie(COOKIE, self.of(request), httponly=True, samesite="strict", path="/")
        return response
