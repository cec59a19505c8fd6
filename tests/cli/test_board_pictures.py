"""`board --photos` and `board --camera`: said at the bench, shot or synced, on the pages of the desk."""

from __future__ import annotations

import json
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any, ClassVar

import numpy as np
import pytest
from PIL import Image
from starlette.testclient import TestClient

from fake_microphone import FakeMicrophone
from saywright.bench import Bench
from saywright.cli.common import now
from saywright.hearing.adapters.scripted import ScriptedListener, parse_script
from saywright.hearing.listener import SAMPLE_RATE_HZ, Listener, Samples
from saywright.wiring import watching

from .conftest import SHEET, Ran

SAID = (
    "[00:01.0] float height is eighteen point four two\n[00:03.0] photo of the float\n[00:05.0] another one"
)
LIMIT_S = 30.0


class Speaking(FakeMicrophone):
    """Seven seconds in which the script is said; then open until the board is shut."""

    def blocks(self) -> Iterator[Samples]:
        for _ in range(7):
            yield np.full(SAMPLE_RATE_HZ, 0.1, np.float32)
        assert self.ended.wait(2 * LIMIT_S)


class Capture:
    """What OpenCV gives for a camera: another frame each time; none for camera 7."""

    opened: ClassVar[list[Capture]] = []

    def __init__(self, source: int | str) -> None:
        self.source = source
        self.frames = 0
        self.released = False
        Capture.opened.append(self)

    def isOpened(self) -> bool:  # noqa: N802  OpenCV's name
        return self.source != 7

    def set(self, _setting: int, _value: float) -> bool:
        return True

    def read(self) -> tuple[bool, Any]:
        self.frames += 1
        noise = np.random.default_rng(self.frames).integers(0, 255, (120, 160, 3), dtype=np.uint8)
        return True, noise

    def release(self) -> None:
        self.released = True


@pytest.fixture(autouse=True)
def bench(monkeypatch: pytest.MonkeyPatch) -> None:
    """No real microphone, recogniser and camera; a folder is looked at often."""

    def scripted(*_: object) -> Listener:
        return ScriptedListener(parse_script(SAID))

    Capture.opened = []
    monkeypatch.setattr("saywright.wiring.capture.Microphone", Speaking)
    monkeypatch.setattr("saywright.wiring.live.Microphone", Speaking)
    monkeypatch.setattr("saywright.cli.board.make_listener", scripted)
    monkeypatch.setattr("saywright.photos.camera.cv2.VideoCapture", Capture)
    monkeypatch.setattr(watching, "EVERY_S", 0.02)


def pages_until(
    monkeypatch: pytest.MonkeyPatch, done: Callable[[Bench], bool], before: Callable[[], None] | None = None
) -> dict[str, str]:
    """What the desk's picture page shows once *done* is true of the job; filled while the board runs.

    In place of the HTTP server, which would wait for Ctrl-C; the application behind it is the real one.
    """
    seen: dict[str, str] = {}

    def answer(app: Any, _listening: Any, _reach: Any, streams: Any) -> None:
        if before:
            before()
        job = streams.store.jobs()[-1].id
        until_s = time.monotonic() + LIMIT_S
        while not done(Bench.resume(streams.store, job, clock=now)) and time.monotonic() < until_s:
            time.sleep(0.05)
        with TestClient(app, base_url="http://127.0.0.1:8642") as client:
            seen["pictures"] = client.get(f"/jobs/{job}/pictures").text
            seen["board"] = client.get("/board").text

    monkeypatch.setattr("saywright.web.app.run_server", answer)
    return seen


def pictures(bench: Bench) -> int:
    """How many pictures the job has."""
    return sum(photo.sha256 is not None for photo in bench.record().photos)


def exported(saywright: Callable[..., Ran], ran: Ran) -> dict[str, Any]:
    """The record of the job that the board kept."""
    job = ran.err.rsplit("Kept in job ", 1)[1].split()[0]
    found: dict[str, Any] = json.loads(saywright("export", job, "--format", "json").out)
    return found


def test_photo_said_takes_the_shot(saywright: Callable[..., Ran], monkeypatch: pytest.MonkeyPatch) -> None:
    """Both marks have a picture of the camera each, at once and without an ask; the reading is there too."""
    seen = pages_until(monkeypatch, lambda bench: pictures(bench) == 2)
    ran = saywright("board", "--sheet", SHEET, "--camera", "0", "--port", "0")
    assert 0 == ran.code, ran.err
    record = exported(saywright, ran)
    assert ["18.42"] == [reading["value"] for reading in record["readings"]]
    shot = [(p["component"], p["sha256"] is not None, p["flags"]) for p in record["photos"]]
    assert [("float", True), ("float", True)] == [one[:2] for one in shot]
    assert not [flag for *_, flags in shot for flag in flags if flag["level"] == "ask"]
    assert 2 == len({p["sha256"] for p in record["photos"]})
    assert 2 == seen["pictures"].count('<img src="/jobs/')
    assert "shot-" in seen["pictures"]
    (camera,) = Capture.opened
    assert camera.released
    assert 2 * 9 == camera.frames  # four that may be stale, five to choose from, each time


def test_a_watched_folder(
    saywright: Callable[..., Ran], monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """A picture that a phone syncs meanwhile is taken in; a torn file is told and stops nothing."""
    folder = tmp_path / "sync"
    folder.mkdir()
    settle = watching.FolderWatch.__init__
    monkeypatch.setattr(
        watching.FolderWatch, "__init__", lambda self, place, **_: settle(self, place, settled_s=0.05)
    )

    def synced() -> None:
        pixels = np.random.default_rng(1).integers(0, 255, (60, 80, 3), dtype=np.uint8)
        (folder / "torn.jpg").write_bytes(b"\xff\xd8\xff\xe0 torn")
        Image.fromarray(pixels).save(folder / "IMG_0007.jpg")

    seen = pages_until(monkeypatch, lambda bench: pictures(bench) == 1, before=synced)
    ran = saywright("board", "--sheet", SHEET, "--photos", folder, "--port", "0")
    assert 0 == ran.code, ran.err
    names = [p["name"] for p in exported(saywright, ran)["photos"] if p["sha256"]]
    assert ["IMG_0007.jpg"] == names
    assert "IMG_0007.jpg" in seen["pictures"]
    assert "torn.jpg" in ran.err
    assert [] == Capture.opened


def test_no_such_camera_opens_no_job(saywright: Callable[..., Ran]) -> None:
    """One line, and nothing was opened."""
    ran = saywright("board", "--sheet", SHEET, "--camera", "7", "--port", "0")
    assert (3, "saywright: camera 7: there is no such camera") == (ran.code, ran.err.split(". ")[0])
    assert [] == json.loads(saywright("jobs", "--json").out)
    assert Capture.opened[0].released
