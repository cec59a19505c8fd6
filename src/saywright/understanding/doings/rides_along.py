"""What came off with a part and is on it still: "float off with the needle still on it". Pure."""

from __future__ import annotations

from saywright.understanding.around import Around

_HELD = frozenset({"stuck", "jammed", "wedged", "seized"})
_TO = frozenset({"in", "on", "to"})
_IT = frozenset({"it", "them", "him", "her"})


def is_on_it_still(around: Around, following: int) -> bool:
    """True where what stands before *following* tells that a part moved with another one that came off."""
    if around.text(following) not in _IT or around.last_kind != "PART":
        return False
    off = next((at for at, tag in enumerate(around.out) if tag.kind == "OFF"), len(around.out))
    return any("WITH" in tag.tags for tag in around.out[off:])


def is_stuck_to_it(around: Around, at: int) -> bool:
    """ "bowl off with the gasket stuck to it": it came along, and is not seized."""
    return around.texts[at] in _HELD and around.text(at + 1) in _TO and is_on_it_still(around, at + 2)
