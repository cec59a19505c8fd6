"""Pictures from a phone: the code opened at the desk, and the page that the phone sees."""

from __future__ import annotations

import math
import tempfile
from http import HTTPStatus
from pathlib import Path
from urllib.parse import quote

from starlette.concurrency import run_in_threadpool
from starlette.datastructures import UploadFile
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import JSONResponse, RedirectResponse, Response
from starlette.routing import Route

from saywright.bench import Bench
from saywright.errors import InputError, NotFoundError, RefusedError, SaywrightError
from saywright.people import Right
from saywright.web.changes import Sent, kept, opened_form, posted
from saywright.web.errors import status_of, told
from saywright.web.lan import address_of, addresses, plain_host, qr_svg
from saywright.web.render import page
from saywright.web.session import person_of
from saywright.web.state import desk_of
from saywright.web.tickets import Line, Ticket, Tickets

MAX_FILES = 30  # pictures sent at once
_LOOPBACK = ("127.0.0.1", "::1", "")


def phone_page(request: Request) -> Response:
    """GET /jobs/{job}/phone: how a phone can send pictures here, or why none can."""
    return _desk_page(request, None)


def _open(_: Bench, sent: Sent) -> Response:
    """POST /jobs/{job}/phone: a new code, in the name of who opens it."""
    request = sent.request
    if not _address(request):
        raise RefusedError(
            "no phone can reach this desk", to_do="Start it with 'saywright desk --lan' on a network"
        )
    ticket = _tickets(request).open(request.path_params["job"], sent.actor)
    return RedirectResponse(f"{_path(request)}/{ticket.id}", status_code=HTTPStatus.SEE_OTHER)


def ticket_page(request: Request) -> Response:
    """GET /jobs/{job}/phone/{ticket}: the QR code to scan, and what came."""
    return _desk_page(request, _mine(request))


def code_svg(request: Request) -> Response:
    """GET /jobs/{job}/phone/{ticket}/code.svg: the address for the phone as QR code."""
    return Response(qr_svg(_phone_address(request, _mine(request))), media_type="image/svg+xml")


def ticket_state(request: Request) -> Response:
    """GET /jobs/{job}/phone/{ticket}/state: what came so far, for the page that waits."""
    ticket = _mine(request)
    lines = [{"good": line.good, "text": line.text} for line in ticket.lines]
    return JSONResponse({"sent": ticket.sent, "minutes": _minutes(request, ticket), "lines": lines})


def _close(_: Bench, sent: Sent) -> Response:
    """POST /jobs/{job}/phone/{ticket}/close: no more pictures by this code."""
    request = sent.request
    _tickets(request).close(_mine(request))
    return RedirectResponse(_path(request), status_code=HTTPStatus.SEE_OTHER)


def upload_page(request: Request) -> Response:
    """GET /phone/{code}: two large buttons, and what became of the pictures sent before."""
    try:
        ticket = _good(request)
    except NotFoundError as error:
        return _phone(request, None, error)
    return _phone(request, ticket, None)


async def upload(request: Request) -> Response:
    """POST /phone/{code}/photos: pictures into the job, each with a line of its own."""
    ticket: Ticket | None = None
    try:
        ticket = await run_in_threadpool(_good, request)
        async with opened_form(request, max_files=MAX_FILES) as form:
            files = [f for f in form.getlist("files") if isinstance(f, UploadFile) and f.filename]
            if not files:
                raise InputError("no picture was chosen", to_do="Take or choose one, then send it")
            _tickets(request).count(ticket, len(files))
            lines = await run_in_threadpool(_taken, request, ticket, files)
    except (SaywrightError, HTTPException) as error:
        return _phone(request, ticket, error)
    _tickets(request).tell(ticket, lines)
    address = f"/phone/{quote(request.path_params['code'], safe='')}"
    return RedirectResponse(address, status_code=HTTPStatus.SEE_OTHER)


def _taken(request: Request, ticket: Ticket, files: list[UploadFile]) -> list[Line]:
    """Take each picture in, in the name of who opened the code; then bring them to their marks."""
    opened = desk_of(request).opened(ticket.job_id)
    lines: list[Line] = []
    with tempfile.TemporaryDirectory(prefix="saywright-phone-") as folder:
        paths = [kept(upload, Path(folder) / str(number)) for number, upload in enumerate(files)]
        with opened.lock:
            bench = opened.bench.by(ticket.opened_by)
            for path in paths:
                added, refused = bench.take_photos([path], actor=ticket.opened_by)
                lines.append(_line(path.name, bool(added), refused))
            if any(line.good for line in lines):
                bench.match_photos()
    return lines


