"""Audio files → samples, and samples → the bytes of one. Nothing else knows formats.

Read in blocks, so an hour needs no more memory than a minute. What libsndfile knows (wav,
flac, ogg, opus) it reads; the rest (mp3, m4a, aac, 3gp, amr, webm, …) goes through PyAV.
"""

from __future__ import annotations

import io
import wave
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
import numpy.typing as npt

from saywright.errors import AudioError
from saywright.hearing.listener import SAMPLE_RATE_HZ, Samples

BLOCK_S = 1.0
_TO_DO = "Give a recording such as wav, flac, ogg, opus, mp3, m4a or 3gp"
_FULL_SCALE = 32767
_HEAD_BYTES = 4096  # of a WAV file; its samples begin in there


@dataclass(frozen=True, slots=True)
class Audio:
    """A recording that can be read from the start, as often as wanted."""

    path: Path
    duration_s: float | None  # as the file's header tells, also where it breaks off; None where it does not
    engine: str  # "sndfile" or "av"

    def blocks(self) -> Iterator[Samples]:
        """Stretches of about a second: (n_samples,) float32 mono, −1…1, 16 kHz.

        Channels are averaged. A file that breaks off gives what can be read of it; one that
        gives nothing at all is an AudioError.
        """
        source = _sndfile_blocks(self.path) if self.engine == "sndfile" else _av_blocks(self.path)
        given = 0
        for block in _resampled(source):
            given += len(block)
            yield block
        if not given:
            raise AudioError("there is no sound in it", where=str(self.path), to_do=_TO_DO)


def read_audio(path: Path) -> Audio:
    """The recording at *path*; AudioError where it is not audio, empty, or nothing can be decoded."""
    _check_file(path)
    duration_s, engine = _probe_sndfile(path)
    if engine is None:
        duration_s, engine = _probe_av(path)
    if engine is None:
        raise AudioError("not a sound recording, or damaged", where=str(path), to_do=_TO_DO)
    audio = Audio(path, duration_s, engine)
    next(audio.blocks())  # a header alone does not make a recording
    return audio


def read_span(path: Path, start_s: float, end_s: float) -> Samples:
    """The samples from *start_s* to *end_s*, (n_samples,), cut to what the file holds.

    AudioError where the span lies outside. Decoded from the start, as seeking is not exact in
    every format.
    """
    first, last = max(0, round(start_s * SAMPLE_RATE_HZ)), round(end_s * SAMPLE_RATE_HZ)
    kept: list[Samples] = []
    at = 0
    for block in read_audio(path).blocks():
        kept.append(block[max(0, first - at) : max(0, last - at)])
        at += len(block)
        if at >= last:
            break
    samples = np.concatenate(kept) if kept else np.zeros(0, dtype=np.float32)
    if not len(samples):
        raise AudioError(
            f"there is no sound from {start_s:.1f} s to {end_s:.1f} s",
            where=str(path),
            to_do=f"The recording lasts {at / SAMPLE_RATE_HZ:.1f} s",
        )
    return samples


def wav_bytes(samples: Samples) -> bytes:
    """*samples*, (n_samples,) float32 at 16 kHz, as a 16-bit mono WAV file."""
    out = io.BytesIO()
    with wave.open(out, "wb") as sink:
        sink.setnchannels(1)
        sink.setsampwidth(2)
        sink.setframerate(SAMPLE_RATE_HZ)
        sink.writeframes(pcm16(samples))
    return out.getvalue()


def pcm16(samples: Samples) -> bytes:
    """*samples*, float32 −1…1, as 16-bit little-endian."""
    return (np.clip(samples, -1.0, 1.0) * _FULL_SCALE).round().astype("<i2").tobytes()


def _check_file(path: Path) -> None:
    try:
        size = path.stat().st_size if path.is_file() else -1
    except OSError as error:
        raise AudioError(f"cannot be read ({error.strerror})", where=str(path)) from None
    if size < 0:
        what = "is a folder, not a recording" if path.is_dir() else "no such file"
        raise AudioError(what, where=str(path), to_do=_TO_DO)
    if size == 0:
        raise AudioError("the file is empty", where=str(path), to_do="Record or copy it again")


