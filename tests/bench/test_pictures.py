"""Camera files into a job, and pictures to their spoken marks."""

from __future__ import annotations

import io
from datetime import datetime, timedelta
from pathlib import Path

import numpy as np
import pytest
from PIL import Image, ImageFilter

from saywright.bench import Bench
from saywright.errors import ImageError
from saywright.record.events import PhotoPlaced
from saywright.record.types import Photo
from saywright.sheets.model import Sheet
from saywright.store.memory import MemoryStore
from saywright.wiring.pictures import in_bursts

from .conftest import Clock

MARKS_S = (30.0, 95.0, 130.0, 300.0)
CAMERA = datetime(2026, 3, 1, 4, 11, 0)  # the camera's clock is hours off


def picture(folder: Path, name: str, taken_at: datetime | None, shade: int = 100) -> Path:
    """A JPEG with some detail in it and, where given, an EXIF time."""
    rng = np.random.default_rng(shade)
    pixels = rng.integers(0, 255, (60, 80, 3), dtype=np.uint8)
    exif = Image.Exif()
    if taken_at is not None:
        exif.get_ifd(0x8769)[0x9003] = f"{taken_at:%Y:%m:%d %H:%M:%S}"
    path = folder / name
    Image.fromarray(pixels).save(path, "JPEG", exif=exif, quality=95)
    return path


@pytest.fixture
def bench(store: MemoryStore, sheet: Sheet, clock: Clock) -> Bench:
    """A job with four spoken photo marks."""
    made = Bench.open(store, sheet, clock=clock)
    for number, at_s in enumerate(MARKS_S):
        made.say(f"photo of the {'float' if number % 2 else 'strainer'}", start_s=at_s)
    assert len(MARKS_S) == len(made.record().photos)
    return made


@pytest.fixture
def camera(tmp_path: Path) -> list[Path]:
    """A picture for each mark, a few seconds after it by the camera's clock."""
    return [
        picture(tmp_path, f"c{number}.jpg", CAMERA + timedelta(seconds=at_s + 3), number)
        for number, at_s in enumerate(MARKS_S)
    ]


def joined(bench: Bench) -> dict[str | None, float | None]:
    """File name → time of the mark it is at."""
    return {p.name: p.start_s for p in bench.record().photos if p.sha256 is not None}


class TestIntake:
    """Pictures into the job."""

    def test_the_original_is_kept(self, bench: Bench, store: MemoryStore, camera: list[Path]) -> None:
        """The bytes are in the media store as they came."""
        (added,) = bench.add_photos(camera[:1])
        assert camera[0].read_bytes() == store.media.read(added.sha256)
        assert ("p1", "c0.jpg") == (added.photo, added.name)

    def test_the_same_picture_comes_in_once(self, bench: Bench, camera: list[Path]) -> None:
        """A picture already there is passed over, whatever its name."""
        bench.add_photos(camera)
        twin = camera[0].with_name("again.jpg")
        twin.write_bytes(camera[0].read_bytes())
        assert [] == bench.add_photos([twin, *camera])

    def test_a_bad_file_stops_no_other(self, bench: Bench, camera: list[Path], tmp_path: Path) -> None:
        """A text file named .jpg is told after the others were taken in."""
        bad = tmp_path / "note.jpg"
        bad.write_text("this is no picture")
        seen: list[tuple[int, int]] = []
        with pytest.raises(ImageError, match=r"note\.jpg"):
            bench.add_photos([bad, *camera], progress=lambda done, total: seen.append((done, total)))
        assert 4 == len(joined(bench))
        assert (5, 5) == seen[-1]

    def test_what_leaves_is_only_pixels(self, bench: Bench, camera: list[Path]) -> None:
        """A derived picture has no camera data and the size asked for."""
        (added,) = bench.add_photos(camera[:1])
        image = Image.open(io.BytesIO(bench.photo_jpeg(added.photo, max_px=40)))
        assert (40, 30) == image.size
        assert not image.getexif()


