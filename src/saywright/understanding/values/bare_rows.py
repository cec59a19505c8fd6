"""Numbers in a row for one thing: where they were no count, none is taken in silence."""

from __future__ import annotations

from collections import defaultdict
from itertools import pairwise

from saywright.flags import FlagKind, flag
from saywright.quantity import parse_value
from saywright.understanding.counting.aloud import is_counted
from saywright.understanding.statements import Reading
from saywright.understanding.tokens import BREAK
from saywright.understanding.values.sums import is_sum
from saywright.understanding.working import Working

_JOINED = frozenset({("and",), (BREAK,)})


def _counted_so_far(work: Working, component: str, which: str | None) -> list[str]:
    """What a count of *component*, that these words did not go on with, had reached."""
    running = work.before.counting
    this = running is not None and (running.component, running.which) == (component, which)
    on = running is not None and this and running.utterance == work.now - 1
    stands = running is not None and running.reading not in work.gone
    return [running.count] if running is not None and running.count is not None and on and stands else []


def doubt_rows(work: Working) -> None:
    """Several values for one thing at one place, or for several with no word which: each asks."""
    if Reading not in map(type, work.out):
        return
    rows: dict[tuple[str, str | None, str, str], list[Reading]] = defaultdict(list)
    for made in work.out:
        if type(made) is Reading and made.id not in work.gone and not _is_changed(work, made):
            rows[made.component, made.which, made.characteristic, made.stage].append(made)
    for (component, which, characteristic, _), row in rows.items():
        _said_once_more(work, component, characteristic, row)
        values = [*_counted_so_far(work, component, which), *(reading.value for reading in row)]
        if len(values) < 2:
            continue
        spec = work.sheet.find(component, characteristic)
        if spec is None or len(set(map(parse_value, values))) < 2:
            continue
        of_several = which is None and _several(work, component) and len({r.place for r in row}) == 1
        if not is_counted(spec) and not (len(row) > 1 and (of_several or _is_pair(work, row))):
            continue
        kind = FlagKind.NUMBER_AMBIGUOUS if is_counted(spec) else FlagKind.SECOND_NUMBER
        kind = FlagKind.WHICH_UNCLEAR if of_several and not is_counted(spec) else kind
        for reading in row:
            if reading is row[-1] and reading.id in work.said and is_sum(work, work.said[reading.id]):
                continue
            doubt = flag(kind, " or ".join(values))
            work.swap(reading, reading.model_copy(update={"flags": (*reading.flags, doubt)}))


def _said_once_more(work: Working, component: str, characteristic: str, row: list[Reading]) -> None:
    """ "one two three, so he's in hole three": what was counted, told once more by its name."""
    spec = work.sheet.find(component, characteristic)
    if len(row) < 2 or spec is None or not spec.is_count:
        return
    last = work.said.get(row[-1].id)
    named = last is not None and bool(last.characteristics)
    if named and row[-1].value == row[-2].value and row[-1].place == row[-2].place:
        work.supersede([row[-2].id], row[-1].id, 0, len(work.texts))


def _is_pair(work: Working, row: list[Reading]) -> bool:
    """ "ovality six thou and nine thou", "six, nine" of the left one: of it and its fellow, or read twice."""
    part = work.sheet.get(row[0].component)
    facts = [work.said[r.id].phrase for r in row if r.id in work.said]
    joined = any(work.texts[a.end : b.start] in _JOINED for a, b in pairwise(facts))
    return joined and part is not None and len(part.positions) > 1 and len({r.place for r in row}) == 1


def _is_changed(work: Working, made: Reading) -> bool:
    """ "was one and a half, I've gone to two": no row."""
    fact = work.said.get(made.id)
    return fact is not None and fact.changes


def _several(work: Working, component: str) -> bool:
    """ "shoes are one point eight and one point six": several are fitted, told apart by number alone."""
    spec = work.sheet.get(component)
    return spec is not None and spec.count > 1 and not spec.positions
