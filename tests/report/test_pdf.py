"""The PDF, read back with pdftotext and pdfinfo (Debian package poppler-utils)."""

from __future__ import annotations

import errno
import re
import shutil
import subprocess
from collections.abc import Sequence
from pathlib import Path
from types import ModuleType

import pytest

from saywright.errors import DiskFullError
from saywright.record.events import Event
from saywright.record.fold import fold
from saywright.record.types import Record
from saywright.report.document import build_document
from saywright.report.pdf import to_pdf
from saywright.report.tree import Document
from saywright.sheets.model import Sheet

pytestmark = pytest.mark.skipif(
    shutil.which("pdftotext") is None, reason="needs pdftotext: install the package poppler-utils"
)


def _run(program: str, content: bytes, folder: Path, *options: str) -> str:
    source = folder / "report.pdf"
    source.write_bytes(content)
    end = ["-"] if program == "pdftotext" else []
    done = subprocess.run([program, *options, str(source), *end], capture_output=True, check=True, text=True)
    return done.stdout


@pytest.fixture(scope="module")
def pdf(document: Document, pictures: dict[str, bytes]) -> bytes:
    """The sample's PDF."""
    return to_pdf(document, pictures)


@pytest.fixture(scope="module")
def words(pdf: bytes, tmp_path_factory: pytest.TempPathFactory) -> str:
    """All its text, with one space between words and no places to break."""
    text = _run("pdftotext", pdf, tmp_path_factory.mktemp("pdf"), "-layout")
    return " ".join(text.replace("\u200b", "").replace("\u00a0", " ").split())


def test_every_reading_is_there_with_its_item(words: str, record: Record) -> None:
    """Value and item id stand side by side, and the trace gives the event."""
    for reading in record.readings:
        value, item = re.escape(reading.value), rf"\b{reading.id}\b"
        assert re.search(rf"{value}.{{0,40}}{item}|{item}.{{0,90}}{value}", words), reading.id
        assert re.search(rf"{item}.{{1,160}}\b{reading.event}\b", words), reading.id


def test_every_item_is_in_the_trace(words: str, record: Record) -> None:
    """Each item has its id in the document."""
    groups = (record.conditions, record.actions, record.movements, record.identifiers, record.photos)
    for item in (item for group in groups for item in group):
        assert re.search(rf"\b{item.id}\b", words), item.id


def test_signs_of_the_trade_have_glyphs(words: str, pdf: bytes, sample: ModuleType, tmp_path: Path) -> None:
    """± µ × ° and letters of names are set, not boxes: the text that comes out is the text that went in."""
    log = sample.Log(sample.sheet(), customer="Løvås ± µ × ° − Ω · ½ “ ” → Žižek Иван")
    text = _run("pdftotext", to_pdf(build_document(fold(log.events), log.sheet)), tmp_path)
    for sign in "±µ×°−Ω·½“”→ŽИ":
        assert sign in text
    assert "Løvås" in words
    fonts = _run("pdffonts", pdf, tmp_path)
    rows = fonts.splitlines()[2:]
    assert rows
    assert all(re.search(r"\byes\s+yes\s+yes\b", row) for row in rows), "each font is embedded"


def test_each_page_carries_job_number_and_hash(pdf: bytes, record: Record, tmp_path: Path) -> None:
    """A page that was torn out can be put back."""
    pages = _run("pdftotext", pdf, tmp_path).rstrip("\f").split("\f")
    assert len(pages) > 1
    for number, page in enumerate(pages, start=1):
        assert record.job.id in page
        assert f"page {number} of {len(pages)}" in page
        assert (record.record_hash or "-")[:12] in page


def test_same_record_gives_the_same_bytes(document: Document, pictures: dict[str, bytes], pdf: bytes) -> None:
    """No clock and no chance goes in; the date inside is that of the last event."""
    assert pdf == to_pdf(document, pictures)
    assert document.made_at.strftime("D:%Y%m%d%H%M%S").encode() in pdf


def test_page_is_a4(pdf: bytes, tmp_path: Path) -> None:
    """ISO 216: A4 is 210 mm × 297 mm, 595 × 842 points."""
    assert "A4" in _run("pdfinfo", pdf, tmp_path)


@pytest.mark.parametrize(
    "name",
    [
        "#panic(1) [*x*] $y$ \\ @z <w> /* // _ `r`",
        '"); #read("/etc/passwd")',
        "#" * 40,
        "x" * 400,
        "\u202e4.81 \x07",
        "https://example.invalid/page",
    ],
)
def test_hostile_names_stay_text(record: Record, sheet: Sheet, name: str, tmp_path: Path) -> None:
    """What looks like Typst code is set letter by letter."""
    job = record.job.model_copy(update={"title": name, "customer": name, "serial": name, "id": name})
    remarked = tuple(r.model_copy(update={"heard": name}) for r in record.readings)
    hostile = record.model_copy(update={"job": job, "readings": remarked})
    text = _run("pdftotext", to_pdf(build_document(hostile, sheet)), tmp_path, "-layout")
    squeezed = re.sub(r"[\s\u200b]", "", text)
    shown = re.sub(r"[\s]", "", name.replace("\u202e", "\ufffd").replace("\x07", "\ufffd"))
    assert shown[:24] in squeezed


