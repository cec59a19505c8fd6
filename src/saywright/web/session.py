"""Who sits at the desk, and the token that each of the desk's own forms carries.

The cookie holds a random id, nothing else. The token is an HMAC of that id under a key that is
drawn when the desk starts, so a page of another site can know neither.
"""

from __future__ import annotations

import hashlib
import hmac
import secrets
from collections import OrderedDict
from dataclasses import dataclass, field

from starlette.requests import Request
from starlette.responses import Response

from saywright.web.errors import GuardError

COOKIE = "saywright_desk"
MAX_SESSIONS = 200  # oldest forgotten first


@dataclass
class Sessions:
    """The open sessions of this run of the desk."""

    default_actor: str
    key: bytes = field(default_factory=lambda: secrets.token_bytes(32))
    names: OrderedDict[str, str] = field(default_factory=OrderedDict)  # session id → name of the person

    def of(self, request: Request) -> str:
        """The session id of this request; a new one where the browser has none that is known."""
        known = getattr(request.state, "session", None) or request.cookies.get(COOKIE, "")
        if known not in self.names:
            known = secrets.token_urlsafe(24)
            self.names[known] = self.default_actor
            if len(self.names) > MAX_SESSIONS:
                self.names.popitem(last=False)
        request.state.session = known
        return known

    def actor(self, request: Request) -> str:
        """The name that goes into the events."""
        return self.names[self.of(request)]

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
