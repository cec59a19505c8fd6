"""Whisper: words of made speech, human speech, prompts and doubts."""

import socket
from typing import Any

import numpy as np
import pytest

from hearing_support import PAUSE, SHEET, human_prompt, recording, speech, sphinx_sample
from saywright.errors import ModelError
from saywright.hearing.adapters.whisper import WhisperListener
from saywright.hearing.adapters.whisper_files import wheel_folder
from saywright.hearing.listener import SAMPLE_RATE_HZ, Samples
from saywright.hearing.vocabulary import prompt

FOLDER = wheel_folder()
assert FOLDER is not None
pytestmark = pytest.mark.slow


@pytest.fixture(scope="module")
def listener() -> WhisperListener:
    """The pinned weights with the prompt of the tests' sheet."""
    assert FOLDER is not None
    return WhisperListener(FOLDER, prompt=prompt(SHEET))


def texts(listener: WhisperListener, audio: Samples) -> list[str]:
    """The best text of each utterance."""
    return [one.best.text for one in listener.feed(audio) + listener.finish()]


def test_readings_come_in_number_words(listener: WhisperListener) -> None:
    """Made speech of readings is heard word for word, in words, never in figures."""
    said = [
        "main jet one twenty eight",
        "float height eighteen point four two millimeters",
        "air screw two and a quarter turns out",
    ]
    assert said == texts(listener, recording(*said, voice="en-us"))


def test_no_hypothesis_holds_a_digit(listener: WhisperListener) -> None:
    """Digits are suppressed in every hypothesis, with a prompt and without."""
    audio = recording("two six seven", "four three point six four", "nineteen ninety nine", voice="en-gb")
    for text in (prompt(SHEET), ""):
        listener.set_prompt(text)
        heard = listener.feed(audio) + listener.finish()
        assert 3 == len(heard)
        assert not any(mark.isdigit() for one in heard for way in one.hypotheses for mark in way.text)
    listener.set_prompt(prompt(SHEET))


def test_word_times_follow_the_speech(listener: WhisperListener) -> None:
    """Words said apart have their times apart."""
    first, second, gap = speech("float height"), speech("eighteen point four"), PAUSE[:4800]
    (one,) = listener.feed(np.concatenate([PAUSE, first, gap, second, PAUSE])) + listener.finish()
    (eighteen,) = [word for word in one.best.words if word.text == "eighteen"]
    begins_s = (len(PAUSE) + len(first) + len(gap)) / SAMPLE_RATE_HZ
    assert eighteen.end_s is not None
    assert begins_s < eighteen.end_s < begins_s + 0.9


def test_long_utterance_is_heard_to_its_end(listener: WhisperListener) -> None:
    """Thirteen seconds without a pause take the long window and keep their last words."""
    said = (
        "float height is eighteen point four two and the main jet is a one twenty eight then the "
        "air screw was two and a quarter turns out and the left reed is clean but the right reed is "
        "chewed up so replace it"
    )
    (one,) = listener.feed(recording(said, voice="en-gb")) + listener.finish()
    assert (one.end_s or 0) - (one.start_s or 0) > 12
    for words in (
        "eighteen point four two",
        "one twenty eight",
        "two and a quarter turns out",
        "so replace it",
    ):
        assert words in one.best.text


def test_the_short_way_out_does_not_win(listener: WhisperListener) -> None:
    """A hypothesis that stops early is not best because it has fewer tokens to pay for."""
    said = "float height is eighteen point four two " * 5
    (one,) = listener.feed(recording(said, voice="en-gb")) + listener.finish()
    assert "eighteen point four two" in one.best.text


def test_an_echo_of_the_prompt_is_heard_again_without_it(
    listener: WhisperListener, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where a whole sentence of the prompt comes back, a second hearing without prompt has half the say."""
    asked: list[int] = []
    decode = listener._engine.decode

    def noted(encoded: Any, tokens: list[int], length_s: float, beam: int = 5) -> Any:
        asked.append(len(tokens))
        return decode(encoded, tokens, length_s, beam)

    monkeypatch.setattr(listener._engine, "decode", noted)
    listener.set_prompt("main jet one twenty eight. float height twenty point five.")
    heard = texts(listener, recording("main jet one twenty eight", "air screw one turn out", voice="en-gb"))
    listener.set_prompt(prompt(SHEET))
    assert "main jet one twenty eight" == heard[0]
    assert 3 == len(asked)
    assert asked[1] < asked[0]


def test_never_the_network(monkeypatch: pytest.MonkeyPatch) -> None:
    """Building and hearing open no connection."""

    def refuse(*_: Any, **__: Any) -> None:
        raise AssertionError("a connection was tried")

    monkeypatch.setattr(socket.socket, "connect", refuse)
    monkeypatch.setattr(socket, "getaddrinfo", refuse)
    assert FOLDER is not None
    assert 1 == len(texts(WhisperListener(FOLDER), recording("main jet one twenty eight")))


def test_english_weights_refuse_other_languages() -> None:
    """English-only weights do not pretend to hear Korean."""
    assert FOLDER is not None
    with pytest.raises(ModelError, match="these Whisper weights hear English only, not 'ko'"):
        WhisperListener(FOLDER, language="ko")


def test_human_digits(listener: WhisperListener) -> None:
    """One US speaker's prompts, joined with gaps: most strings come out exactly.

    Recordings: Debian package asterisk-core-sounds-en-wav 1.6.1-1, 8 kHz. Joined prompts are
    no fair stand-in for fluent speech.
    """
    names = ["zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine"]
    strings = [[names[(3 * i + k * k) % 10] for k in range(4)] for i in range(10)]
    gap = PAUSE[:1600]
    exact = 0
    for string in strings:
        parts = [np.concatenate([human_prompt(f"digits/{names.index(name)}"), gap]) for name in string]
        exact += [" ".join(string)] == texts(listener, np.concatenate([PAUSE, *parts, PAUSE]))
    assert exact >= 7


def test_human_sentences(listener: WhisperListener) -> None:
    """TIDIGITS item dhd.2934z of Debian pocketsphinx-testdata, transcript "two nine three four zero"."""
    (heard,) = texts(listener, np.concatenate([PAUSE, sphinx_sample("tidigits/dhd.2934z.raw"), PAUSE]))
    assert "two nine three four zero" == heard
