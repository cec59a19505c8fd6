"""The pages of the desk, read as a browser gets them."""

from __future__ import annotations

import html
import re
from datetime import timedelta
from html.parser import HTMLParser

import pytest

from saywright.bench import Bench
from saywright.record.events import AudioAdded, JobDescribed

JOB_PAGE = "/jobs/20260314-1"
HOSTILE = "<script>alert('bowl')</script>\"'&"
VOID = {"meta", "link", "input", "img", "br", "path", "circle"}


class Outline(HTMLParser):
    """What a page is made of: open tags that were not closed, labels, inputs, ids, headings."""

    def __init__(self) -> None:
        super().__init__()
        self.stack: list[str] = []
        self.faults: list[str] = []
        self.ids: list[str] = []
        self.labelled: set[str] = set()
        self.inputs: list[tuple[str | None, bool]] = []  # id, inside a label
        self.levels: list[int] = []

    def handle_starttag(self, tag, attrs):
        """Note the tag."""
        given = dict(attrs)
        if "id" in given:
            self.ids.append(given["id"])
        if tag == "label" and "for" in given:
            self.labelled.add(given["for"])
        if tag in {"input", "select", "textarea"} and given.get("type") != "hidden":
            self.inputs.append((given.get("id"), "label" in self.stack))
        if re.fullmatch(r"h[1-6]", tag):
            self.levels.append(int(tag[1]))
        if tag not in VOID:
            self.stack.append(tag)

    def handle_startendtag(self, tag, attrs):
        """A tag closed in itself is no open tag."""
        self.handle_starttag(tag, attrs)
        if tag not in VOID:
            self.stack.pop()

    def handle_endtag(self, tag):
        """Note a tag closed out of order."""
        if self.stack and self.stack[-1] == tag:
            self.stack.pop()
        else:
            self.faults.append(f"</{tag}> at {self.getpos()}")


@pytest.mark.parametrize(
    "path",
    [
        "/",
        JOB_PAGE,
        *(
            f"{JOB_PAGE}/{page}"
            for page in ("asks", "asks?at=s6", "check", "sign", "add", "add?kind=movement")
        ),
        *(f"{JOB_PAGE}/items/{item}" for item in ("s1", "s6", "p1")),
        "/nowhere",
    ],
)
def test_a_page_is_well_formed_and_labelled(visit, path):
    """Tags nest, ids are unique, every input has a label, headings skip no level."""
    outline = Outline()
    outline.feed(visit.client.get(path).text)
    assert [] == outline.faults
    assert [] == outline.stack
    assert sorted(set(outline.ids)) == sorted(outline.ids)
    assert [] == [i for i, inside in outline.inputs if not inside and i not in outline.labelled]
    assert 1 == outline.levels[0]
    assert all(after - before <= 1 for before, after in zip(outline.levels, outline.levels[1:], strict=False))


def test_the_list_names_each_job(visit):
    """The first page links the job, with what is on the bench."""
    page = visit.client.get("/").text
    assert f'href="{JOB_PAGE}"' in page
    assert "Carburetor off the harbour launch" in page
    assert "serial HB-2047" in page
    assert "job 20260314-1" in page


def test_the_page_names_the_job_as_the_command_line_does(visit):
    """The id that `saywright report` and the others ask for is on the page."""
    assert "Job 20260314-1" in visit.client.get(JOB_PAGE).text


def test_the_job_page_begins_with_what_asks(visit):
    """What asks comes before the record, each question with the way to it."""
    page = visit.client.get(JOB_PAGE).text
    asks, record = page.split('<section id="record"')
    assert f'href="{JOB_PAGE}/asks?at=ask%3As1"' in asks
    assert "eighteen something" in html.unescape(asks)
    assert "Go through all 2" in asks
    assert "18.0 to 18.8 mm" in record
    assert "125 or 128" in record


