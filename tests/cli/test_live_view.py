"""How a sitting looks, in a terminal and elsewhere."""

from __future__ import annotations

import io
from collections.abc import Iterator
from datetime import UTC, datetime

import pytest
from rich.console import Console

from saywright.bench import Bench
from saywright.cli.live_view import PlainView, TerminalView
from saywright.hearing.feed import Microphone, Partial, Provisional, Settled
from saywright.hearing.words import Utterance, typed
from saywright.sheets import load_sheet
from saywright.store.memory import MemoryStore

from .conftest import HEIGHT, SHEET


@pytest.fixture
def bench() -> Iterator[Bench]:
    """A new job."""
    store = MemoryStore()
    yield Bench.open(store, load_sheet(SHEET), clock=lambda: datetime(2026, 3, 1, tzinfo=UTC))
    store.close()


def said(bench: Bench, text: str) -> Settled:
    """*text* on record, as a sitting tells it."""
    bench.say(text)
    heard = next(e for e in reversed(bench.events()) if hasattr(e.payload, "utterance"))
    assert isinstance(heard.payload.utterance, Utterance)
    return Settled(heard.payload.utterance, heard.seq)


def test_plain_lines(bench: Bench, capsys: pytest.CaptureFixture[str]) -> None:
    """Elsewhere only what has settled is printed; a change of the microphone is a note, told once."""
    with PlainView(bench) as view:
        for state in ("listening", "unplugged", "unplugged", "listening"):
            view.show(Microphone(state, -30.0))
        view.show(Partial("float"))
        view.show(Provisional(typed(HEIGHT)))
        view.show(said(bench, HEIGHT))
        view.show(Microphone("closed", -120.0))
    told = capsys.readouterr()
    first, below = told.out.splitlines()
    assert HEIGHT in first
    assert "18.42 mm" in below.replace("\xa0", " ")
    assert 2 == len(told.err.splitlines())
    assert "Microphone: the microphone is gone: plug it in; it is looked for" == told.err.splitlines()[0]


def test_a_terminal(bench: Bench) -> None:
    """In a terminal words are shown as they form, the value before it is kept, and the level."""
    out = io.StringIO()
    console = Console(file=out, force_terminal=True, width=100, color_system=None)
    with TerminalView(bench, console) as view:
        for told, shown in (
            (Microphone("listening", -30.0), "listening ██████······"),
            (Partial("float"), "float …"),
            (Provisional(typed(HEIGHT)), f"{HEIGHT}  = 18.42 mm"),
            (Microphone("clipped", -1.0), "too loud"),
        ):
            view.show(told)
            view._screen.refresh()
            assert shown in out.getvalue()
        settled = said(bench, HEIGHT)
        view.show(settled)
    assert f"] {HEIGHT}\n" in out.getvalue().replace("\r", "")
