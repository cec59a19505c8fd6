"""Vosk: streaming, any model folder, with or without a grammar from the sheet's vocabulary.

What it does with the engine, and why:

- Audio goes in blocks of 0.1 s whatever is fed, as the engine looks for the end of an
  utterance once a block: so the same audio gives the same words.
- The engine adds noise of the last bit's size to the sound, from the C library's random
  numbers. They are seeded anew before each block, so that the same audio gives the same words.
- With alternatives switched on the engine drops word confidences and gives likelihoods that
  are no probabilities. They are turned into probabilities by a softmax; a word's confidence is
  the share of the alternatives that hold it at about the same time.
- Words of a grammar that the model does not know would be dropped with a line in a log:
  each is looked up first and those missing are kept in `missing_words`.
- The symbol for "some other word" stays in the hypothesis as the word "[unk]" with
  confidence 0: leaving it out would turn "eighteen [unk] four" into "eighteen four".
- An utterance in which the voice detector heard nothing is dropped: some models read
  silence as a word.

Grammar mode puts speech that is not in the grammar into grammar words with high confidence
(measured on one model), so it is off unless asked for.
"""

from __future__ import annotations

import ctypes
import json
import os
from collections.abc import Callable, Iterable, Sequence
from math import exp
from pathlib import Path
from typing import Any

import numpy as np

from saywright.errors import ModelError
from saywright.hearing.adapters.silero import SpeechDetector
from saywright.hearing.adapters.streaming import StreamFollower
from saywright.hearing.audio import pcm16
from saywright.hearing.cutting import FRAME_S, Framer
from saywright.hearing.listener import SAMPLE_RATE_HZ, Samples
from saywright.hearing.vocabulary import words_of
from saywright.hearing.words import Hypothesis, Utterance, Word

UNKNOWN = "[unk]"
_BLOCK_SAMPLES = SAMPLE_RATE_HZ // 10
_ALTERNATIVES = 5
_MARGIN_S = 0.3  # around the words, so that a clip of the utterance holds them whole
_SAME_WORD_S = 0.15  # two alternatives' words this close are one word
_MIN_SPEECH_S = 0.09


def is_vosk_folder(folder: Path) -> bool:
    """True where *folder* looks like a Vosk model."""
    acoustic = (folder / "am" / "final.mdl").is_file() or (folder / "final.mdl").is_file()
    return acoustic and ((folder / "graph").is_dir() or any(folder.glob("*.fst")))


