"""Picture files that are odd or damaged: one clear line each, the others go on, the files stay as is."""

from __future__ import annotations

import io
import json
import struct
import zlib
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from .conftest import SHEET, Ran

NOISE = np.random.default_rng(7).integers(0, 255, (120, 160, 3), dtype=np.uint8)


def saved(image: Image.Image, kind: str, **options: object) -> bytes:
    """*image* as a file."""
    out = io.BytesIO()
    image.save(out, kind, **options)
    return out.getvalue()


def bomb() -> bytes:
    """A PNG of a few hundred bytes that says it is 60,000 pixels square."""

    def chunk(kind: bytes, body: bytes) -> bytes:
        return struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))

    header = struct.pack(">IIBBBBB", 60_000, 60_000, 8, 2, 0, 0, 0)
    data = chunk(b"IDAT", zlib.compress(bytes(1000)))
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", header) + data + chunk(b"IEND", b"")


def dated(text: str) -> bytes:
    """A JPEG with this as its EXIF date."""
    exif = Image.Exif()
    exif.get_ifd(0x8769)[0x9003] = text
    return saved(Image.fromarray(NOISE), "JPEG", exif=exif)


def animated() -> bytes:
    """A GIF of two frames."""
    frames = [Image.fromarray(NOISE), Image.fromarray(255 - NOISE)]
    return saved(frames[0], "GIF", save_all=True, append_images=frames[1:], duration=100)


