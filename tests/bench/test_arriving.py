"""Pictures that come while the job runs: a folder that is watched, a camera that is asked."""

from __future__ import annotations

import threading
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from saywright.bench import Bench
from saywright.sheets.model import Sheet
from saywright.store.memory import MemoryStore
from saywright.wiring.watching import FolderWatch, pictures_in

from .conftest import Clock


def jpeg(path: Path, seed: int) -> Path:
    """A picture file."""
    path.parent.mkdir(parents=True, exist_ok=True)
    pixels = np.random.default_rng(seed).integers(0, 255, (60, 80, 3), dtype=np.uint8)
    Image.fromarray(pixels).save(path, "JPEG", quality=95)
    return path


class Camera:
    """Gives another picture each time."""

    def __init__(self) -> None:
        self.shots = 0

    def shoot(self) -> np.ndarray:
        """Some detail."""
        self.shots += 1
        return np.random.default_rng(self.shots).integers(0, 255, (60, 80, 3), dtype=np.uint8)


@pytest.fixture
def bench(store: MemoryStore, sheet: Sheet, clock: Clock) -> Bench:
    """A job with nothing in it."""
    return Bench.open(store, sheet, clock=clock)


class TestFolder:
    """A file is given once, when it is whole."""

    def test_given_once_it_no_longer_grows(self, tmp_path: Path) -> None:
        """While it grows it is left; two seconds after it stopped it is given, once."""
        watch = FolderWatch(tmp_path)
        path = jpeg(tmp_path / "a.jpg", 1)
        whole = path.read_bytes()
        path.write_bytes(whole[:1000])
        assert [] == watch.look(0.0)
        path.write_bytes(whole)
        assert [] == watch.look(3.0)
        assert [] == watch.look(4.9)
        assert [path] == watch.look(5.0)
        assert [] == watch.look(9.0)

    def test_written_anew_it_is_given_again(self, tmp_path: Path) -> None:
        """A camera that numbers from the start again loses nothing."""
        watch = FolderWatch(tmp_path)
        path = jpeg(tmp_path / "a.jpg", 1)
        watch.look(0.0)
        assert [path] == watch.look(2.0)
        path.write_bytes(path.read_bytes() + b"\0")
        watch.look(3.0)
        assert [path] == watch.look(6.0)

    def test_what_is_looked_at(self, tmp_path: Path) -> None:
        """Pictures in the folders of a camera too; no hidden file, no half-downloaded one, nothing else."""
        wanted = [jpeg(tmp_path / "DCIM" / "100" / "b.JPG", 1), jpeg(tmp_path / "z.jpg", 2)]
        jpeg(tmp_path / ".thumb.jpg", 3)
        jpeg(tmp_path / "c.jpg.part", 4)
        (tmp_path / "note.txt").write_text("no picture")
        assert wanted == pictures_in(tmp_path)

    def test_a_card_that_is_pulled_out(self, tmp_path: Path) -> None:
        """A folder that is gone has nothing in it; when it is back, the watch goes on."""
        folder = tmp_path / "card"
        watch = FolderWatch(folder)
        assert [] == watch.look(0.0)
        path = jpeg(folder / "a.jpg", 1)
        watch.look(1.0)
        assert [path] == watch.look(3.0)

    def test_it_is_taken_in_while_the_job_runs(self, bench: Bench, tmp_path: Path) -> None:
        """Pictures arrive in the record and are matched; a file that is none is told, and nothing stops."""
        bench.say("photo of the float")
        bench.say("photo of the strainer")
        bench.say("photo of the air screw")
        stop, heard = threading.Event(), []

        def told(added: list[object], refused: list[object]) -> None:
            heard.append((len(added), len(refused)))
            if sum(count for count, _ in heard) == 3:
                stop.set()

        worker = threading.Thread(
            target=bench.follow_photos,
            args=(tmp_path, told, stop),
            kwargs={"settled_s": 0.05, "every_s": 0.02},
        )
        worker.start()
        (tmp_path / "0.jpg").write_text("this is no picture")
        for number in (1, 2, 3):
            jpeg(tmp_path / f"{number}.jpg", number)
        worker.join(20)
        stop.set()
        assert not worker.is_alive()
        assert (3, 1) == (sum(a for a, _ in heard), sum(r for _, r in heard))
        placed = {p.component: p.name for p in bench.record().photos if p.sha256}
        assert {"float": "1.jpg", "strainer": "2.jpg", "air_screw": "3.jpg"} == placed


class TestCamera:
    """ "Photo" takes the shot."""

    def test_a_mark_takes_its_picture(self, bench: Bench) -> None:
        """Each mark spoken from now on has a picture of its own at once, and matching leaves it there."""
        bench.say("photo of the strainer")
        camera = Camera()
        taker = bench.shot_on_mark(camera)
        assert [] == taker.follow()
        bench.say("photo of the float")
        assert 1 == len(taker.follow())
        bench.say("float height eighteen point four")
        assert [] == taker.follow()
        bench.say("photo of the float")
        assert 1 == len(taker.follow())
        bench.match_photos()
        floats = [p for p in bench.record().photos if p.component == "float"]
        assert [True, True] == [p.sha256 is not None and not p.asks for p in floats]
        assert 2 == camera.shots
        assert all(p.taken_at is not None for p in floats)

    def test_asked_by_hand(self, bench: Bench) -> None:
        """Without a mark it is a picture like any other."""
        added = bench.shoot(Camera())
        assert ["p1"] == [p.id for p in bench.record().photos if p.sha256 == added.sha256]