class VoskListener:
    """A Vosk model folder behind the `Listener` protocol."""

    def __init__(self, folder: Path, *, grammar: Iterable[str] = (), name: str | None = None) -> None:
        if not is_vosk_folder(folder):
            raise ModelError(
                "no Vosk model in this folder",
                where=str(folder),
                to_do="Run 'saywright models list' to see which models there are",
            )
        self.name = name or f"vosk {folder.name}"
        self._model, self._recogniser_class = _load(folder)
        self.missing_words: tuple[str, ...] = ()
        self._grammar = self._fitting(grammar) if _has_runtime_graph(folder) else []
        self._detector = SpeechDetector()
        self._framer = Framer()
        self._speech: list[bool] = []  # one a frame, from the end of the last utterance on
        self._speech_from = 0  # number of the first of them
        self._waiting: Samples = np.zeros(0, dtype=np.float32)
        self._fed = 0  # samples
        self._blocks = 0
        self._last_end_s = 0.0
        self._begin()

    @property
    def grammar(self) -> tuple[str, ...]:
        """The phrases in force; empty where any word may be heard."""
        return tuple(self._grammar)

    def feed(self, samples: Samples) -> list[Utterance]:
        """Take the next stretch of audio, any length; the utterances that ended in it."""
        self._fed += len(samples)
        self._detect(self._framer.push(samples))
        self._waiting = np.concatenate([self._waiting, np.asarray(samples, dtype=np.float32)])
        found: list[Utterance] = []
        while len(self._waiting) >= _BLOCK_SAMPLES:
            block, self._waiting = self._waiting[:_BLOCK_SAMPLES], self._waiting[_BLOCK_SAMPLES:]
            found += self._accept(block)
        return found

    def partial(self) -> str:
        """Words so far, as the engine gives them."""
        heard = json.loads(self._engine.PartialResult()).get("partial", "")
        return " ".join(_words(str(heard)))

    def finish(self) -> list[Utterance]:
        """The utterance still open; afterwards a new recording begins."""
        found = self._accept(self._waiting) if len(self._waiting) else []
        self._detect(self._framer.flush()[0])
        found += self._taken(self._engine.FinalResult())  # empty after an endpoint
        self._begin()
        return found

    def follow(self, _wake: Callable[[], None]) -> StreamFollower:
        """A new recording, live. One at a time, and not while `feed` is used."""
        return StreamFollower(self)

    @property
    def silent_s(self) -> float:
        """How long the detector has heard no speech."""
        return self._silent * FRAME_S

    def end_now(self) -> list[Utterance]:
        """End the open utterance here, where the engine would still wait for more."""
        return self._taken(self._engine.FinalResult())

    def _begin(self) -> None:
        options = [json.dumps(self._grammar, ensure_ascii=False)] if self._grammar else []
        self._engine = self._recogniser_class(self._model, float(SAMPLE_RATE_HZ), *options)
        self._engine.SetWords(True)
        self._engine.SetMaxAlternatives(_ALTERNATIVES)
        self._detector.reset()
        self._framer = Framer()
        self._speech, self._speech_from, self._silent = [], 0, 0
        self._waiting = np.zeros(0, dtype=np.float32)
        self._fed, self._blocks, self._last_end_s = 0, 0, 0.0

    def _detect(self, frames: Iterable[Samples]) -> None:
        for frame in frames:
            self._speech.append(self._detector.probability(frame) >= 0.5)
            self._silent = 0 if self._speech[-1] else self._silent + 1

    def _accept(self, block: Samples) -> list[Utterance]:
        self._blocks += 1
        _seed(self._blocks)
        return self._taken(self._engine.Result()) if self._engine.AcceptWaveform(pcm16(block)) else []

    def _taken(self, result: str) -> list[Utterance]:
        hypotheses = hypotheses_of(json.loads(result))
        if not hypotheses:
            return []
        total_s = self._fed / SAMPLE_RATE_HZ
        timed = [word for one in hypotheses for word in one.words]
        start_s = max(self._last_end_s, min(word.start_s or 0.0 for word in timed) - _MARGIN_S)
        end_s = min(total_s, max(word.end_s or 0.0 for word in timed) + _MARGIN_S)
        end_s = max(start_s, end_s)
        if self._speech_between(start_s, end_s) < _MIN_SPEECH_S:
            return []
        self._last_end_s = end_s
        held = tuple(
            one.model_copy(update={"words": _inside(one.words, start_s, end_s)}) for one in hypotheses
        )
        return [Utterance(hypotheses=held, start_s=start_s, end_s=end_s, listener=self.name)]

    def _speech_between(self, start_s: float, end_s: float) -> float:
        """Seconds of speech the detector heard; what lies before is forgotten, so that hours need no room."""
        first = max(0, int(start_s / FRAME_S) - self._speech_from)
        last = max(first, int(end_s / FRAME_S) + 1 - self._speech_from)
        heard = sum(self._speech[first:last])
        del self._speech[:first]
        self._speech_from += first
        return heard * FRAME_S

    def _fitting(self, phrases: Iterable[str]) -> list[str]:
        """The phrases with the words that the model knows, and its symbol for all others."""
        missing: dict[str, None] = {}
        kept: dict[str, None] = {}
        for phrase in phrases:
            known = []
            for word in phrase.split():
                if self._model.vosk_model_find_word(word) >= 0:
                    known.append(word)
                else:
                    missing[word] = None
            if known:
                kept[" ".join(known)] = None
        self.missing_words = tuple(missing)
        if not kept:
            return []
        symbols = [
            symbol for symbol in (UNKNOWN, "<UNK>", "<unk>") if self._model.vosk_model_find_word(symbol) >= 0
        ]
        return [*kept, *symbols[:1]]


