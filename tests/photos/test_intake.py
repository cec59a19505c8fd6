"""Image files in, upright pixels and times out; bad files give one clear line."""

from __future__ import annotations

import hashlib
import io
import json
import os
import shutil
import struct
import subprocess
import zlib
from datetime import datetime
from pathlib import Path

import cv2
import numpy as np
import pillow_heif
import pytest
from PIL import Image

from saywright.errors import ImageError
from saywright.photos.intake import MAX_PIXELS, read_photo
from saywright.photos.jpeg import derived_jpeg
from saywright.photos.tags import Odd, parse_exif_time


def corners() -> np.ndarray:
    """Four plain quarters, so that each turn of the picture can be told: red, green, blue, white."""
    pixels = np.zeros((60, 80, 3), dtype=np.uint8)
    pixels[:30, :40] = (220, 20, 20)
    pixels[:30, 40:] = (20, 200, 20)
    pixels[30:, :40] = (20, 20, 220)
    pixels[30:, 40:] = (240, 240, 240)
    return pixels


def exif_of(*, orientation: int = 1, taken: str = "2026:09:14 09:04:20", place: bool = False) -> bytes:
    """An EXIF block as cameras write it, with a serial number, and a place if wanted."""
    exif = Image.Exif()
    exif[0x0112] = orientation
    exif[0x010F] = "Invented"
    exif[0x0132] = "2031:01:01 00:00:00"
    tags = exif.get_ifd(0x8769)
    tags[0x9003] = taken
    tags[0xA431] = "SERIAL-4711"
    if place:
        gps = exif.get_ifd(0x8825)
        gps[1], gps[2], gps[3], gps[4] = "N", (54.0, 10.0, 30.0), "E", (12.0, 5.0, 0.0)
    return exif.tobytes()


def encoded(pixels: np.ndarray, image_format: str = "JPEG", **options: object) -> bytes:
    """*pixels* as a file."""
    out = io.BytesIO()
    Image.fromarray(pixels).save(out, image_format, **options)
    return out.getvalue()


def error_line(data: bytes, name: str = "x.jpg") -> str:
    """What the user is told about *data*."""
    with pytest.raises(ImageError) as caught:
        read_photo(data, name=name)
    return str(caught.value)


# How EXIF 2.32 (CIPA DC-008, tag 0x0112) says row 0 and column 0 are stored, as turns of an array.
STORED_AS = {
    1: lambda p: p,
    2: lambda p: p[:, ::-1],
    3: lambda p: p[::-1, ::-1],
    4: lambda p: p[::-1],
    5: lambda p: p.transpose(1, 0, 2),
    6: lambda p: np.rot90(p, 1),
    7: lambda p: p[::-1, ::-1].transpose(1, 0, 2),
    8: lambda p: np.rot90(p, -1),
}


@pytest.mark.parametrize("orientation", range(1, 9))
@pytest.mark.parametrize("image_format", ["JPEG", "PNG", "WEBP"])
def test_all_orientations_come_upright(orientation: int, image_format: str) -> None:
    """Each of the eight EXIF orientations gives the same upright picture."""
    stored = np.ascontiguousarray(STORED_AS[orientation](corners()))
    result = read_photo(encoded(stored, image_format, exif=exif_of(orientation=orientation)))
    assert (80, 60) == (result.width_px, result.height_px)
    assert np.abs(corners().astype(int) - result.pixels).mean() < 6


@pytest.mark.parametrize("image_format", ["JPEG", "PNG", "WEBP", "TIFF"])
def test_time_by_the_camera(image_format: str) -> None:
    """The original time is taken, not the time of the last edit."""
    result = read_photo(encoded(corners(), image_format, exif=exif_of()))
    assert datetime(2026, 9, 14, 9, 4, 20) == result.taken_at


def test_heic() -> None:
    """HEIC gives pixels and time."""
    out = io.BytesIO()
    picture = pillow_heif.from_pillow(Image.fromarray(corners()))
    picture.save(out, quality=90, exif=exif_of())
    result = read_photo(out.getvalue(), name="x.heic")
    assert ("HEIF", 80, 60) == (result.format, result.width_px, result.height_px)
    assert datetime(2026, 9, 14, 9, 4, 20) == result.taken_at


