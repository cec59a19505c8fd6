"""A side said as what comes next: "now the left one", "primary first", "starting with the front".

From there on a part that has such a side is that one, until another is named, the job goes back
together or long talk has passed.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise, zip_longest

from saywright.understanding.discourse import Hand
from saywright.understanding.facts import Told
from saywright.understanding.meanings import Meaning
from saywright.understanding.sides.across import WAYS, across_turn
from saywright.understanding.sides.both_positions import leads_two
from saywright.understanding.sides.counted_there import counted_there
from saywright.understanding.sides.decided_there import is_decided_there
from saywright.understanding.sides.done_by_another import is_done_by_another
from saywright.understanding.sides.filled_sides import side_left
from saywright.understanding.sides.fitted_there import fits_there
from saywright.understanding.sides.head_turns import head_turn, may_be_side
from saywright.understanding.sides.headed_places import heads_row
from saywright.understanding.sides.kept_sides import keep_turned
from saywright.understanding.sides.pointed_at import points_there
from saywright.understanding.sides.row_order import plans_order
from saywright.understanding.sides.side_turns import EVERY, NOT_SAID, Turn, find_turns
from saywright.understanding.sides.spoken_sides import open_turn, spoken_side
from saywright.understanding.sides.tail_turns import across_at_end, headed_by_part, named_alone
from saywright.understanding.sides.turn_lines import GOES, turn_line
from saywright.understanding.sides.turn_signs import may_turn
from saywright.understanding.sides.turning import (
    apart_here,
    corner_of,
    has_side,
    head_side,
    joined_corners,
    side_of,
    turned_by,
)
from saywright.understanding.sides.turns import is_soon
from saywright.understanding.sides.unheard_turns import unheard_side
from saywright.understanding.sides.whole_turns import whole_turn
from saywright.understanding.statements import Movement
from saywright.understanding.tags import Tag
from saywright.understanding.working import Working

_CLAIMS = frozenset({"MOD", "PART", "CHAR", "MEASURE"})
_TURNED = Meaning(tags=frozenset({"TURN"}))  # of words that only turn to a side
_PAUSES = frozenset({"now", "next", "then", "on", ","})
# One of them, a place or a hint at the head is in whatever turns to a side.
_GOING = GOES | WAYS | EVERY | {"other", "where"}
_TURN_TAGS = 3  # a side, a noun and what is told of it
_CUT_OFF = 4  # tokens of an utterance that may have lost its side
_HEAD = 8  # tokens before a side at the head
# One of these tells that a side is turned to; "left slide" alone only names a part.
_TURNING = frozenset(
    ["start", "starting", "begin", "beginning", "move", "moving", "over", "do", "doing", "go", "going",
     "side", "bank", "next", "now", "first", "then", "turning", "switching", "take", "taking", "tackle",
     "tackling", "onto", "moved", "round"]
)  # fmt: skip


def take_turns(work: Working, turns: list[tuple[int, Turn]], before: int | None = None) -> None:
    """Turn to the sides said before token *before*, or to all; those turned to are taken out of *turns*."""
    while turns and (before is None or turns[0][0] <= before):
        _, turn = turns.pop(0)
        held = work.hand
        if not turn.leaves:
            _turn(work, turn.side)
            _take_part(work, turn)
            if turn.passing and work.hand is not None:
                work.hand = replace(work.hand, turned_to=held.turned_to if held is not None else None)
        elif held is not None and turn.side in {held.side, ""}:
            work.hand = replace(held, which=None, side=None, turned_to=None, side_left=turn.side or None)


def _found(tags: tuple[Tag, ...], work: Working, whole: Turn | None, *, hinted: bool) -> list[Turn]:
    """The turns beside what else is told; *whole*, or that at the head, where none is turned to by name."""
    line = turn_line(tags, work.texts, work.sheet, work.hand) if whole is None else None
    line = line or (across_turn(tags, work) if whole is None else None)
    found = find_turns(tags, work.texts, work.sheet) if line is None or line.end < len(tags) else []
    if found and found[0].of_all and _stays(tags, work):
        found = found[1:]
    if line is not None:
        return [line, *(turn for turn in found if turn.start >= line.end)]
    head = head_turn(tags, work) if whole is None and hinted and not found else whole
    head = head or (open_turn(tags, work) if not found and whole is None else None)
    return found or ([head] if head is not None else [])


def _stays(tags: tuple[Tag, ...], work: Working) -> bool:
    """ "springs are rusty both sides" while the right one is worked on: it is worked on still."""
    held = work.hand
    return held is not None and held.turned and not any(tag.kind in {"OFF", "ON"} for tag in tags)


def cut_turns(tags: tuple[Tag, ...], work: Working) -> tuple[tuple[Tag, ...], list[tuple[int, Turn]]]:
    """The tags without the words that only turn to a side, and the turns, each with where it is said."""
    said = tags
    placed = [tag for tag in tags if tag.meaning.positions or "ORD" in tag.meaning.tags]
    hinted = may_turn(tags, work.texts, placed=bool(placed))
    if not (hinted or placed or work.lexicon.row) and _GOING.isdisjoint(work.texts):
        return said, []
    if is_soon(work.texts) or is_decided_there(work):
        return said, []
    if plans_order(tags, work):
        return (Tag("BREAK", tags[0].start, tags[-1].end, _TURNED),), []
    if placed and is_done_by_another(tags, work):
        open_now = [(tags[-1].end, Turn("", 0, len(tags), leaves=True))]
        return (Tag("BREAK", tags[0].start, tags[-1].end, _TURNED),), open_now
    tags = joined_corners(tags, work.sheet)
    whole = whole_turn(tags, work) if hinted else None
    if whole is not None:
        said = tags = whole[0]
    if whole is not None and whole[1].end > whole[1].start:
        found = [whole[1]]
    else:
        found = _found(tags, work, whole[1] if whole is not None else None, hinted=hinted)
    if "and" in work.texts:
        found = [turn for turn in found if not leads_two(tags, turn.start, turn.end)]
    if not found:
        return said, []
    found = [_with_part(turn, tags) for turn in found]
    turns = [
        (tags[turn.end - 1].end if turn.end > turn.start else tags[turn.start].start, turn) for turn in found
    ]
    out: list[Tag] = []
    at = 0
    for turn in found:
        out += tags[at : turn.start]
        if turn.end > turn.start:
            out.append(Tag("BREAK", tags[turn.start].start, tags[turn.end - 1].end, _TURNED))
            out += [tag for tag in tags[turn.start : turn.end] if "STAGE" in tag.tags]
        at = turn.end
    return (*out, *tags[at:]) if out and any(turn.end > turn.start for turn in found) else said, turns


def end_on_side(told: Told, work: Working, tags: Sequence[Tag]) -> None:
    """The side that goes on behind an utterance that has no turn of its own."""
    placed = bool([tag for tag in tags if tag.meaning.positions])
    if placed:
        _leave_side(work, tags)
    _lose_side(told, work, tags)
    if Movement in map(type, work.out):
        work.hand = turned_by(work.sheet, work.hand, work.out, work.before.recent)
    keep_turned(work, tags)
    there = across_at_end(work) if "other" in work.texts else None
    there = there or ((named_alone(work, tags) or headed_by_part(work, tags)) if placed else None)
    if there or (placed and len(tags) > _TURN_TAGS and (there := counted_there(tags, work.out, work.sheet))):
        _turn(work, there)
    side = unheard_side(told, work, tags, placed=placed)
    side = side or (spoken_side(told, work, tags) if placed else None) or side
    if side:
        _turn(work, side)
    elif side is not None and work.hand is not None:
        work.hand = replace(work.hand, side=None)


def _lose_side(told: Told, work: Working, tags: Sequence[Tag]) -> None:
    """ "now the …": a side is turned to, and which was not heard."""
    held = work.hand
    if held is None or held.side is None or held.side_at == work.now or len(work.texts) > _CUT_OFF:
        return
    said = any(tag.kind == "MOD" and tag.meaning.positions for tag in tags)
    if all("FILLER" in tag.tags or work.texts[tag.start] in _PAUSES for tag in tags):
        return  # "right then"
    if said or told.facts or told.named or any(m.tags & NOT_SAID for m in told.marks):
        return
    if any(s.components for s in told.subjects):
        return  # "pistons then": what comes next on this side
    if not _TURNING.isdisjoint(work.texts) and may_be_side(tags, work.texts):
        work.hand = replace(held, side=None)


def _turn(work: Working, side: str) -> None:
    """From here on *side* is worked on, where the sheet has it."""
    held = work.hand
    side = corner_of(work.sheet, held, side)
    having = [c.id for c in work.sheet.component if has_side(c, side)]
    if not having:
        return
    here = apart_here(work.sheet, held, side)
    if here is not None:
        work.hand = here
        return
    if held is None or held.component not in having:
        component, which = (held.component, None) if held else (having[0], side)
        work.hand = Hand(component, which, work.now, side, work.now, side, held.row if held else None)
    else:
        spec = work.sheet.get(held.component)
        which = side if spec is not None and side in spec.stations else None
        work.hand = replace(held, which=which, side=side, side_at=work.now, turned_to=side)


def _with_part(turn: Turn, tags: Sequence[Tag]) -> Turn:
    """ "Left slide seal first": with the one part that is named right behind the side."""
    for tag, behind in pairwise(tags[turn.start : turn.end]):
        if tag.kind == "MOD" and turn.side in tag.meaning.positions and behind.kind == "PART":
            named = behind.meaning.parts
            return replace(turn, part=named[0]) if len(named) == 1 else turn
    return turn


def _take_part(work: Working, turn: Turn) -> None:
    """Take the part in hand that was named with the side turned to, where it has one there."""
    spec = work.sheet.get(turn.part) if turn.part is not None else None
    if spec is not None and work.hand is not None and turn.side in spec.stations:
        work.hand = replace(work.hand, component=spec.id, which=turn.side, utterance=work.now)


def open_side(told: Told, work: Working) -> None:
    """ "now the bottom carb chamber bolt out": a part on a side at the head, of which nothing is said.

    What follows is on that side. It was turned to where a word says so, else as with any part on a side.
    """
    if points_there(work.texts) and work.hand is not None and work.hand.side is not None:
        work.hand = replace(work.hand, side_at=work.now, turned_to=work.hand.side)
    left = side_left(told, work)
    if left is not None and work.hand is not None:
        if left == work.hand.side:
            work.hand = replace(work.hand, which=None, side_at=work.now, turned_to=left)
        else:  # nobody was heard to turn there, so what is read on it asks
            work.hand = replace(work.hand, which=None, side=left, turned_to=None)
        return
    other = head_side(work.texts, work.hand, work.sheet)
    if other == "" and work.hand is not None:
        work.hand = replace(work.hand, which=None, side=None, turned_to=None)
    elif other is not None and work.hand is not None:
        work.hand = replace(work.hand, which=None, side=other, side_at=work.now, turned_to=other)
        _place_other(told, other)
        return
    head = told.subjects[0] if told.subjects else None
    if head is None or len(head.which) != 1 or not (told.facts or heads_row(told, work)):
        return
    if fits_there(head, told, work):
        _turn(work, head.which[0])
        return
    before = work.texts[: head.start]
    claimed = any(head is s for fact in told.facts for s in fact.subjects)
    if claimed or len(before) > _HEAD or any(fact.start < head.end for fact in told.facts):
        return
    side = head.which[0]
    if not head.components:
        if (
            not _TURNING.isdisjoint(before) and "like" not in before
        ):  # "now I've moved round to the right hand side and …"
            _turn(work, side)
        return
    if all(side in c.stations for c in work.sheet.component if c.id in head.components):
        on = side_of(work.sheet, side)
        to = None if told.facts and _TURNING.isdisjoint(before) else on
        row = work.hand.row if work.hand is not None else None
        work.hand = Hand(head.components[0], side, work.now, on, work.now, to, row)


def _place_other(told: Told, side: str) -> None:
    """ "other side's point nine": what is said of the other one is said of *side*."""
    for fact in told.facts:
        for at, subject in enumerate(fact.subjects):
            if subject.selector == "other" and not subject.components and subject.start < _HEAD:
                fact.subjects[at] = subject.placed(side)


def _leave_side(work: Working, tags: Sequence[Tag]) -> None:
    """ "rear hoses …" while the front is worked on: where another side is spoken of, none is turned to."""
    held = work.hand
    if held is None or held.side is None:
        return
    placed = [
        (tag, behind)
        for tag, behind in zip_longest(tags, tags[1:])
        if tag.kind == "MOD" and tag.meaning.positions
    ]
    if not placed:
        return
    said = {
        p
        for tag, behind in placed
        if not held.turned or (behind is not None and behind.kind in _CLAIMS)  # "bled the rear twice"
        for p in tag.meaning.positions
    } - {held.side}
    said -= {p for p in said if held.side in p.split()}
    if said and any(held.side in c.stations and said & set(c.stations) for c in work.sheet.component):
        work.hand = replace(held, side=None)
