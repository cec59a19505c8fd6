"""Files named by their content, and recordings that survive a crash.

A file is written beside its place, synced, then renamed: it is there whole or not at all.
"""

from __future__ import annotations

import errno
import fcntl
import hashlib
import io
import os
import tempfile
import time
import wave
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import BinaryIO

from saywright.errors import DiskFullError, InputError, NotFoundError, StoreError
from saywright.store.journal_wav import HEAD, MAGIC, JournalWav, Source
from saywright.store.protocol import SAMPLE_BYTES, Adopted

_CHUNK = 1 << 20
_DRAFT = ".new-"
_DRAFT_AGE_S = 3600
_FULL = {errno.ENOSPC, errno.EDQUOT, errno.EFBIG}


class FileMedia:
    """The media store in a folder: `ab/abcd…` by content, `recording/` for what is being recorded."""

    def __init__(self, folder: Path) -> None:
        """Use *folder*, made when first written to."""
        self._folder = folder

    def put_file(self, path: Path) -> str:
        """Copy *path* in; its SHA-256.

        InputError where it cannot be read, DiskFullError where there is no room.
        """
        try:
            source = path.open("rb")
        except OSError as error:
            raise InputError(
                f"cannot be read ({error.strerror})",
                where=str(path),
                to_do="Check the name and the permissions",
            ) from None
        with source:
            return self._put(source)

    def put_bytes(self, data: bytes) -> str:
        """Put *data* in; its SHA-256."""
        return self._put(io.BytesIO(data))

    def path(self, sha256: str) -> Path:
        """Where the file with this content is."""
        place = self._place(sha256)
        if not place.is_file():
            raise NotFoundError(
                f"no file with the content {sha256[:12]}… in the media store",
                where=str(self._folder),
                to_do="Restore the media folder from a backup",
            )
        return place

    def read(self, sha256: str) -> bytes:
        """The bytes; StoreError where they no longer have the hash they are named by."""
        data = self.path(sha256).read_bytes()
        if hashlib.sha256(data).hexdigest() != sha256:
            raise StoreError(
                "the file was altered",
                where=str(self._place(sha256)),
                to_do="Restore the media folder from a backup",
            )
        return data

    def check(self, sha256: str) -> None:
        """StoreError where the file is missing or no longer has the hash it is named by."""
        place = self._place(sha256)
        try:
            with place.open("rb") as file:
                found = hashlib.file_digest(file, "sha256").hexdigest()
        except OSError as error:
            raise StoreError(
                f"a stored file cannot be read ({error.strerror})",
                where=str(place),
                to_do="Restore the media folder from a backup",
            ) from None
        if found != sha256:
            raise StoreError(
                "the file was altered", where=str(place), to_do="Restore the media folder from a backup"
            )

    def sweep(self) -> None:
        """Remove drafts that a crash left behind more than an hour ago."""
        for draft in self._folder.glob(f"{_DRAFT}*"):
            with suppress(OSError):
                if time.time() - draft.stat().st_mtime > _DRAFT_AGE_S:
                    draft.unlink()

    def start_journal(self, job_id: str, recording: str, *, rate_hz: int) -> FileJournal:
        """Begin a recording."""
        with _room(self._folder):
            self._recordings.mkdir(parents=True, exist_ok=True)
            return FileJournal(self, self._recordings / f"{job_id}.{recording}", recording, rate_hz)

    def journal_wav(self, recording: str) -> bytes | None:
        """What is on disk of a recording in progress, as a WAV file."""
        found = next(iter(self._recordings.glob(f"*.{recording}")), None)
        if found is None:
            return None
        with JournalWav(found) as wav:
            return wav.read(-1)

    def put_journal(self, journal: Path) -> tuple[str, float]:
        """Take in a recording as a WAV file; its hash and its length in seconds."""
        with JournalWav(journal) as wav:
            return self._put(wav), wav.duration_s

    def adopt_journals(self, job_id: str) -> tuple[Adopted, ...]:
        """Take in what a crash left behind of this job."""
        adopted: list[Adopted] = []
        for left in sorted(self._recordings.glob(f"{job_id}.*")):
            with left.open("rb") as file:
                if not _lock(file):
                    continue
                if left.stat().st_size < HEAD.size:
                    continue  # cut off before the first sample, or begun by another process this moment
                sha256, duration_s = self.put_journal(left)
                adopted.append(Adopted(job_id, left.name.removeprefix(f"{job_id}."), sha256, duration_s))
        return tuple(adopted)

    def drop_journal(self, recording: str) -> None:
        """Remove a recording's journal once its content is in the store and the log says so."""
        for left in self._recordings.glob(f"*.{recording}"):
            left.unlink(missing_ok=True)

    @property
    def _recordings(self) -> Path:
        return self._folder / "recording"

    def _place(self, sha256: str) -> Path:
        if len(sha256) != 64 or not set(sha256) <= set("0123456789abcdef"):
            raise NotFoundError("that is no name of a stored file", where=sha256[:64])
        return self._folder / sha256[:2] / sha256

    def _put(self, source: Source) -> str:
        digest = hashlib.sha256()
        with _room(self._folder):
            self._folder.mkdir(parents=True, exist_ok=True)
            handle, name = tempfile.mkstemp(dir=self._folder, prefix=_DRAFT)
            draft = Path(name)
            try:
                with os.fdopen(handle, "wb") as target:
                    while chunk := source.read(_CHUNK):
                        digest.update(chunk)
                        target.write(chunk)
                    target.flush()
                    os.fsync(target.fileno())
                place = self._place(digest.hexdigest())
                place.parent.mkdir(exist_ok=True)
                draft.replace(place)
                _sync_folder(place.parent)
                _sync_folder(self._folder)
            finally:
                draft.unlink(missing_ok=True)
        return digest.hexdigest()


