"""A sitting at the microphone: what is said goes into a job, and what happens is told as it happens.

Pausing. By key or page (`pause`): nothing is heard until `resume`. By voice ("pause listening"):
sound is still heard, for the word to go on only; it is not recorded and its words are not kept.
Each pause ends the recording, and a new one begins after, so that times within a recording are
true. While the program itself speaks the recording goes on and holds silence.
"""

from __future__ import annotations

import threading
from collections.abc import Callable

import numpy as np

from saywright.hearing.feed import Answered, Commanded, Live, MicrophoneState, Partial, Settled
from saywright.hearing.feed import Microphone as MicrophoneTold
from saywright.hearing.follow import Follower, Told, follow
from saywright.hearing.level import SILENT_DBFS, LevelWatch, dbfs
from saywright.hearing.listener import SAMPLE_RATE_HZ, Samples
from saywright.hearing.microphone import Microphone
from saywright.hearing.words import Utterance, typed
from saywright.understanding.statements import BenchCommand, Statement
from saywright.wiring.answering import Answer
from saywright.wiring.capture import Begun, Block, Capture, Closed, Device, Ended, Opened, Token, Woken
from saywright.wiring.sound import Ears, Recording

_TOLD_EVERY_S = 0.1  # the level
_NOTHING: Samples = np.zeros(0, dtype=np.float32)


def try_microphone(device: str | int | None) -> None:
    """Open and close it; DeviceError where that cannot be. For use before a job is opened."""
    with Microphone(device):
        pass


