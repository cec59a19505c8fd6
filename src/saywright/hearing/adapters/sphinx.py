"""PocketSphinx: needs no model folder, hears only words of the sheet. The last resort.

Its language model is trained on sample lines made from the sheet; its dictionary holds the
sheet's words, with a made pronunciation where the shipped one lacks a word. Utterances are cut
like Whisper's. A hypothesis weighs as the engine's path score, flattened, as raw path scores put
everything on one hypothesis. A word's confidence is its posterior in the engine's lattice.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from math import inf, log
from pathlib import Path
from tempfile import TemporaryDirectory
from types import MappingProxyType
from typing import Any

import numpy as np

from saywright.errors import ModelError
from saywright.hearing.adapters.cut import CutListener, always
from saywright.hearing.adapters.hypotheses import MAX_HYPOTHESES, Scored, build, spread, weigh
from saywright.hearing.audio import pcm16
from saywright.hearing.cutting import CutSettings, Piece
from saywright.hearing.listener import SAMPLE_RATE_HZ, Samples
from saywright.hearing.lm import arpa
from saywright.hearing.pronounce import pronounce
from saywright.hearing.words import Hypothesis, Word

_NO_SOUNDS: Mapping[str, str] = MappingProxyType({})
_FRAMES_PER_S = 100
_SCORE_SHIFT = 1024  # the engine's path scores are shifted right by 10 bits before they are told
_FLATTEN = 1 / 30  # of path scores when compared: half the usual, as words the sheet lacks make it too sure
_PATHS = 60  # looked through for five different word sequences
_CHANNEL = "en-us"
_PRIMER = (0.02 * np.sin(np.arange(SAMPLE_RATE_HZ // 4) ** 2 / 3e4)).astype(np.float32)  # a quiet rising tone


class SphinxListener(CutListener):
    """PocketSphinx with a language model from *lines* behind the `Listener` protocol."""

    def __init__(
        self,
        lines: Iterable[str],
        *,
        sounds: Mapping[str, str] = _NO_SOUNDS,
        name: str = "sphinx en-us",
        settings: CutSettings | None = None,
    ) -> None:
        """*sounds*: phones of words that the shop says in its own way."""
        super().__init__(settings)
        self.name = name
        lines = tuple(lines)
        if not lines:
            raise ModelError(
                "the sheet has no words to listen for", to_do="Give the sheet components with names"
            )
        words = sorted({word for line in lines for word in line.split()})
        self._decoder = _build(lines, words, sounds)

    def recognise(self, piece: Piece) -> tuple[Hypothesis, ...]:
        """Best first; empty where nothing was said."""
        self._decode(piece.samples)
        timed = self._timed(piece)
        scored = self._paths()
        if not timed or not scored:
            return ()
        weighed = weigh(scored)
        text = tuple(word.text for word in timed)
        best = (
            timed
            if text == weighed[0][0]
            else spread(weighed[0][0], piece.speech_start_s, piece.speech_end_s)
        )
        return build(weighed, best, piece.speech_start_s, piece.speech_end_s)

    def sketch(self, samples: Samples, wanted: Callable[[], bool] = always) -> str:
        """Words of an unfinished utterance."""
        if not wanted():
            return ""
        self._decode(samples)
        found = self._decoder.hyp()
        return found.hypstr if found is not None else ""

    def _decode(self, samples: Samples) -> None:
        """Decode one whole utterance, (n_samples,).

        The engine tracks noise from one utterance to the next, and starts scoring from where the
        one before left off. A new front end and a stretch of fixed sound before each make the
        same audio give the same scores, whatever came before.
        """
        self._decoder.reinit_feat()
        for stretch in (_PRIMER, samples):
            self._decoder.start_utt()
            self._decoder.process_raw(pcm16(stretch), no_search=False, full_utt=True)
            self._decoder.end_utt()

    def _timed(self, piece: Piece) -> tuple[Word, ...]:
        """The best path's words with their times; alternative pronunciations "(2)" are the same word."""
        found: list[Word] = []
        for segment in self._decoder.seg() or ():
            if segment.word.startswith(("<", "[", "+")):
                continue
            start_s = piece.start_s + segment.start_frame / _FRAMES_PER_S
            end_s = min(piece.end_s, piece.start_s + (segment.end_frame + 1) / _FRAMES_PER_S)
            found.append(
                Word(
                    text=segment.word.split("(")[0],
                    start_s=min(start_s, end_s),
                    end_s=end_s,
                    confidence=min(1.0, max(0.0, float(segment.prob))),
                )
            )
        return tuple(found)

    def _paths(self) -> list[Scored]:
        """Different word sequences with their path scores; the engine's own best is always among them."""
        best = self._decoder.hyp()
        if best is None or not best.hypstr.split():
            return []
        found: dict[tuple[str, ...], float] = {}
        for count, path in enumerate(self._decoder.nbest() or ()):
            if path is None or count >= _PATHS or len(found) >= MAX_HYPOTHESES:
                break
            words = tuple(path.hypstr.split()) if path.hypstr else ()
            if words and path.score > 0:
                found[words] = max(found.get(words, -inf), log(path.score) * _SCORE_SHIFT * _FLATTEN)
        found.setdefault(tuple(best.hypstr.split()), max(found.values(), default=0.0))
        return [Scored(words, score) for words, score in found.items()]


