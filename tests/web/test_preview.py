"""The report before it is signed: the pages as they will be printed, and that nothing else is signed."""

from __future__ import annotations

import hashlib
import io
import re
import shutil
import subprocess
import threading
from concurrent.futures import ThreadPoolExecutor
from contextlib import ExitStack

import numpy as np
import pytest
from PIL import Image

from saywright.errors import RefusedError
from saywright.record.events import Signed
from saywright.web.preview import MAX_KEPT_BYTES, MAX_PROOFS, MAX_WAITING, Proofs, png_size_px
from saywright.wiring import output
from saywright.wiring.bench_review import Proof

JOB_PAGE = "/jobs/20260314-1"
NEEDS_POPPLER = pytest.mark.skipif(
    shutil.which("pdftoppm") is None, reason="needs pdftoppm and pdftotext: install poppler-utils"
)


def last(visit):
    """The newest event."""
    return visit.bench().events()[-1]


def explain_all(visit):
    """Give a reason for everything open, so that the record can be signed."""
    for item in visit.bench().record().open_items:
        visit.bench().explain(item.id, "agreed", actor="Ada")


def sign(visit, seen):
    """Send the form of the signing page."""
    return visit.post("/sign", {"name": "Ada", "statement": "It is so.", "seen": seen})


def pages_of(visit):
    """Record hash that the frame shows, and the bytes of each page in it."""
    frame = visit.client.get(f"{JOB_PAGE}/preview/pages").text
    sources = re.findall(r'<img src="([^"]+)"', frame)
    found = {re.fullmatch(rf"{JOB_PAGE}/preview/([0-9a-f]{{64}})/\d+\.png", source)[1] for source in sources}
    return found.pop(), [visit.client.get(source) for source in sources]


def words(tmp_path, pdf):
    """The words of a PDF in their order, without what the setting of lines puts in."""
    (tmp_path / "report.pdf").write_bytes(pdf)
    command = ["pdftotext", str(tmp_path / "report.pdf"), "-"]
    text = subprocess.run(command, check=True, capture_output=True, text=True).stdout
    return text.replace("\u200b", "").split()


def sections(page):
    """What an HTML report says between its head and the trace, which counts the events."""
    return page[page.index(">Summary<") : page.index(">Trace<")]


def grey(content):
    """A picture as grey levels, small enough that the edges of letters do not count."""
    return np.asarray(Image.open(io.BytesIO(content)).convert("L").resize((124, 175)), dtype=float)


def test_the_preview_leaves_no_trace(visit):
    """Framed by the desk only, running nothing, and no event: it is not handed out."""
    before = last(visit).seq
    answer = visit.client.get(f"{JOB_PAGE}/preview.html")
    assert "Carburetor off the harbour launch" in answer.text
    assert "frame-ancestors 'self'; sandbox" in answer.headers["content-security-policy"]
    frame = visit.client.get(f"{JOB_PAGE}/preview/pages")
    assert "script" not in frame.headers["content-security-policy"]
    assert "SAMEORIGIN" == frame.headers["x-frame-options"]
    assert b"%PDF" == visit.client.get(f"{JOB_PAGE}/preview.pdf").content[:4]
    assert 404 == visit.client.get(f"{JOB_PAGE}/preview.exe").status_code
    assert before == last(visit).seq


@NEEDS_POPPLER
def test_each_page_is_the_page_of_the_pdf(visit, tmp_path):
    """As many pages as the PDF has, each the picture that another program draws of that page."""
    _, pages = pages_of(visit)
    pdf = tmp_path / "report.pdf"
    pdf.write_bytes(visit.client.get(f"{JOB_PAGE}/preview.pdf").content)
    subprocess.run(["pdftoppm", "-r", "110", "-png", str(pdf), str(tmp_path / "page")], check=True)
    drawn = sorted(tmp_path.glob("page-*.png"))
    assert len(drawn) == len(pages) > 1
    for mine, theirs in zip(pages, drawn, strict=True):
        assert ("image/png", 200) == (mine.headers["content-type"], mine.status_code)
        ours, other = grey(mine.content), grey(theirs.read_bytes())
        assert np.abs(ours - other).mean() < 3.0
        assert np.corrcoef(ours.ravel(), other.ravel())[0, 1] > 0.97
    first, second = grey(pages[0].content), grey(pages[1].content)
    assert np.corrcoef(first.ravel(), second.ravel())[0, 1] < 0.9