class Session:
    """One sitting at the microphone. `run` returns after `stop`, when the last word is understood.

    `pause`, `resume`, `stop`, `mute` and `unmute` may be called from any thread.
    """

    def __init__(
        self,
        ears: Ears,
        device: str | int | None,
        opened: Opened | None = None,
        answers: Callable[[int], Answer | None] = lambda _: None,
    ) -> None:
        """Open the microphone; DeviceError where that cannot be. *device*: part of its name, or number.

        *opened* opens something else in its place, such as a recording. *answers* tells whether the words
        of an event were an answer to what the record asked, and does it.
        """
        self._ears = ears
        self._answers = answers
        self._capture = Capture(device, ears.begin, opened)
        self._told: Callable[[Live], None] = _ignore
        self._recording: Recording | None = None
        self._follower: Follower | None = None  # of the recording, or of a pause by voice
        self._present = False  # the microphone
        self._wanted = threading.Lock()  # over the two below
        self._paused = False
        self._muted = 0  # how many want silence
        self._dozing = False
        self._resume_due = True  # a pause by voice, also one of an earlier sitting, may still be on record
        self._level = LevelWatch()
        self._last: tuple[MicrophoneState, float] = ("listening", 0.0)  # told, and seconds since
        self._heard_s = 0.0  # of blocks since the level was told

    @property
    def overflows(self) -> int:
        """Times that the system lost audio before it reached this program."""
        return self._capture.overflows

    @property
    def paused(self) -> bool:
        """True between a pause, by whatever means, and the word or key to go on."""
        return self._paused or self._dozing

    def pause(self) -> None:
        """Hear nothing until `resume`."""
        with self._wanted:
            self._paused = True
            self._set_mode()

    def resume(self) -> None:
        """Go on after a pause by key or by voice."""
        with self._wanted:
            self._paused = self._dozing = False
            self._set_mode()
        self._capture.tokens.put(Woken())

    def mute(self) -> None:
        """The program is about to speak: put silence in place of what comes, until `unmute`."""
        with self._wanted:
            self._muted += 1
            self._set_mode()

    def unmute(self) -> None:
        """The program has spoken."""
        with self._wanted:
            self._muted = max(0, self._muted - 1)
            self._set_mode()

    def stop(self) -> None:
        """Record no more; may be called from a signal handler."""
        self._capture.stop()

    def run(self, told: Callable[[Live], None]) -> None:
        """Record and hear until `stop`; *told* is called in this thread with what happens.

        A microphone that goes away is waited for. What goes wrong with the disk is raised after the
        words so far are understood. What goes wrong with hearing is raised at once; the rest of the
        recording is heard later.
        """
        self._told = told
        self._capture.start()
        try:
            while not isinstance(token := self._capture.tokens.get(), Closed):
                self._take(token)
        except BaseException:
            self._leave()
            raise
        self._rest()
        self._tell_microphone("closed")
        if token.fault is not None:
            raise token.fault

    def _take(self, token: Token) -> None:
        if self._resume_due and not self.paused:
            self._go_on()
        match token:
            case Begun(recording):
                self._begin(recording)
            case Block():
                self._hear(token)
            case Ended():
                self._end()
            case Device(present):
                self._present = present
                self._tell_microphone()
            case _:
                self._fetch(_NOTHING)

    def _begin(self, recording: Recording) -> None:
        self._rest()
        self._ears.keep_begun(recording)
        self._recording = recording
        self._level = LevelWatch()
        self._follower = follow(self._ears.listener, self._wake)

    def _end(self) -> None:
        """The recording has ended: what was said in it to the last word, then it is put away."""
        wordless = self._rest()
        recording, self._recording = self._recording, None
        if recording is not None:
            self._ears.close(recording, heard=True, wordless=wordless)

    def _rest(self) -> tuple[float, ...]:
        """What the follower still has to tell; the starts of what gave no words."""
        follower, self._follower = self._follower, None
        if follower is None:
            return ()
        for one in follower.finish():
            self._pass_on(one)
        return follower.wordless

    def _leave(self) -> None:
        """Hearing failed: what is recorded is put away to be heard later."""
        self._capture.stop()
        self._capture.join()
        if self._follower is not None:
            self._follower.drop()
        open_ones = [] if self._recording is None else [self._recording]
        while not self._capture.tokens.empty():
            token = self._capture.tokens.get()
            if isinstance(token, Begun):
                self._ears.keep_begun(token.recording)
                open_ones.append(token.recording)
        for recording in open_ones:
            self._ears.close(recording, heard=False)

    def _hear(self, block: Block) -> None:
        seconds = len(block.samples) / SAMPLE_RATE_HZ
        open_ears = block.mode in ("listening", "dozing")
        if open_ears:
            self._level.block(seconds, block.peak, block.power)
        else:
            self._level.skip(seconds)
        self._heard_s += seconds
        if block.mode == "dozing" and self._follower is None:
            self._follower = follow(self._ears.listener, self._wake)
        self._fetch(block.samples)
        state = self._state()
        if state != self._last[0] or self._heard_s >= _TOLD_EVERY_S:
            self._tell_microphone(state, dbfs(block.power) if open_ears else SILENT_DBFS)

    def _fetch(self, samples: Samples) -> None:
        if self._follower is not None:
            for one in self._follower.feed(samples):
                self._pass_on(one)

    def _pass_on(self, one: Told) -> None:
        if self._recording is None:
            if isinstance(one, Utterance):
                self._listen_for_resume(one)
        elif isinstance(one, Utterance):
            self._settle(one, self._recording)
        else:
            self._told(one)

    def _settle(self, utterance: Utterance, recording: Recording) -> None:
        kept = self._ears.take_live(utterance, recording)
        if kept is None:
            self._told(Partial(""))
            return
        named, seq, statements = kept
        self._level.utterance(named.start_s or 0.0, named.end_s or 0.0)
        self._told(Settled(named, seq))
        if self._ears.paused:
            with self._wanted:
                self._dozing = self._resume_due = True
                self._set_mode()
        for command in _commands(statements):
            self._told(Commanded(command.command, seq))
        if answer := self._answers(seq):
            self._told(Answered(answer.item, answer.accepted, answer.words, seq))

    def _listen_for_resume(self, utterance: Utterance) -> None:
        """Words in a pause by voice: only the one to go on counts, and is kept without its place in time."""
        if not any(one.command == "resume" for one in _commands(self._ears.preview(utterance))):
            return
        self._go_on(utterance.model_copy(update={"start_s": None, "end_s": None}))
        self.resume()

    def _go_on(self, said: Utterance | None = None) -> None:
        """Put on record that a pause by voice is over, whether by a word, a key or a new sitting."""
        self._resume_due = False
        if self._ears.paused:
            seq, _ = self._ears.keep_words(said or typed("resume"))
            self._told(Commanded("resume", seq))

    def _set_mode(self) -> None:
        if self._paused:
            self._capture.mode = "paused"
        elif self._muted:
            self._capture.mode = "paused" if self._dozing else "muted"
        else:
            self._capture.mode = "dozing" if self._dozing else "listening"

    def _state(self) -> MicrophoneState:
        if not self._present:
            return "unplugged"
        return "paused" if self.paused or self._muted else self._level.quality

    def _tell_microphone(self, state: MicrophoneState | None = None, level_dbfs: float = SILENT_DBFS) -> None:
        state = state or self._state()
        self._last, self._heard_s = (state, 0.0), 0.0
        self._told(MicrophoneTold(state, level_dbfs, self._capture.device_name))

    def _wake(self) -> None:
        self._capture.tokens.put(Woken())


def _commands(statements: tuple[Statement, ...]) -> list[BenchCommand]:
    return [one for one in statements if isinstance(one, BenchCommand)]


def _ignore(_: Live) -> None:
    """Before `run` nobody is told."""
