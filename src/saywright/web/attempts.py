"""Failed tries → how long to wait before the next: each one more doubles the wait. Time comes in as data."""

from __future__ import annotations

import threading
from collections import OrderedDict
from collections.abc import Sequence
from dataclasses import dataclass, field

MAX_KEYS = 10_000  # names and addresses remembered; the one unused longest is forgotten first


@dataclass(frozen=True)
class Patience:
    """How failures are met."""

    free: int  # tries before there is any wait
    longest_s: float  # no wait is longer
    forget_s: float  # after this long without a failure all is forgotten


@dataclass
class _Tries:
    failed: int = 0
    last_s: float = 0.0


@dataclass
class Attempts:
    """Tries by name and by address."""

    _tries: OrderedDict[tuple[str, str], _Tries] = field(default_factory=OrderedDict)  # (kind, key) → tries
    _lock: threading.Lock = field(default_factory=threading.Lock)

    def take(self, keys: Sequence[tuple[str, str, Patience]], now_s: float) -> float:
        """Seconds to wait yet; where it is 0, the try is counted as failed until `clear` takes it back.

        Counting comes before the check, so that many tries at once are no way around the wait.
        """
        with self._lock:
            wait_s = max(self._wait_s(kind, key, patience, now_s) for kind, key, patience in keys)
            if wait_s > 0:
                return wait_s
            for kind, key, patience in keys:
                self._count(kind, key, patience, now_s)
            return 0.0

    def clear(self, kind: str, key: str) -> None:
        """The try was right: nothing failed."""
        with self._lock:
            self._tries.pop((kind, key), None)

    def take_back(self, kind: str, key: str) -> None:
        """The try was right, but what failed before still counts."""
        with self._lock:
            if found := self._tries.get((kind, key)):
                found.failed -= 1

    def _wait_s(self, kind: str, key: str, patience: Patience, now_s: float) -> float:
        tries = self._tries.get((kind, key))
        if tries is None or tries.failed < patience.free or now_s - tries.last_s > patience.forget_s:
            return 0.0
        doublings = min(tries.failed - patience.free, 30)
        return max(0.0, tries.last_s + min(2.0**doublings, patience.longest_s) - now_s)

    def _count(self, kind: str, key: str, patience: Patience, now_s: float) -> None:
        tries = self._tries.setdefault((kind, key), _Tries())
        if now_s - tries.last_s > patience.forget_s:
            tries.failed = 0
        tries.failed, tries.last_s = tries.failed + 1, now_s
        self._tries.move_to_end((kind, key))
        if len(self._tries) > MAX_KEYS:
            self._tries.popitem(last=False)
