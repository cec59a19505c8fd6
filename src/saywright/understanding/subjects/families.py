""" "Both pads", "inner and outer pads": parts fitted alike that share a noun, each of them meant."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from saywright.sheets.model import Component, Sheet
from saywright.understanding.counting.mixed_ages import AGE_WORDS
from saywright.understanding.facts import Fact, Told
from saywright.understanding.naming.sheet_names import component_names
from saywright.understanding.subjects.noun_phrases import Subject
from saywright.understanding.tokens import spoken_form
from saywright.understanding.wordforms import singular
from saywright.understanding.working import Working

_KINDS = frozenset({"value", "finding", "doing", "off", "on", "need_new"})
_EVERYWHERE = frozenset({"sides", "round", "corners", "four", "all"})
_TOGETHER = frozenset({"and", "both", "pair", "two", "neither", "either"})  # one of them is always said
_DONE_TO_EACH = frozenset({"off", "on", "doing", "need_new"})
_DEFINITE = frozenset({"the", "these", "those", "both"})
_TWO = 2
_BEHIND = 4  # tokens of "pads inner and outer"


def families_of(subjects: Sequence[Subject], fact: Fact, told: Told, work: Working) -> list[Subject]:
    """*subjects*, each that names several parts together told as those parts."""
    if fact.kind not in _KINDS:
        return list(subjects)
    if _TOGETHER.isdisjoint(work.texts) and not [
        s for s in subjects if s.many and _is_plural_of_two(_there(s, fact, work), fact)
    ]:
        return list(subjects)
    made = [_family_of(_there(subject, fact, work), fact, told, work) for subject in subjects]
    if all(len(parts) == 1 for parts in made):
        return [parts[0] for parts in made]
    return [one for parts in made for one in parts if not _is_both_sides(one, work)]


def _family_of(subject: Subject, fact: Fact, told: Told, work: Working) -> list[Subject]:
    """Each of the parts that *subject* names together, on the side in hand; else the subject itself."""
    if not subject.components:
        return [subject]
    values = [f for f in told.facts if f.kind == "value"] if fact.kind == "value" else []
    if len(values) > 1:
        return [_one_of_row(subject, fact, values, work)]
    noun = _stands_for(subject, told)
    behind = noun.end - noun.start == 1 and work.texts[noun.start - 1] == "and"
    if noun.pronoun or not (subject.many or subject.selector == "both" or behind):
        return [subject]
    named, start, end = _listed(noun, work)
    if behind and not subject.many and end - start != _BEHIND:
        return [subject]
    if not named and len(subject.components) == _TWO:
        of_each = subject.selector == "both" or (
            (_is_the_two(subject, fact, work) or _is_plural_of_two(subject, fact))
            and _one_each_here(subject, work)
        )
        named = _both_of(subject, work) if of_each else []
    owners = {component for component, _ in fact.characteristics}
    if owners and not owners.issuperset(c.id for c in named):
        return [subject]  # "section on these seals, both of them": not of what has no section
    if len(named) < _TWO or subject.count not in {None, _TWO} or not _fitted_alike(named):
        return [subject]
    if start < noun.start and not subject.which:
        subject, start = _led_by(subject, named[0], work, start)
    fact.cover(start, end)
    many = not (subject.which or _is_here(named[0], work))
    span = (start, end) if noun is subject else (noun.start, noun.end)
    each = replace(subject, alias=False, single=False, count=None, many=many, start=span[0], end=span[1])
    each = replace(each, selector="" if subject.selector == "both" else subject.selector)
    return [replace(each, components=(c.id,)) for c in named]


def _there(subject: Subject, fact: Fact, work: Working) -> Subject:
    """ "both valves" at stage one, beside a safety valve that is at none: only those that are there.

    Or the two so called that are off, beside others that are not.
    """
    hand = work.hand
    if alike := _called_alike(subject, fact, work):
        return replace(subject, components=alike)
    if len(off := _called_and_off(subject, work)) == _TWO:
        return replace(subject, components=off)
    if len(subject.components) <= _TWO or hand is None or not hand.turned or subject.which:
        return subject
    named = [c for c in map(work.sheet.get, subject.components) if c is not None]
    there = [c.id for c in named if hand.side in c.stations]
    once = all(c.count == 1 and not c.stations for c in named if c.id not in there)
    return replace(subject, components=tuple(there)) if len(there) == _TWO and once else subject


def _called_alike(subject: Subject, fact: Fact, work: Working) -> tuple[str, ...]:
    """ "Both jets", where one jet alone has that plural on the sheet: the two that are called so."""
    if len(subject.components) != 1 or subject.pronoun or subject.which:
        return ()
    one = work.sheet.get(subject.components[0])
    if one is None or not (subject.selector == "both" or _is_the_two(subject, fact, work)):
        return ()
    if one.count > 1 or subject.end - subject.start > _BEHIND:
        return ()
    noun = singular(work.texts[subject.end - 1])
    alike = tuple([c.id for c in work.sheet.component if c.count == 1 and _ends_so(c, noun)])
    return alike if len(alike) == _TWO and one.id in alike else ()


def _is_the_two(subject: Subject, fact: Fact, work: Working) -> bool:
    """ "The two jets are clear", "two jets out"; "order two jets" may be two of one kind."""
    definite = fact.kind not in {"doing", "need_new"} or work.texts[subject.start] in _DEFINITE
    return subject.count == _TWO and definite


def _called_and_off(subject: Subject, work: Working) -> tuple[str, ...]:
    """Of more than two parts that share a noun those that it is the first name of and that came off here."""
    if len(subject.components) <= _TWO or not (subject.many or subject.selector == "both") or subject.which:
        return ()
    if subject.selector not in {"", "both"} or subject.count not in {None, _TWO}:
        return ()
    noun = singular(work.texts[subject.end - 1])
    named = [c for c in map(work.sheet.get, subject.components) if c is not None]
    called = [c.id for c in named if spoken_form(c.names[0])[-1] == noun]
    side = work.hand.side if work.hand is not None and work.hand.turned else None
    off = {c for c, which in work.came_off if side is None or which in {None, side}}
    return tuple([c for c in called if c in off])


def _stands_for(subject: Subject, told: Told) -> Subject:
    """ "fluid and dust seals new ones in": the seals that the new ones are."""
    if not subject.pronoun or not subject.age:
        return subject
    named = (s for s in told.subjects if s.components == subject.components and s.many and not s.pronoun)
    return next((s for s in named if 0 <= subject.start - s.end <= 1), subject)


def _is_plural_of_two(subject: Subject, fact: Fact) -> bool:
    """ "pads out": the inner and the outer one, where the sheet has two parts so called.

    What was found of some may be of one kind: "seals are torn". Not "all the pads are good".
    """
    if not subject.many or subject.count is not None or len(subject.components) != _TWO:
        return False
    if subject.selector == "all":
        return fact.kind in _KINDS
    return not subject.selector and len(subject.which) < _TWO and fact.kind in _DONE_TO_EACH


def _one_each_here(subject: Subject, work: Working) -> bool:
    """True where one of each is in reach, and no side tells them apart: not the front and the rear shoes."""
    named = [c for c in map(work.sheet.get, subject.components) if c is not None]
    places = {word for c in work.sheet.component for p in c.stations for word in p.split()}
    told = {word for c in named for name, _ in component_names(c) for word in name[:-1]}
    if not places.isdisjoint(told):
        return False
    if subject.which or subject.selector:
        return all(subject.which[0] in c.stations for c in named if subject.which)
    return all(c.count == 1 or _is_here(c, work) for c in named)


def _one_of_row(subject: Subject, fact: Fact, values: Sequence[Fact], work: Working) -> Subject:
    """ "pads inner and outer three point one and two point nine": one value of each, in their order."""
    texts, start, end = work.texts, subject.start, subject.end
    if len(values) != _TWO or start < _TWO or texts[start - 1] != "and" or "and" not in texts[end:]:
        return subject
    named, start, end = _listed(subject, work)
    if len(named) < _TWO or not _fitted_alike(named):
        return subject
    fact.cover(start, end)
    one = named[values.index(fact)]
    plain = replace(subject, components=(one.id,), start=start)
    return replace(plain, pronoun=False, single=False, many=False, alias=False)


def _both_of(subject: Subject, work: Working) -> list[Component]:
    """The two parts of *subject*; [] where both may be the two places of one of them."""
    named = [c for c in map(work.sheet.get, subject.components) if c is not None]
    places = len(named[0].stations) if named else 0
    return [] if places == _TWO and not _is_here(named[0], work) else named


def _is_both_sides(subject: Subject, work: Working) -> bool:
    """ "order pads inner and outer both sides": where, no two parts more."""
    return subject.pronoun and subject.selector == "both" and work.texts[subject.end - 1] in _EVERYWHERE


def _listed(subject: Subject, work: Working) -> tuple[list[Component], int, int]:
    """The parts told by their first words around an "and", before the noun or behind it; [] for none."""
    texts, start, end = work.texts, subject.start, subject.end
    if len(subject.components) > 1:
        words = texts[end : end + 3]
        if len(words) == 3 and words[1] == "and":
            parts = [_called(work.sheet, subject.components, word) for word in (words[0], words[2])]
            return [c for c in parts if c is not None], start, end + 3
        return [], start, end
    one = work.sheet.get(subject.components[0])
    if one is None or start < _TWO or texts[start - 1] != "and" or subject.alias:
        return [], start, end
    noun, begin = texts[end - 1], start - _TWO
    if end - start == 1 and begin and _ends_so(one, texts[begin - 1]):
        noun, begin = texts[begin - 1], begin - 1  # "pads inner and outer"
    alike = [c.id for c in work.sheet.component if c is not one and _ends_so(c, noun)]
    first = _called(work.sheet, alike, texts[start - 2])
    return ([first, one] if first is not None else []), begin, end


def _led_by(subject: Subject, part: Component, work: Working, start: int) -> tuple[Subject, int]:
    """ "front left new inner and outer pads": *subject* with what leads to the first of them, its start."""
    texts = work.texts
    if start and texts[start - 1] in AGE_WORDS:
        subject, start = replace(subject, age=AGE_WORDS[texts[start - 1]]), start - 1
    for place in part.stations:
        words = spoken_form(place)
        if texts[max(0, start - len(words)) : start] == words:
            return replace(subject, which=(place,)), start - len(words)
    return subject, start


def _called(sheet: Sheet, components: Sequence[str], word: str) -> Component | None:
    """The one of *components* that has *word* alone before its noun."""
    parts = [c for c in map(sheet.get, components) if c is not None]
    so = [c for c in parts if any(name[:-1] == (word,) for name, _ in component_names(c))]
    return so[0] if len(so) == 1 else None


def _ends_so(component: Component, noun: str) -> bool:
    return any(name[-1] == noun for name, _ in component_names(component))


def _fitted_alike(named: Sequence[Component]) -> bool:
    """True for different parts, one of each at the same places."""
    first = named[0]
    same = all(c.positions == first.positions and c.count == first.count for c in named)
    one_each = first.count == max(1, len(first.stations))
    return same and one_each and len({c.id for c in named}) == len(named)


def _is_here(component: Component, work: Working) -> bool:
    """True where a side is turned to that the parts have, and no more than that side is spoken of."""
    hand = work.hand
    if hand is None or not hand.turned or hand.side not in component.stations:
        return False
    return _EVERYWHERE.isdisjoint(work.texts)
