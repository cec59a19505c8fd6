""" "Leave the other one", "swap the upper one": what is decided on a part there, and no turn to that place.

So where a fault of such a part, or what is to be done about it, is on record.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from saywright.understanding.conditions.back_to_faults import is_fault
from saywright.understanding.working import Working

_DECIDES: Final = frozenset({"leave", "leaving", "swap", "swapping", "change", "changing", "keep", "stay"})
_LEAVES: Final = frozenset({"leave", "leaving"})
_DETERMINERS: Final = frozenset({"the", "that"})
_PLACES: Final = frozenset({"side", "sides", "end", "ends", "corner", "wheel", "bank", "hand", "over"})
_HELPS: Final = frozenset({"would", "will", "can"})
_LATER: Final = frozenset({"now", "later", "till", "until", "minute", "moment", "bit", "last", "there"})
_LONGEST: Final = 14  # tokens


def is_decided_there(work: Working) -> bool:
    """True where the words decide on a part at a place: no side is turned to."""
    texts = work.texts
    if _DECIDES.isdisjoint(texts) or len(texts) > _LONGEST or work.stage == "as_left" or work.hand is None:
        return False
    verbs = [at for at, text in enumerate(texts) if text in _DECIDES]
    if not any(_has_object(texts, at) for at in verbs):
        return False
    if any(texts[at] in _LEAVES and not _LATER.isdisjoint(texts[at:]) for at in verbs):
        return False  # "leave the left one for now"
    held = work.hand.component
    if any(component == held for component, _, _ in work.planned):
        return True
    return any(c == held and there and is_fault(work, what) for c, _, what, there in work.seen)


def _has_object(texts: Sequence[str], at: int) -> bool:
    """True for "swap the upper one", "the upper one I'd leave", not for "swap to the upper one"."""
    if at == len(texts) - 1 and at and texts[at - 1] in _HELPS:
        return True
    behind = texts[at + 1 : at + 5]
    return behind[:1] != () and behind[0] in _DETERMINERS and _PLACES.isdisjoint(behind)
