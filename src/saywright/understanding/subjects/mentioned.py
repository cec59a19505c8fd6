"""A part named in talk that is kept aside: "what did we say for the mains" … "the right one is one fifteen".

The next utterance may go on about it without its name: where nothing else is in hand, or where its value
fits that part alone.
"""

from __future__ import annotations

from collections.abc import Sequence

from saywright.understanding.discourse import Hand, Mentioned
from saywright.understanding.facts import Told
from saywright.understanding.quantities.measures import Measure, find_measures
from saywright.understanding.statements import Remark
from saywright.understanding.values.fitting import best_choice
from saywright.understanding.working import Working

_TOLD = "told"  # something for the record
_OURS = frozenset({"ours", "mine", "this", "these", "here"})  # beside those of somebody else
_HEAD = 3  # tokens of "well this left one"


def mentioned_in(told: Told, work: Working) -> Mentioned | None:
    """The part named last and which one, where all that was said is kept aside; None for several."""
    if not told.subjects or not (work.aside or told.facts):
        return None
    reasons = {s.reason if type(s) is Remark else _TOLD for s in work.out}
    if _TOLD in reasons:
        return None
    elsewhere = "another job or time" in reasons
    named = next((s for s in reversed(told.subjects) if s.components), None)
    if named is None or len(named.components) > 1:
        return None
    part, held = named.components[0], work.hand.component if work.hand is not None else None
    component = work.sheet.get(part)
    placed = component is not None and len(named.which) == 1 and named.which[0] in component.positions
    if elsewhere:
        return Mentioned(part, None, elsewhere=True)
    if part != held:
        return Mentioned(part, named.which[0] if placed else None)
    before = work.before.hand  # named in passing it is in hand; what was so may still be meant
    taken = before is not None and before.component != held
    return Mentioned(before.component, before.which) if before is not None and taken else None


def take_up_mentioned(work: Working) -> None:
    """Take the part mentioned in the last utterance in hand, where this one goes on about it."""
    mentioned, held = work.before.mentioned, work.hand
    if mentioned is None or (mentioned.elsewhere and _OURS.isdisjoint(work.texts[:_HEAD])):
        return
    part, which = mentioned.component, mentioned.which
    if any(work.lexicon.names(work.texts, at).parts for at in range(len(work.texts))):
        return
    if held is not None:
        said = find_measures(work.texts, work.lexicon.units)
        if not any(_can_be(work, part, m) and not _can_be(work, held.component, m) for m in said):
            return
    side = held.side if held is not None else None
    work.hand = Hand(part, which, work.now - 1, side=side, side_at=held.side_at if held is not None else 0)


def _can_be(work: Working, part: str, measure: Measure) -> bool:
    """True where the number is one that the sheet thinks possible on *part*."""
    component = work.sheet.get(part)
    keys: Sequence[tuple[str, str]] = (
        [(part, read.id) for read in component.characteristic] if component is not None else ()
    )
    found = best_choice(measure, keys, work.sheet)
    return found is not None and found[0].fits
