"""Audio files, spans and recordings."""

import tracemalloc
from pathlib import Path
from typing import Any

import av
import numpy as np
import pytest
import soundfile

from saywright.errors import AudioError
from saywright.hearing.audio import read_audio, read_span, wav_bytes
from saywright.hearing.listener import SAMPLE_RATE_HZ, Samples


def tone(seconds: float, rate_hz: int, channels: int = 1, hz: float = 440.0) -> Samples:
    """A sine of amplitude 0.5, (n_samples, channels) float32."""
    times = np.arange(int(seconds * rate_hz)) / rate_hz
    wave_form = (0.5 * np.sin(2 * np.pi * hz * times)).astype(np.float32)
    return np.repeat(wave_form[:, None], channels, axis=1)


def whole(path: Path) -> Samples:
    """All blocks of a file joined."""
    return np.concatenate(list(read_audio(path).blocks()))


def encode(path: Path, codec: str, rate_hz: int, layout: str = "mono", seconds: float = 2.0) -> None:
    """Write a tone with PyAV, as a phone would."""
    with av.open(str(path), "w") as container:
        stream: Any = container.add_stream(codec, rate=rate_hz, layout=layout)
        kind = stream.codec_context.format.name
        samples = tone(seconds, rate_hz)[:, 0]
        channels = 1 if layout == "mono" else 2
        data = np.tile(samples, (channels, 1))
        if not kind.endswith("p"):
            data = data.T.reshape(1, -1).copy()
        if kind.startswith("s16"):
            data = (data * 32767).astype(np.int16)
        frame = av.AudioFrame.from_ndarray(data, format=kind, layout=layout)
        frame.sample_rate = rate_hz
        resampler = av.AudioResampler(format=kind, layout=layout, rate=rate_hz)
        for part in [*resampler.resample(frame), *resampler.resample(None)]:
            container.mux(stream.encode(part))
        container.mux(stream.encode(None))


