"""Two values said of the wrong one each: "leading nine six, trailing nine five", "no, other way round"."""

from __future__ import annotations

from saywright.understanding.corrected_copies import own_fields
from saywright.understanding.facts import Told
from saywright.understanding.statements import Reading
from saywright.understanding.working import Working

_WAYS = frozenset({("other", "way", turned) for turned in ("round", "around", "about")})
_TWO = 2


def swap_two(told: Told, work: Working) -> None:
    """Give each of the last two readings of a part the position of the other one."""
    if "way" not in work.texts:
        return
    at = next((at for at in range(len(work.texts)) if work.texts[at : at + 3] in _WAYS), None)
    if at is None or told.facts:
        return
    read = [s for s in work.last_group() if isinstance(s, Reading)]
    kinds = {(r.component, r.characteristic, r.place, r.stage) for r in read}
    if len(read) != _TWO or len(kinds) > 1 or None in (read[0].which, read[1].which):
        return
    if read[0].which == read[1].which:
        return
    for old, other in zip(read, reversed(read), strict=True):
        fields = {**own_fields(old), "which": other.which, "repeat_of": None}
        fresh = work.make(Reading, at, at + 3, flags=old.flags, stage=old.stage, **fields)
        work.put(fresh.model_copy(update={"heard": f"{old.heard} … {fresh.heard}"}))
        work.supersede([old.id], fresh.id, at, at + 3)
