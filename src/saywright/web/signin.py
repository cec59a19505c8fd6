"""Signing in and out, and proving again who one is where a record is signed."""

from __future__ import annotations

import ipaddress
import math
from http import HTTPStatus

from starlette.concurrency import run_in_threadpool
from starlette.datastructures import FormData
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Route

from saywright.errors import InputError
from saywright.people import MAX_NAME, Person, name_key
from saywright.web.access import safe_place
from saywright.web.attempts import Patience
from saywright.web.changes import opened_form
from saywright.web.errors import WaitError
from saywright.web.lan import plain_host
from saywright.web.render import page
from saywright.web.session import COOKIE, person_of
from saywright.web.state import desk_of

MAX_SENT = 1000  # characters of a passphrase that are looked at

# A name is slowed down soon, but never for long, or a stranger could keep somebody out for a day.
BY_NAME = Patience(free=3, longest_s=60.0, forget_s=3600.0)
BY_ADDRESS = Patience(free=10, longest_s=900.0, forget_s=3600.0)


def sign_in_page(request: Request) -> Response:
    """GET /sign-in: the form; to the jobs where no sign-in is needed."""
    desk = desk_of(request)
    if not request.app.state.reach.lan and not desk.store.people.defined():
        return RedirectResponse("/", status_code=HTTPStatus.SEE_OTHER)
    return _form(request, safe_place(request.query_params.get("next", "/")))


async def sign_in(request: Request) -> Response:
    """POST /sign-in: with the right name and passphrase to the page that was asked for."""
    desk = desk_of(request)
    async with opened_form(request, max_files=0) as form:
        desk.sessions.check(request, _text(form, "token"))
        name, passphrase = _text(form, "name")[:MAX_NAME], _text(form, "passphrase")
        place = safe_place(_text(form, "next"))
    try:
        person = await run_in_threadpool(proven, request, name, passphrase)
    except (InputError, WaitError) as error:
        return _form(request, place, name=name, error=error)
    desk.sessions.sign_in(request, person)
    return desk.sessions.keep(request, RedirectResponse(place, status_code=HTTPStatus.SEE_OTHER))


async def sign_out(request: Request) -> Response:
    """POST /sign-out: end the sign-in of this browser."""
    sessions = desk_of(request).sessions
    async with opened_form(request, max_files=0) as form:
        sessions.check(request, _text(form, "token"))
    sessions.sign_out(request)
    response = RedirectResponse("/sign-in", status_code=HTTPStatus.SEE_OTHER)
    response.delete_cookie(COOKIE, path="/", httponly=True, samesite="strict")
    return response


def proven(request: Request, name: str, passphrase: str) -> Person:
    """The person whose passphrase this is; InputError where it is not, WaitError after too many tries."""
    desk = desk_of(request)
    attempts, key, address = desk.sessions.attempts, name_key(name), _address(request)
    tried = (("name", key, BY_NAME), ("address", address, BY_ADDRESS))
    wait_s = attempts.take(tried, desk.sessions.now_s())
    if wait_s > 0:
        seconds = math.ceil(wait_s)
        shown = f"{seconds} second{'s' if seconds != 1 else ''}"
        error = WaitError("too many tries did not fit", to_do=f"Wait {shown}, then try again")
        request.state.wait_s = seconds
        raise error
    person = desk.store.people.check(name, passphrase) if len(passphrase) <= MAX_SENT else None
    if person is None:
        raise InputError("the name or the passphrase is not right", to_do="Type both again")
    attempts.clear("name", key)
    attempts.take_back("address", address)
    return person


def signer(request: Request, name: str, passphrase: str) -> tuple[str, str | None]:
    """Who signs a record and in which role.

    Where people sign in it is who signed in, and the passphrase is asked again, since a desk may be left
    open. Else it is the *name* that was typed, and there is no role.
    """
    person = person_of(request)
    if person is None:
        return name, None
    again = proven(request, person.name, passphrase)
    return again.name, again.role.value


def _form(
    request: Request, place: str, *, name: str = "", error: InputError | WaitError | None = None
) -> Response:
    sessions = desk_of(request).sessions
    waits = isinstance(error, WaitError)
    status = HTTPStatus.OK if error is None else HTTPStatus.UNPROCESSABLE_ENTITY
    response = page(
        "sign_in.html",
        status_code=HTTPStatus.TOO_MANY_REQUESTS if waits else status,
        token=sessions.token(request),
        place=place,
        name=name,
        error=str(error)[:1].upper() + str(error)[1:] + "." if error else "",
        plain=request.app.state.reach.lan and request.url.scheme == "http",
    )
    if waits:
        response.headers["retry-after"] = str(request.state.wait_s)
    return sessions.keep(request, response)


def _text(form: FormData, name: str) -> str:
    value = form.get(name, "")
    return value if isinstance(value, str) else ""


def _address(request: Request) -> str:
    """Where the request comes from; of IPv6 the first 64 bits, since one machine may use all below them."""
    host = plain_host(request.client.host if request.client else "")
    if ":" in host:
        return str(ipaddress.ip_network(f"{host}/64", strict=False).network_address)
    return host


ROUTES = [
    Route("/sign-in", sign_in_page, methods=["GET"]),
    Route("/sign-in", sign_in, methods=["POST"]),
    Route("/sign-out", sign_out, methods=["POST"]),
]