def _probe_sndfile(path: Path) -> tuple[float | None, str | None]:
    import soundfile  # noqa: PLC0415  only where audio is read

    try:
        info = soundfile.info(str(path))
    except (soundfile.LibsndfileError, RuntimeError, TypeError):
        return None, None
    # A header that was never put right (a recording cut off) tells more than the file can hold.
    # MP3 is left to PyAV: libsndfile prints notes about damaged files to the terminal.
    if info.frames <= 0 or info.frames >= 2**40 or info.format in ("RAW", "MP3", "MPEG"):
        return None, None
    return info.frames / info.samplerate * _promised(path, info.format), "sndfile"


def _promised(path: Path, form: str) -> float:
    """How many times what is in a WAV file its head promises: more than 1 where it was cut off.

    libsndfile tells the length of what is there. The head of RIFF: "data", its size in bytes, the samples.
    """
    if form not in ("WAV", "WAVEX"):
        return 1.0
    with path.open("rb") as file:
        head = file.read(_HEAD_BYTES)
    at = head.find(b"data") + 8
    size = int.from_bytes(head[at - 4 : at], "little")
    there = path.stat().st_size - at
    known = at >= 8 and 0 < there < size < 0xFFFF_FF00  # the greatest sizes stand for "not known"
    return size / there if known else 1.0


def _probe_av(path: Path) -> tuple[float | None, str | None]:
    import av  # noqa: PLC0415

    try:
        with av.open(str(path), mode="r") as container:
            if not container.streams.audio:
                return None, None
            return (container.duration / av.time_base if container.duration else None), "av"
    except (av.FFmpegError, ValueError, OSError):
        return None, None


def _sndfile_blocks(path: Path) -> Iterator[tuple[npt.NDArray[np.float32], int]]:
    """Mono blocks and their rate; stops where the file is damaged."""
    import soundfile  # noqa: PLC0415

    try:
        with soundfile.SoundFile(str(path)) as stream:
            frames = max(1, round(BLOCK_S * stream.samplerate))
            while True:
                block = stream.read(frames, dtype="float32", always_2d=True)
                if not len(block):
                    return
                yield np.nan_to_num(block.mean(axis=1)).astype(np.float32), stream.samplerate
    except soundfile.LibsndfileError:
        return


def _av_blocks(path: Path) -> Iterator[tuple[npt.NDArray[np.float32], int]]:
    """Mono blocks and their rate; a packet that cannot be decoded is left out."""
    import av  # noqa: PLC0415

    try:
        with av.open(str(path), mode="r") as container:
            stream = container.streams.audio[0]
            for packet in container.demux(stream):
                frames: list[Any] = []
                with suppress(av.FFmpegError):
                    frames = packet.decode()
                for frame in frames:
                    yield _mono(frame), int(frame.sample_rate)
    except (av.FFmpegError, ValueError, OSError):
        return


def _mono(frame: Any) -> npt.NDArray[np.float32]:
    """A decoded frame's samples, channels averaged, −1…1."""
    raw = frame.to_ndarray()
    scale = float(np.iinfo(raw.dtype).max) + 1.0 if np.issubdtype(raw.dtype, np.integer) else 1.0
    values = raw.astype(np.float32) / scale - (1.0 if raw.dtype == np.uint8 else 0.0)
    channels = len(frame.layout.channels)
    if not frame.format.is_planar:
        values = values.reshape(-1, channels).T
    mixed: npt.NDArray[np.float32] = np.nan_to_num(values.mean(axis=0)).astype(np.float32)
    return mixed


def _resampled(source: Iterator[tuple[npt.NDArray[np.float32], int]]) -> Iterator[Samples]:
    """Blocks of any rate → blocks of 16 kHz; one resampler runs through, so seams cannot be heard."""
    import soxr  # noqa: PLC0415

    stream: Any = None
    rate_hz = 0
    for block, block_rate_hz in source:
        if block_rate_hz != rate_hz:
            if stream is not None:
                yield from _some(stream.resample_chunk(np.zeros(0, dtype=np.float32), last=True))
            rate_hz = block_rate_hz
            stream = (
                None
                if rate_hz == SAMPLE_RATE_HZ
                else soxr.ResampleStream(rate_hz, SAMPLE_RATE_HZ, 1, dtype="float32", quality="HQ")
            )
        yield from _some(block if stream is None else stream.resample_chunk(block))
    if stream is not None:
        yield from _some(stream.resample_chunk(np.zeros(0, dtype=np.float32), last=True))


def _some(samples: Samples) -> Iterator[Samples]:
    if len(samples):
        yield samples