@pytest.mark.parametrize(
    ("text", "fraction", "expected"),
    [
        ("2026:09:14 09:04:20", None, datetime(2026, 9, 14, 9, 4, 20)),
        ("2026:09:14 09:04:20", "25", datetime(2026, 9, 14, 9, 4, 20, 250_000)),
        (b"2026:09:14 09:04:20\0", None, datetime(2026, 9, 14, 9, 4, 20)),
        ("2026-09-14T09:04:20", None, datetime(2026, 9, 14, 9, 4, 20)),
        ("0000:00:00 00:00:00", None, None),
        ("1980:01:01 00:00:00", None, None),
        ("2026:13:41 25:61:00", None, None),
        ("2107:01:01 00:00:00", None, None),
        ("    :  :     :  :  ", None, None),
        ("", None, None),
        (None, None, None),
        (17, None, None),
    ],
)
def test_exif_times(text: object, fraction: object, expected: datetime | None) -> None:
    """A date that no working clock shows counts as none."""
    assert expected == parse_exif_time(text, fraction)


def test_original_is_named_by_its_bytes(tmp_path: Path) -> None:
    """The bytes come as they are, a place among them, under their hash; the file's time too, in UTC."""
    data = encoded(corners(), exif=exif_of(place=True))
    path = tmp_path / "a.jpg"
    path.write_bytes(data)
    result = read_photo(path)
    assert hashlib.sha256(data).hexdigest() == result.sha256
    assert data == result.original
    assert result.file_time is not None
    assert result.file_time.utcoffset() is not None


def test_place_and_serial_number_do_not_leave() -> None:
    """The derived JPEG holds no EXIF, no place, no maker, no serial number."""
    data = encoded(corners(), exif=exif_of(place=True))
    assert Image.open(io.BytesIO(data)).getexif().get_ifd(0x8825)
    derived = derived_jpeg(read_photo(data).pixels, 40, 80)
    image = Image.open(io.BytesIO(derived))
    assert (40, 30) == image.size
    assert {} == dict(image.getexif())
    assert not {"exif", "icc_profile", "comment", "xmp", "photoshop"} & set(image.info)
    for secret in (b"Exif", b"SERIAL-4711", b"Invented", b"GPS"):
        assert secret not in derived


def test_derived_is_not_enlarged() -> None:
    """A picture smaller than asked for keeps its size."""
    assert (80, 60) == Image.open(io.BytesIO(derived_jpeg(corners(), 1600, 85))).size


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


def test_text_named_jpg() -> None:
    """A text file is told as no picture."""
    expected = "x.jpg: this is not a picture, whatever its name says. Give a JPEG, HEIC, PNG or WebP file"
    assert expected == error_line(b"float height is eighteen point four two\n")


def test_empty_file() -> None:
    """A file of zero bytes is told as empty."""
    assert "x.jpg: the file is empty. Copy it from the camera again" == error_line(b"")


@pytest.mark.parametrize(
    ("image_format", "share"), [("JPEG", 0.6), ("JPEG", 0.02), ("PNG", 0.7), ("WEBP", 0.5), ("TIFF", 0.5)]
)
def test_cut_off_files_are_refused(image_format: str, share: float) -> None:
    """A file cut off anywhere is refused in one line, never shown in part."""
    rng = np.random.default_rng(1)
    whole = encoded(rng.integers(0, 255, (200, 300, 3), dtype=np.uint8), image_format)
    line = error_line(whole[: int(len(whole) * share)])
    assert line.startswith("x.jpg: ")
    assert "\n" not in line


