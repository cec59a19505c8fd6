"""Several pictures at one mark: bursts, "another one", "bad one, again", "that's the after"."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime, timedelta
from pathlib import Path

import numpy as np
import pytest
from PIL import Image, ImageFilter

from saywright.bench import Bench
from saywright.errors import RefusedError
from saywright.record.types import Photo
from saywright.sheets.model import Sheet
from saywright.store.memory import MemoryStore

from .conftest import Clock

CAMERA = datetime(2026, 3, 1, 4, 11, 0)
OTHERS_S = (95.0, 171.0, 300.0, 522.0)  # marks at uneven times, so that the clock's offset is certain


def shot(folder: Path, name: str, at_s: float, *, scene: int, blur_px: float = 0.0) -> Path:
    """A picture of scene number *scene*, taken at this time by the camera's clock."""
    coarse = np.random.default_rng(scene).integers(0, 255, (12, 16, 3), dtype=np.uint8)
    image = Image.fromarray(coarse).resize((320, 240), Image.Resampling.NEAREST)
    grain = np.random.default_rng(int(at_s)).normal(0, 3, (240, 320, 3))
    image = Image.fromarray(np.clip(np.asarray(image) + grain, 0, 255).astype(np.uint8))
    if blur_px:
        image = image.filter(ImageFilter.GaussianBlur(blur_px))
    exif = Image.Exif()
    exif.get_ifd(0x8769)[0x9003] = f"{CAMERA + timedelta(seconds=at_s):%Y:%m:%d %H:%M:%S}"
    path = folder / name
    image.save(path, "JPEG", exif=exif, quality=95)
    return path


@pytest.fixture
def bench(store: MemoryStore, sheet: Sheet, clock: Clock) -> Bench:
    """A job with a photo mark of the float, and four of the strainer."""
    made = Bench.open(store, sheet, clock=clock)
    made.say("photo of the float", start_s=20.0)
    return made


def others(bench: Bench, folder: Path) -> None:
    """Four marks with their pictures."""
    for number, at_s in enumerate(OTHERS_S):
        bench.say("photo of the strainer", start_s=at_s)
        bench.add_photos([shot(folder, f"o{number}.jpg", at_s + 3, scene=40 + number)])


def told(photos: Sequence[Photo]) -> dict[str | None, tuple[str | None, str | None, str, bool]]:
    """File name → part, mark that it stands beside, stage, whether it asks; pictures only."""
    return {p.name: (p.component, p.beside, p.stage, p.asks) for p in photos if p.sha256}


def test_a_burst_goes_to_one_mark(bench: Bench, tmp_path: Path) -> None:
    """The sharpest is at the mark, the others stand beside it on the same part, and nothing asks."""
    others(bench, tmp_path)
    bench.add_photos(
        [
            shot(tmp_path, "a.jpg", 22, scene=1, blur_px=2),
            shot(tmp_path, "b.jpg", 23, scene=1),
            shot(tmp_path, "c.jpg", 25, scene=1, blur_px=3),
        ]
    )
    bench.match_photos()
    photos = bench.record().photos
    (mark,) = [p for p in photos if p.heard and p.component == "float"]
    found = told(photos)
    assert "b.jpg" == mark.name
    assert ("float", mark.id, "as_found", False) == found["a.jpg"] == found["c.jpg"]
    assert [] == bench.match_photos()


def test_another_one_is_a_mark_of_its_own(bench: Bench, tmp_path: Path) -> None:
    """Two like pictures seconds apart, each announced: each is at its own mark."""
    bench.say("another one", start_s=29.0)
    others(bench, tmp_path)
    bench.add_photos([shot(tmp_path, "a.jpg", 23, scene=1), shot(tmp_path, "b.jpg", 32, scene=1)])
    bench.match_photos()
    at = {p.start_s: p.name for p in bench.record().photos if p.heard and p.component == "float"}
    assert {20.0: "a.jpg", 29.0: "b.jpg"} == at


