"""Error → page, at one place."""

from __future__ import annotations

from http import HTTPStatus

from fastapi.exceptions import RequestValidationError
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import JSONResponse, Response

from saywright.errors import (
    DiskFullError,
    InputError,
    NotFoundError,
    RefusedError,
    SaywrightError,
    StaleError,
)
from saywright.web.render import page


class GuardError(SaywrightError):
    """A request that did not come from a page of this desk."""


class SignInError(SaywrightError):
    """Nobody is signed in, and the route needs somebody."""


class RightError(SaywrightError):
    """Whoever is signed in may not do this."""


class WaitError(SaywrightError):
    """Too many tries; the next may come after a while."""


class BodyTooLargeError(SaywrightError):
    """More bytes than a request may have."""


# First match counts: a class stands before those it derives from.
STATUS: tuple[tuple[type[SaywrightError], HTTPStatus], ...] = (
    (GuardError, HTTPStatus.FORBIDDEN),
    (SignInError, HTTPStatus.UNAUTHORIZED),
    (RightError, HTTPStatus.FORBIDDEN),
    (WaitError, HTTPStatus.TOO_MANY_REQUESTS),
    (BodyTooLargeError, HTTPStatus.REQUEST_ENTITY_TOO_LARGE),
    (NotFoundError, HTTPStatus.NOT_FOUND),
    (StaleError, HTTPStatus.CONFLICT),
    (RefusedError, HTTPStatus.CONFLICT),
    (InputError, HTTPStatus.UNPROCESSABLE_ENTITY),
    (DiskFullError, HTTPStatus.INSUFFICIENT_STORAGE),
    (SaywrightError, HTTPStatus.SERVICE_UNAVAILABLE),
)

UNKNOWN = "Something is wrong"
HEADINGS = {
    HTTPStatus.UNAUTHORIZED: "Sign in first",
    HTTPStatus.TOO_MANY_REQUESTS: "Too many tries",
    HTTPStatus.FORBIDDEN: "Not from this desk",
    HTTPStatus.NOT_FOUND: "Nothing here",
    HTTPStatus.METHOD_NOT_ALLOWED: "Nothing here",
    HTTPStatus.CONFLICT: "Not done",
    HTTPStatus.REQUEST_ENTITY_TOO_LARGE: "Too much at once",
    HTTPStatus.UNPROCESSABLE_ENTITY: "That cannot be used",
    HTTPStatus.INSUFFICIENT_STORAGE: "The disk is full",
}


def status_of(error: Exception) -> HTTPStatus:
    """The HTTP status that tells this error."""
    if isinstance(error, HTTPException):
        return HTTPStatus(error.status_code)
    if isinstance(error, RequestValidationError):
        return HTTPStatus.UNPROCESSABLE_ENTITY
    return next(
        (status for kind, status in STATUS if isinstance(error, kind)), HTTPStatus.INTERNAL_SERVER_ERROR
    )


def told(error: Exception) -> tuple[str, str, str]:
    """What is wrong, with what, what to do."""
    if isinstance(error, SaywrightError):
        return error.what, error.where, error.to_do
    if isinstance(error, RequestValidationError):
        first = error.errors()[0]
        where = ".".join(str(part) for part in first["loc"][1:]) or str(first["loc"][0])
        return first["msg"], where[:80], "See /openapi.json for what may be sent"
    if isinstance(error, HTTPException):
        lost = error.status_code in (HTTPStatus.NOT_FOUND, HTTPStatus.METHOD_NOT_ALLOWED)
        return "there is no such page" if lost else error.detail, "", "Go back to the list of jobs"
    to_do = "Load the page again; the terminal in which the desk runs says more"
    return "the desk failed; what was recorded before is kept", "", to_do


def for_program(request: Request, error: Exception) -> bool:
    """True where a script asked: under /api, with JSON, or for what no browser shows as a page."""
    if request.headers.get("content-type", "").startswith("application/json"):
        return True
    refused = isinstance(error, SignInError | RightError)
    asked = refused and "text/html" not in request.headers.get("accept", "")
    return request.url.path.startswith("/api/") or asked


def error_page(request: Request, error: Exception) -> Response:
    """The page for *error*: what is wrong and what to do, in one line each, and the way back.

    Programs get the same as JSON.
    """
    status = status_of(error)
    what, where, to_do = told(error)
    state = request.state
    job = request.path_params.get("job") if "path_params" in request.scope else None
    if for_program(request, error):
        since = [f"{step.actor}: {step.what}" for step in getattr(state, "since", ())]
        content = {"what": what, "where": where, "to_do": to_do, "since": since, "line": str(error)}
        headers = dict(getattr(error, "headers", None) or {})
        if isinstance(error, WaitError):
            headers["retry-after"] = str(getattr(state, "wait_s", 1))
        return JSONResponse(content, status_code=status, headers=headers)
    return page(
        "error.html",
        status_code=status,
        heading="Not for you"
        if isinstance(error, RightError)
        else HEADINGS.get(status, "Something is wrong"),
        what=what,
        where=where,
        to_do=to_do,
        job_id=None if job == where else job,  # no way back to a job that is not there
        details=getattr(state, "details", ()),
        asking=getattr(state, "asking", ()),
        now=getattr(state, "now", None),
        since=getattr(state, "since", ()),
        wanted=getattr(state, "wanted", ()),
    )
