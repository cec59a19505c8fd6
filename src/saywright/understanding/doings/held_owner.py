"""The part that a characteristic's name stands for, where something is told of it: "bore's fine"."""

from __future__ import annotations

from saywright.understanding.subjects.noun_phrases import subject_of_components, subject_of_stranger
from saywright.understanding.tokens import BREAK
from saywright.understanding.walk import Walk


def hold_owner(walk: Walk, *, several: bool = False) -> None:
    """ "coil gap reset": of the part that has what was named, where no part was; *several* may have it."""
    owners = tuple(dict.fromkeys(component for component, _ in walk.characteristic))
    if not owners or walk.current or not walk.characteristic_at:
        return
    begin, end = walk.characteristic_at
    if begin and walk.texts[begin - 1] in {"a", "an", "some"}:
        return  # "a groove worn in it": what was found, not what is read
    if walk.out.subjects and any("PLACE" in p.tags and p.start == begin for p in walk.phrases):
        if several or not _told_anew(walk, begin, end):
            return  # "emulsion tube drops out the holes are gummed up"
        if len(owners) > 1:  # of one of several that have a bore: it asks which
            walk.hold([subject_of_stranger(begin, end, walk.texts)], used=False)
    if several or len(owners) == 1:
        walk.hold([subject_of_components(owners, begin, end)], used=False)


def _told_anew(walk: Walk, begin: int, end: int) -> bool:
    """ "piston's pitted, bore's fine": of what has the bore, as the piston has none."""
    article = walk.texts[begin - 1 : begin] == ("the",)
    leads = walk.texts[begin - 1 - article : begin - article]
    return leads in {(BREAK,), ("and",), ("but",)} and walk.texts[end : end + 1] == ("is",)