def check_tone(samples: Samples, seconds: float = 2.0) -> None:
    """The samples are the tone: its length, its level, its pitch."""
    assert seconds * SAMPLE_RATE_HZ == pytest.approx(len(samples), abs=0.15 * SAMPLE_RATE_HZ)
    middle = samples[SAMPLE_RATE_HZ // 2 : SAMPLE_RATE_HZ // 2 + 8000]
    assert 0.5 / np.sqrt(2) == pytest.approx(float(np.sqrt(np.mean(middle**2))), rel=0.1)
    spectrum = np.abs(np.fft.rfft(middle))
    assert 440 == pytest.approx(int(spectrum.argmax()) * SAMPLE_RATE_HZ / len(middle), abs=3)


@pytest.mark.parametrize(
    ("name", "rate_hz", "channels", "subtype"),
    [
        ("x.wav", 16000, 1, "PCM_16"),
        ("x.wav", 44100, 2, "PCM_16"),
        ("x.wav", 8000, 1, "ULAW"),
        ("x.wav", 96000, 1, "FLOAT"),
        ("x.flac", 48000, 2, "PCM_24"),
        ("x.ogg", 44100, 1, "VORBIS"),
        ("x.ogg", 48000, 1, "OPUS"),
        ("x.mp3", 22050, 1, "MPEG_LAYER_III"),
    ],
)
def test_any_rate_and_channels(tmp_path: Path, name: str, rate_hz: int, channels: int, subtype: str) -> None:
    """Whatever the rate, the width and the channels, 16 kHz mono comes out."""
    soundfile.write(tmp_path / name, tone(2.0, rate_hz, channels), rate_hz, subtype=subtype)
    check_tone(whole(tmp_path / name))
    assert 2.0 == pytest.approx(read_audio(tmp_path / name).duration_s or 0, abs=0.15)


@pytest.mark.parametrize(
    ("name", "codec", "rate_hz", "layout"),
    [
        ("x.m4a", "aac", 44100, "stereo"),
        ("x.3gp", "aac", 16000, "mono"),
        ("x.aac", "aac", 48000, "mono"),
        ("x.webm", "libopus", 48000, "mono"),
    ],
)
def test_phone_recordings(tmp_path: Path, name: str, codec: str, rate_hz: int, layout: str) -> None:
    """What phones write is read too."""
    encode(tmp_path / name, codec, rate_hz, layout)
    check_tone(whole(tmp_path / name))


def test_channels_are_averaged(tmp_path: Path) -> None:
    """A voice on one channel only is kept at half its level; opposite channels cancel."""
    one_side = tone(1.0, 16000, 2) * np.array([1.0, 0.0], dtype=np.float32)
    soundfile.write(tmp_path / "x.wav", one_side, 16000)
    assert 0.25 == pytest.approx(float(np.abs(whole(tmp_path / "x.wav")).max()), abs=0.01)


def test_resampling_has_no_seams(tmp_path: Path) -> None:
    """A tone stays a tone across blocks: nothing else above −50 dB."""
    soundfile.write(tmp_path / "x.wav", tone(5.0, 44100, hz=1000.0), 44100, subtype="FLOAT")
    samples = whole(tmp_path / "x.wav")[8000:72000]
    spectrum = np.abs(np.fft.rfft(samples * np.hanning(len(samples))))
    peak = int(spectrum.argmax())
    spectrum[peak - 20 : peak + 21] = 0
    rest = spectrum.max() / (0.25 * len(samples))
    assert rest < 10 ** (-50 / 20)


def test_silence_is_a_recording(tmp_path: Path) -> None:
    """A file of digital silence is fine."""
    soundfile.write(tmp_path / "x.wav", np.zeros(16000), 16000)
    assert 16000 == len(whole(tmp_path / "x.wav"))


@pytest.mark.parametrize(
    ("name", "content", "text"),
    [
        ("empty.wav", b"", "the file is empty. Record or copy it again"),
        (
            "notes.wav",
            b"float height eighteen point four\n" * 50,
            "not a sound recording, or damaged. Give a recording such as"
            " wav, flac, ogg, opus, mp3, m4a or 3gp",
        ),
        (
            "notes.m4a",
            b"float height eighteen point four\n" * 50,
            "not a sound recording, or damaged. Give a recording such as"
            " wav, flac, ogg, opus, mp3, m4a or 3gp",
        ),
        (
            "photo.mp3",
            b"\xff\xd8\xff\xe0\x00\x10JFIF" + bytes(500),
            "not a sound recording, or damaged. Give a recording such as"
            " wav, flac, ogg, opus, mp3, m4a or 3gp",
        ),
    ],
)
def test_not_audio(tmp_path: Path, name: str, content: bytes, text: str) -> None:
    """What is no recording gets one clear line."""
    (tmp_path / name).write_bytes(content)
    with pytest.raises(AudioError) as caught:
        read_audio(tmp_path / name)
    assert f"{tmp_path / name}: {text}" == str(caught.value)


def test_missing_and_folder(tmp_path: Path) -> None:
    """A missing file and a folder are told apart."""
    with pytest.raises(AudioError, match="no such file"):
        read_audio(tmp_path / "none.wav")
    with pytest.raises(AudioError, match="is a folder"):
        read_audio(tmp_path)


@pytest.mark.parametrize("keep", [10, 44, 46])
def test_truncated_to_nothing(tmp_path: Path, keep: int) -> None:
    """A header with less than a sample behind it is an error or one sample, never a crash."""
    soundfile.write(tmp_path / "x.wav", tone(1.0, 16000), 16000)
    data = (tmp_path / "x.wav").read_bytes()
    (tmp_path / "t.wav").write_bytes(data[:keep])
    if keep < 46:
        with pytest.raises(AudioError):
            read_audio(tmp_path / "t.wav")
    else:
        assert 1 == len(whole(tmp_path / "t.wav"))


def test_truncated_files_give_what_is_there(tmp_path: Path) -> None:
    """Half a recording gives about half of the sound."""
    soundfile.write(tmp_path / "x.wav", tone(4.0, 16000), 16000)
    encode(tmp_path / "x.aac", "aac", 16000, seconds=4.0)
    for name in ("x.wav", "x.aac"):
        data = (tmp_path / name).read_bytes()
        (tmp_path / f"t{name}").write_bytes(data[: len(data) // 2])
        assert 2.0 == pytest.approx(len(whole(tmp_path / f"t{name}")) / SAMPLE_RATE_HZ, abs=0.4)


def test_memory_stays_flat(tmp_path: Path) -> None:
    """Twenty minutes at 48 kHz stereo need no more memory than a few blocks."""
    path = tmp_path / "long.wav"
    with soundfile.SoundFile(path, "w", 48000, 2) as sink:
        for _ in range(120):
            sink.write(tone(10.0, 48000, 2))
    tracemalloc.start()
    count = sum(len(block) for block in read_audio(path).blocks())
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    assert 1200 * SAMPLE_RATE_HZ == pytest.approx(count, abs=10)
    assert peak < 20_000_000


def test_span(tmp_path: Path) -> None:
    """A span is cut to the sample, and to what the file holds."""
    soundfile.write(tmp_path / "x.wav", np.arange(32000) / 40000, 16000, subtype="FLOAT")
    samples = read_span(tmp_path / "x.wav", 0.5, 1.25)
    assert 12000 == len(samples)
    assert 8000 / 40000 == pytest.approx(float(samples[0]), abs=1e-4)
    assert 8000 == len(read_span(tmp_path / "x.wav", 1.5, 9.0))
    assert 1600 == len(read_span(tmp_path / "x.wav", -2.0, 0.1))


def test_span_outside(tmp_path: Path) -> None:
    """A span past the end is told with the length there is."""
    soundfile.write(tmp_path / "x.wav", tone(1.0, 16000), 16000)
    with pytest.raises(AudioError, match=r"no sound from 5\.0 s to 6\.0 s\. The recording lasts 1\.0 s"):
        read_span(tmp_path / "x.wav", 5.0, 6.0)


def test_wav_bytes(tmp_path: Path) -> None:
    """A clip is a WAV file that others read; what is too loud is clipped, not wrapped."""
    (tmp_path / "x.wav").write_bytes(wav_bytes(np.array([0.0, 0.5, 2.0, -2.0], dtype=np.float32)))
    samples, rate_hz = soundfile.read(tmp_path / "x.wav")
    assert SAMPLE_RATE_HZ == rate_hz
    assert [0.0, 0.5, 1.0, -1.0] == pytest.approx(list(samples), abs=1e-3)