class FileJournal:
    """A recording in progress: raw samples behind a short head, synced at least once a second of audio."""

    def __init__(self, media: FileMedia, path: Path, recording: str, rate_hz: int) -> None:
        """Start the file; it is locked while this process lives, so that nobody adopts it."""
        self.recording = recording
        self._media = media
        self._path = path
        self._sync_bytes = rate_hz * SAMPLE_BYTES
        self._unsynced = 0
        self._file = path.open("xb")
        _lock(self._file)
        try:
            self._file.write(HEAD.pack(MAGIC, rate_hz))
            self._sync()
            _sync_folder(path.parent)
        except OSError:
            path.unlink(missing_ok=True)
            with suppress(OSError):  # closing tries to write once more
                self._file.close()
            raise

    def write(self, pcm: bytes) -> None:
        """The next samples."""
        with _room(self._path):
            self._file.write(pcm)
            self._unsynced += len(pcm)
            if self._unsynced >= self._sync_bytes:
                self._sync()
            else:
                self._file.flush()

    def finish(self) -> tuple[str, float]:
        """Move it into the media store. The journal itself stays until `drop_journal`."""
        with _room(self._path):
            self._sync()
        kept = self._media.put_journal(self._path)
        self._file.close()
        return kept

    def _sync(self) -> None:
        self._file.flush()
        os.fsync(self._file.fileno())
        self._unsynced = 0


def wav_bytes(pcm: bytes, rate_hz: int) -> bytes:
    """A WAV file of 16-bit mono samples."""
    out = io.BytesIO()
    with wave.open(out, "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(SAMPLE_BYTES)
        file.setframerate(rate_hz)
        file.writeframes(pcm)
    return out.getvalue()


def _lock(file: BinaryIO) -> bool:
    try:
        fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        return False
    return True


def _sync_folder(folder: Path) -> None:
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


@contextmanager
def _room(where: Path) -> Iterator[None]:
    """Tell a full disk, and anything else the file system refuses, in one line."""
    try:
        yield
    except OSError as error:
        if error.errno in _FULL:
            raise DiskFullError(
                "the disk is full",
                where=str(where),
                to_do="Free some space and repeat; everything committed before is kept",
            ) from None
        raise StoreError(
            f"cannot be written ({error.strerror})",
            where=str(where),
            to_do="Check the folder and its permissions",
        ) from None
