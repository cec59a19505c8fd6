"""Error → page, at one place."""

from __future__ import annotations

from http import HTTPStatus

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response

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


class BodyTooLargeError(SaywrightError):
    """More bytes than a request may have."""


# First match counts: a class stands before those it derives from.
STATUS: tuple[tuple[type[SaywrightError], HTTPStatus], ...] = (
    (GuardError, HTTPStatus.FORBIDDEN),
    (BodyTooLargeError, HTTPStatus.REQUEST_ENTITY_TOO_LARGE),
    (NotFoundError, HTTPStatus.NOT_FOUND),
    (StaleError, HTTPStatus.CONFLICT),
    (RefusedError, HTTPStatus.CONFLICT),
    (InputError, HTTPStatus.UNPROCESSABLE_ENTITY),
    (DiskFullError, HTTPStatus.INSUFFICIENT_STORAGE),
    (SaywrightError, HTTPStatus.SERVICE_UNAVAILABLE),
)

HEADINGS = {
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
    return next(
        (status for kind, status in STATUS if isinstance(error, kind)), HTTPStatus.INTERNAL_SERVER_ERROR
    )


def error_page(request: Request, error: Exception) -> Response:
    """The page for *error*: what is wrong and what to do, in one line each, and the way back."""
    status = status_of(error)
    if isinstance(error, SaywrightError):
        what, where, to_do = error.what, error.where, error.to_do
    elif isinstance(error, HTTPException):
        what = (
            "there is no such page"
            if status in (HTTPStatus.NOT_FOUND, HTTPStatus.METHOD_NOT_ALLOWED)
            else error.detail
        )
        where, to_do = "", "Go back to the list of jobs"
    else:
        what, where = "the desk failed; what was recorded before is kept", ""
        to_do = "Load the page again; the terminal in which the desk runs says more"
    state = request.state
    return page(
        "error.html",
        status_code=status,
        heading=HEADINGS.get(status, "Something is wrong"),
        what=what,
        where=where,
        to_do=to_do,
        job_id=request.path_params.get("job") if "path_params" in request.scope else None,
        details=getattr(state, "details", ()),
        asking=getattr(state, "asking", ()),
        now=getattr(state, "now", None),
        wanted=getattr(state, "wanted", ()),
    )
