"""The picture pages: drawn, measured, entered, put beside a mark, compared."""

from __future__ import annotations

import io
import re
from pathlib import Path

import numpy as np
import pytest
from PIL import Image
from skimage import data

from loading import tool
from saywright.photos.card import picture
from saywright.photos.lens import Lens
from saywright.wiring.lenses import save_lens

JOB = "/jobs/20260314-1"


def jpeg(pixels: np.ndarray, quality: int = 95) -> bytes:
    """A picture file."""
    out = io.BytesIO()
    Image.fromarray(pixels).save(out, "JPEG", quality=quality)
    return out.getvalue()


@pytest.fixture
def photo(visit, tmp_path: Path) -> str:
    """Id of a picture of the card with a disc of 3 mm in its window."""
    plane = picture(12.0)
    rows, columns = np.mgrid[0 : plane.shape[0], 0 : plane.shape[1]]
    cover = np.clip(18.5 - np.hypot(columns - 720, rows - 576), 0, 1)
    path = tmp_path / "bore.png"
    Image.fromarray(np.round(plane * (1 - cover) + 40 * cover).astype(np.uint8)).save(path)
    (added,) = visit.bench().add_photos([path])
    return added.photo


def share(photo_px: tuple[float, float]) -> str:
    """Pixels of the card's picture as the form has them."""
    height, width = picture(12.0).shape
    return f"{photo_px[0] / width:.6f},{photo_px[1] / height:.6f}"


def test_every_picture_is_on_its_page(visit, photo: str) -> None:
    """All pictures link to pages that come, with nothing of a script within."""
    page = visit.client.get(f"{JOB}/pictures")
    assert 200 == page.status_code
    assert f"{JOB}/pictures/{photo}" in page.text
    one = visit.client.get(f"{JOB}/pictures/{photo}")
    assert 200 == one.status_code
    assert "bore.png" in one.text
    assert "onclick" not in one.text
    assert " style=" not in one.text


def test_what_is_odd_about_a_file_is_told(visit, tmp_path: Path) -> None:
    """Colours for print are told on both pages; for that alone nobody is asked to shoot it again."""
    path = tmp_path / "print.jpg"
    still = Image.open(Path(__file__).parents[2] / "demo_images" / "IMG_2031.jpg")
    still.convert("CMYK").save(path, "JPEG")
    (added,) = visit.bench().add_photos([path])
    line = '<p class="notes">Colours for print (CMYK) are shown as on a screen.</p>'
    pages = [visit.client.get(f"{JOB}/pictures{one}").text for one in ("", f"/{added.photo}")]
    own = pages[0].split("print.jpg")[1].split("</li>")[0]  # the other picture there is not sharp
    assert [(1, 0), (1, 0)] == [(one.count(line), one.count('class="fault"')) for one in (own, pages[1])]


@pytest.mark.parametrize(
    ("kind", "expected"),
    [
        ("arrow", {"kind": "arrow", "x": 0.6, "y": 0.7, "from_x": 0.2, "from_y": 0.3, "text": "split"}),
        ("box", {"kind": "box", "x": 0.2, "y": 0.3, "to_x": 0.6, "to_y": 0.7, "text": "split"}),
        ("line", {"kind": "line", "x": 0.2, "y": 0.3, "to_x": 0.6, "to_y": 0.7, "text": "split"}),
        ("text", {"kind": "text", "x": 0.2, "y": 0.3, "text": "split"}),
    ],
)
def test_what_is_drawn_is_kept_as_data(visit, photo: str, kind: str, expected: dict[str, object]) -> None:
    """Shares of the sides, in the person's name; on the page as SVG; off again on request."""
    form = {
        "kind": kind,
        "x": "0.2",
        "y": "0.3",
        "to_x": "0.6",
        "to_y": "0.7",
        "text": "split",
        "aspect": "1.25",
    }
    answer = visit.post(f"/pictures/{photo}/draw", form)
    assert (303, f"{JOB}/pictures/{photo}?done=drawn") == (answer.status_code, answer.headers["location"])
    assert (expected,) == visit.bench().photo(photo).annotations
    assert "Ada" == visit.bench().events()[-1].actor
    assert "split</text>" in visit.client.get(f"{JOB}/pictures/{photo}").text
    visit.post(f"/pictures/{photo}/draw", {"gone": "0"})
    assert () == visit.bench().photo(photo).annotations


def test_a_ring_reaches_the_place_shown(visit, photo: str) -> None:
    """Its radius is a share of the shorter side: a tenth across is a fifth of a height half as long."""
    form = {"kind": "ring", "x": "0.5", "y": "0.5", "to_x": "0.6", "to_y": "0.5", "aspect": "2.0"}
    visit.post(f"/pictures/{photo}/draw", form)
    (ring,) = visit.bench().photo(photo).annotations
    assert pytest.approx(0.2) == ring["radius"]
    assert "<ellipse" in visit.client.get(f"{JOB}/pictures/{photo}").text