def test_where_no_question_waits_what_else_stops_the_signature_is_told(visit):
    """Two loose pictures are open: the page does not say that all is done, and leads to them."""
    for item in ("s1", "s6"):
        visit.post(f"/items/{item}/withdraw", {"why": "said in passing"})
    for item in visit.bench().record().open_items:
        if item.kind != "photo":
            visit.bench().explain(item.id, "not today", actor="Ada")
    page = visit.client.get(JOB_PAGE).text
    assert "Nothing asks" not in page
    assert "No question waits." in page
    assert f'href="{JOB_PAGE}/check">2 missing or open</a>' in page
    assert "No question waits any more." in visit.client.get(f"{JOB_PAGE}/asks").text
    for loose in ("/check", "/sign"):
        assert (
            f'<a href="{JOB_PAGE}#picture-p1">The picture jet.jpg belongs'
            in visit.client.get(f"{JOB_PAGE}{loose}").text
        )
    assert '<li id="picture-p1"' in page
    for item in visit.bench().record().open_items:
        visit.bench().explain(item.id, "not today", actor="Ada")
    assert "Nothing asks, and nothing is missing or open." in visit.client.get(JOB_PAGE).text
    assert "Nothing asks any more." in visit.client.get(f"{JOB_PAGE}/asks").text


def test_work_is_neither_as_found_nor_as_left(visit):
    """A stage stands beside what something is like, not beside what was done to it or came off."""
    page = visit.client.get(JOB_PAGE).text
    rows = {name: page.split(f'id="i-{name}"')[1].split("</li>")[0] for name in ("s1", "s3", "s5", "s7")}
    assert ["s1", "s3"] == [name for name, row in rows.items() if "as found" in row]
    kicker = visit.client.get(f"{JOB_PAGE}/items/s7").text.split('class="kicker">')[1].split("</p>")[0]
    assert "Action · main jet" == kicker


def test_the_list_tells_what_was_not_heard_to_its_end(visit):
    """A recording that was cut off is told where jobs are chosen."""
    assert "not heard to the end" not in visit.client.get("/").text
    events = visit.store.events("20260314-1")
    cut = AudioAdded(sha256="a" * 64, name="cut.wav")
    visit.store.append("20260314-1", [cut], at=visit.clock(), actor="Ada", after_seq=len(events))
    assert "1 recording not heard to the end" in visit.client.get("/").text


def test_a_question_shows_all_that_decides_it(visit):
    """Value, limits, reason, words with their times, the other hearing, the clip and where it begins."""
    page = visit.client.get(f"{JOB_PAGE}/asks").text
    for text in ("Height 18.42 mm", "18.0 to 18.8 mm", "18.42 or 18.4", "30 %", "1 of 2"):
        assert text in page
    assert f'href="{JOB_PAGE}/clips/s1.wav" data-from="2.0"' in page
    assert '<span data-s="4.00" data-e="4.29">float</span>' in page


def test_the_questions_follow_each_other(visit):
    """After one comes the next that is open, by what was said; after the last the first."""
    for asked, shown in (
        ("", "s1"),
        ("?after=s1", "s6"),
        ("?after=s6", "s1"),
        ("?at=s6", "s6"),
        ("?at=x", "s1"),
    ):
        assert f'data-item="{shown}"' in visit.client.get(f"{JOB_PAGE}/asks{asked}").text


@pytest.mark.parametrize(
    ("asked", "there", "gone"),
    [
        ("", ("s1", "s2", "s6", "s8", "p1"), ()),
        ("?part=main_jet", ("s2", "s3", "s4", "s7", "s9"), ("s1", "s8")),
        ("?show=reading", ("s1", "s2"), ("s3", "s5", "p1")),
        ("?show=asks", ("s1", "s6"), ("s2",)),
        ("?show=movement&part=bowl_gasket", ("s5",), ("s1",)),
        ("?show=gone", (), ("s1",)),
        ("?part=boiler&show=nonsense&page=zz", ("s1", "s8"), ()),
    ],
)
def test_the_timeline_by_part_and_kind(visit, asked, there, gone):
    """Each line is where it belongs; an address that asks for nothing there is shows all."""
    page = visit.client.get(f"{JOB_PAGE}{asked}").text
    assert [] == [name for name in there if f'id="i-{name}"' not in page]
    assert [] == [name for name in gone if f'id="i-{name}"' in page]