def read_dictionary(text: str) -> dict[str, tuple[str, ...]]:
    """A CMU dictionary file as word → its pronunciations."""
    found: dict[str, list[str]] = {}
    for line in text.splitlines():
        head, _, phones = line.partition(" ")
        found.setdefault(head.partition("(")[0], []).append(phones.strip())
    return {word: tuple(ways) for word, ways in found.items()}


def dictionary_text(
    words: Iterable[str], known: Mapping[str, tuple[str, ...]], sounds: Mapping[str, str] = _NO_SOUNDS
) -> str:
    """Dictionary lines for *words*, further pronunciations as "word(2)"; the shop's own *sounds* first."""
    lines: list[str] = []
    for word in words:
        ways = pronounce(word, known)
        if word in sounds:
            ways = (sounds[word], *(way for way in ways if word in known and way != sounds[word]))
        for number, phones in enumerate(ways, start=1):
            lines.append(f"{word if number == 1 else f'{word}({number})'} {phones}")
    return "\n".join(lines) + "\n"


def _build(lines: tuple[str, ...], words: list[str], sounds: Mapping[str, str]) -> Any:
    try:
        import pocketsphinx  # noqa: PLC0415  only when a listener is built
    except ImportError:
        raise ModelError("pocketsphinx is not installed", to_do="Run 'pip install pocketsphinx'") from None
    shipped = Path(pocketsphinx.get_model_path(_CHANNEL))
    acoustic, dictionary = shipped / "en-us", shipped / "cmudict-en-us.dict"
    if not dictionary.is_file() or not acoustic.is_dir():
        raise ModelError(
            "the pocketsphinx package has no English model",
            where=str(shipped),
            to_do="Run 'pip install --force-reinstall pocketsphinx'",
        )
    known = read_dictionary(dictionary.read_text(encoding="utf-8"))
    with TemporaryDirectory(prefix="saywright-") as folder:
        lm, pronounced = Path(folder) / "sheet.arpa", Path(folder) / "sheet.dict"
        lm.write_text(arpa(lines), encoding="utf-8")
        pronounced.write_text(dictionary_text(words, known, sounds), encoding="utf-8")
        try:
            return pocketsphinx.Decoder(
                hmm=str(acoustic),
                lm=str(lm),
                dict=str(pronounced),
                cmn="batch",
                bestpath=True,
                loglevel="FATAL",
            )
        except Exception as error:  # the library raises RuntimeError and ValueError without text
            raise ModelError(f"pocketsphinx cannot be started ({error or type(error).__name__})") from None