@pytest.mark.parametrize(
    "form",
    [
        {"kind": "arrow", "x": "2", "y": "0.3", "to_x": "0.6", "to_y": "0.7"},
        {"kind": "star", "x": "0.2", "y": "0.3", "to_x": "0.6", "to_y": "0.7"},
        {"kind": "text", "x": "0.2", "y": "0.3", "to_x": "0.6", "to_y": "0.7"},
        {"gone": "7"},
    ],
)
def test_what_cannot_be_drawn_is_refused(visit, photo: str, form: dict[str, str]) -> None:
    """A page that says why, and no event."""
    before = len(visit.bench().events())
    assert 422 == visit.post(f"/pictures/{photo}/draw", {"aspect": "1", **form}).status_code
    assert before == len(visit.bench().events())


def test_words_are_escaped(visit, photo: str) -> None:
    """What is written on a picture is text on the page."""
    form = {"kind": "text", "x": "0.2", "y": "0.3", "to_x": "0.2", "to_y": "0.3", "aspect": "1"}
    visit.post(f"/pictures/{photo}/draw", {**form, "text": "<script>alert(1)</script>"})
    assert "<script>alert" not in visit.client.get(f"{JOB}/pictures/{photo}").text


def test_measured_then_entered(visit, photo: str) -> None:
    """A candidate is on the page and no reading; entered it is one, in the person's name."""
    places = f"{share((722, 575))} {share((740, 575))}"
    form = {"kind": "circle", "places": places, "across": "110.0", "down": "110.0"}
    answer = visit.post(f"/pictures/{photo}/measure", form)
    assert f"{JOB}/pictures/{photo}?done=measured" == answer.headers["location"]
    (found,) = visit.bench().photo(photo).measurements
    assert pytest.approx(3.0, rel=0.01) == float(found.value)
    assert "a candidate, no reading" in visit.client.get(f"{JOB}/pictures/{photo}").text
    answer = visit.post(
        f"/pictures/{photo}/enter",
        {"measurement": found.id, "what": "pad.thickness", "which": "left", "stage": "as_left"},
    )
    assert f"{JOB}/pictures/{photo}?done=entered" == answer.headers["location"]
    (reading,) = [r for r in visit.bench().record().readings if r.id == found.id]
    assert (found.value, "left", "as_left", "Ada") == (
        reading.value,
        reading.which,
        reading.stage,
        reading.accepted_by,
    )
    assert "entered as a reading" in visit.client.get(f"{JOB}/pictures/{photo}").text


def test_by_a_known_distance(visit, photo: str) -> None:
    """Two places of known distance give the scale."""
    ends = f"{share((100, 100))} {share((700, 100))}"
    form = {
        "kind": "distance",
        "places": f"{share((100, 100))} {share((400, 100))}",
        "known": "50",
        "ends": ends,
    }
    visit.post(f"/pictures/{photo}/measure", form)
    (found,) = visit.bench().photo(photo).measurements
    assert pytest.approx(25.0, abs=0.1) == float(found.value)


def test_the_part_is_shown_and_checked_again(visit, photo: str) -> None:
    """The box between two corners is what was looked at, drawn on the page, in the person's name."""
    answer = visit.post(f"/pictures/{photo}/part", {"corners": "0.7,0.6 0.4,0.3"})
    assert f"{JOB}/pictures/{photo}?done=checked" == answer.headers["location"]
    assert (0.4, 0.3, 0.3, 0.3) == pytest.approx(visit.bench().photo(photo).checks.region, abs=0.002)
    page = visit.client.get(f"{JOB}/pictures/{photo}").text
    assert 'class="looked-at"' in page
    assert "picture checked again on the part shown" in visit.client.get(f"{JOB}/items/{photo}").text


@pytest.mark.parametrize(
    ("corners", "told"),
    [("0.2,0.2", "two corners"), ("0.2,0.2 0.2,0.5", "no part of the picture"), ("0.2,2 1,1", "outside")],
)
def test_what_is_no_box_changes_nothing(visit, photo: str, corners: str, told: str) -> None:
    """One line that says why."""
    before = visit.bench().photo(photo).checks
    answer = visit.post(f"/pictures/{photo}/part", {"corners": corners})
    assert 422 == answer.status_code
    assert told in answer.text
    assert before == visit.bench().photo(photo).checks


