"""Whatever is said and done in whatever order, the fold loses nothing and contradicts nothing."""

from __future__ import annotations

import re
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from record.conftest import SHEET, Log
from saywright.errors import SaywrightError
from saywright.record import events as ev
from saywright.record.chain import link
from saywright.record.fold import Folder, fold
from saywright.record.types import PhotoChecks
from saywright.understanding import statements as said

_ids = st.sampled_from([f"s{n}" for n in range(1, 9)])
_pictures = st.sampled_from(["p1", "p2", "p3"])
_common: dict[str, Any] = {"stage": "as_found", "heard": "…"}


def _reading(item_id: str) -> said.Statement:
    fields = {"component": "float", "characteristic": "height", "value": "18.40", "unit": "mm"}
    return said.Reading.model_validate({"id": item_id, **_common, **fields})


def _mark(item_id: str) -> said.Statement:
    return said.PhotoMark(id=item_id, component="float", **_common)


def _correction(item_id: str, old: str) -> said.Statement:
    return said.Correction(id=item_id, supersedes=(old,), **_common)


_statements = st.one_of(_ids.map(_reading), _ids.map(_mark), st.builds(_correction, _ids, _ids))
_payloads: st.SearchStrategy[ev.Payload] = st.one_of(
    st.lists(_statements, min_size=1, max_size=3).map(
        lambda s: ev.Understood(heard=None, statements=tuple(s))
    ),
    st.builds(lambda i: ev.ItemCorrected(item=i, changes={"stage": "as_left"}), _ids),
    st.builds(lambda i: ev.ItemAccepted(item=i), st.one_of(_ids, _pictures)),
    st.builds(lambda i: ev.ItemWithdrawn(item=i), st.one_of(_ids, _pictures)),
    st.builds(
        lambda p: ev.PhotoAdded(photo=p, sha256=f"hash-{p}", name=f"{p}.jpg", checks=PhotoChecks()), _pictures
    ),
    st.builds(lambda p, m: ev.PhotoPlaced(photo=p, mark=m, confidence=0.5), _pictures, _ids),
    st.builds(lambda p: ev.PhotoPlaced(photo=p, component="float"), _pictures),
)


def refusal(folder: Folder, event: ev.Event) -> SaywrightError | None:
    """Why the event may not be applied; None where it may."""
    try:
        folder.check(event)
    except SaywrightError as error:
        return error
    return None


@settings(max_examples=150, deadline=None)
@given(st.lists(_payloads, max_size=25))
def test_nothing_is_lost(payloads: list[ev.Payload]) -> None:
    """Every statement is an item once, every picture is there once, and refused events change nothing."""
    log = Log()
    log.add(ev.JobOpened(job="j1", title="Pump", sheet=SHEET))
    folder = Folder()
    folder.apply(log.events[0])
    taken: list[str] = []
    pictures: set[str] = set()
    for payload in payloads:
        event = link(payload, at=log.events[-1].at, actor="Ines", after=log.events[-1])
        before = folder.record()
        if (refused := refusal(folder, event)) is not None:
            assert before == folder.record()
            with pytest.raises(SaywrightError, match=re.escape(str(refused))):
                folder.apply(event)
            assert before == folder.record()
            continue
        folder.apply(event)
        log.events.append(event)
        if isinstance(payload, ev.Understood):
            taken += [statement.id for statement in payload.statements]
        if isinstance(payload, ev.PhotoAdded):
            pictures.add(f"hash-{payload.photo}")
    record = folder.record()
    found = list(record.items())
    spoken = sorted(item.id for item in found if item.id.startswith("s"))
    assert sorted(taken) == spoken
    assert sorted(pictures) == sorted(p.sha256 for p in record.photos if p.sha256 is not None)
    assert record == fold(log.events)
