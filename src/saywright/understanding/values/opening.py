"""At what something opens or shuts: "lifts at ten and a half, reseats at nine". Pure."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

_OPENS: Final = frozenset(
    ["opens", "opened", "opening", "lifts", "lifted", "cracks", "cracked", "pops", "popped", "blows", "blew",
     "vents", "vented", "relieves", "relieved", "unloads", "unloaded", "dumps", "dumped", "releases"]
)  # fmt: skip
_GOES: Final = {("goes", "off"), ("went", "off"), ("lets", "go"), ("let", "go")}
_PARTICLES: Final = frozenset({"off", "open", "up", "out", "over"})
AT: Final = frozenset({"at", "on", "by", "around", "round"})
_SHUTS: Final = frozenset(["reseats", "reseated", "closes", "closed", "shuts", "shut", "resets"])
_STAYS: Final = frozenset({"holds", "held", "drops", "dropped", "seals", "sealed"})  # of what opened before


def opens_at(texts: Sequence[str], start: int) -> bool:
    """True where the number at *start* stands behind "opens at", "goes off at", "blows at"."""
    return _verb_before(texts, start, _OPENS) or (
        start > 2 and texts[start - 1] in AT and tuple(texts[start - 3 : start - 1]) in _GOES
    )


def shuts_at(texts: Sequence[str], start: int) -> bool:
    """ "lifts at ten and a half, reseats at nine": at what it closes; not "air spring holds at ninety"."""
    if _verb_before(texts, start, _SHUTS):
        return True
    return _verb_before(texts, start, _STAYS) and any(opens_at(texts, at) for at in range(2, start - 1))


def _verb_before(texts: Sequence[str], start: int, verbs: frozenset[str]) -> bool:
    """True where one of *verbs* leads with "at" to the number."""
    if start < 2 or texts[start - 1] not in AT:
        return False
    verb = start - 2 if texts[start - 2] not in _PARTICLES else start - 3
    return verb >= 0 and texts[verb] in verbs
