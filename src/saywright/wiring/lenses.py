"""Lens profiles: made from pictures, kept as a JSON file, read again."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import asdict
from pathlib import Path
from typing import Any

import numpy as np

from saywright.errors import InputError, StoreError
from saywright.photos.intake import read_photo
from saywright.photos.lens import Lens, calibrated

SCHEMA = "saywright.lens/1"
_TO_DO = "Make one with 'saywright photos calibrate'"
_WANTED = {"matrix": 9, "distortion": 5}


def calibrate_files(paths: Sequence[Path]) -> Lens:
    """The lens that took these pictures of the card; InputError or ImageError where they do not do."""
    return calibrated([read_photo(path).pixels for path in paths])


def save_lens(path: Path, lens: Lens) -> None:
    """Write the profile; StoreError where that cannot be."""
    try:
        path.write_text(json.dumps({"schema": SCHEMA, **asdict(lens)}, indent=2) + "\n", encoding="utf-8")
    except OSError as error:
        raise StoreError(
            f"the profile cannot be written ({error.strerror})", where=str(path), to_do="Name another place"
        ) from None


def load_lens(path: Path) -> Lens:
    """Read a profile; InputError for a file that is none."""
    try:
        content = path.read_bytes()
    except OSError:
        raise InputError("the lens profile cannot be read", where=str(path), to_do=_TO_DO) from None
    return lens_in(content, where=str(path))


def lens_in(content: bytes, *, where: str) -> Lens:
    """The profile that a file's *content* is; InputError for what is none."""
    try:
        told = json.loads(content)
    except (ValueError, RecursionError):
        told = None
    lens = _lens(told) if isinstance(told, dict) and told.get("schema") == SCHEMA else None
    if lens is None:
        raise InputError("this is no lens profile", where=where, to_do=_TO_DO)
    return lens


def _lens(told: dict[str, Any]) -> Lens | None:
    try:
        numbers = {name: tuple(float(value) for value in told[name]) for name in _WANTED}
        sizes = [int(told[name]) for name in ("width_px", "height_px", "views")]
        rms_px = float(told["rms_px"])
    except (KeyError, TypeError, ValueError):
        return None
    whole = all(len(numbers[name]) == count for name, count in _WANTED.items())
    if not whole or min(sizes) < 1 or not np.isfinite([*numbers["matrix"], *numbers["distortion"]]).all():
        return None
    return Lens(sizes[0], sizes[1], numbers["matrix"], numbers["distortion"], rms_px, sizes[2])
