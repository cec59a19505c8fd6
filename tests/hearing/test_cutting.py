"""Where utterances begin and end."""

from itertools import pairwise

import numpy as np
import pytest

from saywright.hearing.cutting import FRAME_S, FRAME_SAMPLES, CutSettings, Cutter, Framer, Piece
from saywright.hearing.listener import SAMPLE_RATE_HZ


def run(cutter: Cutter, probabilities: list[float], level: float = 0.1) -> list[Piece]:
    """Push one frame for each probability; frame k holds the value k/1e6 + level, so that it can be told."""
    pieces = []
    for number, probability in enumerate(probabilities):
        frame = np.full(FRAME_SAMPLES, level + number / 1e6, dtype=np.float32)
        piece = cutter.push(frame, probability)
        if piece is not None:
            pieces.append(piece)
    last = cutter.flush(len(probabilities) * FRAME_SAMPLES)
    return [*pieces, *([last] if last is not None else [])]


def frames(seconds: float) -> int:
    """Seconds as a number of frames."""
    return round(seconds / FRAME_S)


def test_silence_gives_nothing() -> None:
    """Without speech there is no utterance."""
    assert [] == run(Cutter(), [0.0] * 1000)


def test_one_utterance_with_its_rolls() -> None:
    """An utterance begins 0.3 s before the first speech frame and ends 0.3 s after the last."""
    quiet, spoken = frames(2), frames(1)
    (piece,) = run(Cutter(), [0.0] * quiet + [0.9] * spoken + [0.0] * quiet)
    assert piece.speech_start_s == pytest.approx(quiet * FRAME_S)
    assert piece.speech_end_s == pytest.approx((quiet + spoken) * FRAME_S)
    assert piece.start_s == pytest.approx(piece.speech_start_s - 0.3, abs=FRAME_S)
    assert piece.end_s == pytest.approx(piece.speech_end_s + 0.3, abs=FRAME_S)
    assert len(piece.samples) == round((piece.end_s - piece.start_s) * SAMPLE_RATE_HZ)


def test_samples_are_those_of_the_span() -> None:
    """The audio of an utterance is the audio at its times."""
    (piece,) = run(Cutter(), [0.0] * 50 + [0.9] * 20 + [0.0] * 50)
    first = round(piece.start_s / FRAME_S)
    assert piece.samples[0] == pytest.approx(0.1 + first / 1e6, abs=1e-7)


@pytest.mark.parametrize(("pause_s", "count"), [(0.4, 1), (0.7, 1), (0.9, 2), (2.0, 2)])
def test_hesitation_does_not_cut(pause_s: float, count: int) -> None:
    """A pause shorter than 0.8 s stays inside the utterance."""
    spoken = [0.9] * 20
    assert count == len(run(Cutter(), spoken + [0.0] * frames(pause_s) + spoken + [0.0] * 60))


def test_middling_probability_keeps_what_was() -> None:
    """Between the two thresholds speech goes on, but does not begin."""
    assert [] == run(Cutter(), [0.45] * 100)
    (piece,) = run(Cutter(), [0.9] * 5 + [0.45] * 40 + [0.0] * 60)
    assert piece.speech_end_s == pytest.approx(45 * FRAME_S)


def test_click_is_no_utterance() -> None:
    """Two frames above the threshold are a click."""
    assert [] == run(Cutter(), [0.0] * 30 + [0.9] * 2 + [0.0] * 60)


def test_short_word_is_kept() -> None:
    """A short "two" of 0.2 s is an utterance."""
    assert 1 == len(run(Cutter(), [0.0] * 30 + [0.9] * frames(0.2) + [0.0] * 60))


def test_speech_at_the_end_is_flushed() -> None:
    """Speech that the recording breaks off is kept."""
    (piece,) = run(Cutter(), [0.0] * 30 + [0.9] * 30)
    assert piece.end_s == pytest.approx(60 * FRAME_S)


def test_endless_speech_never_grows() -> None:
    """Ten minutes without a pause are cut into pieces of at most 25 s; no frame is lost or doubled."""
    count = frames(600)
    pieces = run(Cutter(), [0.9] * count)
    assert max(len(piece.samples) for piece in pieces) <= 25 * SAMPLE_RATE_HZ
    joined = np.concatenate([piece.samples for piece in pieces])
    assert count * FRAME_SAMPLES == len(joined)
    assert bool(np.all(np.diff(joined) >= 0))


def test_long_speech_is_cut_at_the_quietest_place() -> None:
    """The cut falls where the probability dips, not at the limit."""
    dip = frames(20)
    pieces = run(Cutter(), [0.9] * dip + [0.4] + [0.9] * frames(15) + [0.0] * 60)
    assert pieces[0].end_s == pytest.approx((dip + 1) * FRAME_S)
    assert pieces[1].start_s == pytest.approx(pieces[0].end_s)


def test_pieces_do_not_overlap() -> None:
    """Pre-roll and post-roll of neighbours share no audio."""
    pieces = run(Cutter(), ([0.9] * 20 + [0.0] * frames(0.85)) * 20)
    assert 20 == len(pieces)
    assert all(one.end_s <= two.start_s + 1e-9 for one, two in pairwise(pieces))


def test_times_start_anew_after_flush() -> None:
    """After `flush` a new recording begins at 0."""
    cutter = Cutter(CutSettings())
    first = run(cutter, [0.9] * 30 + [0.0] * 40)
    second = run(cutter, [0.9] * 30 + [0.0] * 40)
    assert [piece.start_s for piece in first] == [piece.start_s for piece in second]


@pytest.mark.parametrize("block", [1, 100, 512, 513, 5000])
def test_frames_do_not_depend_on_blocks(block: int) -> None:
    """Any block size gives the same frames, the last one filled up with silence."""
    samples = np.arange(5000, dtype=np.float32)
    framer = Framer()
    got = [frame for at in range(0, 5000, block) for frame in framer.push(samples[at : at + block])]
    rest, total = framer.flush()
    assert 5000 == total
    assert np.array_equal(samples, np.concatenate([*got, *rest])[:5000])
    assert not np.concatenate([*got, *rest])[5000:].any()