def test_nothing_runs_over_the_edge(record: Record, sheet: Sheet, tmp_path: Path) -> None:
    """Words without spaces are broken: no glyph lies outside the page's margins of 12 mm."""
    long = record.job.model_copy(update={"customer": "W" * 200, "title": "M" * 120, "id": "J" * 80})
    readings = tuple(
        r.model_copy(update={"heard": "w" * 150, "accepted_by": "I" * 60}) for r in record.readings
    )
    made = to_pdf(build_document(record.model_copy(update={"job": long, "readings": readings}), sheet))
    boxes = _run("pdftotext", made, tmp_path, "-bbox")
    right = [float(value) for value in re.findall(r'<word[^>]* xMax="([\d.]+)"', boxes)]
    assert len(right) > 100
    assert max(right) <= 595.28 - 12 / 25.4 * 72


def test_two_hundred_readings(sample: ModuleType, tmp_path: Path) -> None:
    """A long job makes many pages, none of its values lost."""
    from saywright.judging.judge import judge

    log = sample.Log(sample.sheet())
    values = [f"{18 + number / 1000:.3f}" for number in range(200)]
    for value in values:
        log.read("float", "height", value, f"float height {value}")
    made = to_pdf(build_document(judge(fold(log.events), log.sheet), log.sheet, events=log.events))
    text = _run("pdftotext", made, tmp_path)
    assert [] == [value for value in values if value not in text]


def test_empty_record(sample: ModuleType, tmp_path: Path) -> None:
    """A job with nothing said has a report that says so."""
    log = sample.Log(sample.sheet(caution=()))
    text = _run("pdftotext", to_pdf(build_document(fold(log.events), log.sheet)), tmp_path)
    assert "No readings were recorded." in text


def test_damaged_and_foreign_pictures_do_not_stop_the_report(
    document: Document, pictures: dict[str, bytes], sample: ModuleType, tmp_path: Path
) -> None:
    """A truncated picture and a text file are named as absent; the sound one is shown."""
    mixed = {
        **pictures,
        sample.photo_hash(2): pictures[sample.photo_hash(2)][:200],
        sample.photo_hash(3): b"not a picture",
    }
    text = _run("pdftotext", to_pdf(document, mixed), tmp_path)
    assert 2 == " ".join(text.split()).count("The picture was not handed to this report.")
    shown = _run("pdfimages", to_pdf(document, mixed), tmp_path, "-list")
    assert 1 == len(shown.splitlines()) - 2


def test_draft_is_said_on_every_page(pdf: bytes, events: Sequence[Event], tmp_path: Path) -> None:
    """Nobody takes an unsigned page for a signed one."""
    pages = _run("pdftotext", pdf, tmp_path).rstrip("\f").split("\f")
    assert events
    assert all("draft" in page for page in pages)


@pytest.mark.parametrize("language", ["en-GB", "ko", "plain english", "", '"x'])
def test_any_language_tag_makes_a_report(document: Document, language: str) -> None:
    """A tag that Typst does not know falls back to English instead of stopping the report."""
    assert to_pdf(document, language=language).startswith(b"%PDF-")


def test_letters_without_a_font_are_told_of(sample: ModuleType, document: Document, tmp_path: Path) -> None:
    """No name is lost in silence: the first page says that letters are missing (U+10FFFD has no glyph)."""
    log = sample.Log(sample.sheet(), customer="Name \U0010fffd")
    text = _run("pdftotext", to_pdf(build_document(fold(log.events), log.sheet)), tmp_path)
    assert "Some letters have no font on this machine" in text
    assert "Some letters have no font" not in _run("pdftotext", to_pdf(document), tmp_path)


def test_full_disk_is_one_clear_line(document: Document, monkeypatch: pytest.MonkeyPatch) -> None:
    """No room for the pictures: an error of ours that names the place."""

    def full(*_args: object, **_kwargs: object) -> int:
        raise OSError(errno.ENOSPC, "No space left on device", "/pages/report")

    monkeypatch.setattr(Path, "write_text", full)
    with pytest.raises(DiskFullError) as caught:
        to_pdf(document)
    told = "/pages/report: the pages could not be laid out (No space left on device)"
    assert str(caught.value).startswith(told)
    assert "\n" not in str(caught.value)
