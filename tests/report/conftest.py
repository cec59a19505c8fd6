"""The sample job, built once a session: events, record as judged, document."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from types import ModuleType

import pytest

from loading import load
from saywright.judging.judge import judge
from saywright.record.events import Event
from saywright.record.fold import fold
from saywright.record.types import Record
from saywright.report.document import build_document
from saywright.report.tree import Document
from saywright.sheets.model import Sheet


@pytest.fixture(scope="session")
def sample() -> ModuleType:
    """The module that builds the sample job."""
    return load(Path(__file__).with_name("sample.py"), "report_sample")


@pytest.fixture(scope="session")
def sheet(sample: ModuleType) -> Sheet:
    """The sample's sheet."""
    made: Sheet = sample.sheet()
    return made


@pytest.fixture(scope="session")
def events(sample: ModuleType) -> Sequence[Event]:
    """The sample's events."""
    made: Sequence[Event] = sample.job_events()
    return made


@pytest.fixture(scope="session")
def record(events: Sequence[Event], sheet: Sheet) -> Record:
    """The sample's record, judged."""
    return judge(fold(events), sheet)


@pytest.fixture(scope="session")
def pictures(sample: ModuleType) -> dict[str, bytes]:
    """The sample's pictures by SHA-256."""
    made: dict[str, bytes] = sample.pictures()
    return made


@pytest.fixture(scope="session")
def document(record: Record, sheet: Sheet, events: Sequence[Event]) -> Document:
    """The sample's document."""
    return build_document(record, sheet, events=events)
