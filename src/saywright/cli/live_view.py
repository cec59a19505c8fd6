"""How a sitting looks: in a terminal with words as they form and a level meter, elsewhere as plain lines."""

from __future__ import annotations

from typing import Protocol, Self

import click
from rich.console import Console
from rich.live import Live as Screen
from rich.text import Text

from saywright.bench import Bench
from saywright.cli.common import clock_text, note
from saywright.hearing.feed import Answered, Live, Microphone, MicrophoneState, Partial, Provisional, Settled
from saywright.hearing.words import Utterance

_STATES: dict[MicrophoneState, str] = {
    "listening": "listening",
    "paused": "paused",
    "clipped": "too loud: move the microphone away or turn it down",
    "too_quiet": "too quiet: bring the microphone nearer",
    "unplugged": "the microphone is gone: plug it in; it is looked for",
    "closed": "closed",
}
_METER = 12  # cells
_METER_DB = 60.0  # below full scale, where it is empty


class View(Protocol):
    """Shows what a sitting tells; use it in a `with` block."""

    def __enter__(self) -> Self: ...

    def __exit__(self, *_: object) -> None: ...

    def show(self, told: Live) -> None: ...


def open_view(bench: Bench) -> View:
    """The one for where standard output goes."""
    console = Console()
    return TerminalView(bench, console) if console.is_terminal else PlainView(bench)


def lines_of(bench: Bench, utterance: Utterance) -> list[str]:
    """An utterance as a line, and below it what it was understood as."""
    head = f"[{clock_text(utterance.start_s)}] {utterance.best.text}"
    return [head, *(f"           {line}" for line in bench.told(utterance))]


class PlainView:
    """Settled words and what they came to; a change of the microphone as a note."""

    def __init__(self, bench: Bench) -> None:
        self._bench = bench
        self._state: MicrophoneState = "listening"

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        return

    def show(self, told: Live) -> None:
        """Print what is to be kept."""
        if isinstance(told, Settled):
            for line in lines_of(self._bench, told.utterance):
                click.echo(line)
        elif isinstance(told, Answered):
            click.echo(f"           {told.words}")
        elif isinstance(told, Microphone) and told.state != self._state:
            self._state = told.state
            if told.state != "closed":
                note(f"Microphone: {_STATES[told.state]}")


class TerminalView:
    """Settled words scroll up; the last line holds state, level and the words being spoken."""

    def __init__(self, bench: Bench, console: Console) -> None:
        self._bench = bench
        self._screen = Screen(console=console, refresh_per_second=12, transient=True)
        self._microphone = Microphone("listening", -120.0)
        self._words = Text()

    def __enter__(self) -> Self:
        self._screen.start()
        return self

    def __exit__(self, *_: object) -> None:
        self._screen.stop()

    def show(self, told: Live) -> None:
        """Bring the screen up to date."""
        match told:
            case Microphone():
                self._microphone = told
            case Partial(words):
                self._words = Text(f"{words} …" if words else "", style="dim")
            case Provisional(utterance):
                self._words = Text(utterance.best.text + self._values(utterance))
            case Settled(utterance):
                self._words = Text()
                for line in lines_of(self._bench, utterance):
                    self._screen.console.print(Text(line), soft_wrap=True)
            case Answered(words=words):
                self._screen.console.print(Text(f"           {words}"), soft_wrap=True)
        self._screen.update(Text.assemble(*self._status(), self._words, no_wrap=True, overflow="ellipsis"))

    def _values(self, utterance: Utterance) -> str:
        """What would be read out of it, in short."""
        said = self._bench.preview(utterance)
        values = [f"{one.value} {one.unit}" for one in said if one.kind == "reading"]
        return f"  = {', '.join(values)}" if values else ""

    def _status(self) -> tuple[tuple[str, str], ...]:
        state = self._microphone.state
        full = round(_METER * max(0.0, 1 + self._microphone.level_dbfs / _METER_DB))
        colour = {"listening": "green", "paused": "yellow"}.get(state, "red")
        meter = "█" * full + "·" * (_METER - full)
        return ("● ", colour), (f"{_STATES[state]} ", colour), (f"{meter} ", "dim")
