"""Subjects → parts of the sheet: which component, and which of several."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from collections.abc import Set as AbstractSet
from typing import Literal

from saywright.flags import Flag, FlagKind, flag
from saywright.sheets.model import Component, Sheet
from saywright.understanding.discourse import Hand
from saywright.understanding.fixed import fixed
from saywright.understanding.meanings import CharacteristicKey
from saywright.understanding.sides.hand_sides import both_here, many_here, on_the_side, others_here, two_sides
from saywright.understanding.sides.levels import in_row
from saywright.understanding.sides.turning import has_side, of_the_side
from saywright.understanding.subjects.machine_ends import at_the_end
from saywright.understanding.subjects.noun_phrases import Subject
from saywright.understanding.subjects.part_picks import (
    Seen,
    as_many,
    count_said,
    each_here,
    found_so,
    its_mate,
    named_most_after,
    next_on_sheet,
    of_the_same_breath,
    place_of_counted,
    so_many,
    so_placed,
)
from saywright.understanding.subjects.pointing import pointed_out

STALE = 10  # utterances after which "it" is asked about


@fixed
class Part:
    """A part that something is said of."""

    component: str
    whiches: tuple[str | None, ...]  # one statement each; (None,) where it was not said or one is fitted
    count: int | None  # how many were said
    bare_plural: bool  # plural without a number
    age: Literal["old", "new"] | None
    flags: tuple[Flag, ...]
    place: str | None = None  # where they were said to be, of what the sheet only counts

    @property
    def single(self) -> str | None:
        """The one it is, where one was said."""
        return self.whiches[0] if len(self.whiches) == 1 else None


def resolve(
    subject: Subject | None,
    sheet: Sheet,
    hand: Hand | None,
    now: int,
    *,
    off: Mapping[str, int],
    movement: str = "",
    seen: AbstractSet[Seen] = frozenset(),
    keys: Sequence[CharacteristicKey] = (),
) -> Part | None:
    """The part *subject* means; None where nothing is named and nothing is in hand."""
    if subject is not None:
        subject = pointed_out(subject, sheet, hand, {component for component, _ in keys})
    candidates = _candidates(subject, sheet, hand, keys)
    if not candidates:
        return None
    if subject is not None and subject.components and subject.which:
        candidates = so_placed(subject, candidates, sheet)
    if subject is not None and subject.pronoun and subject.described:
        candidates = found_so(subject, candidates, sheet, seen)
    if movement and subject is not None and (subject.pronoun or subject.selector == "all"):
        candidates = as_many(subject, candidates, sheet, off, movement)
    if movement == "removed" and len(candidates) > 1:
        candidates = [c for c in candidates if off.get(c.id, 0) < c.count] or candidates  # not off yet
    candidates = at_the_end(candidates, hand)
    back_on = off if movement == "fitted" else {}
    if hand is not None and hand.utterance == now and len(candidates) > 1:
        candidates = of_the_same_breath(candidates, subject, sheet.get(hand.component))
    component, flags = _choose(candidates, subject, sheet, hand, back_on)
    if subject is None or not subject.components:
        flags.extend(_inferred(component, hand, now, read=bool(keys) and len(candidates) == 1))
    if subject is not None and subject.unclear:
        flags.append(flag(FlagKind.PART_AMBIGUOUS, subject.unclear))
    whiches, which_flags = _whiches(subject, component, sheet, hand, seen=seen, now=now, movement=movement)
    if which_flags and hand is not None and hand.component != component.id:
        which_flags += two_sides(hand, now)
    place = place_of_counted(subject, component)
    if place is not None and subject is not None and not subject.alias:
        which_flags = [flag(FlagKind.WHICH_NOT_SAID, f"{component.label}: {place}")]
    return Part(
        component=component.id,
        whiches=whiches,
        count=count_said(subject, component),
        bare_plural=subject is not None and subject.many and subject.count is None and not subject.selector,
        age=subject.age if subject else None,
        flags=(*flags, *which_flags),
        place=place,
    )


def _inferred(component: Component, hand: Hand | None, now: int, *, read: bool) -> Iterator[Flag]:
    """How the part was known that nobody named; *read*: by what is read on it, where it is not in hand."""
    if read and (hand is None or hand.component != component.id):
        yield flag(FlagKind.PART_FROM_CHARACTERISTIC, component.label)
        return
    yield flag(FlagKind.PART_FROM_CONTEXT, component.label)
    if hand is not None and hand.component == component.id and now - hand.utterance > STALE:
        yield flag(FlagKind.PART_AMBIGUOUS, f"{component.label} was named long ago")


def which_flags(component: Component, how: str = "") -> list[Flag]:
    """Where it was not said which: an ask where the sheet names them, a note where it only counts them."""
    if component.positions:
        return [flag(FlagKind.WHICH_UNCLEAR, component.label + how)]
    return [flag(FlagKind.WHICH_NOT_SAID, component.label + how)] if component.count > 1 else []


def _candidates(
    subject: Subject | None, sheet: Sheet, hand: Hand | None, keys: Sequence[CharacteristicKey]
) -> list[Component]:
    owners = {component for component, _ in keys}
    if subject is not None and subject.components:
        ids: Sequence[str] = [
            c for c in subject.components if not owners or c in owners
        ] or subject.components
    elif owners and (hand is None or hand.component not in owners):
        ids = [c.id for c in sheet.component if c.id in owners]
    elif hand is not None:
        ids = [hand.component]
    else:
        ids = []
    return [component for component in map(sheet.get, ids) if component is not None]


def _choose(
    candidates: list[Component],
    subject: Subject | None,
    sheet: Sheet,
    hand: Hand | None,
    back_on: Mapping[str, int],
) -> tuple[Component, list[Flag]]:
    """One of several that a short name may mean, with an ask where the sheet leaves more than one.

    *back_on* holds how many of each are off, where something is going back on; else it is empty.
    """
    if len(candidates) == 1:
        return candidates[0], []
    near = sheet.get(hand.component) if hand is not None else None
    left = of_the_side(so_many(candidates, subject, near), hand)
    turned = hand is not None and hand.side_at > hand.utterance  # the other side begins with its first part
    if hand is not None and not turned:
        in_hand = [c for c in left if c.id == hand.component]
        if in_hand and not _fitted_already(in_hand[0], left, back_on):
            return in_hand[0], [flag(FlagKind.PART_FROM_CONTEXT, in_hand[0].label)]
    if subject is not None and subject.which:
        left = [c for c in left if set(subject.which) <= set(c.whiches)] or left
    elif hand is not None and hand.side is not None and hand.turned:
        several = hand.side.isdigit() and subject is not None and (subject.many or bool(subject.count))
        sided = [c for c in left if has_side(c, hand.side) and not several]  # one of a kind at a station
        if len(sided) == 1:  # "now the left one" … "seat's pitted": the one that there is a left one of
            return sided[0], [flag(FlagKind.PART_FROM_CONTEXT, f"{sided[0].label}: {hand.side}")]
    if len(left) > 1:
        left = [c for c in left if back_on.get(c.id, 0) > 0] or left
    if near is not None and len(left) > 1:
        left = named_most_after(left, near) or left  # the plug's washer
        left = [c for c in left if c.inside == near.id or near.inside == c.id] or left
    if len(left) == 1:
        return left[0], []
    first = (next_on_sheet(left, None if turned else near, sheet) or left)[0]
    others = ", ".join([c.label for c in left if c is not first][:3])
    return first, [flag(FlagKind.PART_AMBIGUOUS, f"{first.label}, or {others}")]


def _fitted_already(held: Component, left: list[Component], back_on: Mapping[str, int]) -> bool:
    """ "new spring in", where the spring in hand is in and another one is still out."""
    return not back_on.get(held.id, 0) and any(back_on.get(c.id, 0) for c in left)


def _whiches(
    subject: Subject | None,
    component: Component,
    sheet: Sheet,
    hand: Hand | None,
    *,
    seen: AbstractSet[Seen],
    now: int,
    movement: str,
) -> tuple[tuple[str | None, ...], list[Flag]]:
    """Which of several, one entry for each that something is said of."""
    if component.count == 1 and not component.positions:
        return (None,), its_mate(subject, component, hand)
    held = hand.which if hand is not None and hand.component == component.id else None
    if subject is not None and subject.which:
        return whiches_said(subject, component, hand)
    if subject is not None and subject.described:
        return _whiches_described(subject, component, sheet, seen)
    if subject is not None and _is_selected(subject, component, held):
        return _whiches_selected(subject, component, held, hand, now)
    if subject is not None and subject.selector == "rest":
        return _whiches_left(component, seen)
    turned = hand is not None and (hand.turned or hand.row is not None)  # "springs are good" there
    some = subject is not None and (subject.count is not None or subject.selector == "last")  # "one jaw"
    if held is not None and not some and (subject is None or subject.pronoun or not subject.many):
        return (held,), [flag(FlagKind.PART_FROM_CONTEXT, f"{component.label}: {held}")]
    here: tuple[str | None, ...] = on_the_side(component.stations, hand)
    if many := subject is not None and subject.many:  # "at the back they're rusty"
        near = subject is not None and not some and (subject.pronoun or (turned and not movement))
        here = both_here(component, hand, now) if near else ()
    if len(here) == (2 if many else 1) and None not in here:
        return here, [flag(FlagKind.PART_FROM_CONTEXT, f"{component.label}: {', '.join(map(str, here))}")]
    return (None,), []


def _is_selected(subject: Subject, component: Component, held: str | None) -> bool:
    """ "both", "the other"; "last one" behind the last but one of those told by number."""
    if subject.selector == "last":
        return not component.positions and held in component.whiches[-2:-1]
    these = subject.this and subject.pronoun and not subject.selector and bool(component.positions)
    if these and subject.count == component.count > 1:
        return True  # "these three are fine"
    return subject.selector in {"both", "all", "other"}


def whiches_said(
    subject: Subject, component: Component, hand: Hand | None
) -> tuple[tuple[str | None, ...], list[Flag]]:
    """Which of several the positions of *subject* name, with what is in hand; an ask where that is open."""
    every, numbered = component.whiches, not component.positions
    numbers = {w for w in subject.which if numbered and w.isdigit() and int(w) <= component.count}
    known = tuple(w for w in subject.which if w in every or w in numbers)
    if not known:
        said = frozenset(word for which in subject.which for word in which.split())
        some = [w for w in every if said.issuperset(w.split())] or [w for w in every if said & set(w.split())]
        known = tuple([w for w in some if said.issubset(w.split())] or some)
        each = each_here(subject, known, hand)
        here = each or (() if subject.many else in_row(known, hand) or on_the_side(known, hand, said))
        plain = subject.many and not each and subject.selector != "all" and subject.count is None
        here = (many := many_here(known, hand, said) if plain else ()) or here  # "inners scored", on the left
        if each or many or (len(known) > 1 and len(here) == 1):
            return here, [flag(FlagKind.PART_FROM_CONTEXT, f"{component.label}: {', '.join(here)}")]
        if len(known) > 1 and not (subject.many or subject.selector == "all") and subject.count is None:
            return (None,), [flag(FlagKind.WHICH_UNCLEAR, f"{component.label}: {', '.join(known)}")]
    if known:
        return known, []
    return (None,), [flag(FlagKind.WHICH_UNCLEAR, f"{component.label}: {', '.join(subject.which)}")]


def _whiches_described(
    subject: Subject, component: Component, sheet: Sheet, seen: AbstractSet[Seen]
) -> tuple[tuple[str | None, ...], list[Flag]]:
    """ "the rusty one": the one that was found so; "the good one": the one without a fault."""
    faults = {c.id for c in sheet.condition if not c.good}
    found = {(which, condition) for c, which, condition, present in seen if c == component.id and present}
    so = {which for which, condition in found if condition in subject.described}
    faulty = {which for which, condition in found if condition in faults}
    if not so:
        bad = not faults.isdisjoint(subject.described)
        so = {which for which in component.whiches if (which in faulty) is bad}
    known = [which for which in component.whiches if which in so]
    if len(known) == 1:
        return (known[0],), [flag(FlagKind.PART_FROM_CONTEXT, f"{component.label}: {known[0]}")]
    return (None,), [flag(FlagKind.WHICH_UNCLEAR, component.label)]


def _whiches_left(component: Component, seen: AbstractSet[Seen]) -> tuple[tuple[str | None, ...], list[Flag]]:
    """ "The rest": those of which nothing was said yet."""
    told = {which for c, which, _, _ in seen if c == component.id}
    left = tuple(which for which in component.whiches if which not in told)
    if left and len(left) < len(component.whiches) and None not in told:
        return left, [flag(FlagKind.PART_FROM_CONTEXT, f"{component.label}: {', '.join(left)}")]
    return (None,), [flag(FlagKind.WHICH_UNCLEAR, component.label)]


def _whiches_selected(
    subject: Subject, component: Component, held: str | None, hand: Hand | None, now: int
) -> tuple[tuple[str | None, ...], list[Flag]]:
    """ "both", "all of them", "the other one", "the last one"."""
    every = component.whiches
    if subject.selector == "last":
        return (every[-1],), [flag(FlagKind.PART_FROM_CONTEXT, f"{component.label}: {every[-1]}")]
    if subject.selector in {"all", ""}:
        return (None,) if (subject.count or component.count) < component.count else every, []
    if subject.selector == "both":
        return (every if len(every) == 2 else both_here(component, hand, now)), []
    others = others_here(component, held, hand, now, alone=subject.count is None and not subject.many)
    others = others if len(others) < 2 or subject.count else list(in_row(others, hand)) or others
    if held is not None and len(others) == 1:
        return (others[0],), [flag(FlagKind.PART_FROM_CONTEXT, f"{others[0]}, the other one")]
    if held is not None and (subject.count == len(others) or (subject.many and subject.count is None)):
        return tuple(others), [flag(FlagKind.PART_FROM_CONTEXT, f"{component.label}: {', '.join(others)}")]
    if subject.count and subject.count < component.count:
        return (None,) * subject.count, []  # "the other two are twenty five": a value of each
    return (None,), [flag(FlagKind.WHICH_UNCLEAR, component.label)]
