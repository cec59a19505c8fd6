"""What runs out of a part and tells how it is: "fluid's coming out dirty", "a trickle coming out". Pure."""

from __future__ import annotations

from saywright.understanding.bench_words import FLUIDS
from saywright.understanding.walk import Walk

_RUN_THERE = frozenset(
    ["trickle", "drip", "drips", "dribble", "bead", "drop", "stream", "film", "bubble", "bubbles", "muck",
     "sludge", "gunge", "spray", "mist", "steam", "air", "smoke", "juice", "froth", "weep", "drizzle", "fizz"]
)  # fmt: skip
_AWAY = frozenset({"out", "off", "away"})
_RUNS = frozenset((verb, way) for verb in ("coming", "comes", "came", "come") for way in ("out", "off"))
_LETS = frozenset({"let", "lets", "letting"})
_LET_RUN = FLUIDS | {"air", "pressure", "muck", "vapour", "rest"}
_LET_REACH = 4  # tokens of "let the fluid leak"


def runs_out(walk: Walk, index: int) -> bool:
    """ "fluid's coming out dirty", "oil comes out black": how it is; nothing was taken off."""
    start = walk.phrases[index].start
    noun, words = walk.before(index), walk.texts[start : walk.phrases[index].end]
    before = walk.texts[max(0, start - _LET_REACH) : start]
    if words[-1] in _AWAY and not _LETS.isdisjoint(before) and not _LET_RUN.isdisjoint(before[1:]):
        return True  # "to let the fluid leak out"
    return noun is not None and walk.texts[noun.end - 1] in FLUIDS | _RUN_THERE and words[-2:] in _RUNS