def _line(name: str, added: bool, refused: list[SaywrightError]) -> Line:
    if refused:
        return Line(False, f"{name}: {refused[0].what}")
    return Line(True, f"{name}: taken in" if added else f"{name}: was in the job already")


def _good(request: Request) -> Ticket:
    """The ticket of the code in the path; NotFoundError once who opened it may not add pictures any more."""
    ticket = _tickets(request).by_code(request.path_params["code"])
    people = desk_of(request).store.people
    person = people.get(ticket.opened_by)
    allowed = person.may(Right.CHANGE) if person else not (request.app.state.reach.lan or people.defined())
    if not allowed:
        _tickets(request).close(ticket)
        return _tickets(request).by_code(request.path_params["code"])
    return ticket


def _mine(request: Request) -> Ticket:
    """The ticket in the path, for who opened it."""
    path = request.path_params
    return _tickets(request).by_id(path["ticket"], path["job"], desk_of(request).sessions.actor(request))


def _desk_page(request: Request, ticket: Ticket | None) -> Response:
    desk = desk_of(request)
    with desk.job(request).lock:
        job = desk.bench(request).record().job
    response = page(
        "phone_desk.html",
        job=job,
        token=desk.sessions.token(request),
        actor=desk.sessions.actor(request),
        person=person_of(request),
        ticket=ticket,
        minutes=_minutes(request, ticket) if ticket else 0,
        address=_phone_address(request, ticket) if ticket else _address(request),
        lan=request.app.state.reach.lan,
    )
    return desk.sessions.keep(request, response)


def _phone(request: Request, ticket: Ticket | None, error: SaywrightError | HTTPException | None) -> Response:
    """The page on the phone. It sets no cookie: the code is all that the phone has."""
    what, _, to_do = told(error) if error else ("", "", "")
    return page(
        "phone.html",
        status_code=status_of(error) if error else HTTPStatus.OK,
        title=_title(request, ticket) if ticket else "",
        action=f"/phone/{quote(request.path_params['code'], safe='')}/photos",
        lines=ticket.lines if ticket else (),
        error=". ".join(part for part in (what, to_do) if part),
        minutes=_minutes(request, ticket) if ticket else 0,
        by=ticket.opened_by if ticket else "",
    )


def _title(request: Request, ticket: Ticket) -> str:
    opened = desk_of(request).opened(ticket.job_id)
    with opened.lock:
        return opened.bench.record().job.title


def _tickets(request: Request) -> Tickets:
    tickets: Tickets = request.app.state.tickets
    return tickets


def _minutes(request: Request, ticket: Ticket) -> int:
    return math.ceil(_tickets(request).left_s(ticket) / 60)


def _path(request: Request) -> str:
    return f"/jobs/{quote(request.path_params['job'], safe='')}/phone"


def _address(request: Request) -> str:
    """How a phone reaches this desk: as this browser does, or by the machine's address; "" where not."""
    if not request.app.state.reach.lan:
        return ""
    server = request.scope.get("server") or ("", 0)
    here = plain_host(server[0])
    host = here if here not in _LOOPBACK else next(iter(addresses()), "")
    return address_of(host, server[1], request.url.scheme) if host else ""


def _phone_address(request: Request, ticket: Ticket) -> str:
    return f"{_address(request)}phone/{_tickets(request).code(ticket)}"


ROUTES = [
    Route("/jobs/{job}/phone", phone_page, methods=["GET"]),
    Route("/jobs/{job}/phone", posted(_open), methods=["POST"]),
    Route("/jobs/{job}/phone/{ticket}", ticket_page, methods=["GET"]),
    Route("/jobs/{job}/phone/{ticket}/code.svg", code_svg, methods=["GET"]),
    Route("/jobs/{job}/phone/{ticket}/state", ticket_state, methods=["GET"]),
    Route("/jobs/{job}/phone/{ticket}/close", posted(_close), methods=["POST"]),
    Route("/phone/{code}", upload_page, methods=["GET"]),
    Route("/phone/{code}/photos", upload, methods=["POST"]),
]
