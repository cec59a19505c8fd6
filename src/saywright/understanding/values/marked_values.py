"""What is told of values before they are settled: which one each is of, and which go on: "down to nine"."""

from __future__ import annotations

from saywright.understanding.facts import Told
from saywright.understanding.values.changes import mark_changes
from saywright.understanding.values.once_more import mark_repeats
from saywright.understanding.values.part_behind import take_part_behind
from saywright.understanding.values.said_over import mark_said_over
from saywright.understanding.values.set_further import mark_set_further
from saywright.understanding.values.set_now import mark_set_now
from saywright.understanding.values.value_rows import number_rows
from saywright.understanding.working import Working


def mark_values(told: Told, work: Working) -> None:
    """Say of the values which of several they are of, and which go on from what was read before."""
    values = [fact for fact in told.facts if fact.kind == "value"]
    if not values:
        return
    if len(values) > 1 or work.out:
        mark_said_over(told, work)
    take_part_behind(told, work)
    number_rows(told, work)
    mark_changes(told, work)
    mark_set_now(told, work)
    mark_set_further(told, work)
    mark_repeats(told, work)
