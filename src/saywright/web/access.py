"""Who may do what: one rule a route, at one place. What has no rule is not there for anybody.

While nobody is defined and the desk answers on this machine only, there is no sign-in and no rule is asked.
"""

from __future__ import annotations

import re
import time
from dataclasses import dataclass
from functools import cache
from urllib.parse import quote

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import compile_path
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from saywright.errors import NotFoundError
from saywright.people import TOLD, Person, Right
from saywright.store.protocol import People
from saywright.web.errors import RightError, SignInError, error_page
from saywright.web.session import COOKIE, Sessions

RECHECK_S = 5.0  # how often an open stream is asked whether its reader is still let in

OPEN = None  # needs no sign-in

_J = "/jobs/{job}"
_I = _J + "/items/{item}"
_A = "/api/jobs/{job}"

# Method and path of every route, as in the route lists → what it needs. HEAD needs what GET does.
RULES: dict[str, Right | None] = {
    "GET /static/{path:path}": OPEN,
    "GET /favicon.ico": OPEN,
    "GET /sign-in": OPEN,
    "POST /sign-in": OPEN,
    "POST /sign-out": OPEN,
    # The code in the path is what lets in; it is good for pictures of one job and nothing else.
    "GET /phone/{code}": OPEN,
    "POST /phone/{code}/photos": OPEN,
    "GET /": Right.READ,
    "POST /who": Right.CHANGE,
    f"GET {_J}": Right.READ,
    f"GET {_J}/asks": Right.READ,
    f"GET {_J}/check": Right.READ,
    f"GET {_J}/sign": Right.READ,
    f"GET {_J}/add": Right.READ,
    f"GET {_J}/preview.{{format}}": Right.READ,
    f"GET {_J}/preview/pages": Right.READ,
    f"GET {_J}/preview/{{hash}}/{{number:int}}.png": Right.READ,
    f"GET {_J}/export/{{format}}": Right.READ,
    f"GET {_J}/photos/{{photo}}/{{size}}.jpg": Right.READ,
    f"GET {_J}/clips/{{item}}.wav": Right.READ,
    f"GET {_J}/stream": Right.READ,
    f"GET {_I}": Right.READ,
    f"POST {_J}/add": Right.CHANGE,
    f"POST {_J}/undo": Right.CHANGE,
    f"POST {_J}/time": Right.CHANGE,
    f"POST {_J}/say": Right.CHANGE,
    f"POST {_J}/explain": Right.CHANGE,
    f"POST {_J}/report": Right.CHANGE,
    f"POST {_J}/match": Right.CHANGE,
    f"POST {_J}/photos": Right.CHANGE,
    f"POST {_J}/photos/{{photo}}/place": Right.CHANGE,
    f"POST {_J}/photos/{{photo}}/choose": Right.CHANGE,
    f"GET {_J}/pictures": Right.READ,
    f"GET {_J}/pictures/{{photo}}": Right.READ,
    f"GET {_J}/pictures/{{before}}/with/{{after}}": Right.READ,
    f"GET {_J}/pictures/{{before}}/with/{{after}}/{{view}}.jpg": Right.READ,
    f"POST {_J}/pictures/{{photo}}/draw": Right.CHANGE,
    f"POST {_J}/pictures/{{photo}}/part": Right.CHANGE,
    f"POST {_J}/pictures/{{photo}}/measure": Right.CHANGE,
    f"POST {_J}/pictures/{{photo}}/enter": Right.CHANGE,
    f"POST {_J}/pictures/{{photo}}/beside": Right.CHANGE,
    f"POST {_I}/accept": Right.CHANGE,
    f"POST {_I}/correct": Right.CHANGE,
    f"POST {_I}/withdraw": Right.CHANGE,
    f"POST {_I}/split": Right.CHANGE,
    f"POST {_I}/merge": Right.CHANGE,
    f"POST {_I}/reword": Right.CHANGE,
    f"POST {_J}/sign": Right.SIGN,
    f"GET {_J}/phone": Right.CHANGE,
    f"POST {_J}/phone": Right.CHANGE,
    f"GET {_J}/phone/{{ticket}}": Right.CHANGE,
    f"GET {_J}/phone/{{ticket}}/code.svg": Right.CHANGE,
    f"GET {_J}/phone/{{ticket}}/state": Right.CHANGE,
    f"POST {_J}/phone/{{ticket}}/close": Right.CHANGE,
    "GET /board": Right.READ,
    "GET /board/sounds/{name}.wav": Right.READ,
    f"GET {_J}/board": Right.READ,
    f"GET {_J}/board/state": Right.READ,
    f"POST {_J}/board/keys": Right.BENCH,
    f"POST {_J}/board/microphone": Right.BENCH,
    "GET /openapi.json": Right.READ,
    "GET /api/session": Right.READ,
    "GET /api/jobs": Right.READ,
    f"GET {_A}/record": Right.READ,
    f"GET {_A}/items/{{item}}": Right.READ,
    f"GET {_A}/items/{{item}}/history": Right.READ,
    f"POST {_A}/items/{{item}}/accept": Right.CHANGE,
    f"POST {_A}/items/{{item}}/correct": Right.CHANGE,
    f"POST {_A}/items/{{item}}/withdraw": Right.CHANGE,
    f"POST {_A}/explain": Right.CHANGE,
    f"POST {_A}/undo": Right.CHANGE,
    f"POST {_A}/items": Right.CHANGE,
    f"POST {_A}/items/{{item}}/split": Right.CHANGE,
    f"POST {_A}/items/{{item}}/merge": Right.CHANGE,
}


