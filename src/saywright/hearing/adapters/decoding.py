"""One recogniser in a thread of its own: utterances first and in order, sketches when it is idle."""

from __future__ import annotations

import threading
import time
from collections import deque
from collections.abc import Callable
from dataclasses import dataclass

from saywright.hearing.cutting import Piece
from saywright.hearing.listener import Samples
from saywright.hearing.words import Hypothesis

Recognise = Callable[[Piece], tuple[Hypothesis, ...]]
Sketch = Callable[[Samples, Callable[[], bool]], str]  # the second: is it still wanted


@dataclass(slots=True, eq=False)
class Job:
    """One utterance to be recognised."""

    piece: Piece
    hypotheses: tuple[Hypothesis, ...] = ()  # once done; () where nothing was said
    done: bool = False


@dataclass(slots=True, eq=False)
class Sketched:
    """A quick look at an utterance that goes on."""

    samples: Samples  # (n_samples,)
    words: str = ""
    took_s: float = 0.0
    done: bool = False


class Decoder:
    """Runs *recognise* and *sketch*; *wake* is called whenever one of them is done."""

    def __init__(self, recognise: Recognise, sketch: Sketch, wake: Callable[[], None]) -> None:
        self._recognise = recognise
        self._sketch = sketch
        self._wake = wake
        self._changed = threading.Condition()
        self._jobs: deque[Job] = deque()
        self._look: Sketched | None = None
        self._busy = False
        self._closed = False
        self._fault: BaseException | None = None
        self._thread = threading.Thread(target=self._work, name="recogniser", daemon=True)
        self._thread.start()

    def recognise(self, piece: Piece) -> Job:
        """Have it recognised after what was asked for before."""
        job = Job(piece)
        with self._changed:
            self._jobs.append(job)
            self._changed.notify_all()
        return job

    def drop(self, job: Job) -> None:
        """It is no longer wanted; one that is being worked on is left to end."""
        with self._changed:
            if job in self._jobs:
                self._jobs.remove(job)

    def sketch(self, samples: Samples) -> Sketched | None:
        """A quick look where there is nothing else to do; else None."""
        with self._changed:
            if self._busy or self._jobs or self._look is not None:
                return None
            self._look = Sketched(samples)
            self._changed.notify_all()
            return self._look

    def check(self) -> None:
        """Raise here what went wrong there."""
        if self._fault is not None:
            raise self._fault

    def wait(self, job: Job) -> None:
        """Until *job* is done; raises what went wrong."""
        with self._changed:
            self._changed.wait_for(lambda: job.done or self._fault is not None)
        self.check()

    def close(self) -> None:
        """End the thread; what it is at is left to end."""
        with self._changed:
            self._closed = True
            self._jobs.clear()
            self._changed.notify_all()
        self._thread.join()

    def _work(self) -> None:
        while (task := self._next()) is not None:
            try:
                self._do(task)
            except BaseException as error:  # raised by `check`, in the thread that can tell it
                self._fault = error
            with self._changed:
                self._busy = False
                self._changed.notify_all()
            self._wake()

    def _next(self) -> Job | Sketched | None:
        with self._changed:
            self._changed.wait_for(lambda: self._jobs or self._look or self._closed)
            if self._closed:
                return None
            self._busy = True
            if self._jobs:
                return self._jobs.popleft()
            look, self._look = self._look, None
            return look

    def _do(self, task: Job | Sketched) -> None:
        if isinstance(task, Job):
            task.hypotheses = self._recognise(task.piece)
        else:
            began = time.perf_counter()
            task.words = self._sketch(task.samples, lambda: not self._jobs)
            task.took_s = time.perf_counter() - began
        task.done = True
