"""Subjects → parts of the sheet: which component, and which of several."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from saywright.flags import Flag, FlagKind, flag
from saywright.sheets.model import Component, Sheet
from saywright.understanding.discourse import Hand
from saywright.understanding.meanings import CharacteristicKey
from saywright.understanding.subjects import Subject

_STALE = 10  # utterances after which "it" is asked about


@dataclass(frozen=True, slots=True)
class Part:
    """A part that something is said of."""

    component: str
    whiches: tuple[str | None, ...]  # one statement each; (None,) where it was not said or one is fitted
    count: int | None  # how many were said
    bare_plural: bool  # plural without a number
    age: str | None  # "old", "new" or None
    flags: tuple[Flag, ...]
    named: bool  # by its own name, not by a pronoun


def resolve(
    subject: Subject | None,
    sheet: Sheet,
    hand: Hand | None,
    now: int,
    *,
    off: dict[str, int],
    movement: str = "",
    keys: Sequence[CharacteristicKey] = (),
) -> Part | None:
    """The part *subject* means; None where nothing is named and nothing is in hand."""
    candidates = _candidates(subject, sheet, hand, keys)
    if not candidates:
        return None
    component, flags = _choose(candidates, subject, sheet, hand, off, movement)
    named = subject is not None and bool(subject.components)
    if not named:
        from_characteristic = (
            bool(keys) and len(candidates) == 1 and (hand is None or hand.component != component.id)
        )
        kind = FlagKind.PART_FROM_CHARACTERISTIC if from_characteristic else FlagKind.PART_FROM_CONTEXT
        flags.append(flag(kind, component.label))
        if (
            hand is not None
            and hand.component == component.id
            and now - hand.utterance > _STALE
            and not from_characteristic
        ):
            flags.append(flag(FlagKind.PART_AMBIGUOUS, f"{component.label} was named long ago"))
    whiches, which_flags = _whiches(subject, component, hand)
    return Part(
        component=component.id,
        whiches=whiches,
        count=_count(subject, component),
        bare_plural=subject is not None and subject.many and subject.count is None and not subject.selector,
        age=subject.age if subject else None,
        flags=(*flags, *which_flags),
        named=named,
    )


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
    off: dict[str, int],
    movement: str,
) -> tuple[Component, list[Flag]]:
    """One of several that a short name may mean, with an ask where the sheet leaves more than one."""
    if len(candidates) == 1:
        return candidates[0], []
    left = candidates
    if hand is not None:
        in_hand = [c for c in left if c.id == hand.component]
        if in_hand:
            return in_hand[0], [flag(FlagKind.PART_FROM_CONTEXT, in_hand[0].label)]
    if subject is not None:
        said = subject.count or 0
        left = [c for c in left if c.count >= said and (said < 2 or c.count > 1)] or left
        if subject.which:
            left = [c for c in left if set(subject.which) <= set(c.whiches)] or left
        if subject.many and len(left) > 1:
            left = [c for c in left if c.count > 1] or left
    if movement == "fitted" and len(left) > 1:
        left = [c for c in left if off.get(c.id, 0) > 0] or left
    if hand is not None and len(left) > 1:
        near = sheet.get(hand.component)
        left = [
            c for c in left if c.inside == hand.component or (near is not None and near.inside == c.id)
        ] or left
    if len(left) == 1:
        return left[0], []
    others = ", ".join(c.label for c in left[1:4])
    return left[0], [flag(FlagKind.PART_AMBIGUOUS, f"{left[0].label}, or {others}")]


def _count(subject: Subject | None, component: Component) -> int | None:
    if subject is None:
        return None
    if subject.count is not None:
        return subject.count
    if subject.selector == "both":
        return 2
    if subject.selector == "all" and component.count > 1:
        return component.count
    return None


def _whiches(
    subject: Subject | None, component: Component, hand: Hand | None
) -> tuple[tuple[str | None, ...], list[Flag]]:
    if component.count == 1 and not component.positions:
        return (None,), []
    every = component.whiches
    held = hand.which if hand is not None and hand.component == component.id else None
    if subject is not None and subject.which:
        known = tuple(w for w in subject.which if w in every or (w.isdigit() and int(w) <= component.count))
        known = known or tuple(w for w in every if set(subject.which) & set(w.split()))
        if known:
            return known, []
        return (None,), [flag(FlagKind.WHICH_UNCLEAR, f"{component.label}: {', '.join(subject.which)}")]
    if subject is not None and subject.selector == "both":
        return (every if len(every) == 2 else (None,)), []
    if subject is not None and subject.selector == "all":
        return every, []
    if subject is not None and subject.selector == "other":
        others = [w for w in every if w != held]
        if held is not None and len(others) == 1:
            return (others[0],), [flag(FlagKind.PART_FROM_CONTEXT, f"{others[0]}, the other one")]
        return (None,), [] if subject.count else [flag(FlagKind.WHICH_UNCLEAR, component.label)]
    if held is not None and (subject is None or subject.pronoun or not subject.many):
        return (held,), [flag(FlagKind.PART_FROM_CONTEXT, f"{component.label}: {held}")]
    return (None,), []