class TestMatching:
    """Pictures to marks."""

    def test_each_to_its_mark(self, bench: Bench, camera: list[Path]) -> None:
        """With a clock that is hours off each picture finds the mark it was taken for."""
        bench.add_photos(camera)
        placed = bench.match_photos()
        assert dict(zip(("c0.jpg", "c1.jpg", "c2.jpg", "c3.jpg"), MARKS_S, strict=True)) == joined(bench)
        assert all(one.sure for one in placed)

    def test_matching_again_changes_nothing(self, bench: Bench, camera: list[Path]) -> None:
        """What is placed already gives no second event."""
        bench.add_photos(camera)
        bench.match_photos()
        before = bench.events()
        assert [] == bench.match_photos()
        assert before == bench.events()

    def test_a_persons_placement_stays(self, bench: Bench, camera: list[Path]) -> None:
        """A picture that a person moved is not moved back, and its mark is taken."""
        bench.add_photos(camera)
        bench.match_photos()
        marks = {photo.start_s: photo.id for photo in bench.record().photos}
        bench.place_photo("p1", mark=marks[MARKS_S[3]], actor="Ada")
        bench.match_photos()
        by_hand = next(p for p in bench.record().photos if p.id == marks[MARKS_S[3]])
        assert ("c0.jpg", "Ada") == (by_hand.name, by_hand.accepted_by)
        last = [e for e in bench.events() if isinstance(e.payload, PhotoPlaced) and e.payload.photo == "p1"][
            -1
        ]
        assert "Ada" == last.actor

    def test_accepting_some_makes_no_other_ask(
        self, store: MemoryStore, sheet: Sheet, clock: Clock, tmp_path: Path
    ) -> None:
        """Pairs that a person accepted still tell of the camera's clock, so the rest stays sure."""
        at_s = (30.0, 95.0, 130.0, 300.0, 420.0, 610.0)
        bench = Bench.open(store, sheet, clock=clock)
        for moment_s in at_s:
            bench.say("photo of the float", start_s=moment_s)
        bench.add_photos(
            [picture(tmp_path, f"d{n}.jpg", CAMERA + timedelta(seconds=s + 3), n) for n, s in enumerate(at_s)]
        )
        assert all(one.sure for one in bench.match_photos())
        for photo in bench.record().photos[:4]:
            bench.accept(photo.id, actor="Ada")
        assert [] == bench.match_photos()
        assert [] == [item for item in bench.record().open_items if item.item]

    def test_a_picture_put_on_a_part(self, bench: Bench, camera: list[Path]) -> None:
        """Without a mark a person can put a picture on a part, by its own id."""
        bench.add_photos(camera[:1])
        bench.place_photo("p1", component="float", actor="Ada")
        bench.match_photos()
        found = [photo for photo in bench.record().photos if photo.sha256]
        assert [("p1", "float")] == [(photo.id, photo.component) for photo in found]

    def test_a_picture_without_a_mark_is_open(self, bench: Bench, camera: list[Path], tmp_path: Path) -> None:
        """A picture of something else stays by itself and waits."""
        odd = picture(tmp_path, "odd.jpg", CAMERA + timedelta(hours=3), 99)
        bench.add_photos([*camera, odd])
        bench.match_photos()
        free = [p for p in bench.record().photos if isinstance(p, Photo) and p.name == "odd.jpg"]
        assert [None] == [photo.start_s for photo in free]
        assert any(item.kind == "photo" for item in bench.record().open_items)


def test_of_a_burst_the_sharpest_is_proposed(bench: Bench, tmp_path: Path) -> None:
    """Two alike and three seconds apart: the blurred one names the sharp one; a third thing neither."""
    whole = Image.open(Path(__file__).parents[2] / "demo_images" / "IMG_2037.jpg").convert("RGB")
    exif = Image.Exif()
    for number, image in enumerate((whole.filter(ImageFilter.GaussianBlur(3)), whole)):
        exif.get_ifd(0x8769)[0x9003] = f"{CAMERA + timedelta(seconds=3 * number):%Y:%m:%d %H:%M:%S}"
        image.save(tmp_path / f"b{number}.jpg", exif=exif)
    whole.close()
    other = picture(tmp_path, "b2.jpg", CAMERA + timedelta(seconds=5), 7)
    bench.add_photos([tmp_path / "b0.jpg", tmp_path / "b1.jpg", other])
    assert {"p1": "p2"} == in_bursts(bench.record().photos)
