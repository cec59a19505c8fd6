"""Where a number belongs: which characteristics it could be a value of, and whether its words say so."""

from __future__ import annotations

from collections.abc import Sequence

from saywright.flags import Flag, FlagKind, flag
from saywright.understanding.doings.beside_doings import is_fill
from saywright.understanding.facts import Fact, Told
from saywright.understanding.meanings import CharacteristicKey
from saywright.understanding.naming.sheet_names import component_names
from saywright.understanding.quantities.dimensions import by_dimension, has_no_such
from saywright.understanding.sides.turning import of_the_side
from saywright.understanding.statements import Reading
from saywright.understanding.subjects.noun_phrases import Subject
from saywright.understanding.subjects.part_picks import called_so, named_after, named_most_after
from saywright.understanding.tokens import spoken_form
from saywright.understanding.values.astray import holds_anyway
from saywright.understanding.values.at_its_place import at_its_place
from saywright.understanding.values.by_its_size import by_its_size
from saywright.understanding.values.by_place import (
    is_its_fellow,
    placed_elsewhere,
    side_said,
)
from saywright.understanding.values.fitting import Choice, best_choice
from saywright.understanding.values.not_read import is_spanner
from saywright.understanding.values.opening import shuts_at
from saywright.understanding.values.read_already import of_what_is_open
from saywright.understanding.values.said_again import read_again, read_last
from saywright.understanding.values.unnamed_values import (
    by_unit,
    goes_on,
    of_its_neighbour,
    of_own_kind,
    only_of_its_unit,
    strays_beside,
)
from saywright.understanding.values.what_it_does import by_what_it_does
from saywright.understanding.working import Working
from saywright.units import get_unit

_FRESH = 3  # utterances for which a named part still takes a bare number


def keys_for(
    work: Working, fact: Fact, subject: Subject | None, replaces: Reading | None
) -> tuple[list[CharacteristicKey], list[Flag]]:
    """The characteristics that a value of *subject* could be of, likeliest first."""
    named = subject is not None and bool(subject.components)
    same = named and subject is not None and replaces is not None and replaces.component in subject.components
    if replaces is not None and not fact.characteristics and (same or not named):
        return [(replaces.component, replaces.characteristic)], []
    components = _components(work, subject)
    alone = named and len(fact.subjects) == 1 and not fact.characteristics
    holds = _of_fastener(work, fact, components) if alone else None
    if holds is not None:
        sure = _says(work, fact, holds[0])
        return [holds], [] if sure else [flag(FlagKind.PART_AMBIGUOUS, f"tightened is {holds[0]}")]
    if fact.characteristics:
        return _of_those_named(work, fact, components, named=named)
    measured = by_dimension(fact, components, work.sheet, work.texts)
    if measured and _can_be(work, fact, measured):
        fact.cover(fact.phrase.start, fact.phrase.end + 1)
    else:
        measured = by_what_it_does(work, fact, components)
    if measured:
        fact.characteristics = tuple(measured)  # as good as named
        return measured, []
    filled = is_fill(work.texts, fact.phrase.start)  # "plug's in and she's filled with five hundred mil"
    told, doubts = _told_otherwise(work, fact, components) if not named or filled else ([], [])
    if told:
        return told, doubts
    awaited = work.before.awaited
    if awaited is not None and not named and (not components or awaited[0] in components):
        return [awaited], []
    placed, doubts = placed_elsewhere(work, fact, subject) if subject is not None and not named else ([], [])
    if placed:
        return placed, doubts
    other = has_no_such(fact, components, work.sheet, work.texts)
    return _all(work, components), [flag(FlagKind.CHARACTERISTIC_AMBIGUOUS)] if other else []


def _can_be(work: Working, fact: Fact, keys: Sequence[CharacteristicKey]) -> bool:
    """True where the number is one that the sheet thinks possible for one of *keys*."""
    measure = fact.phrase.measure
    found = best_choice(measure, keys, work.sheet) if measure is not None else None
    return found is not None and found[0].fits


