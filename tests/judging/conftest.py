"""An invented sheet with one of each case, and short ways to say things about it."""

from __future__ import annotations

from datetime import UTC, datetime
from decimal import Decimal

import pytest

from pump import CALIPER, FLOAT, SIZE
from saywright.record.types import Job, Record
from saywright.sheets.model import Action, Characteristic, Component, Condition, Instrument, Sheet

D = Decimal

SHEET = Sheet(
    id="pump",
    title="Harbour pump",
    source="Invented",
    instrument=(
        CALIPER,
        Instrument(id="gauge", names=("gauge",), unit="psi", resolution=D("0.1")),
    ),
    component=(
        FLOAT,
        Component(
            id="main_jet",
            names=("main jet",),
            part_number="MJ-1",
            characteristic=(SIZE,),
        ),
        Component(
            id="bush",
            names=("shaft bush",),
            count=2,
            positions=("upper", "lower"),
            characteristic=(
                Characteristic(id="bore", names=("bore",), unit="mm", upper=D("8.06"), when=("as_found",)),
            ),
        ),
        Component(
            id="air_screw",
            names=("air screw",),
            characteristic=(
                Characteristic(
                    id="turns_out",
                    names=("turns out",),
                    unit="turn",
                    lower=D(1),
                    upper=D("2.5"),
                    restore=True,
                ),
                Characteristic(id="depth", names=("depth",), unit="mm", restore=True),
            ),
        ),
        Component(id="gasket", names=("bowl gasket",), renew=True),
        Component(id="screw", names=("bowl screw",), count=4),
    ),
    condition=(
        Condition(id="scored", names=("scored",)),
        Condition(id="worn", names=("worn",)),
        Condition(id="missing", names=("missing",)),
        Condition(id="clean", names=("clean",), good=True),
    ),
    action=(
        Action(id="replace", names=("replace",), order=True),
        Action(id="order", names=("order",), order=True),
        Action(id="clean", names=("clean",)),
        Action(id="adjust", names=("adjust",)),
    ),
)

EMPTY = Record(
    job=Job(
        id="j1", title="Pump", sheet="pump", sheet_revision="A", opened_at=datetime(2025, 3, 4, tzinfo=UTC)
    )
)


@pytest.fixture
def sheet() -> Sheet:
    """The invented sheet."""
    return SHEET


@pytest.fixture
def empty() -> Record:
    """A record of a job in which nothing was said."""
    return EMPTY
