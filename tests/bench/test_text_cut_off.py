"""A text taken in while the store gives out."""

from __future__ import annotations

import pytest

from saywright.bench import Bench
from saywright.errors import DiskFullError
from saywright.sheets import load_sheet
from saywright.store.memory import MemoryStore

from .conftest import Clock

LINES = [b"main jet one twenty eight\n", b"float height eighteen point four two\n"]


def test_the_error_tells_from_where_to_go_on(
    store: MemoryStore, clock: Clock, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What was taken stays; giving the rest from the line named doubles nothing."""
    bench = Bench.open(store, load_sheet("outboard-float-carburetor"), clock=clock)
    append, calls = store.append, [0]

    def full(*args: object, **given: object) -> object:
        calls[0] += 1
        if calls[0] > 2:  # the first line takes two: what was heard, what it means
            raise DiskFullError("no room", where="disk")
        return append(*args, **given)  # type: ignore[arg-type]

    monkeypatch.setattr(store, "append", full)
    with pytest.raises(DiskFullError) as caught:
        bench.say_bytes(b"".join(LINES), where="t.txt")
    to_do = "What stood before line 2 is kept; mend that, then give only the rest, from there on"
    assert f"disk: no room. {to_do}" == str(caught.value)
    assert ["main_jet"] == [reading.component for reading in bench.record().readings]

    monkeypatch.setattr(store, "append", append)
    bench.say_bytes(LINES[1], where="t.txt")
    assert ["main_jet", "float"] == [reading.component for reading in bench.record().readings]
