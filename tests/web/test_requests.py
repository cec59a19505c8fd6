"""Paths, uploads, methods, tokens and bounds: what any request may try on any route."""

from __future__ import annotations

import re
import sys
import tempfile
from pathlib import Path

import pytest

from saywright.bench import Bench
from saywright.web.access import OPEN, RULES
from saywright.web.guard import MAX_FORM_BYTES

MARK = "mooring"
JOB = "20260314-1"
PATHS = (
    f"../../{MARK}",
    f"..%2f..%2f{MARK}",
    f"%2e%2e%2f{MARK}",
    f"..\\..\\{MARK}",
    f"..%5c{MARK}",
    f"%2fetc%2f{MARK}",
    f"file:%2f%2f%2f{MARK}",
    f"....%2f%2f{MARK}",
    f"{MARK}%00.jpg",
    f"%252e%252e%252f{MARK}",
    f"%c0%ae%c0%ae%2f{MARK}",
    f"C:%5c{MARK}",
    f"~{MARK}",
    f"$HOME%2f{MARK}",
    f"|{MARK}",
    f"{MARK}%0d%0ax:y",
)


class Opened:
    """Names of the files that are opened while it watches: by Python's audit events."""

    def __init__(self):
        self.names, self.watching = [], False
        sys.addaudithook(self.hook)  # for the rest of the run: a hook cannot be taken away

    def hook(self, event, arguments):
        """Keep what touches a path."""
        if self.watching and event in ("open", "os.listdir", "os.mkdir"):
            self.names.append(str(arguments[0]))


@pytest.fixture(scope="module")
def opened():
    """One watcher, since its hook stays."""
    return Opened()


@pytest.mark.slow
def test_no_path_from_a_request_reaches_the_file_system(visit, opened):
    """Each parameter of each route filled with paths: nothing of that name is opened."""
    opened.names.clear()
    opened.watching = True
    token = visit.token()
    try:
        for rule, right in RULES.items():
            method, _, path = rule.partition(" ")
            for parameter in re.findall(r"\{(\w+)[^}]*\}", path):
                if right is OPEN and parameter == "path":
                    continue  # the folder of styles and scripts has a test of its own
                for harm in PATHS:
                    known = {"job": JOB, "item": "s1", "photo": "p1", "size": "small", "format": "json"}
                    place = re.sub(
                        r"\{(\w+)[^}]*\}",
                        lambda m, p=parameter, h=harm, k=known: h if m[1] == p else k.get(m[1], "none"),
                        path,
                    )
                    data = {"data": {"token": token}} if method == "POST" else {}
                    answer = visit.client.request(method, place, **data)
                    assert answer.status_code < 500, (place, answer.text[-300:])
                    assert "\r" not in answer.headers.get("location", "")
                    if method == "GET":
                        assert answer.status_code in (303, 307, 404, 405, 422), (place, answer.status_code)
    finally:
        opened.watching = False
    assert [] == [name for name in opened.names if MARK in name]


@pytest.mark.parametrize(
    "name",
    [
        f"../../{MARK}.jpg",
        f"/etc/{MARK}.jpg",
        f"..\\..\\{MARK}.jpg",
        f".{MARK}",
        f"{MARK}\x00.jpg",
        "..",
        "." * 300,
    ],
)
def test_the_name_of_an_upload_stays_in_its_own_folder(visit, opened, jpeg, name):
    """Of the name only its last part is used, in a folder made for it, and that folder is gone afterwards."""
    opened.names.clear()
    opened.watching = True
    answer = visit.client.post(
        f"/jobs/{JOB}/photos", data={"token": visit.token()}, files=[("files", (name, jpeg, "image/jpeg"))]
    )
    opened.watching = False
    assert answer.status_code in (303, 422), answer.text
    touched = [Path(found) for found in opened.names if MARK in found]
    home = Path(tempfile.gettempdir()).resolve()
    assert [] == [path for path in touched if home not in path.resolve().parents or ".." in path.parts]
    assert [] == [path for path in touched if path.exists()]


@pytest.mark.parametrize(
    "what", [b"GIF89a<script>alert(1)</script>", b"<svg onload='x()'/>", b"%PDF-1.7", b"\x7fELF"]
)
def test_what_is_no_picture_is_refused_whatever_it_is_called(visit, what):
    """The content decides, not the name or the announced type."""
    before = len(visit.bench().events())
    answer = visit.client.post(
        f"/jobs/{JOB}/photos", data={"token": visit.token()}, files=[("files", ("a.jpg", what, "image/jpeg"))]
    )
    assert 422 == answer.status_code
    assert before == len(visit.bench().events())


@pytest.mark.parametrize("method", ["PUT", "PATCH", "DELETE"])
def test_another_method_changes_nothing(visit, method):
    """Every route, called in a way it does not know: refused, and nothing recorded."""
    before = len(visit.bench().events())
    for rule in RULES:
        path = re.sub(r"\{(\w+)[^}]*\}", "s1", rule.partition(" ")[2].replace("{job}", JOB))
        assert visit.client.request(method, path).status_code in (404, 405), rule
    assert before == len(visit.bench().events())


def test_every_form_asks_for_the_token(visit):
    """Each route that changes something, without the session's token: 403, or it has another lock."""
    before = len(visit.bench().events())
    for rule in RULES:
        method, _, path = rule.partition(" ")
        if method != "POST" or path.startswith(("/phone/", "/api/")):
            continue  # the code in the path is the lock; the API has a test of its own
        place = path.replace("{job}", JOB).replace("{item}", "s1").replace("{photo}", "p1")
        answer = visit.client.post(re.sub(r"\{\w+\}", "none", place), data={"words": "float out"})
        assert 403 == answer.status_code, (rule, answer.text[-200:])
    assert before == len(visit.bench().events())


def test_every_change_by_the_api_asks_for_the_token(visit):
    """The same for programs, in the header."""
    before = len(visit.bench().events())
    for rule in RULES:
        method, _, path = rule.partition(" ")
        if method == "POST" and path.startswith("/api/"):
            place = path.replace("{job}", JOB).replace("{item}", "s1")
            assert visit.client.post(place, json={"seen": 1}).status_code in (403, 422), rule
    assert before == len(visit.bench().events())


def test_every_form_is_bounded(visit):
    """More bytes than a form may hold are refused on every route that is no upload."""
    for rule in RULES:
        method, _, path = rule.partition(" ")
        if method != "POST" or path.endswith("/photos"):
            continue
        place = re.sub(r"\{\w+\}", "s1", path.replace("{job}", JOB))
        answer = visit.client.post(place, content=b"x", headers={"content-length": str(MAX_FORM_BYTES + 1)})
        assert 413 == answer.status_code, rule


def test_media_are_found_by_an_id_of_the_job_only(visit, jpeg):
    """A picture or clip of another job, or a content name, is not there under this one."""
    other = Bench.open(visit.store, visit.bench().sheet, clock=visit.clock)
    with tempfile.TemporaryDirectory() as folder:
        place = Path(folder) / "other.jpg"
        place.write_bytes(jpeg)
        (added,) = other.add_photos([place])
    assert 200 == visit.client.get(f"/jobs/{other.job_id}/photos/{added.photo}/small.jpg").status_code
    for name in (added.sha256, "p9", f"{other.job_id}:{added.photo}"):
        assert 404 == visit.client.get(f"/jobs/{JOB}/photos/{name}/small.jpg").status_code
    assert 404 == visit.client.get(f"/jobs/{other.job_id}/photos/p2/small.jpg").status_code
    assert 404 == visit.client.get(f"/jobs/{other.job_id}/clips/s1.wav").status_code
