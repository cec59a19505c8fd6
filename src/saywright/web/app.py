"""The route list, and the server: on loopback, or on the network where people sign in."""

from __future__ import annotations

import contextlib
import socket
from collections.abc import Callable, Sequence

import uvicorn
from fastapi import FastAPI
from fastapi.exceptions import RequestValidationError
from starlette.exceptions import HTTPException
from starlette.responses import Response
from starlette.routing import Mount, Route
from starlette.staticfiles import StaticFiles
from starlette.types import ASGIApp

from saywright.errors import DeviceError, RefusedError, SaywrightError
from saywright.store.protocol import Store
from saywright.web import api, board, changes, desk, edits, media, phone, pictures, preview, signin
from saywright.web.access import Gate
from saywright.web.board_sitting import BoardSitting
from saywright.web.errors import error_page
from saywright.web.guard import Guard
from saywright.web.lan import (
    DEFAULT_PORT,
    MAX_PORT,
    Reach,
    address_of,
    check_reach,
    open_to_network,
    pages_at,
    told_at_start,
)
from saywright.web.render import STATIC
from saywright.web.session import Sessions
from saywright.web.state import Clock, Desk
from saywright.web.stream import Streams
from saywright.web.tickets import Tickets

LOOPBACK = ("127.0.0.1", "localhost", "::1")

_JOB = "/jobs/{job}"
_ITEM = _JOB + "/items/{item}"

ROUTES = [
    Route("/", desk.job_list, methods=["GET"]),
    Route("/who", changes.name_person, methods=["POST"]),
    Route(_JOB, desk.job_page, methods=["GET"]),
    Route(_JOB + "/asks", desk.asks_page, methods=["GET"]),
    Route(_JOB + "/check", desk.check_page, methods=["GET"]),
    Route(_JOB + "/sign", desk.sign_page, methods=["GET"]),
    Route(_JOB + "/add", desk.add_page, methods=["GET"]),
    Route(_JOB + "/add", edits.add, methods=["POST"]),
    Route(_JOB + "/undo", edits.undo, methods=["POST"]),
    Route(_JOB + "/time", edits.time, methods=["POST"]),
    Route(_JOB + "/export/{format}", media.export, methods=["GET"]),
    Route(_JOB + "/say", changes.say, methods=["POST"]),
    Route(_JOB + "/explain", changes.explain, methods=["POST"]),
    Route(_JOB + "/sign", changes.sign, methods=["POST"]),
    Route(_JOB + "/report", media.report, methods=["POST"]),
    Route(_JOB + "/match", changes.match, methods=["POST"]),
    Route(_JOB + "/photos", changes.add_photos, methods=["POST"]),
    Route(_JOB + "/photos/{photo}/place", changes.place, methods=["POST"]),
    Route(_JOB + "/photos/{photo}/choose", edits.choose, methods=["POST"]),
    Route(_JOB + "/photos/{photo}/{size}.jpg", media.picture, methods=["GET"]),
    Route(_JOB + "/clips/{item}.wav", media.clip, methods=["GET"]),
    Route(_ITEM, desk.item_page, methods=["GET"]),
    Route(_ITEM + "/accept", changes.accept, methods=["POST"]),
    Route(_ITEM + "/correct", changes.correct, methods=["POST"]),
    Route(_ITEM + "/withdraw", changes.withdraw, methods=["POST"]),
    Route(_ITEM + "/split", edits.split, methods=["POST"]),
    Route(_ITEM + "/merge", edits.merge, methods=["POST"]),
    Route(_ITEM + "/reword", changes.reword, methods=["POST"]),
    *board.ROUTES,
    *signin.ROUTES,
    *phone.ROUTES,
    *pictures.ROUTES,
    *preview.ROUTES,
    Route("/favicon.ico", lambda _: Response(status_code=204), methods=["GET"]),
    Mount("/static", StaticFiles(directory=STATIC)),
]


