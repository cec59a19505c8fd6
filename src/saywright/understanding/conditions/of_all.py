"""A state of all of several: "hoses are good" is one finding for each; "clips all four rusty" is one.

Of parts that the sheet only counts it is one finding, on the part. Where the sheet tells them by their
places or numbers them, or one of them was told by its number before, each keeps its own.
"""

from __future__ import annotations

from saywright.sheets.model import Component
from saywright.understanding.facts import Fact
from saywright.understanding.statements import ConditionNote, Movement, Reading
from saywright.understanding.subjects.parts import Part
from saywright.understanding.working import Working

_SHARES = frozenset({"most", "some", "few", "many", "several", "half", "couple", "least"})
_ONE = frozenset({"it", "that", "this", "he", "she", "one"})
_SINGLES = frozenset({"one", "ones", "only", "just", "either", "another", "other", "neither", "each"})
_A_BIT = frozenset({"bit", "little", "touch", "tad"})
_OF = 3  # tokens of "a few of"

Whiches = tuple[str | None, ...]


def of_all(work: Working, fact: Fact, part: Part) -> Whiches:
    """Which of *part* the state of *fact* is of."""
    spec = work.sheet.get(part.component) if part.component is not None else None
    told = spec is not None and (bool(spec.positions) or (spec.id, "1") in work.lexicon.called)
    every = spec is not None and told and part.whiches == (None,)
    if spec is not None and every and (part.bare_plural or _is_all(work, fact, part, spec)):
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
    if len(here) == len(spec.whiches) and _in_groups(spec):
        return (None,)  # "pads are worn", front and rear: it may be those of one end
    return here if len(here) > 1 else spec.whiches


def _in_groups(spec: Component) -> bool:
    """True where a word of the places tells some of them: left, inner of "left inner", …"""
    split = [place.split() for place in spec.positions]
    return any(sum(word in place for place in split) > 1 for word in spec.place_words)


def _is_all(work: Working, fact: Fact, part: Part, spec: Component) -> bool:
    """ "The two gears are good", of two; or all of them were spoken of just before."""
    if part.count != spec.count:
        return _all_told(work, fact, spec)
    some = any("of" in work.texts[s.start : s.end + 1] for s in fact.subjects)  # "two of them"
    return not some and (bool(spec.positions) or _was_numbered(work, spec.id))


def _all_told(work: Working, fact: Fact, spec: Component) -> bool:
    """ "right out, both of them" / "points look fine, no grooves": all of them were spoken of just before."""
    if any(not s.pronoun or s.single or s.count or s.selector for s in fact.subjects):
        return False
    one = not _ONE.isdisjoint(word for s in fact.subjects for word in work.texts[s.start : s.end])
    if one or any(word in work.texts for place in spec.whiches for word in place.split()):
        return False  # "the inlet seat side is worn"
    if not _SINGLES.isdisjoint(work.texts) or _is_one_thing(work, fact):
        return False  # "one's cracked", "only one's good", "a nick in the edge"
    told = (s for group in reversed(work.before.recent) for s in reversed(group))
    last = next((s for s in told if isinstance(s, Movement | ConditionNote | Reading)), None)
    return isinstance(last, Movement) and (last.component, last.which, last.count) == (
        spec.id,
        None,
        spec.count,
    )


def _is_one_thing(work: Working, fact: Fact) -> bool:
    """ "A crack in the edge" is on one of them; "a bit worn" is not."""
    words = work.texts[max(0, fact.phrase.start - _OF) : fact.phrase.end]
    return not {"a", "an"}.isdisjoint(words) and _A_BIT.isdisjoint(words)


def _was_numbered(work: Working, component: str) -> bool:
    """True where one of them was told by its number before."""
    return any(c == component and which is not None for c, which, _, _ in work.before.seen)