def hypotheses_of(result: dict[str, Any]) -> tuple[Hypothesis, ...]:
    """An engine's result, best first, at most five, probabilities that sum to 1; empty for no words."""
    given = [
        (_timed(one.get("result", [])), float(one.get("confidence", 0.0)))
        for one in result.get("alternatives", [])
    ]
    given = [(words, likelihood) for words, likelihood in given if words]
    if not given:
        return ()
    top = max(likelihood for _, likelihood in given)
    weights: dict[tuple[str, ...], float] = {}
    timed: dict[tuple[str, ...], tuple[Word, ...]] = {}
    for words, likelihood in given:
        text = tuple(word.text for word in words)
        weights[text] = weights.get(text, 0.0) + exp(likelihood - top)
        timed.setdefault(text, words)
    best = sorted(weights, key=lambda text: -weights[text])[:_ALTERNATIVES]
    total = sum(weights[text] for text in best)
    shares = [(timed[text], weights[text] / total) for text in best]
    return tuple(
        Hypothesis(words=_with_confidence(words, shares), probability=min(1.0, share))
        for words, share in shares
    )


def _with_confidence(
    words: Sequence[Word], shares: Sequence[tuple[Sequence[Word], float]]
) -> tuple[Word, ...]:
    def near(one: Word, other: Word) -> bool:
        return one.text == other.text and abs((one.start_s or 0.0) - (other.start_s or 0.0)) <= _SAME_WORD_S

    return tuple(
        word.model_copy(
            update={
                "confidence": 0.0
                if word.text == UNKNOWN
                else min(
                    1.0, sum(share for others, share in shares if any(near(word, other) for other in others))
                )
            }
        )
        for word in words
    )


def _timed(result: Iterable[dict[str, Any]]) -> tuple[Word, ...]:
    found: list[Word] = []
    for entry in result:
        parts = _words(str(entry["word"]))
        start_s, end_s = float(entry["start"]), float(entry["end"])
        step = (end_s - start_s) / max(1, len(parts))
        found += [
            Word(text=part, start_s=start_s + i * step, end_s=start_s + (i + 1) * step)
            for i, part in enumerate(parts)
        ]
    return tuple(found)


def _words(text: str) -> list[str]:
    found: list[str] = []
    for token in text.split():
        found += [UNKNOWN] if token.lower() in ("[unk]", "<unk>") else words_of(token)
    return found


def _inside(words: Sequence[Word], start_s: float, end_s: float) -> tuple[Word, ...]:
    def held(time_s: float | None) -> float:
        return min(max(time_s or 0.0, start_s), end_s)

    return tuple(
        word.model_copy(update={"start_s": held(word.start_s), "end_s": held(word.end_s)}) for word in words
    )


def _seed(number: int) -> None:
    """Seed the C library's random numbers where it can be reached by name (not on Windows)."""
    if os.name == "posix":
        ctypes.CDLL(None).srand(number)


def _has_runtime_graph(folder: Path) -> bool:
    """Only models with a look-ahead graph take a grammar; the others would log a line and go on without."""
    return any((place / "HCLr.fst").is_file() for place in (folder / "graph", folder))


def _load(folder: Path) -> tuple[Any, Any]:
    try:
        import vosk  # noqa: PLC0415  only when a listener is built
    except (ImportError, OSError) as error:
        raise ModelError(f"vosk cannot be loaded ({error})", to_do="Run 'pip install vosk'") from None
    vosk.SetLogLevel(-1)
    try:
        return vosk.Model(str(folder)), vosk.KaldiRecognizer
    except Exception as error:  # the library raises bare Exception
        raise ModelError(
            f"the Vosk model cannot be loaded ({error})",
            where=str(folder),
            to_do="Get the model again; the folder is damaged",
        ) from None
