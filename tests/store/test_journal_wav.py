"""A recording's journal as a WAV file."""

from __future__ import annotations

import io
import wave
from pathlib import Path

import pytest

from saywright.errors import StoreError
from saywright.store.journal_wav import HEAD, MAGIC, JournalWav

PCM = bytes(range(256)) * 100


@pytest.fixture
def journal(tmp_path: Path) -> Path:
    """A journal cut off within a sample."""
    path = tmp_path / "j"
    path.write_bytes(HEAD.pack(MAGIC, 16_000) + PCM + b"x")
    return path


def test_a_reader_of_wav_files_finds_every_whole_sample(journal: Path) -> None:
    """The half-written last sample is left out, nothing else."""
    with JournalWav(journal) as source, wave.open(io.BytesIO(source.read(-1))) as file:
        assert (16_000, 1, 2, 12_800) == (
            file.getframerate(),
            file.getnchannels(),
            file.getsampwidth(),
            file.getnframes(),
        )
        assert file.readframes(20_000) == PCM
        assert 0.8 == source.duration_s


def test_pieces_make_the_whole(journal: Path) -> None:
    """Read in pieces of any size it is the same file."""
    with JournalWav(journal) as source:
        whole = source.read(-1)
    with JournalWav(journal) as source:
        pieces = []
        while piece := source.read(999):
            pieces.append(piece)
    assert whole == b"".join(pieces)


def test_another_file_is_told(tmp_path: Path) -> None:
    """What is no journal is named in one line."""
    path = tmp_path / "other"
    path.write_bytes(b"something else, long enough")
    with pytest.raises(StoreError) as caught:
        JournalWav(path)
    assert f"{path}: not a recording of ours. Move the file elsewhere" == str(caught.value)
