"""The HTML report: one file that is whole, harmless and readable."""

from __future__ import annotations

import re
from base64 import b64encode
from collections.abc import Sequence
from html.parser import HTMLParser
from types import ModuleType

import pytest

from saywright.record.events import Event
from saywright.record.types import Record
from saywright.report.assets import template
from saywright.report.document import build_document
from saywright.report.html import image_type, to_html
from saywright.report.tree import Document
from saywright.sheets.model import Sheet

_VOID = {"meta", "link", "img", "br", "hr", "input", "col", "rect", "path", "wbr"}
_RAW = "<script>alert(1)</script>\"'><img src=x onerror=y> {{ 7*7 }} #evil[*x*] \\u{202e}"


class _Page(HTMLParser):
    """Collects what a reader would meet, and refuses tags that do not close in order."""

    def __init__(self, content: bytes) -> None:
        super().__init__()
        self.open: list[str] = []
        self.tags: list[str] = []
        self.ids: list[str] = []
        self.links: list[str] = []
        self.sources: list[str] = []
        self.attributes: list[tuple[str, str]] = []
        self.evidence: dict[str, list[tuple[str, str]]] = {}
        self.text = ""
        self._shown: tuple[str, str] | None = None
        self.feed(content.decode("utf-8"))
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = {name: value or "" for name, value in attrs}
        self.tags.append(tag)
        self.attributes += given.items()
        if tag not in _VOID:
            self.open.append(tag)
        if "id" in given:
            self.ids.append(given["id"])
        if "href" in given:
            self.links.append(given["href"])
        if "src" in given:
            self.sources.append(given["src"])
        self._shown = (given["data-item"], given["data-event"]) if "data-item" in given else None

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.handle_starttag(tag, attrs)
        if tag not in _VOID:
            self.open.pop()

    def handle_endtag(self, tag: str) -> None:
        assert tag == self.open.pop()
        self._shown = None

    def handle_data(self, data: str) -> None:
        self.text += data
        if self._shown:
            self.evidence.setdefault(self._shown[0], []).append((data, self._shown[1]))


@pytest.fixture(scope="module")
def page(document: Document, pictures: dict[str, bytes]) -> _Page:
    """The sample's page, read."""
    return _Page(to_html(document, pictures))


def test_tags_close_in_order_and_ids_are_single(page: _Page) -> None:
    """The page is well formed, and each link has one place to lead to."""
    assert [] == page.open
    assert len(set(page.ids)) == len(page.ids)


def test_every_link_leads_inside_the_page(page: _Page) -> None:
    """References lead to rows of the trace."""
    assert page.links
    assert set() == {link for link in page.links if link.removeprefix("#") not in page.ids}


def test_nothing_is_fetched_and_nothing_runs(page: _Page) -> None:
    """No script, no handler, no address outside, also none in the style."""
    assert not {"script", "link", "iframe", "object", "embed", "form"} & set(page.tags)
    assert all(source.startswith("data:image/") for source in page.sources)
    assert not [name for name, _ in page.attributes if name.startswith("on")]
    assert not [value for _, value in page.attributes if re.match(r"\s*(https?:|//|javascript:)", value)]
    assert "url(" not in template("report.css")
    assert "@import" not in template("report.css")


def test_every_reading_stands_with_its_event(page: _Page, record: Record) -> None:
    """Value, item id and event number stand together."""
    for reading in record.readings:
        shown = page.evidence[reading.id]
        assert any(reading.value in text and str(reading.event) == event for text, event in shown), reading.id


def test_every_item_has_a_row_in_the_trace(page: _Page, record: Record) -> None:
    """Readings, conditions, work, movements, marks and photos: words and place of each."""
    for group in (record.readings, record.conditions, record.actions, record.movements, record.photos):
        for item in group:
            assert f"item-{item.id}" in page.ids
            assert item.heard in page.text


