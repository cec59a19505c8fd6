"""A job written event by event, for tests of the fold and what builds on it."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from decimal import Decimal

import pytest

from pump import CALIPER, FLOAT, SIZE
from saywright.record import events as ev
from saywright.record.chain import link
from saywright.record.fold import fold
from saywright.record.types import PhotoChecks, Record
from saywright.sheets.model import Action, Characteristic, Component, Condition, Sheet
from saywright.understanding import statements as said

START = datetime(2025, 3, 4, 8, 0, tzinfo=UTC)

SHEET = Sheet(
    id="pump",
    title="Harbour pump",
    source="Invented",
    instrument=(CALIPER,),
    component=(
        FLOAT,
        Component(id="main_jet", names=("main jet",), characteristic=(SIZE,)),
        Component(
            id="bush",
            names=("bush",),
            count=2,
            positions=("upper", "lower"),
            characteristic=(Characteristic(id="bore", names=("bore",), unit="mm", upper=Decimal("8.06")),),
        ),
        Component(id="gasket", names=("bowl gasket",), renew=True),
        Component(id="screw", names=("bowl screw",), count=4),
    ),
    condition=(Condition(id="scored"), Condition(id="clean", good=True)),
    action=(Action(id="replace", order=True), Action(id="clean")),
)


class Log:
    """Appends payloads as linked events, ten seconds apart."""

    def __init__(self) -> None:
        self.events: list[ev.Event] = []

    def add(self, payload: ev.Payload, actor: str = "saywright") -> ev.Event:
        """Append one event."""
        after = self.events[-1] if self.events else None
        at = START + timedelta(seconds=10 * len(self.events))
        self.events.append(link(payload, at=at, actor=actor, after=after))
        return self.events[-1]

    def say(self, *statements: said.Statement) -> ev.Event:
        """Append what was understood."""
        return self.add(ev.Understood(heard=None, statements=statements))

    def picture(self, photo_id: str, **checks: bool) -> ev.Event:
        """Append a picture taken in."""
        found = PhotoChecks(**checks)
        name = f"{photo_id}.jpg"
        return self.add(ev.PhotoAdded(photo=photo_id, sha256=f"hash-{photo_id}", name=name, checks=found))

    def record(self) -> Record:
        """The record so far."""
        return fold(self.events)


@pytest.fixture
def sheet() -> Sheet:
    """An invented sheet that has one of each case."""
    return SHEET


@pytest.fixture
def log() -> Log:
    """A job just opened."""
    opened = Log()
    opened.add(ev.JobOpened(job="j1", title="Pump off the pilot boat", sheet=SHEET), actor="Ines")
    return opened
