"""A text file in place of a voice: one utterance a line, each with an optional start time.

    # a comment
    [04:12.6] float height is eighteen point four two
    main jet one twenty eight

Line numbers count every line, so that a statement can be traced to its line.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from pathlib import Path

from saywright.errors import TextError
from saywright.hearing.commas import with_commas
from saywright.hearing.listener import SAMPLE_RATE_HZ, Samples
from saywright.hearing.words import Utterance, typed

_TIME = re.compile(r"\[\s*(?:(?:(\d+):)?(\d{1,3}):)?(\d+(?:\.\d+)?)\s*\]\s*(.*)")
_TOKEN = re.compile(
    r"(?:(?<!\S)[+\-−])?(?<!\w)\d+(?:[.,/:]\d+)*|[^\W\d_][^\W_]*(?:'[^\W_]+)*|[^\W_]+|%|°|[,;](?=\s)"
)
_SIGNS = {"%": "percent", "°": "degrees"}
_TO_DO = "Give a UTF-8 text file with one utterance a line"


def read_script(path: Path) -> tuple[Utterance, ...]:
    """The utterances of the text file at *path*; TextError where it is no text."""
    try:
        data = path.read_bytes()
    except OSError as error:
        raise TextError(f"cannot be read ({error.strerror})", where=str(path), to_do=_TO_DO) from None
    return parse_script(decode(data, where=str(path)), where=str(path))


def decode(data: bytes, *, where: str = "") -> str:
    """UTF-8 (or UTF-16 with its mark) bytes as text; TextError for anything else."""
    utf16 = data.startswith((b"\xff\xfe", b"\xfe\xff"))
    try:
        return data.decode("utf-16" if utf16 else "utf-8-sig")
    except UnicodeDecodeError as error:
        line = data[: error.start].count(b"\n") + 1
        raise TextError(f"not readable as text (line {line})", where=where, to_do=_TO_DO) from None


def parse_script(text: str, *, where: str = "") -> tuple[Utterance, ...]:
    """One utterance for each line that has words; TextError where control characters show it is no text."""
    found: list[Utterance] = []
    for number, line in enumerate(text.splitlines(), start=1):
        if any(ord(mark) < 32 and mark != "\t" for mark in line):
            raise TextError(f"not a text file (line {number})", where=where, to_do=_TO_DO)
        stripped = line.strip()
        if not stripped or stripped.startswith("#"):
            continue
        start_s, said = _split_time(stripped)
        words = script_words(said)
        if words:
            found.append(typed(" ".join(words), start_s=start_s, line=number))
    return tuple(found)


def script_words(text: str) -> list[str]:
    """Typed words as a listener would give them: lower case, figures stay whole ("18.42").

    No punctuation, but for the comma between two numbers.
    """
    lowered = text.lower().replace("’", "'").replace("&", " and ")
    return with_commas([_SIGNS.get(token, token) for token in _TOKEN.findall(lowered)])


def _split_time(line: str) -> tuple[float | None, str]:
    match = _TIME.match(line)
    if match is None:
        return None, line
    hours, minutes, seconds, said = match.groups()
    return int(hours or 0) * 3600 + int(minutes or 0) * 60 + float(seconds), said


class ScriptedListener:
    """Gives known utterances as the audio passes their start times; for tests and rehearsals."""

    def __init__(self, utterances: Iterable[Utterance], *, name: str = "scripted") -> None:
        self.name = name
        self._all = tuple(utterances)
        self._next = 0
        self._samples = 0

    def feed(self, samples: Samples) -> list[Utterance]:
        """The utterances whose start has been passed; one without a time follows the one before."""
        self._samples += len(samples)
        now_s = self._samples / SAMPLE_RATE_HZ
        found: list[Utterance] = []
        while self._next < len(self._all) and (self._all[self._next].start_s or 0.0) < now_s:
            found.append(self._give())
        return found

    def partial(self) -> str:
        """Always "": a script has no half-heard words."""
        return ""

    def finish(self) -> list[Utterance]:
        """All that is left, whatever its time; afterwards the script begins anew."""
        found = [self._give() for _ in range(len(self._all) - self._next)]
        self._next, self._samples = 0, 0
        return found

    def _give(self) -> Utterance:
        utterance = self._all[self._next]
        self._next += 1
        return utterance.model_copy(update={"listener": self.name})
