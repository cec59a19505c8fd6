"""Clips, pictures and reports: only by the id of an item of the job shown."""

from __future__ import annotations

import io
import wave

import pytest
from PIL import Image

from saywright.record.events import Reported
from saywright.web.media import ranged

JOB_PAGE = "/jobs/20260314-1"


def test_a_clip_runs_from_two_seconds_before_to_one_after(visit):
    """The words of s2, 9 s to 11 s, give a clip of 7 s to 12 s."""
    answer = visit.client.get(f"{JOB_PAGE}/clips/s2.wav")
    assert (200, "audio/wav") == (answer.status_code, answer.headers["content-type"])
    with wave.open(io.BytesIO(answer.content)) as wav:
        assert 5 == wav.getnframes() / wav.getframerate()


@pytest.mark.parametrize(
    ("size", "side_px"),
    [("small", 360), ("large", 640)],
)
def test_a_picture_comes_small_or_large(visit, size, side_px):
    """The picture as JPEG, its longer side no more than the size asks for, never enlarged."""
    answer = visit.client.get(f"{JOB_PAGE}/photos/p1/{size}.jpg")
    assert "image/jpeg" == answer.headers["content-type"]
    assert side_px == max(Image.open(io.BytesIO(answer.content)).size)


@pytest.mark.parametrize(
    "path",
    [
        "/clips/..%2f..%2fetc%2fpasswd.wav",
        "/clips/%2e%2e.wav",
        "/clips/s99.wav",
        "/photos/..%2f..%2fx/small.jpg",
        "/photos/p77/small.jpg",
        "/photos/p1/..%2flarge.jpg",
    ],
)
def test_a_path_is_no_id(visit, path):
    """What is no id of this job is not found."""
    assert 404 == visit.client.get(JOB_PAGE + path).status_code


@pytest.mark.parametrize("path", ["/static/..%2fapp.py", "/static/../app.py", "/static/%2e%2e/app.py"])
def test_static_files_stay_in_their_folder(visit, path):
    """No file beside the static folder is served."""
    assert 404 == visit.client.get(path).status_code


@pytest.mark.parametrize(
    ("wanted", "status", "content", "told"),
    [
        ("", 200, b"0123456789", None),
        ("bytes=2-4", 206, b"234", "bytes 2-4/10"),
        ("bytes=7-", 206, b"789", "bytes 7-9/10"),
        ("bytes=-3", 206, b"789", "bytes 7-9/10"),
        ("bytes=0-99", 206, b"0123456789", "bytes 0-9/10"),
        ("bytes=-99", 206, b"0123456789", "bytes 0-9/10"),
        ("bytes=10-", 416, b"", "bytes */10"),
        ("bytes=5-4", 416, b"", "bytes */10"),
        ("bytes=-", 200, b"0123456789", None),
        ("bytes=0-1,3-4", 200, b"0123456789", None),
    ],
)
def test_a_stretch_of_a_clip(wanted, status, content, told):
    """One range is answered with that stretch, anything else with the whole (RFC 9110, section 14)."""
    answer = ranged(b"0123456789", wanted, "audio/wav")
    assert (status, content, told) == (answer.status_code, answer.body, answer.headers.get("content-range"))


@pytest.mark.slow
@pytest.mark.parametrize(("form", "start"), [("pdf", b"%PDF-"), ("html", b"<!doctype html")])
def test_the_report_is_a_file_to_keep(visit, form, start):
    """The report comes as an attachment, and that it was made is an event."""
    answer = visit.post("/report", {"format": form})
    assert 200 == answer.status_code
    assert start.lower() == answer.content[: len(start)].lower()
    assert f'attachment; filename="report-20260314-1.{form}"' == answer.headers["content-disposition"]
    assert isinstance(visit.bench().events()[-1].payload, Reported)


def test_another_format_is_refused(visit):
    """Only the two formats are made."""
    assert 422 == visit.post("/report", {"format": "exe"}).status_code
