"""A live sitting in a thread of its own, told to the boards that watch the job."""

from __future__ import annotations

import threading
import time
from collections.abc import Callable
from dataclasses import asdict
from typing import Any, Protocol

from saywright.bench import Bench
from saywright.errors import RefusedError, SaywrightError
from saywright.hearing import feed
from saywright.web.board_told import Told, told
from saywright.web.board_view import MAX_TOLD
from saywright.web.stream import Streams

LEVEL_EVERY_S = 0.2  # how often a level is told while the state stays as it is
_JOIN_S = 20.0  # a recogniser may still think about the last words


class Session(Protocol):
    """What listens, whatever it listens to."""

    @property
    def paused(self) -> bool:
        """True between a pause and the word or key to go on; not while the program itself speaks."""
        ...

    def run(self, told: Callable[[feed.Live], None]) -> None:
        """Hear until `stop`; *told* gets what happens as it happens."""
        ...

    def pause(self) -> None:
        """Hear nothing until `resume`."""
        ...

    def resume(self) -> None:
        """Go on hearing."""
        ...

    def stop(self) -> None:
        """End; `run` returns when the last words are understood."""
        ...


class BoardSitting:
    """The session of one job, and what the boards are told of it."""

    def __init__(
        self,
        bench: Bench,
        streams: Streams,
        session: Session | None,
        *,
        why_none: str = "",
        also: Callable[[feed.Live], None] | None = None,
    ) -> None:
        """Without a *session* the boards are told *why_none*, and everything else works.

        *also* gets what the session tells, after the boards: for reading back.
        """
        self.job_id = bench.job_id
        self._streams = streams
        self._session = session
        self._bench = bench
        self._also = also
        self._thread: threading.Thread | None = None
        self._state: str | None = None
        self._told_at = 0.0
        if session is None:
            self.tell_microphone("closed", note=why_none)

    @property
    def running(self) -> bool:
        """True while something listens."""
        return self._thread is not None and self._thread.is_alive()

    def __enter__(self) -> BoardSitting:
        self.start()
        return self

    def __exit__(self, *_: object) -> None:
        self.stop()

    def start(self) -> None:
        """Begin to listen, where there is something to listen with."""
        if self._session is None:
            return
        self._thread = threading.Thread(target=self._run, args=(self._session,), name="sitting")
        self._thread.start()

    def stop(self) -> None:
        """End the sitting and wait for the last words."""
        if self._session is not None and self._thread is not None:
            self._session.stop()
            self._thread.join(_JOIN_S)

    def pause(self) -> None:
        """Hear nothing until `resume`."""
        self._listening().pause()

    def resume(self) -> None:
        """Go on hearing."""
        self._listening().resume()

    def told(self, live: feed.Live) -> None:
        """What the session tells, on to the boards."""
        if isinstance(live, feed.Microphone):
            self._microphone(live)
        elif isinstance(live, feed.Partial):
            self._tell("partial", words=live.words)
        elif isinstance(live, feed.Provisional):
            shown = [asdict(one) for one in self._foretold(live)]
            self._tell("provisional", words=live.utterance.best.text, told=shown)
        elif isinstance(live, feed.Settled):
            self._tell("settled", words=live.utterance.best.text, seq=live.heard_seq)
        elif isinstance(live, feed.Answered):
            self._tell("answered", text=live.words, seq=live.heard_seq)
        else:
            text = self._bench.answer(live.command)
            self._tell("command", command=live.command, text=text, seq=live.heard_seq)
        if self._also is not None:
            self._also(live)

    def tell_microphone(
        self, state: str, *, level_dbfs: float = -120.0, device: str = "", note: str = ""
    ) -> None:
        """The state of the microphone to the boards; *note* is one line for people."""
        self._state = state
        self._tell("microphone", state=state, level_dbfs=round(level_dbfs, 1), device=device, note=note)

    def _foretold(self, live: feed.Provisional) -> list[Told]:
        """What it seems to come to, the most telling first; remarks are not shown."""
        items = [item for item in self._bench.foretell(live.utterance) if item.kind != "remark"]
        items.sort(key=lambda item: item.kind != "reading")
        return [told(item, self._bench.sheet) for item in items[:MAX_TOLD]]

    def _microphone(self, live: feed.Microphone) -> None:
        now_s = time.monotonic()
        state: str = live.state
        if state == "paused" and self._session is not None and not self._session.paused:
            state = "speaking"  # the microphone is shut only as long as the program speaks
        if state == self._state and now_s - self._told_at < LEVEL_EVERY_S:
            return
        self._told_at = now_s
        self.tell_microphone(state, level_dbfs=live.level_dbfs, device=live.device)

    def _run(self, session: Session) -> None:
        try:
            session.run(self.told)
        except SaywrightError as error:
            self.tell_microphone("closed", note=str(error))
        except Exception as error:  # a fault of ours must show on the board, not only in the terminal
            self.tell_microphone("closed", note=f"hearing failed ({type(error).__name__}: {error})")
            raise
        else:
            self.tell_microphone("closed", note="the sitting has ended; what was said is kept")

    def _listening(self) -> Session:
        if self._session is None or not self.running:
            raise RefusedError("nothing listens here", to_do="Start 'saywright board' with a microphone")
        return self._session

    def _tell(self, kind: str, **data: Any) -> None:
        self._streams.tell(self.job_id, {"type": kind, **data})
