"""A state of all of several: "hoses are good" is one finding for each; "clips all four rusty" is one.

Of parts that the sheet only counts it is one finding, on the part. Where the sheet tells them by their
places or numbers them, or one of them was told by its number before, each keeps its own.
"""

from __future__ import annotations

from saywright.sheets.model import Component
from saywright.understanding.facts import Fact
from saywright.understanding.subjects.parts import Part
from saywright.understanding.working import Working

_SHARES = frozenset({"most", "some", "few", "many", "several", "half", "couple", "least"})
_OF = 3  # tokens of "a few of"

Whiches = tuple[str | None, ...]


def of_all(work: Working, fact: Fact, part: Part) -> Whiches:
    """Which of *part* the state of *fact* is of."""
    spec = work.sheet.get(part.component) if part.component is not None else None
    told = spec is not None and (bool(spec.positions) or (spec.id, "1") in work.lexicon.called)
    if spec is not None and told and part.bare_plural and part.whiches == (None,):
        asks = any(one.level == "ask" for one in part.flags)
        some = asks or part.place is not None or _is_share(work, fact)
        return (None,) if some else _each_here(work, spec)
    counted = spec is not None and not spec.positions and len(part.whiches) > 1
    if spec is None or not counted or part.whiches != spec.whiches or len(fact.subjects) != 1:
        return part.whiches
    every = fact.subjects[0].selector in {"all", "both"}
    each = (spec.id, "1") in work.lexicon.called or _was_numbered(work, spec.id)
    return (None,) if every and not each else part.whiches


def _is_share(work: Working, fact: Fact) -> bool:
    """ "Most of the springs", "some of them": not each of them."""
    said = (work.texts[max(0, s.start - _OF) : s.end] for s in fact.subjects)
    return any(not _SHARES.isdisjoint(words) for words in said)


def _each_here(work: Working, spec: Component) -> Whiches:
    """ "hoses are good": each of them, or those on the side that is worked on where it has several."""
    turned = work.hand.side if work.hand is not None and work.hand.turned else None
    here = tuple([which for which in spec.whiches if set((turned or "").split()).issubset(which.split())])
    if spec.place_words and len(here) == len(spec.whiches):
        return (None,)  # "pads are worn", front and rear: it may be those of one end
    return here if len(here) > 1 else spec.whiches


def _was_numbered(work: Working, component: str) -> bool:
    """True where one of them was told by its number before."""
    return any(c == component and which is not None for c, which, _, _ in work.before.seen)