def test_a_lens_profile_comes_along(visit, photo: str, tmp_path: Path) -> None:
    """A profile without distortion changes nothing; a file that is none is refused."""
    height, width = picture(12.0).shape
    save_lens(
        tmp_path / "lens.json",
        Lens(
            width,
            height,
            (1500.0, 0.0, width / 2, 0.0, 1500.0, height / 2, 0.0, 0.0, 1.0),
            (0.0,) * 5,
            0.1,
            6,
        ),
    )
    form = {
        "kind": "circle",
        "places": f"{share((720, 576))} {share((738, 576))}",
        "across": "110",
        "down": "110",
    }
    for content, status in (((tmp_path / "lens.json").read_bytes(), 303), (b"{}", 422)):
        answer = visit.post(f"/pictures/{photo}/measure", form, files={"lens": ("lens.json", content)})
        assert status == answer.status_code
    (found,) = visit.bench().photo(photo).measurements
    assert pytest.approx(3.0, rel=0.01) == float(found.value)


def test_without_a_scale_there_is_no_length(visit, photo: str) -> None:
    """The page says what to do."""
    answer = visit.post(f"/pictures/{photo}/measure", {"kind": "distance", "places": "0.1,0.1 0.4,0.1"})
    assert 422 == answer.status_code
    assert "no scale" in answer.text


def test_damage_is_proposed_and_kept_by_a_person(visit, tmp_path: Path) -> None:
    """Looked for on request, a button to keep each; kept it is a box, without that there is no event."""
    path = tmp_path / "scored.png"
    pixels, _ = tool("photo_damage").face("plain", 3, scratches=6, depth=60)
    Image.fromarray(pixels).save(path)
    (added,) = visit.bench().add_photos([path])
    before = len(visit.bench().events())
    page = visit.client.get(f"{JOB}/pictures/{added.photo}", params={"look": "scoring"}).text
    assert "times the face" in page
    assert before == len(visit.bench().events())
    fields = dict(
        re.findall(r'name="(kind|x|y|to_x|to_y|text)" value="([^"]+)"', page.split('id="h-damage"')[1])
    )
    visit.post(f"/pictures/{added.photo}/draw", {"aspect": "1", **fields})
    (kept,) = visit.bench().photo(added.photo).annotations
    assert ("box", "scoring") == (kept["kind"], kept["text"])
    page = visit.client.get(f"{JOB}/pictures/{added.photo}", params={"look": "slot"}).text
    assert "the box of the screw head is missing" in page.lower()


def test_beside_a_mark(visit, photo: str) -> None:
    """A further picture of a mark, told to be the after."""
    mark = next(p for p in visit.bench().record().photos if p.heard)
    visit.post(f"/pictures/{photo}/beside", {"mark": mark.id, "stage": "as_left"})
    found = visit.bench().photo(photo)
    assert (mark.id, "as_left", mark.component) == (found.beside, found.stage, found.component)


def test_before_and_after(visit, tmp_path: Path) -> None:
    """Two pictures of one part: the pair is offered, and its three views are pictures."""
    first, second = tmp_path / "a.jpg", tmp_path / "b.jpg"
    first.write_bytes(jpeg(data.coffee()))
    second.write_bytes(jpeg(np.ascontiguousarray(data.coffee()[10:, 15:])))
    bench = visit.bench()
    before, after = (added.photo for added in bench.add_photos([first, second]))
    bench.place_photo(before, component="float", actor="Ada")
    bench.place_photo(after, component="float", stage="as_left", actor="Ada")
    address = f"{JOB}/pictures/{before}/with/{after}"
    assert address in visit.client.get(f"{JOB}/pictures").text
    page = visit.client.get(address)
    assert 200 == page.status_code
    assert "features agree" in page.text
    for view in ("pair", "blend", "difference"):
        answer = visit.client.get(f"{address}/{view}.jpg")
        assert "image/jpeg" == answer.headers["content-type"]
        assert "JPEG" == Image.open(io.BytesIO(answer.content)).format
    assert 404 == visit.client.get(f"{address}/sum.jpg").status_code


def test_what_does_not_fit_says_why(visit, tmp_path: Path) -> None:
    """Pictures of different things are shown each by itself, with the reason."""
    paths = [tmp_path / "a.jpg", tmp_path / "b.jpg"]
    for path, pixels in zip(paths, (data.coffee(), data.chelsea()), strict=True):
        path.write_bytes(jpeg(pixels))
    before, after = (added.photo for added in visit.bench().add_photos(paths))
    page = visit.client.get(f"{JOB}/pictures/{before}/with/{after}")
    assert 200 == page.status_code
    assert "cannot be laid over each other" in page.text


def test_a_picture_that_is_not_there(visit) -> None:
    """No traceback, a page."""
    assert 404 == visit.client.get(f"{JOB}/pictures/p99").status_code
    assert 404 == visit.post("/pictures/p99/draw", {"gone": "0"}).status_code