def _of_those_named(
    work: Working, fact: Fact, components: Sequence[str], *, named: bool
) -> tuple[list[CharacteristicKey], list[Flag]]:
    """Of the characteristics that were named, those of the part that is talked of."""
    inside = [key for key in fact.characteristics if key[0] in components]
    if components and inside:
        return inside, []
    held = work.sheet.get(components[0]) if len(components) == 1 else None
    said = work.texts[fact.start : fact.end]
    own = called_so(held, fact.characteristics, said, work.sheet) if held is not None else []
    if own:
        return own, []
    if named:
        return _all(work, components), [flag(FlagKind.CHARACTERISTIC_AMBIGUOUS)]
    owners = [c for c in map(work.sheet.get, dict.fromkeys(key[0] for key in fact.characteristics)) if c]
    here = {
        c.id for c in of_the_side(owners, side_said(work, fact, owners))
    }  # "lining" at the rear: its shoes
    return [key for key in fact.characteristics if key[0] in here], []


def _told_otherwise(
    work: Working, fact: Fact, components: Sequence[str]
) -> tuple[list[CharacteristicKey], list[Flag]]:
    """What the value is of by the instrument named beside it, or because it was read again."""
    measured, doubts = _by_instrument(work, fact, components)
    if measured:
        fact.characteristics = tuple(measured)  # as good as named
        return measured, doubts
    alone, doubts = by_unit(work, fact, components)
    if alone:
        fact.characteristics = tuple(alone)
        return alone, doubts
    again = read_again(work, fact, components)
    if again is not None:
        return [again], []
    further = goes_on(work, fact, components)
    if further is not None:
        fact.characteristics = (further,)
        return [further], []
    neighbour = of_its_neighbour(work, fact, components)
    if neighbour:
        fact.characteristics = tuple(neighbour)
        return neighbour, []
    sized, doubts = by_its_size(work, fact, components)
    if sized:
        fact.characteristics = tuple(sized)
        return sized, doubts
    last = read_last(work, fact) if not _all(work, components) else None
    return ([(last.component, last.characteristic)] if last is not None else []), []


def _of_fastener(work: Working, fact: Fact, components: Sequence[str]) -> CharacteristicKey | None:
    """ "mech on, nine newton metres": of the one bolt that is called after it and is tightened."""
    unit = fact.phrase.measure.unit if fact.phrase.measure is not None else None
    held = work.sheet.get(components[0]) if len(components) == 1 else None
    if unit is None or get_unit(unit).kind != "torque" or held is None:
        return None
    if any(get_unit(c.unit).kind == "torque" for c in held.characteristic):
        return None
    torques = [(p, c) for p, c in work.sheet.characteristics() if get_unit(c.unit).kind == "torque"]
    own = [(p.id, c.id) for p, c in torques if p.inside == held.id or named_after(p, held)]
    return own[0] if len(own) == 1 else None


def _says(work: Working, fact: Fact, fastener: str) -> bool:
    """ "hub on, nut to twenty foot pounds": the noun of *fastener* stands before its torque."""
    part = work.sheet.get(fastener)
    nouns = {name[-1] for name, _ in component_names(part)} if part is not None else set()
    return not nouns.isdisjoint(work.texts[fact.start : fact.phrase.start])


def _by_instrument(
    work: Working, fact: Fact, components: Sequence[str]
) -> tuple[list[CharacteristicKey], list[Flag]]:
    """ "chain checker, point seven five": what the instrument named beside the value is there for."""
    if not fact.measured:
        return [], []
    said = f" {' '.join(work.texts)} "
    used = {
        i.id for i in work.sheet.instrument for name in i.names if f" {' '.join(spoken_form(name))} " in said
    }
    keys = [(part.id, c.id) for part, c in work.sheet.characteristics() if c.instrument in used]
    held = [key for key in keys if key[0] in components]
    return of_what_is_open(work, fact, held, keys) if held else (keys if len(keys) == 1 else [], [])


def _components(work: Working, subject: Subject | None) -> list[str]:
    if subject is not None and subject.components:
        several = subject.selector == "both" or (subject.count or 0) > 1
        named = of_the_side([c for c in map(work.sheet.get, subject.components) if c is not None], work.hand)
        held = work.sheet.get(work.hand.component) if work.hand is not None and len(named) > 1 else None
        able = [c for c in named if c.count > 1]
        if several and able:
            just_now = work.hand is not None and work.hand.utterance == work.now
            of_it = named_most_after(able, held) if just_now else []  # "carrier on, both bolts thirty"
            return [c.id for c in of_it or able]
        among = held is not None and held in named
        if held is not None and among and work.texts[subject.start] in {"that", "this"}:
            named = [held]  # "a regulator spring is out" … "that spring is …"
        of_it = [] if among else named_most_after(named, held)  # "hub on … nut to twenty"
        return [c.id for c in of_it or named]
    return [work.hand.component] if work.hand is not None else []


