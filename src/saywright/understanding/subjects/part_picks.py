"""Which part words pick out that do not name it in full: by its place, its state, how many there are."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from collections.abc import Set as AbstractSet

from saywright.flags import Flag, FlagKind, flag
from saywright.sheets.model import Component, Sheet
from saywright.understanding.discourse import Hand
from saywright.understanding.meanings import CharacteristicKey
from saywright.understanding.naming.sheet_names import component_names
from saywright.understanding.sides.hand_sides import on_the_side
from saywright.understanding.subjects.noun_phrases import Subject
from saywright.understanding.tokens import spoken_form

_A_FEW = 2  # so many may be some of more
Seen = tuple[str | None, str | None, str, bool]  # component, which, condition, whether it was there


def each_here(subject: Subject, known: Sequence[str], hand: Hand | None) -> tuple[str, ...]:
    """ "inner and outer eleven point five each" with the left side turned to: the two of that side."""
    if len(subject.which) < 2 or hand is None or not (hand.turned or hand.side_at >= hand.utterance):
        return ()
    told = [set(which.split()) for which in subject.which]
    here = [on_the_side([w for w in known if one <= set(w.split())], hand, frozenset(one)) for one in told]
    alone = all(len(one) == 1 for one in here)
    return tuple(dict.fromkeys(one[0] for one in here)) if alone else ()  # "left lower" is one place


def count_said(subject: Subject | None, component: Component) -> int | None:
    """How many of *component* are said: "two of them", "both", "all"."""
    if subject is None:
        return None
    if subject.count is not None:
        return subject.count
    if subject.selector == "both":
        return 2
    if subject.selector == "all" and component.count > 1:
        return component.count
    return None


def so_placed(subject: Subject, candidates: list[Component], sheet: Sheet) -> list[Component]:
    """ "lower boot", where the boot has no lower one and the slide boots have: the one so placed."""
    said = {which for which in subject.which if not which.isdigit()}
    if not said or any(_has(c, said) for c in candidates):
        return candidates
    if not subject.alias and all(len(name) > 1 for c in candidates for name, _ in component_names(c)):
        return candidates  # "front caliper bolts": named in full, no banjo bolt
    nouns = {name[-1] for c in candidates for name, _ in component_names(c)}
    placed = [
        c
        for c in sheet.component
        if _has(c, said) and any(name[-1] in nouns for name, _ in component_names(c))
    ]
    return placed if len(placed) == 1 else candidates


def _has(component: Component, places: set[str]) -> bool:
    return all(any(p == place or place in p.split() for p in component.positions) for place in places)


def all_have(sheet: Sheet, components: Sequence[str], which: Sequence[str]) -> bool:
    """True where something is named, and each part that it may be has all the places *which*."""
    parts = [sheet.get(c) for c in components]
    return bool(parts) and all(part is not None and part.has_places(which) for part in parts)


def are_renewed(sheet: Sheet, components: Sequence[str]) -> bool:
    """True where something is named, and each part that it may be is one that is always renewed."""
    parts = [sheet.get(c) for c in components]
    return bool(parts) and all(part is not None and part.renew for part in parts)


def so_many(candidates: list[Component], subject: Subject | None, held: Component | None) -> list[Component]:
    """Those of which as many are fitted as were said: of "both screws" just two, where there are such."""
    if subject is None:
        return candidates
    both = subject.selector == "both"
    said = subject.count or 2 * both
    left = [c for c in candidates if c.count >= said and (said < 2 or c.count > 1)] or candidates
    if said > 1 and subject.which:  # "the rear two bolts", where one banjo bolt is at the rear
        left = [c for c in left if not c.positions or _at(c, subject.which) != 1] or left
    just = [c for c in left if said > _A_FEW and c.count % said == 0]  # on one side, or on both together
    if len(just) == 1 and just[0].count == said:
        return just  # "five disc bolts": of those in front there are six
    if both or (subject.selector == "all" and subject.count is not None):
        left = _as_many_there(left, said, held) or left
    return [c for c in left if c.count > 1] or left if subject.many else left


def _at(component: Component, which: Sequence[str]) -> int:
    """How many of *component* are at the places *which*."""
    words = {word for one in which for word in one.split()}
    return sum(words <= set(position.split()) for position in component.positions)


def of_the_same_breath(
    candidates: list[Component], subject: Subject | None, held: Component | None
) -> list[Component]:
    """ "cap on, both screws in": the screws called after what was named just before."""
    if held in candidates:
        return candidates
    return named_most_after(so_many(candidates, subject, held), held) or candidates


def place_of_counted(subject: Subject | None, component: Component) -> str | None:
    """ "front left caliper bolts", which the sheet only counts: where they are."""
    if subject is None or component.positions or component.count < 2 or len(subject.which) != 1:
        return None
    return None if subject.which[0].isdigit() else subject.which[0]


def found_so(
    subject: Subject, candidates: list[Component], sheet: Sheet, seen: AbstractSet[Seen]
) -> list[Component]:
    """ "the chewed one" with the cover in hand: the part of which one was found so."""
    if candidates[0].count > 1:
        return candidates
    so = {c for c, _, condition, present in seen if present and condition in subject.described}
    found = [c for c in sheet.component if c.id in so and c.count > 1]
    return found if len(found) == 1 else candidates


def its_mate(subject: Subject | None, component: Component, hand: Hand | None) -> list[Flag]:
    """An ask for "its mate's chipped" with the one drive gear in hand, of which there is no other."""
    if subject is None or subject.selector != "other" or not subject.pronoun:
        return []
    held = hand is not None and hand.component == component.id
    return [flag(FlagKind.PART_AMBIGUOUS, f"{component.label}, or its mate")] if held else []


def as_many(
    subject: Subject, candidates: list[Component], sheet: Sheet, off: Mapping[str, int], movement: str
) -> list[Component]:
    """ "cover back on, all four in": the four screws called after it, not the one cover.

    "Other caliper, all four out": of what is in each of them and of which some are off already.
    """
    said, held = subject.count or 0, candidates[0]
    away = off if movement == "fitted" else {}
    if said <= (len(subject.which) or held.count):
        return candidates
    inside = [c for c in sheet.component if c.inside == held.id and c.count == said * held.count]
    if len(begun := [c for c in inside if off.get(c.id, 0)]) == 1 or len(inside) == 1:
        return begun or inside
    alike = [c for c in sheet.component if c.count == said and (not away or away.get(c.id, 0) >= said)]
    of_it = [c for c in alike if named_after(c, held)] or alike
    return of_it if len(of_it) == 1 else candidates


def named_after(component: Component, held: Component | None) -> bool:
    """True where a name of *component* holds a word of what is in hand: "plug washer" with the drain plug."""
    if held is None:
        return False
    return _words_of(component, held) > 0


def named_most_after(candidates: Sequence[Component], held: Component | None) -> list[Component]:
    """Those whose names hold most words of what is in hand: the pump cover's screw, not another cover's.

    A whole name of it weighs more than a word of one: a cylinder bolt is the wheel cylinder's, a wheel bolt
    is not.
    """
    if held is None:
        return []
    shared = [(_whole_name(c, held), _words_of(c, held)) for c in candidates]
    most = max(shared, default=(0, 0))
    return [c for c, words in zip(candidates, shared, strict=True) if words == most and words[1]]


def next_on_sheet(candidates: Sequence[Component], held: Component | None, sheet: Sheet) -> list[Component]:
    """The candidate listed nearest to *held*: a sheet lists a part with what holds it; [] where two are."""
    if held is None:
        return []
    order = [c.id for c in sheet.component]
    away = [abs(order.index(c.id) - order.index(held.id)) for c in candidates]
    return [c for c, far in zip(candidates, away, strict=True) if far == min(away)]


def _as_many_there(candidates: Sequence[Component], said: int, held: Component | None) -> list[Component]:
    """Those of which *said* are fitted, or *said* on each of several of *held*: both bolts of a caliper."""
    of_each = max(1, held.count) if held is not None else 1
    return [c for c in candidates if c.count in {said, said * of_each}]


def called_so(
    held: Component, keys: Sequence[CharacteristicKey], texts: Sequence[str], sheet: Sheet
) -> list[CharacteristicKey]:
    """ "axle bent, run out half a mil", where the sheet has an axle run out, and a run out of the tube.

    *texts* hold the name said.
    """
    read = [(sheet.get(key[0]), sheet.find(*key)) for key in keys]
    line = f" {' '.join(texts)} "
    tails: set[tuple[str, ...]] = set()
    for part, c in read:
        names = list(map(spoken_form, c.names)) if c is not None else []
        said = max((n for n in names if f" {' '.join(n)} " in line), key=len, default=())
        owners = component_names(part) if part is not None else ()
        if not any(said[: len(name)] == name or said[:1] == name[-1:] for name, _ in owners):
            # Not "coil gap", where there is a plug gap too; of "working pressure" not the last word alone.
            # Nor by a word that it is not called by: no cylinder diameter where a skirt was said.
            tails.update(n for n in names if n == said or (said[-len(n) :] != n and _alike(n, said)))
    full = {(*name, *tail) for name, _ in component_names(held) for tail in tails}
    return [(held.id, c.id) for c in held.characteristic if not full.isdisjoint(map(spoken_form, c.names))]


def _alike(name: tuple[str, ...], said: tuple[str, ...]) -> bool:
    """ "run out" and "runout", "end float" and "float": the same word, or one of its words."""
    return "".join(name) == "".join(said) or not set(name).isdisjoint(said)


def _whole_name(component: Component, held: Component) -> int:
    """How many words the longest name of *held* has that stands in a name of *component* before its noun."""
    called = [name[:-1] for name, _ in component_names(component)]
    words = {word for before in called for word in before}
    whole = (
        len(name)
        for name, _ in component_names(held)
        if words.issuperset(name)  # seldom
        for before in called
        if any(before[at : at + len(name)] == name for at in range(len(before) - len(name) + 1))
    )
    return max(whole, default=0)


def _words_of(component: Component, held: Component) -> int:
    """How many words of a name of *held* stand in a name of *component* before its noun."""
    words = {word for name, _ in component_names(held) for word in name}
    nouns = {name[-1] for name, _ in component_names(held)}  # "carrier bolt" of the caliper carrier
    shared = (set(name[:-1]) for name, _ in component_names(component))
    return max((len(words & own) + len(nouns & own) for own in shared), default=0)
