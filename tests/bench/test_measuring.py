"""Pictures of a job measured: a candidate stays with the picture wherever it goes, and is no reading."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from pump import CALIPER
from saywright.bench import Bench
from saywright.errors import InputError, NotFoundError, RefusedError, SaywrightError
from saywright.judging.judge import judgements
from saywright.photos.card import picture
from saywright.record.types import Photo
from saywright.sheets.model import Characteristic, Component, Sheet
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


GAUGE = Sheet(
    id="pump",
    title="Bilge pump",
    source="Invented for the tests",
    instrument=(CALIPER,),
    component=(
        Component(
            id="strainer",
            names=("strainer",),
            count=2,
            characteristic=(
                Characteristic(
                    id="bore",
                    names=("bore",),
                    unit="mm",
                    lower=Decimal("2.80"),
                    upper=Decimal("3.04"),
                    plausible=(Decimal(1), Decimal(5)),
                    instrument="caliper",
                ),
                Characteristic(
                    id="gap", names=("gap",), unit="mm", upper=Decimal(9), plausible=(Decimal(5), Decimal(9))
                ),
                Characteristic(id="holes", names=("holes",), allowed=(Decimal(12),)),
                Characteristic(id="spray", names=("spray angle",), unit="deg"),
            ),
        ),
    ),
)


class TestReading:
    """A candidate becomes a reading only when a person says of what."""

    @pytest.fixture
    def bench(self, store: MemoryStore, clock: Clock, tmp_path: Path, bench: Bench) -> Bench:
        """A job on a sheet with a bore that a caliper measures; m1 is the bore in its picture."""
        made = Bench.open(store, GAUGE, clock=clock)
        made.add_photos([tmp_path / "bore.png"])
        made.measure_photo("p1", BORE, actor="Ada")
        return made

    def test_it_is_judged_with_its_own_uncertainty(self, bench: Bench) -> None:
        """The reading names its picture; its budget is what the picture told, not the caliper's."""
        bench.take_measurement("p1", "m1", "strainer", "bore", which="1", actor="Ines")
        (reading,) = bench.record().readings
        (found,) = photo(bench).measurements
        assert ("m1", "p1", found.value, found.u) == (
            reading.id,
            reading.picture,
            reading.value,
            reading.u,
        )
        assert ("Ines", "as_found", False) == (reading.accepted_by, reading.stage, reading.asks)
        judged = judgements(bench.record(), bench.sheet)["m1"]
        assert judged.budget is not None
        digit = Decimal(1).scaleb(Decimal(found.value).as_tuple().exponent)
        expected = (float(found.u) ** 2 + float(digit) ** 2 / 12) ** 0.5
        assert pytest.approx(expected, rel=1e-6) == judged.budget.u
        assert not any("caliper" in part.text for part in judged.budget.parts)

    def test_another_value_is_no_longer_what_was_measured(self, bench: Bench) -> None:
        """A person's correction drops picture and uncertainty; the caliper's budget is back."""
        bench.take_measurement("p1", "m1", "strainer", "bore", actor="Ines")
        bench.correct("m1", {"value": "2.95"}, why="measured by hand", actor="Ines")
        (reading,) = bench.record().readings
        assert (None, None, "2.95") == (reading.picture, reading.u, reading.value)
        judged = judgements(bench.record(), bench.sheet)["m1"]
        assert judged.budget is not None
        assert any("caliper" in part.text for part in judged.budget.parts)

    def test_a_value_that_is_not_plausible_asks(self, bench: Bench) -> None:
        """The wrong places may have been shown."""
        bench.take_measurement("p1", "m1", "strainer", "gap", actor="Ines")
        (reading,) = bench.record().readings
        assert (True, True, None) == (reading.asks, reading.provisional, reading.accepted_by)

    @pytest.mark.parametrize(
        ("measurement", "place", "line"),
        [
            ("m2", ("strainer", "bore"), "no measurement 'm2'"),
            ("m1", ("strainer", "lid"), "no 'strainer.lid'"),
            ("m1", ("strainer", "holes"), "does not measure"),
            ("m1", ("strainer", "spray"), "does not measure"),
        ],
    )
    def test_what_it_does_not_measure_is_refused(
        self, bench: Bench, measurement: str, place: tuple[str, str], line: str
    ) -> None:
        """One line, no event."""
        before = bench.events()
        with pytest.raises(SaywrightError, match=line):
            bench.take_measurement("p1", measurement, *place, actor="Ines")
        assert before == bench.events()

    def test_it_is_taken_once(self, bench: Bench) -> None:
        """The same measurement cannot count twice; nor is there a position that the sheet lacks."""
        with pytest.raises(RefusedError, match="no strainer '3'"):
            bench.take_measurement("p1", "m1", "strainer", "bore", which="3", actor="Ines")
        bench.take_measurement("p1", "m1", "strainer", "bore", actor="Ines")
        with pytest.raises(RefusedError, match="a reading already"):
            bench.take_measurement("p1", "m1", "strainer", "bore", actor="Ines")

    def test_the_report_traces_it(self, bench: Bench) -> None:
        """The reading is in the report with its value, and the caption says that it was entered."""
        bench.take_measurement("p1", "m1", "strainer", "bore", actor="Ines")
        html = bench.report(["html"])["html"].decode()
        (reading,) = bench.record().readings
        assert f"{reading.value} mm" in html
        assert "entered as reading m1" in html
