"""What every request passes before it reaches a page: host, origin, size; and the headers of every answer.

The desk listens on loopback, but a browser on this machine also runs pages of strangers. They can
send requests here (cross-site request forgery) and can point a name of their own at 127.0.0.1
(DNS rebinding). So the Host must be a loopback name, or on a network the very address that the
request came in on, and a change must come from a page of the desk.
"""

from __future__ import annotations

from starlette.datastructures import Headers, MutableHeaders
from starlette.requests import Request
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from saywright.web.errors import BodyTooLargeError, GuardError, error_page
from saywright.web.lan import plain_host

LOOPBACK_NAMES = frozenset({"127.0.0.1", "localhost", "[::1]"})

MAX_FORM_BYTES = 256 * 1024
MAX_UPLOAD_BYTES = 512 * 1024 * 1024  # of one request, all pictures together
MAX_PHONE_BYTES = 128 * 1024 * 1024  # the same from a phone

SECURITY_HEADERS = {
    "content-security-policy": (
        "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; media-src 'self'; "
        "connect-src 'self'; frame-src 'self'; "
        "form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
    ),
    "x-content-type-options": "nosniff",
    "x-frame-options": "DENY",
    # Not "no-referrer": browsers would then send "Origin: null" with the desk's own forms.
    "referrer-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
    "cross-origin-opener-policy": "same-origin",
    "permissions-policy": "camera=(), microphone=(), geolocation=()",
}


class Guard:
    """ASGI middleware around the whole desk."""

    def __init__(self, app: ASGIApp, *, lan: bool = False) -> None:
        self.app = app
        self.lan = lan

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Refuse, or pass on with the body counted and the headers added."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return

        passed: list[BodyTooLargeError] = []  # the limit, as soon as more than it came

        async def guarded_send(message: Message) -> None:
            if passed:  # whatever the reader of the body made of it, the answer is told below
                return
            if message["type"] == "http.response.start":
                headers = MutableHeaders(scope=message)
                for name, value in SECURITY_HEADERS.items():
                    headers.setdefault(name, value)
                headers.setdefault("cache-control", "no-store")
            await send(message)

        try:
            check_host(Headers(scope=scope), (scope.get("server") or ("",))[0] if self.lan else "")
            if scope["method"] not in {"GET", "HEAD"}:
                check_origin(Headers(scope=scope), scope.get("scheme", "http"))
            counted = counting(receive, Headers(scope=scope), limit_bytes_for(scope["path"]), passed)
        except (GuardError, BodyTooLargeError) as error:
            await error_page(Request(scope), error)(scope, receive, guarded_send)
            return
        await self.app(scope, counted, guarded_send)
        if passed:
            response = error_page(Request(scope), passed.pop())
            await response(scope, receive, guarded_send)


def limit_bytes_for(path: str) -> int:
    """How much a request to this path may hold."""
    if path.endswith("/photos"):
        return MAX_PHONE_BYTES if path.startswith("/phone/") else MAX_UPLOAD_BYTES
    return MAX_FORM_BYTES


def check_host(headers: Headers, came_in_on: str = "") -> None:
    """GuardError unless the Host header names this machine's loopback, or the address *came_in_on*.

    The latter is the local end of the connection, so it is this machine's whatever its network calls it.
    """
    host = headers.get("host", "")
    name = host if host.endswith("]") else host.rpartition(":")[0] or host
    if came_in_on and plain_host(name) == plain_host(came_in_on) != "":
        return
    if name.lower() not in LOOPBACK_NAMES:
        raise GuardError(
            "the desk answers only on this machine's own address",
            where=host[:80] or "no host",
            to_do="Open it at the address that 'saywright desk' printed, as http://127.0.0.1 with its port",
        )


def check_origin(headers: Headers, scheme: str = "http") -> None:
    """GuardError where the browser says that the request was sent by another site's page."""
    origin, host = headers.get("origin"), headers.get("host", "")
    sent_from_here = origin == f"{scheme}://{host}" if origin is not None else True
    if not sent_from_here or headers.get("sec-fetch-site", "same-origin") not in {"same-origin", "none"}:
        raise GuardError(
            "the change was sent by another page than the desk's", to_do="Load the job's page and try again"
        )


def counting(
    receive: Receive, headers: Headers, limit_bytes: int, passed: list[BodyTooLargeError]
) -> Receive:
    """*receive*, raising BodyTooLargeError as soon as more than *limit_bytes* are announced or arrive.

    The one raised for what arrives is put into *passed* too: some readers of a body turn every error
    into one of their own.
    """
    announced = headers.get("content-length", "0")
    if not announced.isdigit() or int(announced) > limit_bytes:
        raise too_large(limit_bytes)
    seen_bytes = 0

    async def counted() -> Message:
        nonlocal seen_bytes
        message = await receive()
        if message["type"] == "http.request":
            seen_bytes += len(message.get("body", b""))
            if seen_bytes > limit_bytes:
                passed.append(too_large(limit_bytes))
                raise passed[-1]
        return message

    return counted


def too_large(limit_bytes: int) -> BodyTooLargeError:
    """The error that says how much may be sent."""
    limit = f"{limit_bytes // 1024**2} MB" if limit_bytes >= 1024**2 else f"{limit_bytes // 1024} kB"
    return BodyTooLargeError(f"more than {limit} were sent at once", to_do="Send fewer or smaller files")
