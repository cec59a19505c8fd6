"""What a listener gives: words with times, several hypotheses each with its probability."""

from __future__ import annotations

from pydantic import BaseModel, ConfigDict, Field

DATA_KEY = "data key"  # the listener's name of what an instrument sent, digit for digit


class _Frozen(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid")


class Word(_Frozen):
    """One word as heard, lower case, without punctuation; typed, with the comma between two numbers."""

    text: str
    start_s: float | None = None  # from the start of the recording; None where not known (typed text)
    end_s: float | None = None
    confidence: float | None = Field(default=None, ge=0, le=1)  # None where the engine has none


class Hypothesis(_Frozen):
    """One way in which the utterance may be heard."""

    words: tuple[Word, ...]
    probability: float = Field(ge=0, le=1)  # share among the hypotheses kept; they sum to 1

    @property
    def text(self) -> str:
        """The words, separated by one space."""
        return " ".join(word.text for word in self.words)


class Utterance(_Frozen):
    """A stretch of speech between two pauses."""

    hypotheses: tuple[Hypothesis, ...] = Field(min_length=1, max_length=5)  # best first
    start_s: float | None = None  # from the start of the recording
    end_s: float | None = None
    listener: str = "scripted"  # engine and model, as told to the user
    line: int | None = None  # line of the text file, from 1; None for audio
    media: str | None = None  # sha256 of the recording it was heard in; None for typed text

    @property
    def best(self) -> Hypothesis:
        """The hypothesis the listener holds most probable."""
        return self.hypotheses[0]

    @property
    def span(self) -> tuple[float, float]:
        """Start and end in seconds of the recording; a start that is not known is 0, an end the start."""
        start_s = self.start_s or 0.0
        return start_s, start_s if self.end_s is None else self.end_s


def typed(text: str, *, start_s: float | None = None, line: int | None = None) -> Utterance:
    """An utterance of known words: one hypothesis with probability 1."""
    words = [{"text": token} for token in text.split()]
    said = {"hypotheses": ({"words": words, "probability": 1.0},), "start_s": start_s, "line": line}
    return Utterance.model_validate(said)  # in one go: a call for each word takes three times as long
