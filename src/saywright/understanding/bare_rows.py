"""Bare numbers in a row for what is counted: where they were no count, none is taken in silence."""

from __future__ import annotations

from collections import defaultdict

from saywright.flags import FlagKind, flag
from saywright.quantity import parse_value
from saywright.understanding.counting import is_counted
from saywright.understanding.statements import Reading
from saywright.understanding.working import Working


def doubt_rows(work: Working) -> None:
    """Several values without a unit for one thing that is counted, in one breath: each asks."""
    rows: dict[tuple[str, str | None, str], list[Reading]] = defaultdict(list)
    for made in work.out:
        if isinstance(made, Reading) and made.unit_said is None and made.id not in work.gone:
            rows[made.component, made.which, made.characteristic].append(made)
    for (component, _, characteristic), row in rows.items():
        spec = work.sheet.find(component, characteristic)
        values = [reading.value for reading in row]
        if spec is None or not is_counted(spec) or len(set(map(parse_value, values))) < 2:
            continue
        for reading in row:
            doubt = flag(FlagKind.NUMBER_AMBIGUOUS, " or ".join(values))
            work.swap(reading, reading.model_copy(update={"flags": (*reading.flags, doubt)}))
