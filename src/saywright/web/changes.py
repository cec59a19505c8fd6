"""Each form of the desk → one call of `Bench`, then back to the page. Works without script."""

from __future__ import annotations

import re
import shutil
import tempfile
from collections.abc import Awaitable, Callable
from dataclasses import dataclass
from http import HTTPStatus
from pathlib import Path
from urllib.parse import quote

from starlette.concurrency import run_in_threadpool
from starlette.datastructures import FormData, UploadFile
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from saywright.bench import Bench
from saywright.errors import InputError, RefusedError, StaleError
from saywright.web.forms import changes_from, wanted
from saywright.web.render import page
from saywright.web.state import desk_of, utterances, view_of
from saywright.web.view import find_item, line_of

MAX_TEXT = 2000  # characters of one input
MAX_NAME = 80
MAX_FILES = 200

_CONTROL = re.compile(r"[\x00-\x1f\x7f]+")


@dataclass(frozen=True)
class Sent:
    """A form as it was sent, its token checked."""

    request: Request
    form: FormData
    actor: str

    def text(self, name: str, *, needed: str = "", limit: int = MAX_TEXT) -> str:
        """The input *name* on one line; InputError where it is empty and *needed* says what it is."""
        value = self.form.get(name, "")
        text = _CONTROL.sub(" ", value if isinstance(value, str) else "").strip()
        if len(text) > limit:
            raise InputError(f"more than {limit} characters", where=needed or name, to_do="Shorten it")
        if needed and not text:
            raise InputError("nothing was given", where=needed, to_do="Fill it in and send it again")
        return text

    @property
    def seen(self) -> int | None:
        """The event that the person saw the item at."""
        text = self.text("seen")
        return int(text) if text.isascii() and text.isdigit() and len(text) < 12 else None

    @property
    def inputs(self) -> dict[str, list[str]]:
        """Every text input with all its values."""
        found: dict[str, list[str]] = {}
        for name, value in self.form.multi_items():
            if isinstance(value, str):
                found.setdefault(name, []).append(_CONTROL.sub(" ", value)[:MAX_TEXT])
        return found


Change = Callable[[Bench, Sent], str | Response]  # the word of the notice, or an answer of its own
Endpoint = Callable[[Request], Awaitable[Response]]


def posted(change: Change, *, anchor: str = "") -> Endpoint:
    """The route of a change: check the token, make the change, go back to where it came from."""

    async def endpoint(request: Request) -> Response:
        desk = desk_of(request)
        async with request.form(max_files=MAX_FILES, max_fields=200, max_part_size=64 * 1024) as form:
            token = form.get("token", "")
            desk.sessions.check(request, token if isinstance(token, str) else "")
            sent = Sent(request, form, desk.sessions.actor(request))

            def locked() -> str | Response:
                with desk.job(request).lock:
                    return change(desk.bench(request), sent)

            done = await run_in_threadpool(locked)
        return back(sent, done, anchor) if isinstance(done, str) else done

    return endpoint


def back(sent: Sent, done: str, anchor: str) -> Response:
    """To the page the form was on, with the notice."""
    path = f"/jobs/{quote(sent.request.path_params['job'], safe='')}"
    item = sent.request.path_params.get("item")
    if item and sent.text("back") == "item":
        path, anchor = f"{path}/items/{quote(item, safe='')}", ""
    return RedirectResponse(f"{path}?done={done}{anchor}", status_code=HTTPStatus.SEE_OTHER)


def _on_item(act: Callable[[Bench, Sent, str], str]) -> Change:
    """A change of one item; where the item has changed meanwhile, the page shows what it is now."""

    def change(bench: Bench, sent: Sent) -> str:
        item_id = sent.request.path_params["item"]
        try:
            return act(bench, sent, item_id)
        except StaleError:
            item = find_item(bench.record(), item_id)
            sent.request.state.now = line_of(item, bench.sheet, utterances(bench.events()))
            sent.request.state.wanted = wanted(item, bench.sheet, sent.inputs)
            raise

    return change


def _accept(bench: Bench, sent: Sent, item_id: str) -> str:
    bench.accept(item_id, actor=sent.actor, seen=sent.seen)
    return "accepted"


def _correct(bench: Bench, sent: Sent, item_id: str) -> str:
    item = find_item(bench.record(), item_id)
    if sent.seen is not None and item.event != sent.seen:
        # The fields on the form were those of the item as it was; against the item as it is they
        # would undo what somebody else changed.
        raise StaleError("the item was changed in between", where=item_id, to_do="Look at it as it is now")
    changes = changes_from(item, bench.sheet, sent.inputs)
    bench.correct(item_id, changes, why=sent.text("why"), actor=sent.actor, seen=sent.seen)
    return "corrected"


