"""Which stretches of a recording were heard before: looked up, not searched for, however long the log."""

from __future__ import annotations

from bisect import bisect_left, insort
from collections import defaultdict

from saywright.record.events import Heard
from saywright.wiring.log import JobLog

SAME_S = 0.1  # utterances whose starts differ by less began together
TAIL_S = 0.5  # an utterance that ends this little after what was heard holds no further word

Span = tuple[float, float]  # start and end in seconds of the recording


class HeardSpans:
    """Follows the log; each event is read once."""

    def __init__(self, log: JobLog) -> None:
        """Nothing is read yet."""
        self._log = log
        self._read = 0  # events
        self._spans: dict[str, list[Span]] = defaultdict(list)  # by recording, sorted
        self._end_s: dict[str, float] = defaultdict(float)

    def end_s(self, key: str) -> float:
        """End of the last utterance heard in the recording *key*; 0 where there is none."""
        self._follow()
        return self._end_s[key]

    def has(self, key: str, span: Span) -> bool:
        """True where an utterance that began there was heard, and none of *span* lies after it.

        One that goes on past what was heard is new: another listener may cut elsewhere, and words
        kept twice do less harm than words lost.
        """
        self._follow()
        start_s, end_s = span
        spans = self._spans[key]
        at = bisect_left(spans, (start_s - SAME_S, 0.0))
        while at < len(spans) and spans[at][0] < start_s + SAME_S:
            if start_s - SAME_S < spans[at][0] and end_s < spans[at][1] + TAIL_S:
                return True
            at += 1
        return False

    def _follow(self) -> None:
        """Take in what was appended since, by whomever."""
        self._log.refresh()
        events = self._log.events
        while self._read < len(events):
            payload = events[self._read].payload
            if isinstance(payload, Heard) and payload.utterance.media is not None:
                key, span = payload.utterance.media, payload.utterance.span
                insort(self._spans[key], span)
                self._end_s[key] = max(self._end_s[key], span[1])
            self._read += 1
