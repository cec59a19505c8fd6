"""Each form of the desk → one call of `Bench`, then back to the page. Works without script."""

from __future__ import annotations

import re
import shutil
import tempfile
from collections.abc import AsyncIterator, Awaitable, Callable
from contextlib import asynccontextmanager
from dataclasses import dataclass
from errno import EDQUOT, ENOSPC
from http import HTTPStatus
from pathlib import Path
from urllib.parse import quote

from starlette.concurrency import run_in_threadpool
from starlette.datastructures import FormData, UploadFile
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from saywright.bench import Bench
from saywright.errors import DiskFullError, InputError, RefusedError, StaleError
from saywright.record.events import Event
from saywright.record.types import Item
from saywright.web.acts import since
from saywright.web.forms import changes_from, wanted
from saywright.web.guard import MAX_FORM_BYTES
from saywright.web.proof import proven_again
from saywright.web.render import page
from saywright.web.session import person_of
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


# The word of the notice, perhaps with the event that was kept; or an answer of its own.
Change = Callable[[Bench, Sent], "str | tuple[str, Event] | Response"]
Endpoint = Callable[[Request], Awaitable[Response]]

_PAGES = {"asks": "/asks", "check": "/check", "sign": "/sign"}  # pages of a job that forms stand on


def posted(change: Change, *, anchor: str = "") -> Endpoint:
    """The route of a change: check the token, make the change, go back to where it came from."""

    async def endpoint(request: Request) -> Response:
        desk = desk_of(request)
        async with opened_form(request, max_files=MAX_FILES) as form:
            token = form.get("token", "")
            desk.sessions.check(request, token if isinstance(token, str) else "")
            sent = Sent(request, form, desk.sessions.actor(request))

            def locked() -> str | tuple[str, Event] | Response:
                with desk.job(request).lock:
                    return change(desk.bench(request), sent)

            done = await run_in_threadpool(locked)
        if isinstance(done, Response):
            return done
        word, event = (done, None) if isinstance(done, str) else done
        return back(sent, word, event, anchor)

    return endpoint


@asynccontextmanager
async def opened_form(request: Request, *, max_files: int) -> AsyncIterator[FormData]:
    """The form as it was sent; DiskFullError where there is no room to lay down an upload."""
    try:
        async with request.form(max_files=max_files, max_fields=200, max_part_size=MAX_FORM_BYTES) as form:
            yield form
    except OSError as error:
        if error.errno not in (ENOSPC, EDQUOT):
            raise
        raise DiskFullError(
            "there is no room for what was sent; nothing of it was kept",
            where=tempfile.gettempdir(),
            to_do="Free some space there, then send it again",
        ) from None


def back(sent: Sent, done: str, event: Event | None, anchor: str) -> Response:
    """To the page the form was on, with the notice and the event that an undo would take back."""
    path = f"/jobs/{quote(sent.request.path_params['job'], safe='')}"
    item = quote(sent.request.path_params.get("item", "") or sent.text("item"), safe="")
    place = sent.text("back")
    asked = f"?done={done}" + (f"&event={event.seq}" if event else "")
    if item and place == "item":
        path, anchor = f"{path}/items/{item}", ""
    elif place == "asks":
        asked += f"&after={item or quote(sent.text('open_item'), safe='')}"
    path += _PAGES.get(place, "")
    return RedirectResponse(f"{path}{asked}{anchor}", status_code=HTTPStatus.SEE_OTHER)


def on_item(act: Callable[[Bench, Sent, str], str | tuple[str, Event]]) -> Change:
    """A change of one item; where the item has changed meanwhile, the page shows what it is now."""

    def change(bench: Bench, sent: Sent) -> str | tuple[str, Event]:
        item_id = sent.request.path_params["item"]
        try:
            return act(bench, sent, item_id)
        except StaleError:
            item = find_item(bench.record(), item_id)
            sent.request.state.now = line_of(item, bench.sheet, utterances(bench.events()))
            sent.request.state.since = since(bench, item_id, sent.seen)
            sent.request.state.wanted = wanted(item, bench.sheet, sent.inputs)
            raise

    return change


def _accept(bench: Bench, sent: Sent, item_id: str) -> tuple[str, Event]:
    return "accepted", bench.accept(item_id, actor=sent.actor, seen=sent.seen)


def _correct(bench: Bench, sent: Sent, item_id: str) -> tuple[str, Event]:
    item = find_item(bench.record(), item_id)
    unchanged(item, sent)
    changes = changes_from(item, bench.sheet, sent.inputs)
    why = sent.text("why")
    return "corrected", bench.correct(item_id, changes, why=why, actor=sent.actor, seen=sent.seen)


