"""A recording's journal read as a WAV file, piece by piece: hours of it need no memory."""

from __future__ import annotations

import io
import struct
import wave
from pathlib import Path
from types import TracebackType
from typing import Protocol, Self

from saywright.errors import StoreError
from saywright.store.protocol import SAMPLE_BYTES

HEAD = struct.Struct("<8sI4x")  # magic, sample rate in Hz
MAGIC = b"SAYWJRN1"


class Source(Protocol):
    """What can be read to its end."""

    def read(self, size: int, /) -> bytes:
        """At most *size* bytes, all that is left for −1; empty at the end."""
        ...


class JournalWav:
    """The journal as a WAV file of 16-bit mono samples; a half-written last sample is left out."""

    def __init__(self, journal: Path) -> None:
        """Open it; StoreError where it is no recording of ours."""
        self._file = journal.open("rb")
        head = self._file.read(HEAD.size)
        magic, rate_hz = HEAD.unpack(head) if len(head) == HEAD.size else (b"", 0)
        if magic != MAGIC or not rate_hz:
            self._file.close()
            raise StoreError("not a recording of ours", where=str(journal), to_do="Move the file elsewhere")
        samples = (journal.stat().st_size - HEAD.size) // SAMPLE_BYTES
        self.duration_s: float = samples / rate_hz
        self._left = samples * SAMPLE_BYTES
        self._header = _wav_header(samples, rate_hz)

    def read(self, size: int, /) -> bytes:
        """The next bytes of the WAV file."""
        if self._header:
            header, self._header = self._header, b""
            return header + self.read(-1) if size < 0 else header
        data = self._file.read(self._left if size < 0 else min(size, self._left))
        self._left -= len(data)
        return data

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self._file.close()


def _wav_header(samples: int, rate_hz: int) -> bytes:
    """The head of a WAV file with so many samples to follow."""
    out = io.BytesIO()
    with wave.open(out, "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(SAMPLE_BYTES)
        file.setframerate(rate_hz)
        file.setnframes(samples)
        file.writeframesraw(b"")
        return out.getvalue()
