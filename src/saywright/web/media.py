"""Clips, pictures and reports as bytes. Always by the id of an item of the job shown, never by a path."""

from __future__ import annotations

import re

from starlette.requests import Request
from starlette.responses import Response

from saywright.bench import Bench
from saywright.errors import InputError, NotFoundError
from saywright.web.changes import Sent, posted
from saywright.web.state import desk_of

PICTURE_SIZES_PX = {"small": 360, "large": 1600}  # longer side
REPORT_TYPES = {"pdf": "application/pdf", "html": "text/html; charset=utf-8"}
EXPORT_TYPES = {  # media type, ending of the file's name
    "json": ("application/json", "json"),
    "csv": ("text/csv; charset=utf-8", "csv"),
    "parts": ("text/csv; charset=utf-8", "parts.csv"),
    "text": ("text/plain; charset=utf-8", "txt"),
}
_RANGE = re.compile(r"bytes=(\d*)-(\d*)")


def clip(request: Request) -> Response:
    """The words of an item as a WAV file: from 2 s before them to 1 s after."""
    desk = desk_of(request)
    bench = desk.bench(request)
    wav = bench.clip_wav(request.path_params["item"])
    return ranged(wav, request.headers.get("range", ""), "audio/wav")


def picture(request: Request) -> Response:
    """A picture as JPEG, small or large."""
    size_px = PICTURE_SIZES_PX.get(request.path_params["size"])
    if size_px is None:
        raise NotFoundError("pictures come small or large", to_do="Choose one on the job's page")
    desk = desk_of(request)
    bench = desk.bench(request)
    # Decoding takes a while and changes nothing, so pictures of one page are made side by side.
    jpeg = bench.photo_jpeg(request.path_params["photo"], max_px=size_px)
    return Response(jpeg, media_type="image/jpeg", headers={"cache-control": "private, max-age=3600"})


def ranged(content: bytes, wanted: str, media_type: str) -> Response:
    """*content*, or the one stretch of it that the Range header asks for: some browsers play nothing else."""
    headers = {"accept-ranges": "bytes"}
    match = _RANGE.fullmatch(wanted)
    if match is None or match[1] == match[2] == "":
        return Response(content, media_type=media_type, headers=headers)
    total = len(content)
    first = int(match[1]) if match[1] else max(0, total - int(match[2]))
    last = min(int(match[2]), total - 1) if match[1] and match[2] else total - 1
    if first > last:
        return Response(status_code=416, headers={**headers, "content-range": f"bytes */{total}"})
    headers["content-range"] = f"bytes {first}-{last}/{total}"
    return Response(content[first : last + 1], status_code=206, media_type=media_type, headers=headers)


def _report(bench: Bench, sent: Sent) -> Response:
    """The report as a file to keep. A report made is an event, so this is a form, not a link."""
    form = sent.text("format", needed="Format")
    if form not in REPORT_TYPES:
        raise InputError(f"no report as '{form}'", where="Format", to_do="Choose pdf or html")
    content = bench.report((form,))[form]
    return Response(content, media_type=REPORT_TYPES[form], headers=_kept_as(sent.request, "report", form))


def export(request: Request) -> Response:
    """The record in another form, as a file to keep."""
    form = request.path_params["format"]
    if form not in EXPORT_TYPES:
        raise NotFoundError("there is no such export", to_do=f"Choose {', '.join(EXPORT_TYPES)}")
    desk = desk_of(request)
    with desk.job(request).lock:
        content = desk.bench(request).export(form)
    media_type, ending = EXPORT_TYPES[form]
    return Response(content, media_type=media_type, headers=_kept_as(request, "record", ending))


def _kept_as(request: Request, name: str, ending: str) -> dict[str, str]:
    job = re.sub(r"[^\w.-]+", "_", request.path_params["job"])
    return {"content-disposition": f'attachment; filename="{name}-{job}.{ending}"'}


report = posted(_report)
