"""A value between two places: "nothing on the left, point oh five on the right" is of one of them."""

from __future__ import annotations

from saywright.flags import FlagKind, flag
from saywright.understanding.statements import Reading
from saywright.understanding.working import Working

_LEADS = frozenset({"on", "at", "in", "the", "for"})
_REACH = 5  # tokens behind the value: "on the rear inner one"


def doubt_between_places(work: Working) -> None:
    """Ask which one a reading is of, where the talk ends with another place of its part right behind."""
    if not work.texts or work.texts[-1] not in work.lexicon.positions:
        return
    for reading in [s for s in work.out if type(s) is Reading and s.id in work.said and not s.asks]:
        behind = work.texts[work.said[reading.id].phrase.end :]
        spec = work.sheet.get(reading.component)
        if reading.which is None or spec is None or len(behind) > _REACH or behind == ("left",):
            continue  # "the inner one has four left"
        place = {word for word in behind if word not in _LEADS}
        of_it = place and any(place <= set(which.split()) for which in spec.whiches)
        if of_it and not place <= set(reading.which.split()):
            doubt = flag(FlagKind.WHICH_UNCLEAR, f"{reading.which}, or {' '.join(behind)}")
            work.swap(reading, reading.model_copy(update={"flags": (*reading.flags, doubt)}))