def test_near_marks_break_up_no_burst_elsewhere(bench: Bench, tmp_path: Path) -> None:
    """Two marks in a row have a picture each, while a burst minutes later still goes to its one mark."""
    bench.say("another one", start_s=29.0)
    others(bench, tmp_path)
    bench.say("photo of the float", start_s=700.0)
    bench.add_photos(
        [
            shot(tmp_path, "a.jpg", 23, scene=1),
            shot(tmp_path, "b.jpg", 32, scene=1),
            shot(tmp_path, "x.jpg", 702, scene=3, blur_px=2),
            shot(tmp_path, "y.jpg", 703, scene=3),
            shot(tmp_path, "z.jpg", 705, scene=3, blur_px=3),
        ]
    )
    bench.match_photos()
    photos = bench.record().photos
    at = {p.start_s: p.name for p in photos if p.heard and p.component == "float"}
    assert {20.0: "a.jpg", 29.0: "b.jpg", 700.0: "y.jpg"} == at
    (last,) = [p for p in photos if p.start_s == 700.0]
    assert ("float", last.id, "as_found", False) == told(photos)["x.jpg"] == told(photos)["z.jpg"]
    assert [] == bench.match_photos()


def test_near_marks_without_a_clock_to_tell_by_ask(bench: Bench, tmp_path: Path) -> None:
    """Two marks in a row and nothing else tell no clock: the like pictures stay apart, and ask."""
    bench.say("another one", start_s=29.0)
    bench.add_photos([shot(tmp_path, "a.jpg", 23, scene=1), shot(tmp_path, "b.jpg", 32, scene=1)])
    bench.match_photos()
    photos = bench.record().photos
    assert all(p.beside is None for p in photos)
    assert all(p.asks for p in photos if p.sha256)


def test_a_picture_taken_again(bench: Bench, tmp_path: Path) -> None:
    """The good one is at the mark that holds; the bad one is kept beside it and is not given to another."""
    bench.say("bad one, again", start_s=40.0)
    others(bench, tmp_path)
    bench.add_photos(
        [shot(tmp_path, "bad.jpg", 23, scene=1, blur_px=4), shot(tmp_path, "good.jpg", 43, scene=1)]
    )
    bench.match_photos()
    live = [p for p in bench.record().photos if p.superseded_by is None]
    (mark,) = [p for p in live if p.heard and p.component == "float"]
    assert (40.0, "good.jpg") == (mark.start_s, mark.name)
    assert ("float", mark.id, "as_found", False) == told(live)["bad.jpg"]


def test_the_after_moves_with_its_picture(bench: Bench, tmp_path: Path) -> None:
    """The picture matched before stays at its mark, which is as left from then on."""
    others(bench, tmp_path)
    bench.say("photo of the float", start_s=600.0)
    bench.add_photos([shot(tmp_path, "a.jpg", 23, scene=1), shot(tmp_path, "z.jpg", 603, scene=2)])
    bench.match_photos()
    bench.say("that's the after", start_s=620.0)
    bench.match_photos()
    live = [p for p in bench.record().photos if p.superseded_by is None]
    assert ("float", None, "as_found", False) == told(live)["a.jpg"]
    assert ("float", None, "as_left", False) == told(live)["z.jpg"]


def test_a_person_puts_one_beside(bench: Bench, tmp_path: Path) -> None:
    """The mark keeps its picture; the second is on the same part at the stage told, and follows the mark."""
    first, second = bench.add_photos(
        [shot(tmp_path, "a.jpg", 22, scene=1), shot(tmp_path, "b.jpg", 90, scene=2)]
    )
    (mark,) = [p for p in bench.record().photos if p.heard]
    bench.place_photo(first.photo, mark=mark.id, actor="Ines")
    bench.place_photo(second.photo, mark=mark.id, beside=True, stage="as_left", actor="Ines")
    found = told(bench.record().photos)
    assert ("float", None, "as_found", False) == found["a.jpg"]
    assert ("float", mark.id, "as_left", False) == found["b.jpg"]
    bench.correct(mark.id, {"component": "strainer"}, why="misheard", actor="Ines")
    assert ("strainer", mark.id, "as_left", False) == told(bench.record().photos)["b.jpg"]
    bench.place_photo(second.photo, actor="Ines")
    assert (None, None, "as_found", False) == told(bench.record().photos)["b.jpg"]


def test_beside_needs_a_mark(bench: Bench, tmp_path: Path) -> None:
    """A picture cannot stand beside another picture."""
    first, second = bench.add_photos(
        [shot(tmp_path, "a.jpg", 22, scene=1), shot(tmp_path, "b.jpg", 90, scene=2)]
    )
    with pytest.raises(RefusedError, match="no spoken photo mark"):
        bench.place_photo(second.photo, mark=first.photo, beside=True, actor="Ines")
