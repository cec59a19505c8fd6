"""Names, captions, words and paths that mean harm, through every page, form and file of desk and board."""

from __future__ import annotations

import re
import sys
from html.parser import HTMLParser

import pytest
from starlette.testclient import TestClient

from saywright.bench import Bench
from saywright.record import events as ev
from saywright.store.memory import MemoryStore
from saywright.understanding import statements as said
from saywright.web.access import RULES
from saywright.web.app import create_app
from saywright.web.render import STATIC
from saywright.web.stream import Streams

MARK = "mooring"
JOB = "20260314-1"
# Each breaks out of another place: text, attribute, script, style, comment, template, bidirectional text.
HARM = (
    f"<script src=//{MARK}></script>",
    f'"><img src=x onerror={MARK}()>',
    f"' onmouseover='{MARK}()",
    f"</title></textarea></style><svg onload={MARK}()>",
    f"javascript:{MARK}()",
    f"--><iframe srcdoc='{MARK}'>",
    f"{{{{ {MARK}.__class__ }}}} {{% raw %}} ${{{MARK}}}",
    f"\u202e{MARK}\u2066",
    f"&lt;b&gt;{MARK}&amp;",
    f"]]></{MARK}>\\u003cscript\\u003e",
)
ALL = " ".join(HARM)

_TAGS = """
    html head meta title link script body a header main section h1 h2 h3 h4 p span b i s dl dt dd div nav
    article form input button label select option optgroup textarea ul ol li table thead tbody tr th td
    details summary figure figcaption img audio svg path circle rect line polygon polyline g text use symbol
    defs code kbd time blockquote q fieldset legend br hr strong em small noscript footer iframe caption
    output
"""
TAGS = frozenset(_TAGS.split())
_INPUTS = """
    name words why statement open_item place which format kind value back component minutes stage event same
    seen keys by act item job next passphrase annotations shape points mark text
"""
INPUTS = tuple(_INPUTS.split())


class Found(HTMLParser):
    """What a browser would make of a page: its tags and attributes, and what is text."""

    def __init__(self, text):
        super().__init__(convert_charrefs=True)
        self.wrong, self.text = [], []
        self.feed(text)
        self.close()

    def handle_starttag(self, tag, attrs):
        """Nothing that runs, and nothing from elsewhere."""
        if tag not in TAGS:
            self.wrong.append(f"<{tag}>")
        for name, value in ((name, value or "") for name, value in attrs):
            if name.startswith("on") or name in ("srcdoc", "style", "formaction", "srcset"):
                self.wrong.append(f"<{tag} {name}>")
            if name in ("href", "src", "action", "data", "xlink:href", "poster"):
                local = value.startswith(("/", "#", "?")) and not value.startswith(("//", "/\\"))
                if not local and not (tag == "a" and value == ""):
                    self.wrong.append(f"<{tag} {name}={value[:40]}>")

    def handle_startendtag(self, tag, attrs):
        """The same for a tag that ends itself."""
        self.handle_starttag(tag, attrs)

    def handle_data(self, data):
        """Text, as a reader sees it."""
        self.text.append(data)


def hostile_job(module, store, clock):
    """A job in which every text that a person, a camera or an ear can give is hostile."""
    module.fill(store, clock)
    bench = Bench.resume(store, JOB, clock=clock, actor=ALL[:80])
    bench.describe(title=ALL, item=ALL, serial=ALL, customer=ALL)
    log = bench._log
    picture = store.media.put_bytes(module.picture((9, 9, 9)))
    for payload in (
        ev.PhotoAdded(photo="p3", sha256=picture, name=f"{ALL}.jpg", checks=module.PhotoChecks()),
        ev.Heard(utterance=module.heard(ALL, 50, log.recordings()[0].sha256, (ALL[:60], 0.2))),
    ):
        log.append(payload, actor=ALL[:80])
    heard = log.last.seq
    common = {"stage": "as_found", "heard": ALL, "utterance": heard, "start_s": 50, "end_s": 52}
    log.append(
        ev.Understood(
            heard=heard,
            statements=(
                said.Remark(id="x1", **common),
                said.Unclear(id="x2", reason=ALL, **common),
                said.Identifier(id="x3", identifier="serial", value=ALL, component="float", **common),
                said.PhotoMark(id="x4", component="float", **common),
            ),
        )
    )
    bench.correct("s1", {"value": "18.4"}, why=ALL, actor=ALL[:80])
    bench.withdraw("s3", why=ALL, actor=ALL[:80])
    for item in bench.record().open_items[:3]:
        bench.explain(item.id, ALL, actor=ALL[:80])
    return bench


@pytest.fixture
def hostile(request):
    """A browser at a desk whose job is hostile throughout, and the job."""
    module = sys.modules["desk_job"]
    store, clock = MemoryStore(), module.Minutes()
    bench = hostile_job(module, store, clock)
    app = create_app(store, clock, actor=ALL[:80])
    with TestClient(app, base_url="http://127.0.0.1:8643", follow_redirects=False) as client:
        yield client, bench
    store.close()


