""" "The rear one", "the high one": the part is told by a place or by a word of its name.

First the part in hand is asked whether it has such a place, then the parts called so, those of
the same kind before all others. Where none is found, the part in hand is kept and asks.
"""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import replace

from saywright.sheets.model import Component, Sheet
from saywright.understanding.discourse import Hand
from saywright.understanding.naming.sheet_names import component_names
from saywright.understanding.numbers.words import ORDINALS
from saywright.understanding.sides.hand_sides import many_here
from saywright.understanding.subjects.noun_phrases import Subject

_MIDDLE = frozenset({("middle",), ("centre",), ("center",)})


def pointed_out(subject: Subject, sheet: Sheet, hand: Hand | None, owners: Collection[str] = ()) -> Subject:
    """The subject with the part that its words point at; *unclear* where they point at none.

    *owners* are the parts that have the characteristic said with it; () where none was.
    """
    if not subject.which or not subject.pronoun or subject.unclear:
        return subject
    words = tuple(word for word in subject.which if not word.isdigit())
    if not words:
        return subject
    held_id = subject.components[0] if subject.components else hand.component if hand else None
    held = sheet.get(held_id)
    elsewhere = _only_there(subject.which, sheet, held, owners) if held and not subject.components else []
    if elsewhere:
        there = _placed_there(subject, elsewhere)
    else:
        there = _pointed_at(subject, sheet, held, words, owners)
    every = not subject.many or subject.selector == "all" or subject.count is not None
    here = () if every else many_here(there.which, hand)
    return replace(there, which=here) if here else there


def _pointed_at(
    subject: Subject, sheet: Sheet, held: Component | None, words: tuple[str, ...], owners: Collection[str]
) -> Subject:
    """The subject with the part that has such a place, or is called so."""
    if held is not None and (_places(held, words) or _read_at(held, words, owners)):
        return subject if _places(held, words) else replace(subject, which=())
    called = _called_alike(sheet, words, held, owners)
    if (
        not (subject.single or subject.many)
        and called is None
        and any(_places(c, words) for c in sheet.component)
    ):
        return subject  # "at the outer edge"
    order = ORDINALS.get(words[-1])
    if held is not None and order is not None and order <= held.count > 1 and not held.positions:
        return replace(subject, which=(str(order),))
    if held is not None and words in _MIDDLE and held.count % 2 and held.count > 1 and not held.positions:
        return replace(subject, which=(str(held.count // 2 + 1),))  # "the middle one" of three
    found = [c for c in sheet.component if _called(c, words) or _places(c, words)]
    found = [c for c in found if c.id in owners] or found
    alike = [c for c in found if held is not None and _kind(c) & _kind(held)]
    known = [called] if called is not None else alike or found
    if len(known) == 1:
        places = _places(known[0], words)
        places = places if subject.many or len(places) < 2 else subject.which  # of one side, or it asks
        return replace(subject, components=(known[0].id,), which=places, pronoun=False, alias=False)
    if held is None or held.count > 1 or held.positions:
        return subject  # which of them it is asks by itself
    named = ", ".join(c.label for c in known[:3])
    return replace(subject, which=(), unclear=" ".join(words) + (f": {named}" if named else ""))


def _placed_there(subject: Subject, parts: list[Component]) -> Subject:
    """The subject as the one of *parts*; of several it asks."""
    if len(parts) > 1:
        return replace(subject, unclear=f"{subject.which[0]}: {parts[0].label}?")
    return replace(subject, components=(parts[0].id,), pronoun=False, alias=False)


def _only_there(
    which: Collection[str], sheet: Sheet, held: Component, owners: Collection[str]
) -> list[Component]:
    """ "gap on the upper left" with the upper thrust bearing in hand: the parts that have such a place.

    So too "left outer ones stuck" with the left caliper in hand: a left outer one is a piston.
    [] where *held* has a place of all these words, or of none of them; with *owners*, only such.
    """
    said = {word for place in which for word in place.split()}
    if len(said) == 1 or any(said <= set(place.split()) for place in held.positions):
        return []
    if not any(set(place.split()) < said for place in held.positions):
        return []
    placed = [c for c in sheet.component if c.characteristic and c.has_places(which)]
    if len(which) > 1:
        placed = [c for c in placed if any(said <= set(place.split()) for place in c.positions)]
    placed = [c for c in placed if c.id in owners] if owners else placed
    alike = [c for c in placed if _kind(c) & _kind(held)]
    return alike if len(alike) == 1 else placed


def _read_at(component: Component, words: tuple[str, ...], owners: Collection[str]) -> bool:
    """ "rear one's blued": the rear journal of the gear in hand."""
    if owners and component.id not in owners:
        return False
    return any(set(words) <= set(read.places) for read in component.characteristic)


def _called_alike(
    sheet: Sheet, words: tuple[str, ...], held: Component | None, owners: Collection[str]
) -> Component | None:
    """The one part called by *words* that has the characteristic, or is of the kind of the part in hand."""
    called = [c for c in sheet.component if _called(c, words)]
    of_hand = [c for c in called if held is not None and _kind(c) & _kind(held)]
    known = [c for c in called if c.id in owners] if owners else of_hand
    return known[0] if len(known) == 1 else None


def _places(component: Component, words: tuple[str, ...]) -> tuple[str, ...]:
    """The places of *component* that *words* name."""
    return tuple(w for w in component.whiches if w in words or set(words) & set(w.split()))


def _called(component: Component, words: tuple[str, ...]) -> bool:
    """True where a name of *component* has all *words* before its noun."""
    return any(set(words) <= set(name[:-1]) for name, _ in component_names(component))


def _kind(component: Component) -> frozenset[str]:
    """The nouns that *component* is called by."""
    return frozenset(name[-1] for name, _ in component_names(component))