def create_app(
    store: Store,
    clock: Clock,
    *,
    actor: str = "technician",
    streams: Streams | None = None,
    sitting: BoardSitting | None = None,
    reach: Reach | None = None,
) -> ASGIApp:
    """The desk over *store*; *actor* is the name of whoever has not given another at the desk.

    *streams* and *sitting*: where a live sitting tells its board what it hears. *reach*: who may come;
    None: this machine only.
    """
    streams = streams or Streams(store)
    app = FastAPI(
        title="Saywright",
        version="1",
        summary="Jobs of the bench, their records, and what a person may do to them.",
        routes=ROUTES,  # pages: not part of the description
        docs_url=None,  # would load scripts from elsewhere
        redoc_url=None,
    )
    for kind in (SaywrightError, HTTPException, RequestValidationError, Exception):
        app.add_exception_handler(kind, error_page)
    app.include_router(api.ROUTER)
    reach = reach or Reach()
    app.state.streams, app.state.sitting, app.state.reach = streams, sitting, reach
    app.state.desk = Desk(streams.store, clock, Sessions(actor))
    app.state.tickets, app.state.proofs = Tickets(), preview.Proofs()
    gate = Gate(app, app.state.desk.sessions, store.people, reach.lan)
    # Outside of everything, so that error pages carry its headers too.
    return Guard(gate, lan=reach.lan)


def serve(
    store: Store,
    clock: Clock,
    *,
    host: str = "127.0.0.1",
    port: int = DEFAULT_PORT,
    actor: str = "technician",
    reach: Reach | None = None,
    streams: Streams | None = None,
    sitting: BoardSitting | None = None,
    announce: Callable[[str], None] = print,
) -> None:
    """Serve the desk until interrupted; *announce* is told where it is once it listens.

    RefusedError for any host but loopback where *reach* does not open it to the network, and for the
    network where nobody could sign in. Port 0 takes any that is free.
    """
    reach = reach or Reach()
    check_reach(reach, store.people)
    with open_to_network(port) if reach.lan else open_socket(host, port) as listening:
        announce(where_it_is(listening, host, reach, ("board", "desk") if sitting else ("desk",)))
        streams = streams or Streams(store)
        app = create_app(store, clock, actor=actor, reach=reach, streams=streams, sitting=sitting)
        with sitting or contextlib.nullcontext():
            run_server(app, listening, reach, streams)


def where_it_is(listening: socket.socket, host: str, reach: Reach, pages: Sequence[str] = ("desk",)) -> str:
    """What to tell of a server that listens: where its *pages* are, and on a network the QR code of it."""
    port = listening.getsockname()[1]
    if reach.lan:
        return told_at_start(port, reach, pages)
    *others, last = pages_at(pages, [address_of(host, port, reach.scheme)])
    return "\n".join([*others, f"{last} on this machine only. Ctrl-C ends it."])


def run_server(app: ASGIApp, listening: socket.socket, reach: Reach, streams: Streams) -> None:
    """Answer on a socket that listens until interrupted."""
    config = uvicorn.Config(
        app,
        log_level="warning",
        server_header=False,
        proxy_headers=False,  # what a header says of the sender's address counts for nothing
        ssl_certfile=reach.certificate,
        ssl_keyfile=reach.key,
    )
    with contextlib.suppress(KeyboardInterrupt):
        _Server(config, streams).run(sockets=[listening])


class _Server(uvicorn.Server):
    """Ends the open streams before it waits for its connections, which else stay for ever."""

    def __init__(self, config: uvicorn.Config, streams: Streams) -> None:
        super().__init__(config)
        self._streams = streams

    async def shutdown(self, sockets: list[socket.socket] | None = None) -> None:
        """Stop; the pages see their streams end and say so."""
        self._streams.close()
        await super().shutdown(sockets)


def open_socket(host: str, port: int) -> socket.socket:
    """A socket that listens; RefusedError for a host others could reach, DeviceError for a taken port."""
    if host not in LOOPBACK:
        raise RefusedError(
            "only this machine, or the network with --lan, is answered",
            where=host,
            to_do="Leave the host out, or give 127.0.0.1",
        )
    if not 0 <= port <= MAX_PORT:
        raise DeviceError(f"{port} is no port", where=host, to_do="Give another with --port")
    family = socket.AF_INET6 if ":" in host else socket.AF_INET
    try:
        return socket.create_server((host, port), family=family)
    except OSError as error:
        raise DeviceError(
            f"the port cannot be used ({error.strerror or error})",
            where=f"{host}:{port}",
            to_do="Give another with --port",
        ) from None
