"""Sides of a sheet, and what turns to one: a part that came off on it, "other side".

A sheet's positions may be of two kinds at once, "left inner", "right upper". The side is then the part of it
that is a position of its own somewhere, "left"; the rest tells the parts of that side apart.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import replace
from itertools import takewhile
from typing import TypeGuard

from saywright.sheets.model import Component, Sheet
from saywright.understanding.discourse import Hand
from saywright.understanding.sides.looked_through import looked_through
from saywright.understanding.statements import ConditionNote, Movement, Reading, Statement
from saywright.understanding.tags import Tag
from saywright.understanding.tokens import BREAK, spoken_form

MODEL = frozenset({"match", "matching", "matches"})  # behind it stands what it is like
FEW_PARTS = 4  # that have a side of the bench; fewer are told apart by a position of their own
_LONGEST_HEAD = 6  # tokens
_LEADS_TO_END = frozenset({"at", "the", "on", "both"})
_NOUNS = frozenset({"end", "side"})
_ENDS = frozenset({"only", "corners", "end", "ones"})
_ACROSS = frozenset({"left", "right", "nearside", "offside", "near", "off", "driver", "passenger"})
_HEAD = frozenset(
    [BREAK, "right", "now", "okay", "so", "then", "and", "next", "on", "to", "onto", "the", "over", "round",
     "across"]
)  # fmt: skip


def side_of(sheet: Sheet, which: str | None) -> str | None:
    """ "left" of "left inner", where as many parts are told by left and right alone; else *which* itself.

    "Drive side" is no side of "non drive side", where one part has both; a corner of a car, at which most of
    its parts are, is a side of its own.
    """
    words = set(which.split()) if which is not None else set()
    if len(words) < 2:
        return which
    apart = [c.positions for c in sheet.component if which not in c.positions]
    sides = [p for positions in apart for p in positions if set(p.split()) < words]
    corner = len(sheet.component) - len(apart) > len(sides)
    return which if corner or not sides else sides[0]


def side_with(sheet: Sheet, which: str | None, held: Hand | None) -> str | None:
    """The side of *which*; the corner turned to, "nearside rear", where it is there or on the near side."""
    if which is not None and held is not None and held.side is not None and held.turned:
        corner, words = set(held.side.split()), set(which.split())
        if corner <= words or words < corner:
            return held.side
    return side_of(sheet, which)


def words_on(component: Component, side: str | None) -> set[str]:
    """The words of *side* that tell some of *component* apart: of "nearside rear", "nearside"."""
    return set((side or "").split()) & {word for p in component.positions for word in p.split()}


def has_side(component: Component, side: str) -> bool:
    """True where one or more of *component* are on *side*; a drive inlet is at the inlet end."""
    words = set(side.split())
    return side in component.stations or words - _NOUNS <= component.place_words & words


def the_side(told: Sequence[str], sheet: Sheet) -> str | None:
    """The one side that a word tells: "inlet" of an inlet end, though a drive inlet has the word too."""
    whole = [p for p in told if any(p in c.stations for c in sheet.component)] if len(told) > 1 else told
    return whole[0] if len(whole) == 1 else None


def of_the_side(candidates: list[Component], hand: Hand | None) -> list[Component]:
    """ "disc bolts" while the rear is worked on: no front disc bolts, where there are rear disc bolts."""
    if hand is None or hand.side is None or len(candidates) == 1:
        return candidates
    side = set(hand.side.split())
    here = [said for c in candidates for said in map(spoken_form, c.names) if not side.isdisjoint(said)]
    return [c for c in candidates if not any(_is_elsewhere(c, said, side) for said in here)] or candidates


def _is_elsewhere(component: Component, here: tuple[str, ...], side: AbstractSet[str]) -> bool:
    """True where *component* is called as what is called *here*, with another word for *side*."""
    names = (said for said in map(spoken_form, component.names) if len(said) == len(here) and said != here)
    pairs = ([(a, b) for a, b in zip(said, here, strict=True) if a != b] for said in names)
    return any(all(b in side and a not in side for a, b in differing) for differing in pairs)


def apart_here(sheet: Sheet, held: Hand | None, place: str) -> Hand | None:
    """ "now the upper" on the left side: the left upper one of what is in hand, and the side stays.

    Of what is in hand, or where it has none, of the first part that has one. None where *place* is a side of
    its own, or tells nothing apart on that side.
    """
    if held is None or held.side is None or any(place in c.stations for c in sheet.component):
        return None
    both = {*held.side.split(), *place.split()}
    there = {c.id: p for c in sheet.component for p in c.positions if set(p.split()) == both}
    if not there:
        return None
    component = held.component if held.component in there else next(iter(there))
    return replace(held, component=component, which=there[component])


def corner_of(sheet: Sheet, held: Hand | None, side: str) -> str:
    """ "on to the rear", "nearside first": the one position of both, where a part has it; else *side*.

    "Over to the left side" at the front right is the front left.
    """
    if held is None or held.side is None or not held.turned:
        return side
    words = set(held.side.split())
    both = {*words, *side.split()}
    stations = [p for c in sheet.component for p in c.positions]
    corners = {p for p in stations if set(p.split()) == both}
    if any(side_of(sheet, p) != p for p in corners):
        return side  # "then the outer" on the left: the left outer pad, and the side stays
    if not corners and side in _ACROSS and len(words) > 1:
        apart = {p: words ^ set(p.split()) for p in stations if side in p.split()}
        corners = {p for p, differs in apart.items() if len(differs) == 2 and differs <= _ACROSS}
    return corners.pop() if len(corners) == 1 else side


def joined_corners(tags: tuple[Tag, ...], sheet: Sheet) -> tuple[Tag, ...]:
    """ "on to the rear nearside first": two words of one position, in whichever order, as one tag."""
    places = [tag for tag in tags if tag.kind == "MOD" and tag.meaning.positions]
    if len(places) < 2:
        return tags
    out: list[Tag] = []
    for tag in tags:
        before = out[-1] if out else None
        if before is not None and _are_places(before, tag):
            both = {before.meaning.positions[0], tag.meaning.positions[0]}
            whole = [p for c in sheet.component for p in c.positions if set(p.split()) == both]
            if whole:
                out[-1] = replace(before, end=tag.end, meaning=replace(tag.meaning, positions=(whole[0],)))
                continue
        out.append(tag)
    return tuple(out) if len(out) < len(tags) else tags


def _are_places(*two: Tag) -> bool:
    return all(tag.kind == "MOD" and len(tag.meaning.positions) == 1 for tag in two)


def count_on(component: Component, side: str | None) -> int:
    """How many of *component* are on *side*, by their positions or at that station; 0 where none is."""
    words = words_on(component, side) or {side or ""}
    return sum(words <= set(p.split()) for p in component.stations)


def end_told(texts: Sequence[str], component: Component) -> str | None:
    """ "on both sides at the front": the end that has *component* on both sides; None where none is told."""
    words = component.place_words
    told = {
        word
        for before, word, behind in zip(("", *texts), texts, (*texts[1:], ""), strict=False)
        if word in words and (before in _LEADS_TO_END or behind in _ENDS)
    }
    place = told.pop() if len(told) == 1 else None
    return place if place is not None and 1 < count_on(component, place) < component.count else None


def share_of_side(sheet: Sheet, component: Component, side: str | None) -> int | None:
    """How many there would be on *side* of what the sheet only counts; None where it cannot be shared out."""
    if component.positions or component.count < 2 or side is None:
        return None
    placed = next((c for c in sheet.component if c.has_places((side,))), None)
    sides = len(placed.positions) if placed is not None else 0
    if placed is None or sides < 2 or component.count <= sides or component.count % sides:
        return None
    return component.count // sides * count_on(placed, side)


def other_side(sheet: Sheet, side: str, noun: str = "side") -> str | None:
    """The one side there is besides *side*; None where there are more, or none.

    Of corners the one across: the front right of the front left; with "end" for a *noun*, the rear left.
    """
    found = {p for c in sheet.component if side in c.stations for p in c.stations} - {side}
    if len(found) > 1:
        words = set(side.split())
        near = {p: words ^ set(p.split()) for p in found if len(p.split()) == len(words) > 1}
        near = {p: apart for p, apart in near.items() if len(apart) == 2}  # one word of each
        found = {p for p, apart in near.items() if (apart <= _ACROSS) is (noun == "side")}
    return found.pop() if len(found) == 1 else None


def turned_by(
    sheet: Sheet, held: Hand | None, said: Sequence[Statement], recent: Sequence[Sequence[Statement]]
) -> Hand | None:
    """What is in hand once *said* is said: a part that came off on one side turns to that side.

    Where the same part came off on another side a moment ago, and nothing was found or read since,
    both are open, and neither is turned to.
    """
    off = [m for m in said if _moved(m, sheet, "removed")] if held is not None else []
    if held is None or not off:
        return held
    here = {side_with(sheet, m.which, held) for m in off}
    if (held.turned and here == {held.side}) or looked_through(off, recent):
        return held
    if len(here) == 1 and here >= sides_open(sheet, recent, {m.component for m in off}, "removed"):
        side = here.pop()
        return replace(held, side=side, side_at=held.utterance, turned_to=side)
    return replace(held, side=None, turned_to=None)


def sides_open(
    sheet: Sheet, recent: Sequence[Sequence[Statement]], parts: Collection[str | None], way: str
) -> set[str | None]:
    """Sides on which one of *parts* went this *way* a moment ago.

    One that most of the job has, a corner of a car, is done with once anything was found or read since.
    """
    moved = [m for group in recent for m in group if _moved(m, sheet, way) and m.component in parts]
    near = {id(m) for m in _since_looked(recent)} if moved else set()
    return {side_of(sheet, m.which) for m in moved if id(m) in near or not _is_of_the_job(sheet, m.which)}


def _is_of_the_job(sheet: Sheet, which: str | None) -> bool:
    """True where half of the parts or more are on the side of *which*; of a number, of those with sides."""
    side = side_of(sheet, which)
    if side is None:
        return False
    apart = [c for c in sheet.component if c.stations] if side.isdigit() else sheet.component
    return 2 * sum(has_side(c, side) for c in sheet.component) >= len(apart)


def _since_looked(recent: Sequence[Sequence[Statement]]) -> Iterator[Statement]:
    """What was said since anything was found or read, newest first: work in one go, on whichever side."""
    every = (one for group in reversed(recent) for one in reversed(group))
    return takewhile(lambda one: not isinstance(one, Reading | ConditionNote), every)


def _moved(one: Statement, sheet: Sheet, way: str) -> TypeGuard[Movement]:
    """True for a part on a side that went this *way*: off, or on."""
    if type(one) is not Movement or one.movement != way or one.component is None:
        return False
    spec = sheet.get(one.component)
    return spec is not None and one.which in spec.stations


def head_side(texts: Sequence[str], held: Hand | None, sheet: Sheet) -> str | None:
    """ "right then, other side wheel off": the side that the first words turn to.

    "" where they leave the side in hand, and which is the other one is not known.
    """
    side = (held.side or side_of(sheet, held.which)) if held is not None else None
    if side is None:
        return None
    for at in range(min(len(texts) - 1, _LONGEST_HEAD)):
        if texts[at] == "other" and texts[at + 1] in {"side", "end"}:
            of_it = texts[at + 2 : at + 3] == ("of",)
            return other_side(sheet, side, texts[at + 1]) or (None if of_it else "")
        if texts[at] not in _HEAD:
            return None
    return None


def heads_another(tags: Sequence[Tag], texts: Sequence[str], sheet: Sheet) -> bool:
    """ "right one new jet needle in": the first of *tags* is a side, and what follows is of a part there.

    "Right, one bolt out" turns nowhere: of what is told so, there is one on the right.
    """
    if texts[tags[1].start] not in {"one", "side"}:
        return False
    at = next((at for at in range(2, len(tags)) if tags[at].kind != "MOD"), len(tags))
    if at + 1 >= len(tags) or tags[at].kind != "PART" or any(t.meaning.positions for t in tags[2:at]):
        return False
    rest = (tag for tag in tags[at + 1 :] if tag.kind not in {"AUX", "MOD"} and "SAME" not in tag.tags)
    behind = next(rest, tags[at])
    told = behind.kind in {"OFF", "ON", "COND", "MEASURE"}
    named = map(sheet.get, (*tags[at].meaning.parts, *tags[at].meaning.aliases))
    return told and all(part is not None and has_side(part, tags[0].meaning.positions[0]) for part in named)