def unchanged(item: Item, sent: Sent) -> None:
    """StaleError where the item is not as the form showed it.

    The fields on the form were those of the item as it was; against the item as it is they would
    undo what somebody else changed.
    """
    if sent.seen is not None and item.event != sent.seen:
        raise StaleError("the item was changed in between", where=item.id, to_do="Look at it as it is now")


def _withdraw(bench: Bench, sent: Sent, item_id: str) -> tuple[str, Event]:
    why = sent.text("why", needed="Why")
    return "withdrawn", bench.withdraw(item_id, why=why, actor=sent.actor, seen=sent.seen)


def _reword(bench: Bench, sent: Sent, item_id: str) -> str:
    """Words typed by a person take the place of what was not understood."""
    bench.reword(item_id, sent.text("words", needed="What was said"), actor=sent.actor, seen=sent.seen)
    return "said"


def _say(bench: Bench, sent: Sent) -> str:
    bench.say(sent.text("words", needed="Words"))
    return "said"


def _explain(bench: Bench, sent: Sent) -> tuple[str, Event]:
    open_item = sent.text("open_item", needed="Open item")
    return "explained", bench.explain(open_item, sent.text("why", needed="Why"), actor=sent.actor)


def _sign(bench: Bench, sent: Sent) -> str:
    statement = sent.text("statement", needed="What you stand for")
    seen = sent.text("seen", needed="The record that was read")
    name, role = _signer(sent)
    try:
        bench.sign(actor=name, statement=statement, role=role, seen=seen)
    except RefusedError as error:
        still = view_of(bench).unsettled
        if not still:
            raise
        # The page lists them, so the line only counts them.
        sent.request.state.asking = still
        what = f"{len(still)} item{'s are' if len(still) > 1 else ' is'} open, so the record was not signed"
        raise RefusedError(what, to_do=error.to_do) from None
    return "signed"


def _signer(sent: Sent) -> tuple[str, str | None]:
    """Who signs, and in which role: who signed in and gives the passphrase again, else the name typed."""
    if person_of(sent.request) is None:
        return sent.text("name", needed="Name", limit=MAX_NAME), None
    given = sent.form.get("passphrase", "")
    person = proven_again(sent.request, given if isinstance(given, str) else "")
    return person.name, person.role.value


def _place(bench: Bench, sent: Sent) -> tuple[str, Event]:
    """Put a picture on a mark or on a part; the choice reads "mark:ID" or "part:ID"."""
    kind, _, target = sent.text("place", needed="Place").partition(":")
    photo_id = sent.request.path_params["photo"]
    which = sent.text("which") or None
    if kind == "mark" and target:
        return "placed", bench.place_photo(photo_id, mark=target, actor=sent.actor)
    if kind == "part" and target:
        return "placed", bench.place_photo(photo_id, component=target, which=which, actor=sent.actor)
    raise InputError("no place was chosen", where="Place", to_do="Choose a mark or a part")


def _match(bench: Bench, _: Sent) -> str:
    bench.match_photos()
    return "matched"


def _add_photos(bench: Bench, sent: Sent) -> str | Response:
    """Take in the pictures sent; one that cannot be read keeps none of the others out."""
    files = [f for f in sent.form.getlist("files") if isinstance(f, UploadFile) and f.filename]
    if not files:
        raise InputError("no picture was chosen", where="Pictures", to_do="Choose one or more files")
    with tempfile.TemporaryDirectory(prefix="saywright-upload-") as folder:
        paths = [kept(upload, Path(folder) / str(number)) for number, upload in enumerate(files)]
        added, refused = bench.take_photos(paths, actor=sent.actor)
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
        since=(),
        wanted=(),
    )


def kept(upload: UploadFile, folder: Path) -> Path:
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
    async with opened_form(request, max_files=0) as form:
        token = form.get("token", "")
        sessions.check(request, token if isinstance(token, str) else "")
        sent = Sent(request, form, "")
        sessions.name(request, sent.text("name", needed="Name", limit=MAX_NAME))
        job = sent.text("job")
    path = f"/jobs/{quote(job, safe='')}" if job else "/"
    return RedirectResponse(f"{path}?done=named", status_code=HTTPStatus.SEE_OTHER)


accept = posted(on_item(_accept))
correct = posted(on_item(_correct))
withdraw = posted(on_item(_withdraw))
reword = posted(on_item(_reword))
say = posted(_say)
explain = posted(_explain)
sign = posted(_sign)
place = posted(_place, anchor="#photos")
match = posted(_match, anchor="#photos")
add_photos = posted(_add_photos, anchor="#photos")
