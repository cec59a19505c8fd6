"""The report before it is signed, as it will be printed: its pages as pictures, as PDF, as HTML.

All three are of one record, named by its hash; nothing of them is kept in the log.
"""

from __future__ import annotations

import struct
import threading
from collections import OrderedDict
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from saywright.errors import NotFoundError, RefusedError
from saywright.web.media import REPORT_TYPES
from saywright.web.render import page
from saywright.web.state import desk_of
from saywright.wiring.bench_review import Proof

MAX_PROOFS = 4  # kept ready, one a job; a proof is a few MB
MAX_KEPT_BYTES = 64 * 1024**2  # of all of them but the newest
MAX_WAITING = 8  # requests at a time; the server has 40 threads (anyio's default)
# The HTML report has style and pictures inside; it runs nothing and stands in a frame of the desk only.
_FRAMED = {
    "content-security-policy": (
        "default-src 'none'; style-src 'unsafe-inline'; img-src data:; frame-ancestors 'self'; sandbox"
    ),
    "x-frame-options": "SAMEORIGIN",
}
# The pages are pictures of this server; nothing runs beside them either.
_FRAMED_PAGES = {
    "content-security-policy": (
        "default-src 'none'; style-src 'self'; img-src 'self'; base-uri 'none'; frame-ancestors 'self'"
    ),
    "x-frame-options": "SAMEORIGIN",
}


@dataclass
class Proofs:
    """The proofs looked at last."""

    _kept: OrderedDict[str, Proof] = field(default_factory=OrderedDict)  # by job
    _making: dict[str, threading.Lock] = field(default_factory=dict)  # by job
    _lock: threading.Lock = field(default_factory=threading.Lock)  # over the above; never held for long
    _room: threading.BoundedSemaphore = field(
        default_factory=lambda: threading.BoundedSemaphore(MAX_WAITING)
    )  # of who sets pages or waits for them

    @contextmanager
    def turn(self, job: str) -> Iterator[None]:
        """One sets the pages of *job* while others wait; RefusedError where too many wait already.

        Each that waits holds one of the server's threads, and the desk needs some to go on.
        """
        if not self._room.acquire(blocking=False):
            raise RefusedError(
                f"{MAX_WAITING} others wait for pages to be set", to_do="Load the page again in a minute"
            )
        try:
            with self._lock:
                making = self._making.setdefault(job, threading.Lock())
            with making:
                yield
        finally:
            self._room.release()

    def known(self, job: str) -> Proof | None:
        """The last proof of the job, of whatever state of its record."""
        with self._lock:
            return self._kept.get(job)

    def keep(self, job: str, proof: Proof) -> None:
        """In the place of the job's last; the proof of the job looked at longest ago is let go."""
        with self._lock:
            self._kept[job] = proof
            self._kept.move_to_end(job)
            while len(self._kept) > 1 and (len(self._kept) > MAX_PROOFS or self._bytes() > MAX_KEPT_BYTES):
                self._kept.popitem(last=False)

    def _bytes(self) -> int:
        return sum(len(one.pdf) + sum(map(len, one.pages)) for one in self._kept.values())


def proof_of(request: Request) -> Proof:
    """The report of the record as it stands, made once for all who look at it.

    The job's own lock is not held meanwhile: setting hundreds of pages takes a while, and the bench goes on.
    """
    proofs: Proofs = request.app.state.proofs
    job = request.path_params["job"]
    bench = desk_of(request).bench(request)
    with proofs.turn(job):
        known = proofs.known(job)
        if known is None or known.record_hash != bench.record().record_hash:
            known = bench.proof_pages()
            proofs.keep(job, known)
        return known


def preview(request: Request) -> Response:
    """GET /jobs/{job}/preview.{format}: the report as it would be made now, as a file to look at."""
    form = request.path_params["format"]
    if form not in REPORT_TYPES:
        raise NotFoundError("there is no such preview", to_do="Choose pdf or html")
    if form == "pdf":
        content = proof_of(request).pdf
    else:
        with desk_of(request).job(request).lock:
            content = desk_of(request).bench(request).proof(form)
    return Response(content, media_type=REPORT_TYPES[form], headers=_FRAMED)


def pages(request: Request) -> Response:
    """GET /jobs/{job}/preview/pages: the printed pages one below the other, for a frame of the desk."""
    proof = proof_of(request)
    sizes = [png_size_px(content) for content in proof.pages]
    response = page("pages.html", job=request.path_params["job"], record_hash=proof.record_hash, sizes=sizes)
    response.headers.update(_FRAMED_PAGES)
    return response


def one_page(request: Request) -> Response:
    """GET /jobs/{job}/preview/{hash}/{number}.png: a page of the report of the record with this hash."""
    desk_of(request).job(request)  # NotFoundError where there is no such job
    proofs: Proofs = request.app.state.proofs
    proof, wanted = proofs.known(request.path_params["job"]), request.path_params["hash"]
    if proof is None or proof.record_hash != wanted:
        proof = proof_of(request)
    number = request.path_params["number"]
    if proof.record_hash != wanted or not 1 <= number <= len(proof.pages):
        raise NotFoundError("there is no such page of the record as it is now", to_do="Load the pages again")
    headers = {"cache-control": "no-store"}
    return Response(proof.pages[number - 1], media_type="image/png", headers=headers)


def png_size_px(content: bytes) -> tuple[int, int]:
    """Width and height of a PNG, from its first chunk (W3C PNG, third edition, section 11.2.1)."""
    width_px, height_px = struct.unpack(">II", content[16:24])
    return width_px, height_px


ROUTES = [
    Route("/jobs/{job}/preview.{format}", preview, methods=["GET"]),
    Route("/jobs/{job}/preview/pages", pages, methods=["GET"]),
    Route("/jobs/{job}/preview/{hash}/{number:int}.png", one_page, methods=["GET"]),
]