@NEEDS_POPPLER
def test_what_is_signed_is_what_was_shown(visit, tmp_path):
    """The sections are the same byte for byte, the words of the PDF too, and both name the same hash."""
    explain_all(visit)
    shown, _ = pages_of(visit)
    preview = {form: visit.client.get(f"{JOB_PAGE}/preview.{form}").content for form in ("pdf", "html")}
    assert 303 == sign(visit, shown).status_code
    assert isinstance(last(visit).payload, Signed)
    assert shown == last(visit).payload.record_hash
    report = {form: visit.post("/report", {"format": form}).content for form in ("pdf", "html")}
    before, after = (made["html"].decode() for made in (preview, report))
    assert sections(before) == sections(after)
    assert 5000 < len(sections(before))
    before, after = (words(tmp_path, made["pdf"]) for made in (preview, report))
    assert shown in "".join(before)
    assert f"Hashsignedfor:{shown}" in "".join(after)
    # Where a page ends may differ, and with it how often the head of a table and of a page stands there.
    before, after = (set(said[said.index("Summary") : said.index("Trace")]) for said in (before, after))
    running = {"20260314-1,", "draft", *"123456789"}  # "20260314-1, draft … record HASH … page 1 of 4"
    assert {shown[:12]} == before - after - running
    assert {visit.bench().events()[-3].hash[:12]} == after - before - running


def test_the_pdf_shown_is_the_report_of_that_record(visit):
    """Byte for byte what the bench sets of the record with that hash, however often it is asked for."""
    shown, _ = pages_of(visit)
    expected = hashlib.sha256(visit.bench().proof("pdf")).hexdigest()
    assert shown == visit.record_hash()
    for _ in range(2):
        content = visit.client.get(f"{JOB_PAGE}/preview.pdf").content
        assert expected == hashlib.sha256(content).hexdigest()


def test_a_record_that_changed_since_is_not_signed(visit):
    """Who read another state is told, and nothing is signed; nor without saying what was read."""
    explain_all(visit)
    shown, _ = pages_of(visit)
    visit.bench().accept("s2", actor="Ben")
    before = last(visit).seq
    answer = sign(visit, shown)
    assert (409, before) == (answer.status_code, last(visit).seq)
    assert "changed since you read it" in answer.text
    assert 422 == sign(visit, "").status_code
    assert 303 == sign(visit, visit.record_hash()).status_code


def test_a_page_of_another_state_is_not_mixed_in(visit):
    """After a change the old pages are gone for whoever has not got them, and the frame has the new ones."""
    shown, pages = pages_of(visit)
    visit.bench().accept("s2", actor="Ben")
    now, others = pages_of(visit)
    assert shown != now
    assert 404 == visit.client.get(f"{JOB_PAGE}/preview/{shown}/1.png").status_code
    for name in ("0", "99"):
        assert 404 == visit.client.get(f"{JOB_PAGE}/preview/{now}/{name}.png").status_code
    assert pages[0].content != others[0].content


def test_the_signing_page_shows_the_pages(visit):
    """The frame and the form are of the same record."""
    page = visit.client.get(f"{JOB_PAGE}/sign").text
    now = visit.record_hash()
    assert f'src="{JOB_PAGE}/preview/pages?of={now}"' in page
    assert f'<input type="hidden" name="seen" value="{now}">' in page


def test_few_proofs_are_kept():
    """The one looked at longest ago is let go, sooner where they are large; the newest never."""
    proofs, small = Proofs(), Proof("a" * 64, b"pdf", (b"page",))
    for number in range(MAX_PROOFS + 1):
        proofs.keep(f"job{number}", small)
    assert proofs.known("job0") is None
    assert proofs.known(f"job{MAX_PROOFS}") is small
    large = Proof("b" * 64, b"pdf", (bytes(MAX_KEPT_BYTES),))
    proofs.keep("large", large)
    assert [None, large] == [proofs.known(f"job{MAX_PROOFS}"), proofs.known("large")]


def test_the_bench_goes_on_while_pages_are_set(visit, monkeypatch):
    """A change that comes meanwhile waits for nothing, and is not in the pages that are being set."""
    began, go_on = threading.Event(), threading.Event()
    setting = output.to_pages

    def slow(*given, **more):
        began.set()
        assert go_on.wait(20)
        return setting(*given, **more)

    monkeypatch.setattr(output, "to_pages", slow)
    before = visit.record_hash()
    with ThreadPoolExecutor() as pool:
        frame = pool.submit(visit.client.get, f"{JOB_PAGE}/preview/pages")
        assert began.wait(20)
        assert 303 == visit.post("/say", {"words": "float scored"}).status_code
        go_on.set()
        assert before in frame.result(30).text
    assert before != visit.record_hash()


def test_another_job_does_not_wait():
    """Pages of one job are set by one at a time, those of another beside them, and readers are bounded."""
    proofs = Proofs()
    with ExitStack() as turns, ThreadPoolExecutor() as pool:
        for number in range(MAX_WAITING - 1):
            turns.enter_context(proofs.turn(f"job{number}"))
        second = threading.Event()

        def waits():
            with proofs.turn("job0"):
                second.set()

        waiting = pool.submit(waits)
        assert not second.wait(0.2)
        with pytest.raises(RefusedError, match=f"{MAX_WAITING} others wait"):
            proofs.turn("job9").__enter__()
        turns.close()
        waiting.result(20)
        assert second.is_set()
    with proofs.turn("job9"):
        assert proofs.known("job9") is None


def test_the_size_of_a_picture_is_read_off_it():
    """Width and height as they were drawn."""
    content = io.BytesIO()
    Image.new("RGB", (31, 17)).save(content, "PNG")
    assert (31, 17) == png_size_px(content.getvalue())
