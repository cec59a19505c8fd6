"""All jobs done by one sheet."""

from __future__ import annotations

from dataclasses import asdict
from typing import Any

from saywright.errors import NotFoundError
from saywright.judging.across import Across, across
from saywright.judging.capability import FEWEST
from saywright.store.protocol import Store
from saywright.wiring.history import folded


def over_all(store: Store, sheet_id: str) -> Across:
    """What the jobs of this sheet have in common, by its newest form; NotFoundError where there is none."""
    found = [folded(store, row.id) for row in store.jobs() if row.sheet == sheet_id]
    if not found:
        to_do = "'saywright jobs --json' names the sheets of the jobs"
        raise NotFoundError("no job was done by this sheet", where=sheet_id, to_do=to_do)
    return across([record for record, _ in found], found[-1][1])


def across_data(of: Across) -> dict[str, Any]:
    """As plain data."""
    return {
        "jobs": of.jobs,
        "faults": [asdict(fault) for fault in of.faults],
        "capability_from": FEWEST,
        "spreads": [{**asdict(spread), "sentence": spread.sentence} for spread in of.spreads],
    }
