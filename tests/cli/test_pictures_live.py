"""`listen --photos` and `listen --camera`: pictures that come while somebody speaks."""

from __future__ import annotations

import json
import threading
from collections.abc import Callable, Iterator
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from saywright.bench import Bench
from saywright.errors import DeviceError
from saywright.hearing.adapters.scripted import ScriptedListener, parse_script
from saywright.hearing.listener import Listener, Samples

from .conftest import SHEET, Ran
from .test_listen import Interrupted


class Shots:
    """Gives another picture each time; the second time it fails."""

    fails = False

    def __init__(self, source: int | str) -> None:
        if source == 7:
            raise DeviceError("there is no such camera", where="camera 7")
        self.shots = 0

    def __enter__(self) -> Shots:
        return self

    def __exit__(self, *_: object) -> None:
        return

    def shoot(self) -> np.ndarray:
        self.shots += 1
        if self.shots == 2:
            raise DeviceError("the camera gave no picture", where="camera 0")
        return np.random.default_rng(self.shots).integers(0, 255, (60, 80, 3), dtype=np.uint8)


@pytest.fixture(autouse=True)
def bench(monkeypatch: pytest.MonkeyPatch) -> None:
    """No real device, camera and recogniser."""

    def scripted(*_: object) -> Listener:
        return ScriptedListener(
            parse_script(
                "[00:01.0] photo of the float\n[00:04.0] photo of the main jet\n"
                "[00:05.0] photo of the air screw"
            )
        )

    monkeypatch.setattr("saywright.wiring.capture.Microphone", Interrupted)
    monkeypatch.setattr("saywright.wiring.live.Microphone", Interrupted)
    monkeypatch.setattr("saywright.cli.hear.make_listener", scripted)
    monkeypatch.setattr("saywright.cli.arriving.Camera", Shots)


def record(saywright: Callable[..., Ran], ran: Ran) -> dict[str, list[dict[str, str | None]]]:
    """The record of the job that was listened into."""
    job = ran.err.rsplit("Kept in job ", 1)[1].split()[0]
    found: dict[str, list[dict[str, str | None]]] = json.loads(
        saywright("export", job, "--format", "json").out
    )
    return found


def test_an_announced_photo_is_shot(saywright: Callable[..., Ran]) -> None:
    """Each mark has the camera's picture; one that failed is told, and the next is taken again."""
    ran = saywright("listen", "--sheet", SHEET, "--camera", "0")
    assert 0 == ran.code, ran.err
    taken = {p["component"]: p["sha256"] is not None for p in record(saywright, ran)["photos"]}
    assert {"float": True, "main_jet": False, "air_screw": True} == taken
    assert 1 == ran.err.count("No picture was taken: camera 0: the camera gave no picture")


def test_no_such_camera(saywright: Callable[..., Ran]) -> None:
    """It is told before anything is opened."""
    ran = saywright("listen", "--sheet", SHEET, "--camera", "7")
    assert 0 != ran.code
    assert "camera 7: there is no such camera" in ran.err
    assert "Job " not in ran.err


def test_a_folder_is_watched_meanwhile(
    saywright: Callable[..., Ran], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A picture that lies there whole comes into the record while the microphone is heard."""
    arrived = threading.Event()
    follow = Bench.follow_photos

    def quick(bench: Bench, folder: Path, told: Callable[..., None], stop: threading.Event) -> None:
        def also(*those: object) -> None:
            told(*those)
            arrived.set()

        follow(bench, folder, also, stop, settled_s=0.05, every_s=0.02)

    class Waiting(Interrupted):
        def blocks(self) -> Iterator[Samples]:
            assert arrived.wait(20)
            yield from super().blocks()

    monkeypatch.setattr(Bench, "follow_photos", quick)
    monkeypatch.setattr("saywright.wiring.capture.Microphone", Waiting)
    folder = tmp_path / "card"
    folder.mkdir()
    pixels = np.random.default_rng(1).integers(0, 255, (60, 80, 3), dtype=np.uint8)
    Image.fromarray(pixels).save(folder / "a.jpg")
    ran = saywright("listen", "--sheet", SHEET, "--photos", folder)
    assert 0 == ran.code, ran.err
    assert ["a.jpg"] == [p["name"] for p in record(saywright, ran)["photos"] if p["sha256"]]
