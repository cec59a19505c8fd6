"""Pictures of a job measured: a candidate stays with the picture wherever it goes, and is no reading."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from saywright.bench import Bench
from saywright.errors import InputError, NotFoundError
from saywright.photos.card import picture
from saywright.record.types import Photo
from saywright.sheets.model import Sheet
from saywright.store.memory import MemoryStore
from saywright.wiring.measuring import ScaleBy, Shown

from .conftest import Clock

BY_CARD = ScaleBy(across_mm=110.0, down_mm=110.0)
BORE = Shown("circle", ((722.0, 575.0), (740.0, 575.0)), BY_CARD)


@pytest.fixture
def bench(store: MemoryStore, sheet: Sheet, clock: Clock, tmp_path: Path) -> Bench:
    """A job with a spoken mark and a picture of the card, a disc of 3 mm in its window."""
    plane = picture(12.0)
    rows, columns = np.mgrid[0 : plane.shape[0], 0 : plane.shape[1]]
    cover = np.clip(18.5 - np.hypot(columns - 720, rows - 576), 0, 1)
    Image.fromarray(np.round(plane * (1 - cover) + 40 * cover).astype(np.uint8)).save(tmp_path / "bore.png")
    made = Bench.open(store, sheet, clock=clock)
    made.say("photo of the strainer")
    made.add_photos([tmp_path / "bore.png"])
    return made


def photo(bench: Bench) -> Photo:
    """The one with a picture."""
    (found,) = [p for p in bench.record().photos if p.sha256]
    return found


def test_a_candidate_stays_with_the_picture(bench: Bench) -> None:
    """Diameter and uncertainty to two digits of it, the person's name; no reading comes of it."""
    bench.measure_photo("p1", BORE, actor="Ada")
    (found,) = photo(bench).measurements
    assert pytest.approx(3.0, rel=0.01) == float(found.value)
    assert ("m1", "circle", "mm", "card", "Ada") == (found.id, found.kind, found.unit, found.scale, found.by)
    assert 2 == len(Decimal(found.u).as_tuple().digits)
    assert Decimal(found.u).as_tuple().exponent == Decimal(found.value).as_tuple().exponent
    assert () == bench.record().readings
    assert all(0 <= share <= 1 for place in found.points for share in place)


def test_it_goes_where_the_picture_goes(bench: Bench) -> None:
    """Placed at a mark, taken off, the mark withdrawn: the candidate is still the picture's."""
    bench.measure_photo("p1", BORE, actor="Ada")
    mark = next(p.id for p in bench.record().photos if p.heard)
    bench.place_photo("p1", mark=mark, actor="Ada")
    assert (mark, ["m1"]) == (photo(bench).id, [m.id for m in photo(bench).measurements])
    bench.measure_photo(mark, Shown("distance", ((100, 100), (200, 100)), BY_CARD), actor="Bo")
    bench.place_photo("p1", actor="Ada")
    assert ("p1", ["m1", "m2"]) == (photo(bench).id, [m.id for m in photo(bench).measurements])
    assert all(() == p.measurements for p in bench.record().photos if p.sha256 is None)


def test_the_report_says_what_it_is(bench: Bench) -> None:
    """The caption tells value and expanded uncertainty, and that it is no reading."""
    bench.measure_photo("p1", BORE, actor="Ada")
    found = photo(bench).measurements[0]
    html = bench.report(["html"])["html"].decode()
    told = (
        f"Measured in the picture: diameter {found.value} mm ± {2 * Decimal(found.u)} mm (k = 2), no reading"
    )
    assert told in html


def test_nothing_is_kept_of_what_cannot_be_measured(bench: Bench) -> None:
    """Without a scale, or without the picture, there is no event."""
    before = bench.events()
    with pytest.raises(InputError, match="no scale"):
        bench.measure_photo("p1", Shown("circle", BORE.places, ScaleBy()), actor="Ada")
    with pytest.raises(NotFoundError):
        bench.measure_photo("p9", BORE, actor="Ada")
    assert before == bench.events()
