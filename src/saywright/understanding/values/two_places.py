"""A value between two places: "nothing on the left, point oh five on the right" is of one of them."""

from __future__ import annotations

from typing import Final

from saywright.flags import FlagKind, flag
from saywright.sheets.model import Component
from saywright.understanding.statements import Reading
from saywright.understanding.working import Working

_LEADS = frozenset({"on", "at", "in", "the", "for"})
_FORE_AND_AFT: Final = frozenset({"front", "rear", "back"})
_BEFORE = 6  # tokens before it: "front left, that is"
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


def doubt_at_other_end(work: Working) -> None:
    """Ask whose it is where "front left" was told right before what was given to the rear shoe."""
    if work.lexicon.positions.isdisjoint(work.texts) or _FORE_AND_AFT.isdisjoint(work.texts):
        return
    for reading in [s for s in work.out if type(s) is Reading and s.id in work.said and not s.asks]:
        part, begin = work.sheet.get(reading.component), work.said[reading.id].phrase.start
        other = _at_other_end(part, range(max(0, begin - _BEFORE), begin), work) if part is not None else None
        if part is not None and other is not None:
            doubt = flag(FlagKind.PART_AMBIGUOUS, f"{part.id}, or {other.id}")
            work.swap(reading, reading.model_copy(update={"flags": (*reading.flags, doubt)}))


def _at_other_end(part: Component, before: range, work: Working) -> Component | None:
    """The like of *part* at the end that is named with a side in *before*; None for its own."""
    texts = work.texts
    for at in reversed(before[:-1]):
        named = work.lexicon.names(texts, at + 1)
        if named.parts or named.aliases:
            return None  # "front left drum, and the rear shoe"
        first, second = texts[at : at + 2]
        end, side = (first, second) if first in _FORE_AND_AFT else (second, first)
        if end not in _FORE_AND_AFT or side not in part.stations:
            continue
        if _nouns_behind(end, part):
            return None
        nouns = {name.lower().split()[-1] for name in part.names}
        like = [c for c in work.sheet.component if side in c.stations and nouns & _nouns_behind(end, c)]
        return like[0] if like else None
    return None


def _nouns_behind(end: str, part: Component) -> set[str]:
    """The last words of the names of *part* that begin with *end*."""
    names = [name.lower().split() for name in part.names]
    return {name[-1] for name in names if len(name) > 1 and name[0] == end}
