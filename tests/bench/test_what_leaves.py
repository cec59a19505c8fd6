"""Place and serial numbers of the camera stay in the original: nothing that is shown or leaves has them."""

from __future__ import annotations

import base64
import hashlib
import io
import re
import zlib
from pathlib import Path

import numpy as np
import pillow_heif
import pytest
from PIL import Image

from saywright.bench import Bench
from saywright.sheets.model import Sheet
from saywright.store.memory import MemoryStore

from .conftest import Clock

SERIALS = (
    "BODY-7781-SECRET",
    "LENS-4415-SECRET",
    "OWNER-SECRET",
    "MAKER-SECRET",
    "54,30.117N",
)  # the last: XMP
XMP = b"<x:xmpmeta xmlns:x='adobe:ns:meta/'><r exif:GPSLatitude='54,30.117N'/></x:xmpmeta>"


def told_all(path: Path, image_format: str) -> Path:
    """A picture file whose camera tells all about itself and where it was."""
    exif = Image.Exif()
    told = exif.get_ifd(0x8769)
    told[0xA431], told[0xA435], told[0xA430] = SERIALS[:3]  # EXIF 2.32: body, lens, owner
    told[0x927C] = SERIALS[3].encode()  # the maker's note
    exif.get_ifd(0x8825).update({1: "N", 2: (54.0, 30.0, 7.0), 3: "E", 4: (12.0, 0.0, 0.0)})
    image = Image.effect_noise((320, 240), 90).convert("RGB")
    with_xmp = image_format in ("JPEG", "WEBP", "HEIF")
    if image_format == "HEIF":
        pillow_heif.from_pillow(image).save(path, exif=exif.tobytes(), xmp=XMP)
    else:
        more = {"xmp": XMP} if with_xmp else {}
        image.save(path, image_format, exif=exif.tobytes(), **more)
    written = path.read_bytes()
    assert all(one.encode() in written for one in (SERIALS if with_xmp else SERIALS[:4]))
    assert (54.0, 30.0, 7.0) == Image.open(io.BytesIO(written)).getexif().get_ifd(0x8825)[2]
    return path


@pytest.fixture
def bench(store: MemoryStore, sheet: Sheet, clock: Clock, tmp_path: Path) -> Bench:
    """A job with a picture whose camera tells all about itself, placed and drawn on."""
    path = told_all(tmp_path / "told.jpg", "JPEG")
    made = Bench.open(store, sheet, clock=clock)
    made.say("photo of the float")
    (added,) = made.add_photos([path])
    (mark,) = [p for p in made.record().photos if p.heard]
    made.place_photo(added.photo, mark=mark.id, actor="Ada")
    made.annotate_photo(added.photo, [{"kind": "ring", "x": 0.5, "y": 0.5, "radius": 0.2}], actor="Ada")
    return made


@pytest.mark.parametrize("image_format", ["JPEG", "PNG", "WEBP", "TIFF", "HEIF"])
def test_the_original_is_untouched_and_what_is_shown_has_nothing(
    store: MemoryStore, sheet: Sheet, clock: Clock, tmp_path: Path, image_format: str
) -> None:
    """The bytes lie in the store under their own hash; a derived picture has pixels and no tag."""
    path = told_all(tmp_path / f"told.{image_format.lower()}", image_format)
    before = path.read_bytes()
    made = Bench.open(store, sheet, clock=clock)
    (added,) = made.add_photos([path])
    assert before == path.read_bytes()
    assert hashlib.sha256(before).hexdigest() == added.sha256
    assert before == store.media.read(added.sha256)
    assert [] == made.add_photos([path])
    for size_px in (360, 1600):
        shown = made.photo_jpeg(added.photo, max_px=size_px)
        image = Image.open(io.BytesIO(shown))
        assert not image.getexif()
        assert not {"exif", "icc_profile", "comment", "xmp", "photoshop"} & set(image.info)
        assert [] == [one for one in (*SERIALS, "Exif", "GPS", "adobe") if one.encode() in shown]


def test_no_event_tells_of_the_camera(bench: Bench) -> None:
    """The log has neither: what is read from the tags is orientation and time."""
    log = "".join(event.model_dump_json() for event in bench.events())
    assert "told.jpg" in log
    assert [] == [one for one in (*SERIALS, "54.0", "GPS", "atitude") if one in log]


def unpacked(content: bytes) -> bytes:
    """*content* with what is packed in it: pictures in HTML, streams in PDF."""
    parts = [content]
    parts += [base64.b64decode(one) for one in re.findall(rb"base64,([A-Za-z0-9+/=]+)", content)]
    for start in re.finditer(rb"stream\r?\n", content):
        end = content.find(b"endstream", start.end())
        body = content[start.end() : end]
        parts.append(body)
        try:
            parts.append(zlib.decompress(body))
        except zlib.error:
            continue  # a JPEG, as it is
    return b"\n".join(parts)


@pytest.mark.parametrize("kind", ["html", "pdf"])
def test_no_report_has_them(bench: Bench, kind: str) -> None:
    """Neither the text nor the pictures within; the pictures have no EXIF at all."""
    whole = unpacked(bench.report([kind])[kind])
    assert b"\xff\xd8\xff" in whole  # the picture is there
    assert [] == [one for one in SERIALS if one.encode() in whole]
    assert b"Exif\0\0" not in whole


@pytest.mark.parametrize("kind", ["json", "csv", "parts", "text"])
def test_no_export_has_them(bench: Bench, kind: str) -> None:
    """The record tells of the picture, not of its camera."""
    content = bench.export(kind)
    assert [] == [one for one in SERIALS if one.encode() in content]


def test_what_is_drawn_is_in_the_report_only(bench: Bench) -> None:
    """The report's picture has the ring; the picture that is kept does not."""
    plain = yellow(bench.photo_jpeg("p1", max_px=320))
    html = bench.report(["html"])["html"]
    shown = [base64.b64decode(one) for one in re.findall(rb"image/jpeg;base64,([A-Za-z0-9+/=]+)", html)]
    assert plain < 50 < max(map(yellow, shown))


def yellow(jpeg: bytes) -> int:
    """Pixels in the colour of what is drawn."""
    pixels = np.asarray(Image.open(io.BytesIO(jpeg)).convert("RGB")).astype(int)
    return int(((pixels[..., 0] > 200) & (pixels[..., 1] > 180) & (pixels[..., 2] < 90)).sum())
