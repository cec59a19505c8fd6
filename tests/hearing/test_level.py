"""How loud the microphone is, and what is told about it."""

import pytest

from saywright.hearing.level import CLIPPED_FOR_S, LevelWatch, dbfs


@pytest.mark.parametrize(
    ("power", "level"), [(1.0, 0.0), (0.5, -3.01), (1e-4, -40.0), (0.0, -120.0), (1e-30, -120.0), (4.0, 0.0)]
)
def test_levels(power: float, level: float) -> None:
    """Mean square as decibels below full scale, held to −120…0."""
    assert level == pytest.approx(dbfs(power), abs=0.01)


def spoken(above_db: float) -> LevelWatch:
    """Two seconds of noise at −60 dBFS, two of speech so much above it, one of noise, in tenths."""
    watch = LevelWatch()
    for tenth in range(50):
        level = -60.0 + (above_db if 20 <= tenth < 40 else 0.0)
        watch.block(0.1, 0.1, 10 ** (level / 10))
    watch.utterance(2.0, 4.0)
    return watch


@pytest.mark.parametrize(
    ("above_db", "quality"), [(30.0, "listening"), (12.0, "listening"), (6.0, "too_quiet")]
)
def test_speech_that_hardly_stands_out(above_db: float, quality: str) -> None:
    """Speech less than 10 dB above the noise is too quiet."""
    assert quality == spoken(above_db).quality


def test_too_quiet_until_somebody_speaks_up() -> None:
    """The next clear utterance takes it back."""
    watch = spoken(6.0)
    for _ in range(20):
        watch.block(0.1, 0.1, 1e-2)
    watch.utterance(5.0, 7.0)
    assert "listening" == watch.quality


def test_clipped_for_a_moment() -> None:
    """A sample at full scale is told for two seconds, then no more."""
    watch = LevelWatch()
    watch.block(0.1, 1.0, 0.1)
    assert "clipped" == watch.quality
    watch.block(CLIPPED_FOR_S, 0.5, 0.1)
    assert "listening" == watch.quality


def test_time_goes_on_while_shut() -> None:
    """Time in which nothing was taken in counts, so that utterances are compared with their own blocks."""
    watch = LevelWatch()
    watch.skip(2.0)
    for tenth in range(30):
        watch.block(0.1, 0.1, 1e-3 if tenth >= 20 else 1e-6)
    watch.utterance(4.0, 5.0)
    assert "listening" == watch.quality