JPEG = saved(Image.fromarray(NOISE), "JPEG", quality=95)
REFUSED = {
    "truncated.jpg": (JPEG[: len(JPEG) // 2], "the picture is cut off or damaged"),
    "zero.jpg": (b"", "the file is empty"),
    "notes.jpg": (b"float height is eighteen\n" * 20, "this is not a picture, whatever its name says"),
    "bomb.png": (bomb(), "the picture is too large (far too many pixels)"),
    "dot.png": (saved(Image.new("RGB", (1, 1)), "PNG"), "a picture of 1 × 1 pixels shows nothing"),
}
TAKEN = {
    "png-inside.jpg": saved(Image.fromarray(NOISE), "PNG"),
    "cmyk.jpg": saved(Image.fromarray(NOISE).convert("CMYK"), "JPEG"),
    "deep.png": saved(Image.fromarray(NOISE[..., 0].astype(np.uint16) * 257), "PNG"),
    "moving.gif": animated(),
    "year0.jpg": dated("0000:00:00 00:00:00"),
    "year9999.jpg": dated("9999:99:99 99:99:99"),
    "epoch.jpg": dated("1970:01:01 00:00:00"),
    "words.jpg": dated("last Tuesday, I think"),
}


TOLD = {
    "cmyk.jpg": "colours for print (CMYK) are shown as on a screen",
    "deep.png": "finer shades than 8 bits a channel are shown as 8: 16 bits",
    "moving.gif": "the file holds several frames, of which one is shown: 1 of 2",
    "year0.jpg": "the camera's date is of no use: “0000:00:00 00:00:00”",
    "year9999.jpg": "the camera's date is of no use: “9999:99:99 99:99:99”",
    "epoch.jpg": "the camera's date is of no use: “1970:01:01 00:00:00”",
    "words.jpg": "the camera's date is of no use: “last Tuesday, I think”",
}


@pytest.fixture
def job(saywright: Callable[..., Ran]) -> str:
    """A job with nothing in it."""
    return str(saywright("jobs", "new", "--sheet", SHEET).out.split()[0])


def kept(folder: Path) -> set[bytes]:
    """What lies in the media store."""
    return {path.read_bytes() for path in (folder / "data" / "media").rglob("*") if path.is_file()}


@pytest.mark.parametrize("name", REFUSED)
def test_what_is_no_picture(saywright: Callable[..., Ran], job: str, tmp_path: Path, name: str) -> None:
    """One line with the name and the fault; the picture after it is taken in; the file stays as it was."""
    content, line = REFUSED[name]
    bad, good = tmp_path / name, tmp_path / "z-good.jpg"
    bad.write_bytes(content)
    good.write_bytes(JPEG)
    ran = saywright("photos", "add", job, bad, good)
    assert 2 == ran.code
    told = [one for one in ran.err.splitlines() if name in one]
    assert 1 == len(told)
    assert f"{name}: {line}" in told[0]
    assert "1 taken in, 0 already there, 1 refused" in ran.err
    assert "Traceback" not in ran.err
    assert content == bad.read_bytes()
    assert ["z-good.jpg"] == [p["name"] for p in json.loads(saywright("export", job).out)["photos"]]


@pytest.mark.parametrize("name", TAKEN)
def test_what_is_odd_and_still_a_picture(
    saywright: Callable[..., Ran], job: str, tmp_path: Path, name: str
) -> None:
    """It is taken in, its bytes lie in the store as they came, and it can be shown; no date is made up."""
    path = tmp_path / name
    path.write_bytes(TAKEN[name])
    ran = saywright("photos", "add", job, path)
    assert 0 == ran.code, ran.err
    (photo,) = json.loads(saywright("export", job).out)["photos"]
    assert (name, None) == (photo["name"], photo["taken_at"])
    assert TAKEN[name] in kept(tmp_path)
    assert 0 == saywright("report", job, "--out", tmp_path / "report").code


@pytest.mark.parametrize("name", TAKEN)
def test_what_is_odd_is_told(saywright: Callable[..., Ran], job: str, tmp_path: Path, name: str) -> None:
    """One line when it is taken in and by the check, whose JSON tells it too; the record holds the same."""
    path, bad = tmp_path / name, TAKEN[name]
    path.write_bytes(bad)
    told = TOLD.get(name)
    row = " ".join(saywright("photos", "add", job, path).out.split())  # a table, wrapped
    assert ([] if told is None else [told]) == [one for one in TOLD.values() if one in row]
    checked = saywright("photos", "check", path)
    assert ([] if told is None else [told]) == checked.out.splitlines()[2:]
    found = json.loads(saywright("photos", "check", path, "--json").out)
    odd = [found[key] for key in ("frames", "print_colours", "bits", "odd_date")]
    assert (told is not None) == any(odd)
    (photo,) = json.loads(saywright("export", job).out)["photos"]
    assert odd == [photo["checks"].get(key) for key in ("frames", "print_colours", "bits", "odd_date")]
    assert (told is not None) == any(told == flag["text"] for flag in photo["flags"])


def test_what_is_odd_is_no_fault(saywright: Callable[..., Ran], job: str, tmp_path: Path) -> None:
    """Whoever watches a folder is told of the odd file, and not to shoot it again for that."""
    brass = Image.open(Path(__file__).parents[2] / "demo_images" / "IMG_2031.jpg")
    (tmp_path / "a.jpg").write_bytes(saved(brass.convert("CMYK"), "JPEG"))
    (line,) = saywright("photos", "watch", job, tmp_path, "--once").err.splitlines()
    assert line.startswith("a.jpg: no part yet: good")
    assert line.endswith(f"; {TOLD['cmyk.jpg']}")


def test_all_at_once(saywright: Callable[..., Ran], job: str, tmp_path: Path) -> None:
    """A card with everything wrong on it: every picture is in, every fault is told, nothing else is lost."""
    card = tmp_path / "card"
    card.mkdir()
    for name, content in ({n: c for n, (c, _) in REFUSED.items()} | TAKEN).items():
        (card / name).write_bytes(content)
    ran = saywright("photos", "add", job, *sorted(card.iterdir()))
    assert 2 == ran.code
    assert all(f"{name}: {line}" in ran.err for name, (_, line) in REFUSED.items())
    names = {p["name"] for p in json.loads(saywright("export", job).out)["photos"]}
    assert set(TAKEN) == names