def pages(bench):
    """Every page of the desk and the board, filled in with each of its items and pictures."""
    record = bench.record()
    items = [
        item.id
        for group in (record.readings, record.conditions, record.photos, record.remarks)
        for item in group
    ]
    pictures = [photo.photo for photo, _ in bench._log.folder.pictures()]
    for rule in RULES:
        method, _, path = rule.partition(" ")
        if method != "GET" or re.search(r"stream|static|\{(code|ticket|size|view|format|name|hash)", path):
            continue
        path = path.replace("{job}", JOB).replace("{before}", pictures[0]).replace("{after}", pictures[-1])
        if "{item}" in path:
            yield from (path.replace("{item}", item) for item in items)
        elif "{photo}" in path:
            yield from (path.replace("{photo}", picture) for picture in pictures)
        else:
            yield path
    for show in ("all", "asks", ALL):
        yield f"/jobs/{JOB}?" + "&".join(
            f"{k}={quoted(show)}" for k in ("show", "part", "page", "done", "event")
        )
    yield from (f"/?{k}={quoted(ALL[:70])}" for k in ("serial", "customer", "date", "part"))
    yield from (
        f"/jobs/{JOB}/{page}?{k}={quoted(ALL)}"
        for page, k in (("asks", "at"), ("asks", "after"), ("add", "kind"))
    )
    yield f"/jobs/{JOB}/preview.html"


def quoted(text):
    """Text in an address."""
    from urllib.parse import quote

    return quote(text, safe="")


@pytest.mark.slow
def test_hostile_text_stays_text_on_every_page(hostile):
    """No tag, attribute, address or script comes of it; it is there as text. JSON says that it is JSON."""
    client, bench = hostile
    seen, wrong = 0, {}
    for path in pages(bench):
        answer = client.get(path)
        kind = answer.headers.get("content-type", "")
        assert answer.status_code < 500, path
        assert "nosniff" == answer.headers["x-content-type-options"]
        if kind.startswith("text/html") and not path.endswith("preview.html"):
            found = Found(answer.text)
            seen += MARK in "".join(found.text)
            if found.wrong:
                wrong[path] = found.wrong
            assert f"<script src=//{MARK}" not in answer.text, path
            assert "'unsafe-" not in answer.headers["content-security-policy"], path
        elif path.endswith("preview.html"):
            assert f"<script src=//{MARK}" not in answer.text
            assert f"<img src=x onerror={MARK}" not in answer.text
            assert "sandbox" in answer.headers["content-security-policy"]
        elif answer.content:
            assert kind.startswith(("application/json", "image/", "audio/", "text/event-stream")), path
    assert {} == wrong
    assert 10 < seen


@pytest.mark.slow
def test_hostile_text_in_every_form_comes_back_as_text(hostile):
    """Typed into any input of any form it is told, refused or kept, never run, and never a fault of ours."""
    client, _ = hostile
    token = re.search(r'name="token" value="([0-9a-f]{64})"', client.get("/").text)[1]
    for rule in RULES:
        method, _, path = rule.partition(" ")
        if method != "POST" or path.startswith("/api/"):
            continue
        place = path.replace("{job}", JOB).replace("{item}", "s1").replace("{photo}", "p1")
        place = re.sub(r"\{\w+\}", "none", place)
        for harm in (ALL, *HARM):
            answer = client.post(place, data={**dict.fromkeys(INPUTS, harm), "token": token})
            assert answer.status_code < 500, (rule, harm, answer.text[-300:])
            if answer.headers.get("content-type", "").startswith("text/html"):
                assert [] == Found(answer.text).wrong, (rule, harm)
            for header in ("location", "content-disposition"):
                assert "\n" not in answer.headers.get(header, "")
            assert answer.headers.get("location", "/").startswith("/"), rule
            assert not answer.headers.get("location", "/").startswith(("//", "/\\")), rule


def test_the_scripts_put_text_in_as_text():
    """No script of ours makes markup or code of a string."""
    made = re.compile(
        r"innerHTML|outerHTML|insertAdjacentHTML|document\.write|\beval\(|new Function|setTimeout\(\s*[\"'`]"
    )
    parsed = {
        path.name: found
        for path in STATIC.glob("*.js")
        if (found := made.findall(path.read_text(encoding="utf-8")))
    }
    assert {} == parsed


@pytest.mark.slow
def test_nothing_bites_in_a_browser(chromium, browser_tools):
    """Chromium on every page of the desk and on the board: no hostile text runs or becomes an element."""
    module = sys.modules["desk_job"]
    store, clock = MemoryStore(), module.Minutes()
    bench = hostile_job(module, store, clock)
    streams = Streams(store)
    app = create_app(store, clock, actor=ALL[:80], streams=streams)
    made = f"script[src*={MARK}], img[src=x], svg[onload], iframe[srcdoc], {MARK}, [onmouseover]"
    with (
        browser_tools.serving(app, streams=streams) as address,
        browser_tools.screen(chromium, address, width=1280, height=800) as shown,
    ):
        shown.page.add_init_script(f"window.{MARK} = () => {{ window.bitten = true; }}")
        shown.page.on("dialog", lambda dialog: shown.complaints.append(dialog.message))
        board = f"/jobs/{JOB}/board"
        others = re.compile(r"/api/|openapi|favicon|export|\.jpg|/state|preview\.|/items/(?!s1$|x)")
        for path in (board, *(path for path in pages(bench) if path != board and not others.search(path))):
            shown.open(path)
            if path == board:
                shown.page.wait_for_function(
                    "(mark) => document.querySelector('main').innerText.includes(mark)", arg=MARK
                )
            assert not shown.page.evaluate("window.bitten === true"), path
            assert 0 == shown.page.locator(made).count(), path
        refused = [said for said in shown.complaints if "Content Security Policy" in said]
        assert [] == refused
    store.close()