def test_pictures_are_inside_the_file(document: Document, pictures: dict[str, bytes]) -> None:
    """Each picture's own bytes, as a data address of its own type."""
    text = to_html(document, pictures).decode()
    for content in pictures.values():
        assert f"data:image/jpeg;base64,{b64encode(content).decode()}" in text


def test_picture_that_is_not_there_is_named(document: Document) -> None:
    """A lacking picture leaves its caption and a plain word."""
    text = to_html(document).decode()
    assert 3 == text.count("The picture was not handed to this report.")
    assert "gasket.jpg" in text


def test_hostile_names_stay_text(record: Record, sheet: Sheet) -> None:
    """Markup, templates and Typst code in names come out as letters."""
    job = record.job.model_copy(update={"customer": _RAW, "item": _RAW, "title": _RAW, "serial": _RAW})
    readings = tuple(r.model_copy(update={"heard": _RAW, "accepted_by": _RAW}) for r in record.readings)
    hostile = record.model_copy(update={"job": job, "readings": readings})
    read = _Page(to_html(build_document(hostile, sheet)))
    assert "script" not in read.tags
    assert [] == [name for name, _ in read.attributes if name.startswith("on")]
    assert "<script>alert(1)</script>" in read.text
    assert "{{ 7*7 }}" in read.text


def test_empty_record_makes_a_page(sample: ModuleType) -> None:
    """A job with nothing said is a report that says so."""
    log = sample.Log(sample.sheet(component=(), caution=()))
    from saywright.record.fold import fold

    read = _Page(to_html(build_document(fold(log.events), log.sheet, events=log.events)))
    assert "No readings were recorded." in read.text
    assert [] == read.open


def test_signed_and_draft_are_told_apart(
    record: Record, sheet: Sheet, events: Sequence[Event], page: _Page
) -> None:
    """A draft says so in words; a signed report names who and when."""
    from saywright.record.types import SignOff

    at = events[-1].at
    sign = SignOff(by="Ines Krog", at=at, record_hash="ab" * 32, statement="Checked at the bench")
    signed = _Page(to_html(build_document(record.model_copy(update={"sign_off": sign}), sheet)))
    assert "NOT SIGNED: draft" in page.text
    assert "NOT SIGNED" not in signed.text
    assert "Ines Krog" in signed.text
    assert "ab" * 32 in signed.text


def test_provisional_values_are_marked(page: _Page, record: Record) -> None:
    """A value that still asks is marked in the page, told in words and counted as such."""
    asking = [r for r in record.readings if r.provisional]
    assert asking
    assert any("provisional" in value for name, value in page.attributes if name == "class")
    assert page.text.count("asks: ") >= len(asking)


def _luminance(colour: str) -> float:
    """Relative luminance of "#rrggbb" (WCAG 2.1, definition of relative luminance)."""
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def _contrast(one: str, other: str) -> float:
    light, dark = sorted((_luminance(one), _luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def test_contrast_formula_gives_the_published_extremes() -> None:
    """WCAG 2.1: black on white is 21:1, a colour on itself 1:1."""
    assert 21.0 == pytest.approx(_contrast("#000000", "#ffffff"))
    assert 1.0 == _contrast("#777777", "#777777")


def test_every_ink_reads_on_every_paper() -> None:
    """WCAG 2.1, 1.4.3 (AA): at least 4.5:1 for each text colour on each ground it can stand on."""
    colours = dict(re.findall(r"--(\w+): (#[0-9a-f]{6})", template("report.css")))
    for ink in ("ink", "soft", "brass", "good", "bad", "half"):
        for ground in (colours["paper"], colours["band"], colours["ask"], "#ffffff"):
            assert _contrast(colours[ink], ground) >= 4.5, (ink, ground)


def test_image_type_goes_by_content() -> None:
    """The file's first bytes decide; text is no picture."""
    assert "image/png" == image_type(b"\x89PNG\r\n\x1a\n....")
    assert "image/webp" == image_type(b"RIFF....WEBPVP8 ")
    assert image_type(b"GIF89") is None
    assert image_type(b"<svg onload=x>") is None
