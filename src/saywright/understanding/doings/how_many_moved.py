"""How many of a part moved: as many as were said, or as the sheet has where the talk is."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import chain, pairwise

from saywright.flags import Flag, FlagKind, flag
from saywright.sheets.model import Component
from saywright.understanding.discourse import Hand
from saywright.understanding.sides.turning import count_on, end_told, share_of_side
from saywright.understanding.statements import Direction, Movement
from saywright.understanding.subjects.parts import Part
from saywright.understanding.working import Working

_EVERY_SIDE = frozenset(
    [("all", "round"), ("all", "around"), ("both", "sides"), ("each", "side"), ("either", "side"),
     ("both", "ends"), ("all", "four")]
)  # fmt: skip

_TWO = 2
_SIDES = frozenset({"left", "right", "nearside", "offside", "port", "starboard", "driver", "passenger"})
_EACH_SIDE = (("each", "side"), ("either", "side"))  # of one thing; there are two
_EACH = frozenset({*_EACH_SIDE, ("each", "end"), ("either", "end")})
_BY = frozenset({"at", "under", "on", "in", "to", "behind", "over", "round", "for", "with", "against"})


def goes_on_everywhere(component: Component, work: Working) -> bool:
    """True for the first of a part that goes on: of either side, but where one is known to be meant.

    That is a side turned to since anything came off, and the only side on which some are off.
    """
    hand, away = work.hand, work.off.get(component.id, 0)
    if begun_there(component, work):
        return False
    if work.stage != "as_found" or hand is None or not hand.turned or not away:
        return work.stage == "as_found"
    if away <= count_on(component, hand.side) * max(1, component.count // max(1, len(component.positions))):
        return False
    since = work.now - hand.side_at
    said = chain.from_iterable(work.before.recent[-since:]) if since else ()
    return any(isinstance(s, Movement) and s.movement == "removed" for s in (*said, *work.out))


def begun_there(component: Component, work: Working) -> bool:
    """ "Right side new axle seal in" / "new shoes on": on the side that the job went on with a moment ago.

    Not where the same went on at the other side, too: it goes by parts then, and not by sides.
    """
    hand = work.hand
    side = hand.side if hand is not None and not hand.turned else None
    if side is None or count_on(component, side) < _TWO:
        return False
    if _all_round([word.text.lower() for word in work.words]):
        return False  # it may be set aside from the tokens
    told = (*work.last_group(), *work.out)
    last = [s for s in told if isinstance(s, Movement) and s.movement == "fitted"]
    here = {s.component for s in last if side in (s.which or "")}
    every = chain(work.out, *work.before.recent)
    fitted = (s for s in every if isinstance(s, Movement) and s.movement == "fitted" and s.component in here)
    return bool(here) and all(side in (s.which or "") for s in fitted)


def _all_round(texts: Sequence[str]) -> bool:
    """ "new pads all round", "wheels off both sides": on every side, whichever is in hand."""
    return not _EVERY_SIDE.isdisjoint(pairwise(texts)) or "corners" in texts


def _on_each(work: Working, component: Component) -> bool:
    """ "A new gasket on each side", "a new washer under each bolt", where there are as many bolts."""
    texts = work.texts
    if component.count == _TWO and not _EACH.isdisjoint(pairwise(texts)):
        return True
    for at in range(1, len(texts) - 1):
        if texts[at] == "each" and texts[at - 1] in _BY:
            found = work.lexicon.names(texts, at + 1)
            parts = map(work.sheet.get, (*found.parts, *found.aliases))
            if any(part is not None and part.count == component.count > 1 for part in parts):
                return True
    return False


def _on_both(texts: Sequence[str], component: Component) -> bool:
    """ "New pads in both sides": two sides, and no two pads, where each side has more than one."""
    at = next((i for i, pair in enumerate(pairwise(texts)) if pair == ("both", "sides")), 0)
    return at > 0 and component.count > len(component.place_words & _SIDES) == _TWO


def how_many(
    part: Part, component: Component, hand: Hand | None, work: Working, direction: Direction
) -> tuple[int, list[Flag]]:
    """How many moved; a bare plural is as many as are fitted on the side worked on, with a note.

    No more can come off than are still on.
    """
    flags: list[Flag] = []
    if part.count == _TWO < component.count and part.whiches == (None,) and _on_both(work.texts, component):
        part = replace(part, count=None, bare_plural=True)
    placed = [which for which in part.whiches if which in component.positions]
    count = part.count or len([which for which in part.whiches if which]) or 1
    told_off = count > 1 and not component.positions  # "valves one and two"
    if part.count is None and part.bare_plural and component.count > 1 and not told_off:
        of_each = max(1, component.count // max(1, len(component.positions)))
        begun = direction == "fitted" and begun_there(component, work)
        here_only = (
            hand is not None and (hand.turned or begun) and part.single is None and not _all_round(work.texts)
        )
        there = end_told(work.texts, component) if _all_round(work.texts) else None
        side = part.place or there or (hand.side if hand is not None and here_only else None)
        here = len(placed) if len(placed) > 1 else count_on(component, side)  # "the left pads"
        count = here * of_each  # "new rotors on": several, and the side in hand has one
        count = count if count > 1 or (part.place and count) else component.count
        share = share_of_side(work.sheet, component, side)
        if share not in {None, 1} and "all" not in work.texts:  # "circlips out" on the side worked on
            count = share
            if part.place is None:
                flags.append(flag(FlagKind.WHICH_UNCLEAR, f"{share} on the {side}, or all"))
        still_on = component.count - work.off.get(component.id, 0)
        if direction == "removed" and 0 < still_on < count:
            count = still_on
        flags.append(flag(FlagKind.COUNT_FROM_SHEET, f"{count} {component.label}"))
    if count == 1 and part.single is None and part.count in {None, 1} and _on_each(work, component):
        count = component.count  # "a new gasket on each side"
    one = part.single in component.positions and component.count <= len(component.positions)
    if one and part.count is None and count > 1:
        count, flags = 1, []  # "new scavenge idlers in": the only one there is
    fitted = 1 if one else component.count  # "both rear bolts", where there is one at the rear
    if count > fitted:
        flags.append(flag(FlagKind.COUNT_TOO_HIGH, f"{count} of {fitted}"))
    return count, flags
