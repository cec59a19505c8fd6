"""Make the pictures of the demo: render them, give them a camera's times, write expected.json.

    python demo_images/make_images.py            all pictures, about five minutes
    python demo_images/make_images.py --times    new times only, nothing rendered

The camera's clock is 7 min 40 s slow. Each picture is taken a few seconds after its mark is spoken; when
that is comes from demo_audio/marks.json, which is made with the recording. One picture has no mark.
"""

from __future__ import annotations

import argparse
import json
import re
import zlib
from dataclasses import dataclass
from datetime import datetime, timedelta
from pathlib import Path

import numpy as np
import pillow_heif
from PIL import Image

HERE = Path(__file__).parent
MARKS = HERE.parent / "demo_audio" / "marks.json"
RECORDING_START = datetime(2026, 9, 14, 9, 12, 0)  # by the workshop's clock
CAMERA_SLOW_S = 7 * 60 + 40
TURNED_LEFT = 6  # EXIF orientation: stored lying, to be shown a quarter turn to the right


@dataclass(frozen=True)
class Shot:
    """One picture of the folder."""

    name: str
    scene: str  # key of scenes.SCENES
    component: str | None  # of its mark; None: nobody announced it
    delay_s: float  # from the mark to the shutter; without a mark from the start of the recording
    quality: int = 84
    place: bool = False  # the camera wrote where it was
    orientation: int = 1


SHOTS = (
    Shot("IMG_2031.jpg", "air_screw", "air_screw", 3, place=True),
    Shot("IMG_2032.jpg", "strainer", "strainer", 5, quality=72),
    Shot("IMG_2033.heic", "gasket", "bowl_gasket", 2, quality=46, place=True),
    Shot("IMG_2034.jpg", "float", "float", 3),
    Shot("IMG_2035.jpg", "needle", "needle", 4, orientation=TURNED_LEFT),
    Shot("IMG_2036.png", "seat", "seat", 2),
    Shot("IMG_2037.jpg", "jet", "main_jet", 4, place=True),
    Shot("IMG_2038.jpg", "bench", None, 272),
    Shot("IMG_2039.jpg", "bore", "throttle_bore", 5),
)


def main() -> None:
    """Write the pictures and expected.json beside this script."""
    arguments = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    arguments.add_argument("--times", action="store_true", help="keep the pictures, write their times anew")
    arguments.add_argument("--only", nargs="*", help="names of scenes")
    arguments.add_argument("--marks", type=Path, default=MARKS, help="times of the spoken marks")
    options = arguments.parse_args()
    marks = {mark["component"]: mark for mark in json.loads(options.marks.read_text(encoding="utf-8"))}
    expected: dict[str, dict[str, str] | None] = {}
    for shot in SHOTS:
        mark = marks[shot.component] if shot.component else None
        expected[shot.name] = {"component": mark["component"], "stage": mark["stage"]} if mark else None
        true_time = RECORDING_START + timedelta(
            seconds=round((mark["start_s"] if mark else 0) + shot.delay_s)
        )
        camera_time = true_time - timedelta(seconds=CAMERA_SLOW_S)
        path = HERE / shot.name
        if options.times:
            path.write_bytes(with_time(path.read_bytes(), camera_time))
        elif not options.only or shot.scene in options.only:
            render(shot, tags(shot, camera_time))
    text = json.dumps(expected, indent=2) + "\n"
    (HERE / "expected.json").write_text(text, encoding="utf-8")


def tags(shot: Shot, camera_time: datetime) -> bytes:
    """EXIF as a camera writes it: with a serial number, and a place where it knows one."""
    exif = Image.Exif()
    exif[0x010E] = "Rendered, not a photograph"
    exif[0x010F] = "Rendered"
    exif[0x0110] = "No camera"
    exif[0x0112] = shot.orientation
    exif[0x0131] = "demo_images/make_images.py"
    exif[0x0132] = f"{camera_time:%Y:%m:%d %H:%M:%S}"
    times = exif.get_ifd(0x8769)
    times[0x9003] = f"{camera_time:%Y:%m:%d %H:%M:%S}"
    times[0x9004] = f"{camera_time:%Y:%m:%d %H:%M:%S}"
    times[0xA431] = "DEMO-SERIAL-0001"
    if shot.place:
        place = exif.get_ifd(0x8825)  # invented: open water
        place[1], place[2], place[3], place[4] = "N", (54.0, 30.0, 0.0), "E", (12.0, 0.0, 0.0)
    return exif.tobytes()


def render(shot: Shot, exif: bytes) -> None:
    """The picture with these tags, in the format its name says."""
    import scenes  # noqa: PLC0415  heavy, and not needed for new times

    path = HERE / shot.name
    picture = Image.fromarray(scenes.SCENES[shot.scene]())
    if shot.orientation == TURNED_LEFT:
        picture = picture.transpose(Image.Transpose.ROTATE_90)
    if path.suffix == ".heic":
        pillow_heif.from_pillow(picture).save(path, quality=shot.quality, exif=exif)
    elif path.suffix == ".png":  # noise makes PNG large: smaller, with few colours
        picture = picture.resize((800, 600), Image.Resampling.LANCZOS)
        picture.quantize(64, dither=Image.Dither.NONE).save(path, optimize=True, exif=exif)
    else:
        picture.save(path, quality=shot.quality, optimize=True, exif=exif)
    print(f"{shot.name}  {path.stat().st_size / 1000:.0f} kB")


def with_time(data: bytes, camera_time: datetime) -> bytes:
    """The bytes of a picture with other times in its EXIF, nothing else touched."""
    changed = re.sub(rb"2026:\d\d:\d\d \d\d:\d\d:\d\d", f"{camera_time:%Y:%m:%d %H:%M:%S}".encode(), data)
    chunk = changed.find(b"eXIf")
    if changed.startswith(b"\x89PNG") and chunk > 0:
        end = chunk + 4 + int.from_bytes(changed[chunk - 4 : chunk], "big")
        checksum = zlib.crc32(changed[chunk:end]).to_bytes(4, "big")
        changed = changed[:end] + checksum + changed[end + 4 :]
    return changed


if __name__ == "__main__":
    np.seterr(all="ignore")
    main()