def test_the_check_tells_what_the_sheet_asks_for(visit):
    """What is open, readings by limits, the ledger, orders, bench time."""
    page = visit.client.get(f"{JOB_PAGE}/check").text
    for text in ("must be renewed", "125 or 128", "1 not back on", "scored (severe)", "0 min 27 s"):
        assert text in page
    assert "No earlier job on serial HB-2047" in page


def test_this_serial_before_stands_beside_today(visit):
    """The value of an earlier visit and that of today in one row, the visit linked."""
    early = visit.clock() - timedelta(days=90)
    bench = Bench.open(visit.store, visit.bench().sheet, clock=lambda: early, serial="hb-2047")
    bench.say("float height is eighteen point five five")
    page = visit.client.get(f"{JOB_PAGE}/check").text
    row = re.search(r'<th scope="row">float, height</th>(.*?)</tr>', page, re.DOTALL)
    assert row is not None
    assert row[1].index("18.55 mm") < row[1].index("18.42 mm?")
    assert f'href="/jobs/{bench.job_id}"' in page


def test_decisions_are_told_in_words_and_shapes(visit):
    """A decision is a word and a shape, so that colour is never all there is."""
    page = visit.client.get(JOB_PAGE).text
    row = re.search(r'<span class="decision does_not_conform">(.*?)</span>', page, re.DOTALL)
    assert row is not None
    assert "<svg" in row[1]
    assert "does not conform" in row[1]


@pytest.mark.parametrize(
    "path",
    [
        "/",
        *(f"{JOB_PAGE}{rest}" for rest in ("", "/asks", "/check", "/sign", "/add", "/items/s8", "/items/p2")),
    ],
)
def test_hostile_names_and_words_are_escaped(visit, path):
    """A customer, a spoken word or a file name that looks like markup stays text."""
    page = visit.client.get(path).text
    assert "<script>alert" not in page
    assert html.escape("<script>alert") in page


def test_a_hostile_notice_is_not_shown(visit):
    """Only the desk's own notices are shown, never text from the address."""
    assert "boo" not in visit.client.get(f"{JOB_PAGE}?done=boo<b>").text
    assert "Accepted." in visit.client.get(f"{JOB_PAGE}?done=accepted").text


def test_an_item_page_traces_it_to_its_hearing(visit):
    """The item's page tells every event from the hearing on."""
    page = html.unescape(visit.client.get(f"{JOB_PAGE}/items/s1").text)
    assert page.index("heard by scripted") < page.index("understood from “float height")
    assert "70 %" in page


@pytest.mark.parametrize(
    "path", ["/jobs/none", f"{JOB_PAGE}/items/s99", "/nowhere", f"{JOB_PAGE}/photos/p1/huge.jpg"]
)
def test_what_is_not_there_gets_a_page(visit, path):
    """A 404 page tells it in words and leads back."""
    answer = visit.client.get(path)
    assert 404 == answer.status_code
    assert 'href="/"' in answer.text
    assert "Traceback" not in answer.text


def test_a_failure_gets_a_page_without_its_inside(failing_client):
    """What nobody foresaw becomes a page that shows nothing of the program."""
    answer = failing_client.get("/")
    assert 500 == answer.status_code
    assert "what was recorded before is kept" in answer.text
    assert "boiler" not in answer.text


def test_the_page_shows_the_log_as_it_stands(visit):
    """What another program appends is on the page at the next look."""
    events = visit.store.events("20260314-1")
    visit.store.append(
        "20260314-1", [JobDescribed(title="Renamed")], at=visit.clock(), actor="x", after_seq=events[-1].seq
    )
    assert "<h1>Renamed</h1>" in visit.client.get(JOB_PAGE).text
