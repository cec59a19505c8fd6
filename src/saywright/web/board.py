"""The board that hangs over the bench: its page, its state as JSON, the data key, the microphone, sounds."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import asdict
from urllib.parse import quote

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import JSONResponse, RedirectResponse, Response
from starlette.routing import Route

from saywright.errors import InputError, NotFoundError, RefusedError, SaywrightError
from saywright.web.board_sitting import BoardSitting
from saywright.web.board_view import board
from saywright.web.errors import status_of
from saywright.web.guard import MAX_FORM_BYTES
from saywright.web.media import ranged
from saywright.web.render import page
from saywright.web.sounds import SOUNDS, sound_wav
from saywright.web.state import desk_of
from saywright.web.stream import stream

MAX_KEYS = 200  # characters sent at once


def current(request: Request) -> Response:
    """GET /board: to the job that is listened to, else to the newest one."""
    sitting = _sitting(request)
    jobs = desk_of(request).store.jobs() if sitting is None else ()
    job = sitting.job_id if sitting is not None else (jobs[-1].id if jobs else None)
    if job is None:
        return page("board_empty.html")
    return RedirectResponse(f"/jobs/{quote(job, safe='')}/board")


def board_page(request: Request) -> Response:
    """GET /jobs/{job}/board: the page; its script fetches what it shows."""
    desk = desk_of(request)
    opened = desk.job(request)
    with opened.lock:
        job = opened.bench.record().job
    response = page(
        "board.html",
        job=job,
        path=f"/jobs/{quote(job.id, safe='')}",
        token=desk.sessions.token(request),
        listens=_listens(request, job.id),
    )
    return desk.sessions.keep(request, response)


def state(request: Request) -> Response:
    """GET /jobs/{job}/board/state: all that the board shows, as JSON; made once an event for all boards."""
    opened = desk_of(request).job(request)
    with opened.lock:
        record, events = opened.bench.record(), opened.bench.events()
        seq, told = opened.board or (0, b"")
        if seq != events[-1].seq:
            told = bytes(JSONResponse(asdict(board(record, opened.bench.sheet, events))).body)
            opened.board = events[-1].seq, told
        return Response(told, media_type="application/json")


async def keys(request: Request) -> Response:
    """POST /jobs/{job}/board/keys: what a data key or a hand typed, ended by Enter."""

    def act(text: str, by: str) -> str:
        desk = desk_of(request)
        with desk.job(request).lock:
            bench = desk.bench(request)
            if by == "key":
                bench.measured(text)
                return ""
            answer = bench.reply(text)
            return answer.words if answer else ""

    return await _posted(request, lambda sent: act(_short(sent.get("keys", "")), sent.get("by", "")))


async def microphone(request: Request) -> Response:
    """POST /jobs/{job}/board/microphone: pause or resume the sitting."""

    def act(sent: dict[str, str]) -> str:
        sitting = _sitting(request)
        if sitting is None or sitting.job_id != request.path_params["job"]:
            raise RefusedError(
                "nothing listens to this job here", to_do="Start 'saywright board' with this job"
            )
        acts = {"pause": sitting.pause, "resume": sitting.resume}
        if sent.get("act") not in acts:
            raise InputError("no such act", where="microphone", to_do="Send pause or resume")
        acts[sent["act"]]()
        return ""

    return await _posted(request, act)


def sound(request: Request) -> Response:
    """GET /board/sounds/{name}.wav."""
    name = request.path_params["name"]
    if name not in SOUNDS:
        raise NotFoundError("no such sound", where=name[:40], to_do=f"Known: {', '.join(SOUNDS)}")
    return ranged(sound_wav(name), request.headers.get("range", ""), "audio/wav")


async def _posted(request: Request, act: Callable[[dict[str, str]], str]) -> Response:
    """Check the token, do it; what it came to is told as JSON, and so is a refusal, since a script asked."""
    async with request.form(max_files=0, max_fields=10, max_part_size=MAX_FORM_BYTES) as form:
        sent = {name: value for name, value in form.items() if isinstance(value, str)}
    try:
        desk_of(request).sessions.check(request, sent.get("token", ""))
        done = await run_in_threadpool(act, sent)
    except SaywrightError as error:
        told = {"what": error.what, "where": error.where, "to_do": error.to_do, "line": str(error)}
        return JSONResponse(told, status_code=status_of(error))
    return JSONResponse({"done": done})


def _short(text: str) -> str:
    if len(text) > MAX_KEYS:
        raise InputError(f"more than {MAX_KEYS} characters came at once", to_do="Send one value at a time")
    return text


def _sitting(request: Request) -> BoardSitting | None:
    found: BoardSitting | None = request.app.state.sitting
    return found


def _listens(request: Request, job_id: str) -> bool:
    sitting = _sitting(request)
    return sitting is not None and sitting.job_id == job_id and sitting.running


_BOARD = "/jobs/{job}/board"

ROUTES = [
    Route("/board", current, methods=["GET"]),
    Route("/board/sounds/{name}.wav", sound, methods=["GET"]),
    Route(_BOARD, board_page, methods=["GET"]),
    Route(_BOARD + "/state", state, methods=["GET"]),
    Route(_BOARD + "/keys", keys, methods=["POST"]),
    Route(_BOARD + "/microphone", microphone, methods=["POST"]),
    Route("/jobs/{job}/stream", stream, methods=["GET"]),
]
