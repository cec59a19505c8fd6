"""Content-named files and recordings: crashes and full disks."""

from __future__ import annotations

import errno
import os
import signal
import subprocess
import sys
from pathlib import Path
from typing import NoReturn

import pytest

from saywright.errors import DiskFullError, StoreError
from saywright.store.media import FileMedia

KEY = "b" * 64
CHILD = """
import sys
from pathlib import Path
from saywright.store.media import FileMedia
journal = FileMedia(Path(sys.argv[1])).start_journal("j1", "b" * 64, rate_hz=1000)
for second in range(1, 1000):
    journal.write(bytes([second % 256, 0]) * 1000)
    print(second, flush=True)
"""


def no_room(*_: object) -> NoReturn:
    raise OSError(errno.ENOSPC, "No space left on device")


def test_a_killed_recording_is_adopted(tmp_path: Path) -> None:
    """After kill -9 every second that was written is there, whole, and is taken into the store."""
    child = subprocess.Popen([sys.executable, "-c", CHILD, str(tmp_path)], stdout=subprocess.PIPE)
    assert child.stdout is not None
    with child.stdout as told:
        for _ in range(5):
            told.readline()
        media = FileMedia(tmp_path)
        assert () == media.adopt_journals("j1"), "a recording in progress was taken away"
        child.send_signal(signal.SIGKILL)
        seconds = 5 + len([line for line in told.readlines() if line.endswith(b"\n")])
    child.wait()
    (adopted,) = media.adopt_journals("j1")
    assert ("j1", KEY) == (adopted.job_id, adopted.recording)
    assert adopted.duration_s >= seconds
    samples = media.read(adopted.sha256)[44:]
    assert [bytes([n % 256]) for n in range(1, seconds + 1)] == [
        samples[2000 * n : 2000 * n + 1] for n in range(seconds)
    ]
    assert () == media.adopt_journals("j2")


def test_a_torn_last_sample_is_left_out(tmp_path: Path) -> None:
    """Half a sample at the end does not spoil the rest."""
    journal = FileMedia(tmp_path).start_journal("j1", KEY, rate_hz=1000)
    journal.write(b"\x07\x00" * 10 + b"\x09")
    sha256, duration_s = journal.finish()
    assert 0.01 == duration_s
    assert b"\x07\x00" * 10 == FileMedia(tmp_path).read(sha256)[44:]


def test_a_full_disk_leaves_no_half_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """No room: one line, and neither a file nor a draft stays."""
    media = FileMedia(tmp_path)
    kept = media.put_bytes(b"first")
    monkeypatch.setattr(os, "fsync", no_room)
    with pytest.raises(DiskFullError) as error:
        media.put_bytes(b"second")
    assert (
        f"{tmp_path}: the disk is full. Free some space and repeat; everything committed before is kept"
        == str(error.value)
    )
    assert [media.path(kept)] == [found for found in tmp_path.rglob("*") if found.is_file()]


def test_a_full_disk_while_recording(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """No room during a recording is one line, and what was written stays."""
    media = FileMedia(tmp_path)
    journal = media.start_journal("j1", KEY, rate_hz=1000)
    journal.write(b"\x01\x00" * 1000)
    monkeypatch.setattr(os, "fsync", no_room)
    with pytest.raises(DiskFullError):
        journal.write(b"\x02\x00" * 1000)
    monkeypatch.undo()
    assert journal.finish()[1] >= 1.0


def test_a_full_disk_as_a_recording_begins(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Nothing stays that would keep the job from being read afterwards."""
    media = FileMedia(tmp_path)
    monkeypatch.setattr(os, "fsync", no_room)
    with pytest.raises(DiskFullError):
        media.start_journal("j1", KEY, rate_hz=1000)
    monkeypatch.undo()
    assert [] == [found for found in tmp_path.rglob("*") if found.is_file()]


def test_a_recording_cut_off_before_its_first_sample_is_passed_over(tmp_path: Path) -> None:
    """A file without a whole head holds no sound and does not stop the job from being opened."""
    (tmp_path / "recording").mkdir()
    (tmp_path / "recording" / f"j1.{KEY}").write_bytes(b"SAYW")
    assert () == FileMedia(tmp_path).adopt_journals("j1")


def test_an_altered_file_is_found(tmp_path: Path) -> None:
    """Content that no longer fits its name is not handed out."""
    media = FileMedia(tmp_path)
    name = media.put_bytes(b"gasket")
    media.path(name).write_bytes(b"gaskets")
    with pytest.raises(StoreError, match="the file was altered"):
        media.read(name)


def test_a_strange_file_among_the_recordings(tmp_path: Path) -> None:
    """A file that is no recording of ours is told, not swallowed."""
    (tmp_path / "recording").mkdir()
    (tmp_path / "recording" / f"j1.{KEY}").write_bytes(b"notes about the float bowl")
    with pytest.raises(StoreError, match="not a recording of ours"):
        FileMedia(tmp_path).adopt_journals("j1")


def test_check_finds_what_is_missing_or_altered(tmp_path: Path) -> None:
    """A file that is whole passes; an altered and a missing one are told."""
    media = FileMedia(tmp_path)
    name = media.put_bytes(b"gasket")
    media.check(name)
    media.path(name).write_bytes(b"gaskets")
    with pytest.raises(StoreError, match="the file was altered"):
        media.check(name)
    media.path(name).unlink()
    with pytest.raises(StoreError, match="a stored file cannot be read"):
        media.check(name)


def test_old_drafts_are_swept(tmp_path: Path) -> None:
    """A draft that a crash left long ago goes; a fresh one may be another process at work and stays."""
    old, fresh = tmp_path / ".new-old", tmp_path / ".new-fresh"
    for draft in (old, fresh):
        draft.write_bytes(b"half")
    os.utime(old, (0, 0))
    FileMedia(tmp_path).sweep()
    assert (False, True) == (old.exists(), fresh.exists())
