"""Files that are a little more than a plain picture: shown as one, and what is special told."""

from __future__ import annotations

import io

import cv2
import numpy as np
import pillow_heif
import pytest
from PIL import Image

from image_files import corners, encoded, exif_of
from saywright.photos.intake import read_photo
from saywright.photos.tags import Odd


def test_grey_16_bit_is_scaled() -> None:
    """A 16-bit grey PNG is brought to 8 bits, not clipped at 255."""
    ramp = np.linspace(0, 65535, 80 * 60).reshape(60, 80).astype(np.uint16)
    result = read_photo(encoded(ramp, "PNG"))
    assert pytest.approx(127, abs=2) == float(result.pixels.mean())


def test_cmyk() -> None:
    """A CMYK JPEG comes as RGB of the same colours."""
    out = io.BytesIO()
    Image.fromarray(corners()).convert("CMYK").save(out, "JPEG", quality=95)
    assert np.abs(corners().astype(int) - read_photo(out.getvalue()).pixels).mean() < 12


def test_transparency_is_over_white() -> None:
    """What is transparent shows white, not black."""
    pixels = np.zeros((20, 20, 4), dtype=np.uint8)
    assert 255 == read_photo(encoded(pixels, "PNG")).pixels.min()


@pytest.mark.parametrize("image_format", ["GIF", "WEBP", "PNG"])
def test_animated_gives_its_first_frame(image_format: str) -> None:
    """Of moving pictures the first frame is taken."""
    frames = [Image.new("RGB", (20, 20), colour) for colour in ("red", "blue")]
    out = io.BytesIO()
    frames[0].save(out, image_format, save_all=True, append_images=frames[1:], duration=100)
    red, _, blue = read_photo(out.getvalue()).pixels.mean(axis=(0, 1))
    assert red > 200
    assert blue < 60


@pytest.mark.parametrize("image_format", ["GIF", "WEBP", "PNG", "TIFF"])
def test_further_frames_are_counted(image_format: str) -> None:
    """That a file holds three frames, of which one is shown, is told; of a still picture nothing is."""
    frames = [Image.new("RGB", (20, 20), colour) for colour in ("red", "blue", "green")]
    out = io.BytesIO()
    frames[0].save(out, image_format, save_all=True, append_images=frames[1:])
    assert Odd(frames=3) == read_photo(out.getvalue()).odd
    assert Odd() == read_photo(encoded(corners(), image_format)).odd


def test_heic_of_several_pictures() -> None:
    """Two pictures in one HEIC are told; the 10 bits of a channel that phones write are not."""
    several = pillow_heif.from_pillow(Image.fromarray(corners()))
    several.add_from_pillow(Image.new("RGB", (80, 60), "red"))
    deep = pillow_heif.from_bytes("RGB;16", (80, 60), (corners().astype(np.uint16) * 257).tobytes())
    found = []
    for one in (several, deep):
        out = io.BytesIO()
        one.save(out)
        found.append(read_photo(out.getvalue(), name="x.heic").odd)
    assert [Odd(frames=2), Odd()] == found


def test_a_second_picture_for_the_lights_is_no_frame() -> None:
    """A JPEG with a second one behind it (MPO), as phones write, holds one picture."""
    out = io.BytesIO()
    image = Image.fromarray(corners())
    image.save(out, "MPO", save_all=True, append_images=[image])
    assert Odd() == read_photo(out.getvalue()).odd


def test_print_colours_are_told() -> None:
    """CMYK is told, in JPEG and in TIFF."""
    for image_format in ("JPEG", "TIFF"):
        out = io.BytesIO()
        Image.fromarray(corners()).convert("CMYK").save(out, image_format)
        assert Odd(print_colours=True) == read_photo(out.getvalue()).odd


@pytest.mark.parametrize("kind", [".png", ".tif"])
def test_deep_channels_are_told(kind: str) -> None:
    """16 bits are told, in grey, and in colour, where the decoder gives 8 without a word."""
    for pixels in (corners().astype(np.uint16) * 257, corners()[..., 0].astype(np.uint16) * 257):
        assert Odd(bits=16) == read_photo(cv2.imencode(kind, pixels)[1].tobytes()).odd


@pytest.mark.parametrize(
    ("told", "odd"),
    [
        ("2026:09:14 09:04:20", None),
        ("0000:00:00 00:00:00", "0000:00:00 00:00:00"),
        ("1970:01:01 00:00:00", "1970:01:01 00:00:00"),
        ("last\nTuesday", "lastTuesday"),
        ("9" * 400, "9" * 30),
        ("    :  :     :  :  ", None),
    ],
)
def test_a_date_that_is_none_is_told(told: str, odd: str | None) -> None:
    """What stands where the date should is told in a line; blanks mean "not known" and are no fault."""
    found = read_photo(encoded(corners(), exif=exif_of(taken=told)))
    assert odd == found.odd.date
    assert (found.taken_at is None) == (told != "2026:09:14 09:04:20")


def test_a_cut_off_later_page_does_not_change_the_one_shown() -> None:
    """Of three pages whose last is damaged the first is shown: counting them turns the pages of the file."""
    first, second, third = (Image.new("RGB", (80, 60), colour) for colour in ("red", "lime", "blue"))
    out = io.BytesIO()
    first.save(out, "TIFF", save_all=True, append_images=[second, third])
    pages = Image.open(io.BytesIO(out.getvalue()))
    pages.seek(2)
    data = out.getvalue()[: pages.tag_v2.offset + 6]
    assert (255, 0, 0) == tuple(read_photo(data).pixels[30, 40])