def _all(work: Working, components: Sequence[str]) -> list[CharacteristicKey]:
    found = map(work.sheet.get, components)
    return [(c.id, characteristic.id) for c in found if c is not None for characteristic in c.characteristic]


def is_awaited(work: Working, choice: Choice) -> bool:
    """True where the last utterance named the characteristic and left its value out."""
    return work.before.awaited is not None and choice.key == work.before.awaited


def is_licensed(work: Working, told: Told, fact: Fact, subject: Subject | None, best: Choice) -> bool:
    """True where the words give the value a place: a name, a pronoun, "I get", the part named just before."""
    closes = not fact.characteristics and shuts_at(work.texts, fact.phrase.start)  # "reseats at nine"
    if closes or is_spanner(work, fact, best):
        return False
    strays = _strays(work, told, fact, best) and not at_its_place(work, fact, best, asks=True)
    if fact.characteristics or (is_awaited(work, best) and not strays):
        return True
    if any(f.kind == FlagKind.UNIT_MISMATCH for f in best.flags):
        return False
    if subject is not None and subject.components:
        component = work.sheet.get(best.key[0])
        return best.fits or (component is not None and len(component.characteristic) == 1)
    if not best.fits or work.hand is None:
        return False
    if strays and not (
        only_of_its_unit(work, fact, best)
        or of_own_kind(work, fact, best)
        or holds_anyway(work, fact, subject, best)
    ):
        return False
    goes_on = "point" in work.texts[fact.phrase.end : fact.phrase.end + 1]
    said_unit = fact.phrase.measure is not None and fact.phrase.measure.unit_said is not None
    exact = "." in best.value or len(best.value) > 2 or goes_on or said_unit
    fresh = work.now - work.hand.utterance <= (_FRESH if exact else 1)
    return subject is not None or fact.introduced or fact.measured or fresh


def _strays(work: Working, told: Told, fact: Fact, best: Choice) -> bool:
    """True for words beside the value that may tell of something else."""
    beside = strays_beside(work, told, fact) and not fact.measured and not _is_row(told)
    return beside and not at_its_place(work, fact, best)


def _is_row(told: Told) -> bool:
    """ "went over them again, left nine point one, right nine point two": each value has its own position."""
    values = [f for f in told.facts if f.kind == "value"]
    beside = [
        s.which
        for f in values
        for s in f.subjects[-1:]
        if s.which and (s.end == f.phrase.start or s.start >= f.phrase.end)  # "five and six inner and outer"
    ]
    return len(values) > 1 and len(set(beside)) == len(values)


def hardly_named(work: Working, told: Told, fact: Fact, subject: Subject | None, best: Choice) -> bool:
    """ "that's eighty": a bare whole number, by its place alone taken for a length or a pressure."""
    measure = fact.phrase.measure
    if fact.characteristics or (subject is not None and subject.components):
        return False
    strays = _strays(work, told, fact, best)
    if _is_of_another(work, fact, best) or (strays and not is_awaited(work, best)):
        return True
    share = measure is not None and measure.readings[0].how == "fraction"  # "half", by its place a length
    if measure is None or measure.unit_said is not None or ("." in best.value and not share):
        return False
    again = any(
        isinstance(s, Reading)
        and (s.component, s.characteristic) == best.key
        and (
            s.value == best.value
            or "again" in work.texts[: fact.phrase.start]
            or is_its_fellow(subject, s, best)
        )
        for s in (*work.last_group(), *work.out)
    )
    owner, characteristic = work.sheet.get(best.key[0]), work.sheet.find(*best.key)
    only = owner is not None and len(owner.characteristic) == 1
    return (
        not again
        and not (only and best.fits and _is_row(told))  # "upper thirty nine, lower thirty eight"
        and not (
            only and best.fits and subject is not None and subject.selector == "all"
        )  # "all five to ten"
        and not is_awaited(work, best)
        and characteristic is not None
        and get_unit(characteristic.unit).kind not in {"number", "turn"}
    )


def _is_of_another(work: Working, fact: Fact, best: Choice) -> bool:
    """ "again point nine eight", and it fits something else than what was read last."""
    if fact.characteristics or "again" not in work.texts[: fact.phrase.start]:
        return False
    near = [*work.last_group(), *work.out]
    last = next((s for s in reversed(near) if isinstance(s, Reading)), None)
    return last is not None and (last.component, last.characteristic) != best.key