def _withdraw(bench: Bench, sent: Sent, item_id: str) -> str:
    bench.withdraw(item_id, why=sent.text("why", needed="Why"), actor=sent.actor, seen=sent.seen)
    return "withdrawn"


def _reword(bench: Bench, sent: Sent, item_id: str) -> str:
    """Words typed by a person take the place of what was not understood."""
    bench.reword(item_id, sent.text("words", needed="What was said"), actor=sent.actor, seen=sent.seen)
    return "said"


def _say(bench: Bench, sent: Sent) -> str:
    bench.say(sent.text("words", needed="Words"))
    return "said"


def _explain(bench: Bench, sent: Sent) -> str:
    open_item = sent.text("open_item", needed="Open item")
    bench.explain(open_item, sent.text("why", needed="Why"), actor=sent.actor)
    return "explained"


def _sign(bench: Bench, sent: Sent) -> str:
    name = sent.text("name", needed="Name", limit=MAX_NAME)
    statement = sent.text("statement", needed="What you stand for")
    try:
        bench.sign(actor=name, statement=statement)
    except RefusedError as error:
        still = view_of(bench).unsettled
        if not still:
            raise
        # The page lists them, so the line only counts them.
        sent.request.state.asking = still
        what = f"{len(still)} item{'s are' if len(still) > 1 else ' is'} open, so the record was not signed"
        raise RefusedError(what, to_do=error.to_do) from None
    return "signed"


def _place(bench: Bench, sent: Sent) -> str:
    """Put a picture on a mark or on a part; the choice reads "mark:ID" or "part:ID"."""
    kind, _, target = sent.text("place", needed="Place").partition(":")
    photo_id = sent.request.path_params["photo"]
    which = sent.text("which") or None
    if kind == "mark" and target:
        bench.place_photo(photo_id, mark=target, actor=sent.actor)
    elif kind == "part" and target:
        bench.place_photo(photo_id, component=target, which=which, actor=sent.actor)
    else:
        raise InputError("no place was chosen", where="Place", to_do="Choose a mark or a part")
    return "placed"


def _match(bench: Bench, _: Sent) -> str:
    bench.match_photos()
    return "matched"


def _add_photos(bench: Bench, sent: Sent) -> str | Response:
    """Take in the pictures sent; one that cannot be read keeps none of the others out."""
    files = [f for f in sent.form.getlist("files") if isinstance(f, UploadFile) and f.filename]
    if not files:
        raise InputError("no picture was chosen", where="Pictures", to_do="Choose one or more files")
    with tempfile.TemporaryDirectory(prefix="saywright-upload-") as folder:
        paths = [_kept(upload, Path(folder) / str(number)) for number, upload in enumerate(files)]
        added, refused = bench.take_photos(paths)
    if added:
        bench.match_photos()
    if not refused:
        return "added"
    taken = len(files) - len(refused)
    return page(
        "error.html",
        status_code=HTTPStatus.UNPROCESSABLE_ENTITY,
        heading="Not every picture could be used",
        what=f"{taken} of {len(files)} were taken in",
        where="",
        to_do="These were not",
        job_id=sent.request.path_params["job"],
        details=tuple(f"{Path(error.where).name}: {error.what}" for error in refused),
        asking=(),
        now=None,
        wanted=(),
    )


def _kept(upload: UploadFile, folder: Path) -> Path:
    """The upload as a file in *folder*; of the name it came with only harmless letters are used."""
    folder.mkdir()
    name = re.sub(r"[^\w.-]+", "_", (upload.filename or "").replace("\\", "/").rsplit("/", 1)[-1]).lstrip(".")
    path = folder / (name[-80:] or "picture")
    with path.open("wb") as target:
        shutil.copyfileobj(upload.file, target)
    return path


async def name_person(request: Request) -> Response:
    """The name under which changes are kept from now on."""
    sessions = desk_of(request).sessions
    async with request.form(max_files=0, max_fields=10) as form:
        token = form.get("token", "")
        sessions.check(request, token if isinstance(token, str) else "")
        sent = Sent(request, form, "")
        sessions.name(request, sent.text("name", needed="Name", limit=MAX_NAME))
        job = sent.text("job")
    path = f"/jobs/{quote(job, safe='')}" if job else "/"
    return RedirectResponse(f"{path}?done=named", status_code=HTTPStatus.SEE_OTHER)


accept = posted(_on_item(_accept), anchor="#questions")
correct = posted(_on_item(_correct), anchor="#questions")
withdraw = posted(_on_item(_withdraw), anchor="#questions")
reword = posted(_on_item(_reword), anchor="#questions")
say = posted(_say)
explain = posted(_explain, anchor="#open")
sign = posted(_sign, anchor="#sign")
place = posted(_place, anchor="#photos")
match = posted(_match, anchor="#photos")
add_photos = posted(_add_photos, anchor="#photos")