def test_cut_off_jpeg_line() -> None:
    """The line about a truncated JPEG says what to do."""
    whole = encoded(np.random.default_rng(1).integers(0, 255, (200, 300, 3), dtype=np.uint8))
    line = error_line(whole[: len(whole) // 2])
    assert line.startswith("x.jpg: the picture is cut off or damaged (")
    assert line.endswith("). Copy it from the camera again")


def test_cut_off_heic() -> None:
    """A HEIC file cut off is refused in one line."""
    out = io.BytesIO()
    noise = np.random.default_rng(1).integers(0, 255, (64, 64, 3), dtype=np.uint8)
    pillow_heif.from_pillow(Image.fromarray(noise)).save(out)
    assert "x.heic" in error_line(out.getvalue()[: len(out.getvalue()) // 2], "x.heic")


def huge_png(side_px: int) -> bytes:
    """A PNG that says it is *side_px* square, with hardly any data behind."""

    def chunk(kind: bytes, body: bytes) -> bytes:
        return struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))

    header = struct.pack(">IIBBBBB", side_px, side_px, 8, 2, 0, 0, 0)
    body = zlib.compress(bytes(1000))
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", header) + chunk(b"IDAT", body) + chunk(b"IEND", b"")


@pytest.mark.parametrize("side_px", [int(MAX_PIXELS**0.5) + 1, 10_000, 60_000])
def test_bombs_are_refused_before_decoding(side_px: int) -> None:
    """A small file that unpacks to a huge picture is refused."""
    assert "up to 60 million pixels are taken. Save it smaller" in error_line(huge_png(side_px))


def test_one_pixel() -> None:
    """A picture of one pixel is refused."""
    assert "x.jpg: a picture of 1 × 1 pixels shows nothing. Give another" == error_line(
        encoded(np.zeros((1, 1, 3), np.uint8), "PNG")
    )


def test_missing_file_and_folder(tmp_path: Path) -> None:
    """A path that is no file is told as such."""
    with pytest.raises(ImageError, match=r"^gone\.jpg: there is no such file\. Check the name$"):
        read_photo(tmp_path / "gone.jpg")
    os.mkfifo(tmp_path / "pipe.jpg")
    with pytest.raises(ImageError, match="this is a device or a pipe, no file"):
        read_photo(tmp_path / "pipe.jpg")  # and is not waited for
    with pytest.raises(ImageError, match="this is a folder"):
        read_photo(tmp_path)


def test_broken_exif_is_no_time() -> None:
    """A damaged EXIF block costs the time, not the picture."""
    data = encoded(corners(), exif=exif_of())
    spoilt = data.replace(b"MM\0*", b"MM\0\xff").replace(b"II*\0", b"II\xff\0")
    assert spoilt != data
    assert read_photo(spoilt).taken_at is None


@pytest.mark.parametrize("seed", range(60))
def test_flipped_bytes_never_give_a_traceback(seed: int) -> None:
    """Random damage either still is a picture or gets an ImageError; warnings would fail the test."""
    rng = np.random.default_rng(seed)
    image_format = ["JPEG", "PNG", "WEBP", "TIFF", "GIF"][seed % 5]
    data = bytearray(
        encoded(corners(), image_format, **({} if image_format == "GIF" else {"exif": exif_of()}))
    )
    for place in rng.integers(0, len(data), 12):
        data[place] = rng.integers(0, 256)
    try:
        kept, line = read_photo(bytes(data)).pixels.shape[2], ""
    except ImageError as error:
        kept, line = 3, str(error)
    assert kept == 3
    assert "\n" not in line


@pytest.mark.skipif(shutil.which("ffprobe") is None, reason="ffprobe is not installed")
@pytest.mark.parametrize("taken", ["2026:03:01 09:12:44", "1999:12:31 23:59:59"])
def test_the_time_by_a_second_reader(tmp_path: Path, taken: str) -> None:
    """FFmpeg's own EXIF reader finds the same time in the same file."""
    exif = Image.Exif()
    exif.get_ifd(0x8769)[0x9003] = taken
    path = tmp_path / "a.jpg"
    Image.effect_noise((80, 60), 90).convert("RGB").save(path, exif=exif)
    command = ["ffprobe", "-v", "error", "-show_frames", "-of", "json", str(path)]
    told = json.loads(subprocess.run(command, capture_output=True, check=True).stdout)["frames"][0]["tags"]
    found = read_photo(path).taken_at
    assert found is not None
    assert told["DateTimeOriginal"].strip() == f"{found:%Y:%m:%d %H:%M:%S}" == taken