@cache
def _patterns() -> tuple[tuple[str, re.Pattern[str], Right | None], ...]:
    """Each rule's method and path, ready to be compared."""
    split = [(*rule.partition(" "), right) for rule, right in RULES.items()]
    return tuple((method, compile_path(path)[0], right) for method, _, path, right in split)


def needed(method: str, path: str) -> frozenset[Right | None]:
    """What every rule that fits asks for; empty where none fits. Where several fit, all must be met."""
    method = "GET" if method == "HEAD" else method
    return frozenset(right for m, pattern, right in _patterns() if m == method and pattern.match(path))


@dataclass
class Gate:
    """ASGI middleware around every route: nobody without a sign-in, nothing without the right."""

    app: ASGIApp
    sessions: Sessions
    people: People
    lan: bool  # reachable from other machines: then nobody is let in without a sign-in

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Refuse, or pass on with who it is."""
        if scope["type"] == "lifespan":
            await self.app(scope, receive, send)
            return
        if scope["type"] != "http":  # no route speaks anything else
            await send({"type": "websocket.close", "code": 1008})
            return
        request = Request(scope)
        try:
            person = await run_in_threadpool(self.let_in, request)
        except (SignInError, RightError, NotFoundError) as error:
            await _refused(request, error)(scope, receive, send)
            return
        if person is None:
            await self.app(scope, receive, send)
            return
        scope.setdefault("state", {})["person"] = person
        await self._followed(scope, receive, send)

    def let_in(self, request: Request) -> Person | None:
        """Who sends the request; None where it needs no sign-in. SignInError, RightError, NotFoundError."""
        # Not `request.url.path`, which ends at an encoded question mark, where the router goes on.
        rights = needed(request.method, request.scope["path"])
        if rights == {OPEN}:
            return None
        people = self.people.all()
        if not self.lan and not any(person.active for person in people):
            return None
        name = self.sessions.signed_name(request.cookies.get(COOKIE, ""))
        person = next((one for one in people if one.name == name and one.active), None)
        if person is None:
            raise SignInError("nobody is signed in here", to_do="Sign in, then open the page again")
        if not rights:
            raise NotFoundError("there is no such page", to_do="Go back to the list of jobs")
        for right in sorted(rights - {OPEN}, key=str):
            if right is not None and not person.may(right):
                raise RightError(
                    f"a {person.role.value} may not {TOLD[right]}",
                    to_do="Ask somebody who may, or sign in as another person",
                )
        return person

    async def _followed(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass on; an answer without end is ended when its reader is let in no more."""
        checked_s, ended = time.monotonic(), False

        async def watched(message: Message) -> None:
            nonlocal checked_s, ended
            if message.get("more_body") and time.monotonic() - checked_s > RECHECK_S:
                checked_s = time.monotonic()
                try:
                    await run_in_threadpool(self.let_in, Request(scope))
                except (SignInError, RightError, NotFoundError):
                    ended = True
                    await send({"type": "http.response.body", "body": b"", "more_body": False})
                    raise _EndedError from None
            await send(message)

        try:
            await self.app(scope, receive, watched)
        except Exception:
            if not ended:
                raise


class _EndedError(OSError):
    """What an application is told when nobody reads its answer any more."""


def _refused(request: Request, error: SignInError | RightError | NotFoundError) -> Response:
    """The sign-in page for who asked for a page; a refusal for everything else."""
    page_wanted = "text/html" in request.headers.get("accept", "")
    if isinstance(error, SignInError) and page_wanted and request.method in ("GET", "HEAD"):
        return RedirectResponse(f"/sign-in?next={quote(_place(request), safe='')}", status_code=303)
    response = error_page(request, error)
    if isinstance(error, SignInError):
        response.headers["www-authenticate"] = 'Session realm="desk"'
    return response


def _place(request: Request) -> str:
    query = request.url.query
    return request.url.path + (f"?{query}" if query else "")


def safe_place(text: str) -> str:
    """*text* where it is the path of a page here; else "/". Never an address elsewhere."""
    fits = re.fullmatch(r"/(?![/\\])[^\\\x00-\x20\x7f]*", text)
    return text if fits and len(text) <= 500 else "/"
