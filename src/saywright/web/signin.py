"""Signing in and out."""

from __future__ import annotations

from http import HTTPStatus

from starlette.concurrency import run_in_threadpool
from starlette.datastructures import FormData
from starlette.requests import Request
from starlette.responses import JSONResponse, RedirectResponse, Response
from starlette.routing import Route

from saywright.errors import InputError
from saywright.people import MAX_NAME
from saywright.web.access import safe_place
from saywright.web.changes import opened_form
from saywright.web.errors import WaitError
from saywright.web.proof import proven
from saywright.web.render import page
from saywright.web.session import COOKIE
from saywright.web.state import desk_of


def sign_in_page(request: Request) -> Response:
    """GET /sign-in: the form; to the jobs where no sign-in is needed."""
    desk = desk_of(request)
    if not request.app.state.reach.lan and not desk.store.people.defined():
        return RedirectResponse("/", status_code=HTTPStatus.SEE_OTHER)
    return _form(request, safe_place(request.query_params.get("next", "/")))


async def sign_in(request: Request) -> Response:
    """POST /sign-in: with the right name and passphrase to the page that was asked for.

    A program sends {"name": …, "passphrase": …} as JSON and gets name and role, or the fault, as JSON.
    It needs no token: a browser sends JSON to another site only where that site agreed, and this never does.
    """
    desk = desk_of(request)
    if request.headers.get("content-type", "").startswith("application/json"):
        return await _by_program(request)
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


async def _by_program(request: Request) -> Response:
    sessions = desk_of(request).sessions
    try:
        sent = await request.json()
    except ValueError:
        sent = None
    fields = sent if isinstance(sent, dict) else {}
    name, passphrase = fields.get("name"), fields.get("passphrase")
    if not isinstance(name, str) or not isinstance(passphrase, str):
        raise InputError("a name and a passphrase are needed", where="sign-in", to_do="Send both, as text")
    person = await run_in_threadpool(proven, request, name[:MAX_NAME], passphrase)
    sessions.sign_in(request, person)
    return sessions.keep(request, JSONResponse({"name": person.name, "role": person.role.value}))


async def sign_out(request: Request) -> Response:
    """POST /sign-out: end the sign-in of this browser."""
    sessions = desk_of(request).sessions
    async with opened_form(request, max_files=0) as form:
        sessions.check(request, _text(form, "token"))
    sessions.sign_out(request)
    response = RedirectResponse("/sign-in", status_code=HTTPStatus.SEE_OTHER)
    response.delete_cookie(COOKIE, path="/", httponly=True, samesite="strict")
    return response


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


ROUTES = [
    Route("/sign-in", sign_in_page, methods=["GET"]),
    Route("/sign-in", sign_in, methods=["POST"]),
    Route("/sign-out", sign_out, methods=["POST"]),
]
