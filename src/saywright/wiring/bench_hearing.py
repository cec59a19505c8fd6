"""Hearing and saying: the part of `Bench` that takes words in."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from saywright.errors import ModelError
from saywright.hearing.adapters.scripted import decode, parse_script, read_script
from saywright.hearing.listener import Listener, Samples
from saywright.hearing.words import Utterance, typed
from saywright.record.events import Heard
from saywright.report.trace import items
from saywright.understanding.statements import Statement
from saywright.wiring import answering, capture, live, output, sound
from saywright.wiring.bench_part import Part, given_words
from saywright.wiring.log import JobLog


class HearingPart(Part):
    """Words of a job, heard or typed."""

    def __init__(self, log: JobLog, *, listener: Listener | None, actor: str) -> None:
        """Without a *listener*, words can be typed and not heard."""
        super().__init__(log, actor=actor)
        self._ears = sound.Ears(log, self._understander, listener) if listener else None

    def hear_file(self, path: Path, *, progress: sound.Progress | None = None) -> list[Utterance]:
        """Keep a recording, hear it, understand it, utterance by utterance."""
        return self._listening().hear_file(Path(path), progress)

    def hear_rest(self, *, progress: sound.Progress | None = None) -> list[Utterance]:
        """Take in the recordings that were cut off, and hear on."""
        return self._listening().hear_rest(progress)

    def hear(self, samples: Samples) -> list[Utterance]:
        """The next stretch from the microphone; the utterances that ended in it."""
        return self._listening().hear(samples)

    def microphone(self, device: str | int | None = None) -> live.Session:
        """A sitting at the microphone; *device* is part of its name, or its number, None the system's own."""
        return live.Session(self._listening(), device, answers=self.answers)

    def playing(self, opened: capture.Opened) -> live.Session:
        """The same sitting at what *opened* opens in place of a microphone: a recording as it was spoken."""
        return live.Session(self._listening(), None, opened, answers=self.answers)

    def finish_hearing(self) -> list[Utterance]:
        """The microphone is closed; the utterances still open."""
        return self._listening().finish()

    def say(
        self, text: str, *, start_s: float | None = None, line: int | None = None
    ) -> tuple[Statement, ...]:
        """Typed words, understood like spoken ones; TextError where there are none."""
        utterance = typed(given_words(text), start_s=start_s, line=line)
        return self._understander().take(utterance, actor=self._actor)

    def reply(self, text: str) -> answering.Answer | None:
        """Words typed at the board: `say`, and what they answer."""
        utterance = typed(given_words(text))
        seq, _ = self._understander().keep(utterance, actor=self._actor)
        return self.answers(seq)

    def answers(self, heard_seq: int) -> answering.Answer | None:
        """Do what the words of this event, already understood, answer to what the record asks; None: nothing.

        It is done in the name of whom this bench is.
        """
        self._log.refresh()
        heard = self._log.events[heard_seq - 1]
        if not isinstance(heard.payload, Heard) or answering.manner_of(heard.payload.utterance) is None:
            return None
        return answering.answer(self._log, self.record(), heard, actor=self._actor)

    def say_file(self, path: Path) -> tuple[Statement, ...]:
        """A text file, one utterance a line; TextError where it is no text."""
        return self.say_all(read_script(Path(path)))

    def say_bytes(self, data: bytes, *, where: str) -> tuple[Statement, ...]:
        """What such a file holds; *where* is used in errors."""
        return self.say_all(parse_script(decode(data, where=where), where=where))

    def say_all(self, utterances: Sequence[Utterance]) -> tuple[Statement, ...]:
        """Utterances that came as text. Where the store fails midway, the error tells what is kept."""
        return self._understander().take_all(utterances, actor=self._actor)

    def preview(self, utterance: Utterance) -> tuple[Statement, ...]:
        """What an utterance would be understood as if it ended now; nothing is kept. From any thread."""
        return self._understander().preview(utterance)

    def clip_wav(self, item_id: str, *, before_s: float = 2.0, after_s: float = 1.0) -> bytes:
        """The audio in which an item was said."""
        self._log.refresh()
        return sound.clip(self._log, item_id, before_s=before_s, after_s=after_s)

    def told(self, utterance: Utterance) -> list[str]:
        """What an utterance came to, a line an item, with what it asks."""
        return output.told(self._log, self.record(), utterance)

    def gave(self, heard_seq: int) -> bool:
        """True where what was heard in that event stands on record as more than a remark."""
        return any(
            item.utterance == heard_seq and item.superseded_by is None for item in items(self.record())
        )

    def _listening(self) -> sound.Ears:
        if self._ears is None:
            raise ModelError("this bench has no listener", to_do="Open it with one to hear audio")
        return self._ears
