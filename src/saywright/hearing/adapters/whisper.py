"""Whisper through CTranslate2: one utterance at a time, from a local folder only.

The model is called directly: one encoding serves the test whether anything was said, the
beam search and the word times. Why the settings are what they are (measured on readings):

- prompt in number words, tokens with digits suppressed: numbers come out as the words said;
- temperature 0, beam 5, five hypotheses kept: repeatable, and doubt travels on as data;
- a window of 15 s where the utterance has at most 12 s, else 30 s: a third of the work, as exact.

Probability of a hypothesis: CTranslate2 gives log-probability divided by the number of tokens
(length penalty 1). It is multiplied by the geometric mean of the hypothesis's own length and that
of the one the search put first: for equal lengths that is the product of the token probabilities,
and one that stops early does not win by being short. Multiplied by its own length only, "float
height" beat a sentence of 30 words that was right. Weights are scaled to sum 1 over the hypotheses
kept, equal texts merged.
Word times come from the cross-attention (`align`) of the best hypothesis. The engine's word
probabilities ignore the prompt and are far too low for spelled-out numbers: confidence is None.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from math import sqrt
from pathlib import Path
from typing import Any

import numpy as np

from saywright.errors import ModelError
from saywright.hearing.adapters.cut import CutListener, always
from saywright.hearing.adapters.hypotheses import (
    Scored,
    build,
    collapse,
    echoes,
    mix,
    spread,
    tame,
    too_fast,
    weigh,
)
from saywright.hearing.adapters.whisper_files import check_folder
from saywright.hearing.cutting import CutSettings, Piece
from saywright.hearing.listener import SAMPLE_RATE_HZ, Samples
from saywright.hearing.vocabulary import words_of
from saywright.hearing.words import Hypothesis, Word

_FRAMES_PER_S = 100  # of the spectrogram
_SHORT_WINDOW_S = 15
_LONG_WINDOW_S = 30
_SHORT_UP_TO_S = 12.0
_MAX_PROMPT_TOKENS = 223  # half of the model's context, less the marker before it
_MAX_TOKENS = 448
_TOKENS_PER_S = 12  # more cannot have been said; ends a decoder that loops
_ATTENTION_FRAME_S = 0.02

Weighed = list[tuple[tuple[str, ...], float]]


class WhisperListener(CutListener):
    """A CTranslate2 Whisper folder behind the `Listener` protocol."""

    def __init__(
        self,
        folder: Path,
        *,
        prompt: str = "",
        language: str = "en",
        threads: int = 2,
        name: str | None = None,
        settings: CutSettings | None = None,
    ) -> None:
        check_folder(folder)
        super().__init__(settings)
        self.name = name or f"whisper {folder.name}"
        self._engine = _Engine(folder, language, threads)
        self.at_once = self._engine.at_once
        self.set_prompt(prompt)

    def set_prompt(self, prompt: str) -> None:
        """Example readings in number words for what is said next; "" for none."""
        self._prompt = self._engine.prompt_tokens(prompt)
        self._sentences = [words_of(sentence) for sentence in prompt.split(".") if sentence.strip()]

    def recognise(self, piece: Piece) -> tuple[Hypothesis, ...]:
        """Best first; empty where nothing was said."""
        encoded = self._engine.encode(piece.samples)
        length_s = len(piece.samples) / SAMPLE_RATE_HZ
        speech_s = piece.speech_end_s - piece.speech_start_s
        scored = self._engine.decode_speech(encoded, self._prompt, length_s)
        if scored is None:
            return ()
        weighed = weigh(scored)
        if weighed and self._doubtful(weighed[0][0], speech_s):
            weighed = self._without_prompt(encoded, weighed, length_s, speech_s)
        weighed = [one for one in tame(weighed, speech_s) if one[0]]
        if not weighed:
            return ()
        total = sum(probability for _, probability in weighed)
        weighed = [(words, probability / total) for words, probability in weighed]
        best = self._engine.times(encoded, weighed[0][0], piece)
        return build(weighed, best, piece.speech_start_s, piece.speech_end_s)

    def sketch(self, samples: Samples, wanted: Callable[[], bool] = always) -> str:
        """Words of an unfinished utterance: one greedy decoding, which may come out empty."""
        encoded = self._engine.encode(samples)
        if not wanted():
            return ""
        found = self._engine.decode(encoded, self._prompt, len(samples) / SAMPLE_RATE_HZ, beam=1, blank=True)
        return " ".join(found[0].words) if found else ""

    def _doubtful(self, words: tuple[str, ...], speech_s: float) -> bool:
        return too_fast(words, speech_s) or collapse(words) != words or echoes(words, self._sentences)

    def _without_prompt(self, encoded: Any, first: Weighed, length_s: float, speech_s: float) -> Weighed:
        """A second hearing that no prompt put words into, mixed with the first where that was sayable."""
        second = weigh(self._engine.decode(encoded, self._engine.prompt_tokens(""), length_s))
        if not second:
            return first
        sayable = not too_fast(first[0][0], speech_s)
        return mix(first, second, 0.5 if sayable else 0.0)


class _Engine:
    """The foreign libraries: everything in tokens and encodings stays in here."""

    def __init__(self, folder: Path, language: str, threads: int) -> None:
        import ctranslate2  # noqa: PLC0415  only when a listener is built
        import tokenizers  # noqa: PLC0415
        from faster_whisper.feature_extractor import FeatureExtractor  # noqa: PLC0415

        try:
            # Two decodings at a time with half the threads each: faster than one with all of them.
            self.at_once = min(2, max(1, threads))
            self._model = ctranslate2.models.Whisper(
                str(folder),
                device="cpu",
                compute_type="int8",
                inter_threads=self.at_once,
                intra_threads=max(1, threads // self.at_once),
            )
            self._tokens = tokenizers.Tokenizer.from_file(str(folder / "tokenizer.json"))
        except Exception as error:  # RuntimeError, and tokenizers raises bare Exception
            text = str(error).strip().splitlines()
            raise ModelError(
                f"the Whisper weights cannot be loaded ({text[0] if text else type(error).__name__})",
                where=str(folder),
                to_do="Get the model again; the folder is damaged",
            ) from None
        self._beside = ThreadPoolExecutor(1, thread_name_prefix="blank")
        self._storage = ctranslate2.StorageView
        self._features = FeatureExtractor(feature_size=int(self._model.n_mels))
        self._end = self._id("<|endoftext|>")
        self._start = [self._id("<|startoftranscript|>")]
        if self._model.is_multilingual:
            self._start += [self._id(f"<|{language}|>"), self._id("<|transcribe|>")]
        elif not language.startswith("en"):
            raise ModelError(
                f"these Whisper weights hear English only, not '{language}'",
                where=str(folder),
                to_do="Name a multilingual Whisper folder",
            )
        self._no_times = self._id("<|notimestamps|>")
        self._suppressed = [-1, *self._digit_tokens()]

    def _id(self, token: str) -> int:
        found = self._tokens.token_to_id(token)
        if found is None:
            raise ModelError(
                f"the tokenizer does not know {token}", to_do="Get the model again; it is not Whisper's"
            )
        return int(found)

    def _digit_tokens(self) -> list[int]:
        """Every text token with a numeral or a sign that goes with one; Chinese numerals are letters."""

        def numeral(character: str) -> bool:
            return unicodedata.category(character) in ("Nd", "Nl", "No") or character in "%$£€"

        return [token for token in range(self._end) if any(map(numeral, self._tokens.decode([token])))]

    def prompt_tokens(self, text: str) -> list[int]:
        """The tokens that decoding starts from; of a prompt that is too long the end is kept."""
        begin = [*self._start, self._no_times]
        if not text.strip():
            return begin
        previous = self._tokens.encode(" " + text.strip(), add_special_tokens=False).ids
        return [self._id("<|startofprev|>"), *previous[-_MAX_PROMPT_TOKENS:], *begin]

    def encode(self, samples: Samples) -> Any:
        """The encoder's output for one utterance, (n_samples,) of at most 30 s."""
        short = len(samples) <= _SHORT_UP_TO_S * SAMPLE_RATE_HZ
        window_s = _SHORT_WINDOW_S if short else _LONG_WINDOW_S
        filled = np.zeros(window_s * SAMPLE_RATE_HZ, dtype=np.float32)
        filled[: len(samples)] = samples[: len(filled)]
        # Silence is added to the sound, not zeros to its spectrum: measured a little more exact.
        spectrum = self._features(filled)[:, : window_s * _FRAMES_PER_S].astype(np.float32)
        return self._model.encode(self._storage.from_array(np.ascontiguousarray(spectrum[None])), to_cpu=True)

    def is_blank(self, encoded: Any, prompt: list[int]) -> bool:
        """True where the likeliest first token is the end: nothing was said. Beam search cannot tell."""
        first = self._model.generate(
            encoded,
            [prompt],
            beam_size=1,
            suppress_blank=False,
            suppress_tokens=self._suppressed,
            max_length=len(prompt) + 2,
        )[0]
        return not words_of(self._tokens.decode([t for t in first.sequences_ids[0] if t < self._end]))

    def decode_speech(self, encoded: Any, prompt: list[int], length_s: float) -> list[Scored] | None:
        """`decode`, and None where `is_blank`; both at once where there are threads for it."""
        if self.at_once == 1:
            return None if self.is_blank(encoded, prompt) else self.decode(encoded, prompt, length_s)
        blank = self._beside.submit(self.is_blank, encoded, prompt)
        scored = self.decode(encoded, prompt, length_s)
        return None if blank.result() else scored

    def decode(
        self, encoded: Any, prompt: list[int], length_s: float, beam: int = 5, *, blank: bool = False
    ) -> list[Scored]:
        """What may have been said, in words with log-probabilities."""
        room = min(_MAX_TOKENS, len(prompt) + int(24 + _TOKENS_PER_S * length_s))
        result = self._model.generate(
            encoded,
            [prompt],
            beam_size=beam,
            num_hypotheses=beam,
            return_scores=True,
            suppress_blank=not blank,
            suppress_tokens=self._suppressed,
            max_length=room,
        )[0]
        found: list[Scored] = []
        for ids, score in zip(result.sequences_ids, result.scores, strict=True):
            text = self._tokens.decode([token for token in ids if token < self._end])
            if np.isfinite(score):
                lengths = max(1, len(ids)) * max(1, len(result.sequences_ids[0]))
                found.append(Scored(tuple(words_of(text)), float(score) * sqrt(lengths)))
        return found

    def times(self, encoded: Any, words: tuple[str, ...], piece: Piece) -> tuple[Word, ...]:
        """When each word was said, by the cross-attention; spread over the speech where it tells nothing."""
        groups = [self._tokens.encode(" " + word, add_special_tokens=False).ids for word in words]
        tokens = [token for group in groups for token in group]
        frames = int(len(piece.samples) / SAMPLE_RATE_HZ * _FRAMES_PER_S)
        aligned = self._model.align(encoded, self._start, [tokens], max(2, frames))[0].alignments
        first_frame: dict[int, int] = {}
        for token, frame in aligned:
            first_frame.setdefault(token, frame)
        if len(tokens) not in first_frame:
            first_frame[len(tokens)] = max((frame for _, frame in aligned), default=0) + 1
        edges, at = [], 0
        for group in [*groups, []]:
            if at not in first_frame:
                return spread(words, piece.speech_start_s, piece.speech_end_s)
            edges.append(piece.start_s + first_frame[at] * _ATTENTION_FRAME_S)
            at += len(group)
        edges[0] = max(edges[0], piece.speech_start_s)
        edges = [min(max(edge, edges[0]), piece.end_s) for edge in edges]
        return tuple(Word(text=word, start_s=edges[i], end_s=edges[i + 1]) for i, word in enumerate(words))
