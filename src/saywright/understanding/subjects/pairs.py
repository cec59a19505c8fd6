""" "Both" of two parts that are fitted once each: the two that were spoken of last."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import replace

from saywright.sheets.model import Component
from saywright.understanding.bench_words import PLACES_ON_IT
from saywright.understanding.facts import Fact
from saywright.understanding.naming.sheet_names import component_names
from saywright.understanding.sides.turning import count_on
from saywright.understanding.statements import (
    BenchCommand,
    ConditionNote,
    Correction,
    Movement,
    Reading,
    Remark,
    Statement,
)
from saywright.understanding.subjects.kinds_together import all_kinds
from saywright.understanding.subjects.noun_phrases import Subject, subject_in_hand
from saywright.understanding.subjects.told_in_line import every_told
from saywright.understanding.tokens import BREAK
from saywright.understanding.wordforms import plural, singular
from saywright.understanding.working import Working

_TWO = 2
_ONE_TOLD = frozenset({"value", "finding", "off"})  # facts that may be told of one by a plural heard for it
_MOVED = frozenset({"off", "on"})
_SEVERAL = frozenset(
    {"are", "were", "both", "all", "each", "either", "neither", "every", "them", "they", "have", "pair"}
)
_REACH = 3  # utterances with statements that "both" looks back over


def pair_of(subject: Subject, work: Working, kind: str = "", owners: Collection[str] = ()) -> list[Subject]:
    """The two parts that a bare "both" means; the subject itself where it means two of one part.

    *kind*: of what is said of them; a value no part can mean on which nothing is read, nor one that
    has not what was named: *owners* have it.
    """
    apart = _apart_here(subject, work) if kind in _MOVED else []
    if apart or (kind != "value" and (apart := _both_there(subject, work) or _told_here(subject, work))):
        return apart
    kinds = all_kinds(subject, work, kind) if subject.count else []
    kinds = kinds or every_told(subject, work, kind)
    if kinds or (subject.many and not subject.selector and kind in _ONE_TOLD):
        return kinds or [_one_here(subject, work)]
    if subject.selector != "both" or not subject.pronoun or subject.which:
        return [subject]
    if _is_of_places(subject, work):
        return [replace(subject, selector="", count=None, many=False)]
    here = _both_here(work)
    if here and (not subject.components or {c for c, _ in here} & set(subject.components)):
        return [
            replace(subject, components=(c,), which=(w,), selector="", count=None, many=False, pronoun=False)
            for c, w in here
        ]
    if any(c is not None and len(c.whiches) > 1 for c in map(work.sheet.get, subject.components)):
        return [subject]  # "seals out both of them": of those so called the one that two are fitted of
    held = work.sheet.get(subject.components[0] if subject.components else _in_hand(work))
    if held is None or ((held.count > 1 or held.positions) and not _one_of_two_here(work, held, kind)):
        return [subject]
    return _two_spoken_of(subject, held, work, kind, owners)


def _told_here(subject: Subject, work: Working) -> list[Subject]:
    """ "front right is three point one, rear three point two, so those two can stay": just told of."""
    several = subject.many or subject.count or subject.selector == "both"
    plain = subject.selector in {"", "both"} and subject.age is None and not subject.described
    if not subject.pronoun or not several or len(subject.which) > 1 or not plain:
        return []
    told = [s for s in work.out if isinstance(s, Reading | ConditionNote) and s.id not in work.gone]
    places = list(dict.fromkeys((s.component or "", s.which) for s in told))
    said = set(subject.which[0].split() if subject.which else ())
    if not all(said.issubset((w or "").split()) for _, w in places):
        return []  # "and so are the rear ones": others than were just told of
    wanted = subject.count or (_TWO if subject.selector == "both" else len(places))
    if len(places) != max(wanted, _TWO) or len({c for c, _ in places}) > 1:
        return []
    part = work.sheet.get(places[0][0])
    if part is not None and {which for _, which in places} == set(part.whiches):
        return [] if subject.components else [replace(subject, components=(part.id,))]  # "slides are worn …"
    return [
        replace(subject, components=(c,), which=(w,), selector="", count=None, many=False, pronoun=False)
        for c, w in places
        if w is not None and (not subject.components or c in subject.components)
    ]


def _apart_here(subject: Subject, work: Working) -> list[Subject]:
    """ "boot's good, seal's good, but they're coming out": one of each of the parts just told of."""
    if not (subject.pronoun and subject.many) or subject.which or subject.age or subject.count:
        return []
    said = work.out or work.last_group()
    told = [s for s in said if isinstance(s, Reading | ConditionNote) and s.id not in work.gone]
    places = list(dict.fromkeys((s.component or "", s.which) for s in told))
    if len(places) < _TWO or len({c for c, _ in places}) < len(places):
        return []
    single = [
        c is not None and (w is not None or len(c.whiches) < _TWO)
        for p, w in places
        for c in [work.sheet.get(p)]
    ]
    if not all(single):
        return []
    plain = replace(subject, many=False, pronoun=False, selector="")
    return [replace(plain, components=(c,), which=(w,) if w else ()) for c, w in places]


def _one_of_two_here(work: Working, held: Component, kind: str) -> bool:
    """ "both of those out": one of *held* is on the side turned to, and two parts of it were told of last."""
    hand = work.hand
    if kind == "value" or hand is None or not hand.turned or count_on(held, hand.side) != 1:
        return False
    every = (s for group in reversed(work.before.recent[-_REACH:]) for s in reversed(group))
    told = [s for s in every if isinstance(s, Reading | ConditionNote) and s.id not in work.gone]
    last = list(dict.fromkeys((s.component, s.which) for s in told))[:_TWO]
    here = len(last) == _TWO and last[0][0] == held.id and all(which == hand.side for _, which in last)
    return here and last[0][0] != last[1][0] and (kind == "on" or work.came_off.isdisjoint(last))


def _two_spoken_of(
    subject: Subject, held: Component, work: Working, kind: str, owners: Collection[str]
) -> list[Subject]:
    """The two parts spoken of last, of which *held* is one; the subject itself where there are none."""
    known = _spoken_of(work, held.id)
    if kind == "value" and not held.characteristic:
        two = [c for c in map(work.sheet.get, known) if c is not None and len(c.whiches) == _TWO]
        read = [c.id for c in two if c.characteristic and (not owners or c.id in owners)]
        return [replace(subject, components=(read[0],))] if read else [subject]
    if len(known) < 2:
        return [replace(subject, selector="", count=None, unclear="both")]
    return [
        replace(subject, components=(c,), selector="", count=None, many=False, pronoun=False)
        for c in reversed(known[:2])
    ]


def _is_of_places(subject: Subject, work: Working) -> bool:
    """ "both faces are scored": two places on the one part in hand."""
    if PLACES_ON_IT.isdisjoint(work.texts[subject.end : subject.end + 1]):
        return False
    held = work.sheet.get(subject.components[0] if subject.components else _in_hand(work))
    return held is not None and held.count == 1


def _both_there(subject: Subject, work: Working) -> list[Subject]:
    """ "both valves on number three": the two so called that there is one of at one station; else []."""
    if len(subject.components) < _TWO or "both" not in work.texts[: subject.end] or len(subject.which) > 1:
        return []
    side = work.hand.side if work.hand is not None and work.hand.turned else None
    which = subject.which[0] if subject.which else side
    there = [c.id for c in map(work.sheet.get, subject.components) if c is not None and which in c.stations]
    if not subject.which and len(there) < len(subject.components):
        return []  # "both screws" of three kinds: the hand tells
    two = [replace(subject, components=(c,), which=(which or "",), alias=False, selector="") for c in there]
    return [replace(s, count=None, many=False) for s in two] if len(two) == _TWO else []


def _both_here(work: Working) -> list[tuple[str, str]]:
    """ "both of them are worn": two parts of a kind that were told of last, at one place of more than two.

    [] where it is not so.
    """
    groups = [g for g in (*work.before.recent, tuple(work.out)) if any(_tells(s) for s in g)]
    told = [s for g in groups[-_REACH:] for s in g if isinstance(s, Reading | ConditionNote)]
    last = [(s.component, s.which) for s in reversed(told) if s.id not in work.gone]
    known = [(c, w) for c, w in dict.fromkeys(last) if c is not None and w is not None][:_TWO]
    parts = [p for p in (work.sheet.get(c) for c, _ in known) if p is not None and len(p.stations) > _TWO]
    if len(parts) < _TWO or len({w for _, w in known}) != 1:
        return []
    kinds = [{name[-1] for name, _ in component_names(p)} for p in parts]
    return known[::-1] if kinds[0] & kinds[1] else []


def several_of(subject: Subject, work: Working) -> Subject:
    """ "shook them" with the valve in hand: the floats that were spoken of just before.

    So "the other one", of which there is none where one is fitted.
    """
    other = subject.selector == "other"
    if not subject.pronoun or not (subject.many or other) or subject.components or subject.which:
        return subject
    held = work.sheet.get(_in_hand(work))
    if held is None or (subject.selector and not other):
        return subject
    if held.count > 1 or held.positions:
        moved = [] if other else _moved_there(held, work)
        return replace(subject, components=tuple(moved)) if moved else subject
    known = map(work.sheet.get, _spoken_of(work, held.id))
    several = next((c for c in known if c is not None and c.count > 1), None)
    return subject if several is None else replace(subject, components=(several.id,))


def _moved_there(held: Component, work: Working) -> list[str]:
    """ "other caliper, all four out" / "these are smooth": of those that moved, where one is in hand."""
    hand = work.hand
    if hand is None or not hand.turned or count_on(held, hand.side) != 1:
        return []
    last = work.last_group()
    several = [s.component for s in last if isinstance(s, Movement) and s.count > 1]
    return several if len(several) == 1 and several[0] != held.id else []


def one_of_several(fact: Fact, work: Working) -> list[Subject]:
    """ "one's chipped", with the rotor in hand: one of the vanes spoken of just before, else it asks."""
    at = fact.phrase.start - 1
    if at < 0 or work.texts[at] != "one" or work.texts[max(0, at - 1)] not in {"one", "and", BREAK}:
        return []
    held = work.sheet.get(_in_hand(work))
    if held is None or held.count > 1 or held.positions:
        return []
    known = map(work.sheet.get, _spoken_of(work, held.id))
    several = next((c for c in known if c is not None and c.count > 1), None)
    one = replace(subject_in_hand(at, at + 1), count=1, single=True)
    return [replace(one, unclear="one") if several is None else replace(one, components=(several.id,))]


def _one_here(subject: Subject, work: Working) -> Subject:
    """ "discs scored", heard so for "disc's" or said of the one: on a side turned to that has just one.

    "Outer ones" too, of which that side has one. Not where a word tells of more: "discs are scored",
    "discs lipped both of them".
    """
    hand = work.hand
    if hand is None or not hand.turned or subject.selector or subject.age or subject.count:
        return subject
    parts = [work.sheet.get(c) for c in subject.components or (hand.component,)]
    there = " ".join((hand.side or "", *subject.which))
    alone = bool(parts) and all(part is not None and count_on(part, there) == 1 for part in parts)
    elsewhere = hand.component in subject.components and hand.which not in {None, hand.side}
    elsewhere = elsewhere and not subject.which
    sets = all(part is not None and _is_set(part, work.texts[subject.end - 1]) for part in parts)
    several = not sets and not _SEVERAL.isdisjoint(work.texts[subject.end :])
    if elsewhere or not alone or several:
        return subject
    return replace(subject, many=False)


def _is_set(part: Component, noun: str) -> bool:
    """ "rings" of a "ring set": one thing, that the sheet has no singular of the *noun* for."""
    names, one = part.names, singular(noun)
    return noun != one and noun in names[1:] and one not in names and plural(names[0]) not in names


def _in_hand(work: Working) -> str | None:
    return work.hand.component if work.hand is not None else None


def _spoken_of(work: Working, held: str) -> list[str]:
    """Components spoken of last, the one in hand first."""
    groups = [g for g in (*work.before.recent, tuple(work.out)) if any(_tells(s) for s in g)]
    said = [s for group in groups[-_REACH:] for s in group]
    parts = [s.component for s in reversed(said) if not isinstance(s, Correction | Remark | BenchCommand)]
    return list(dict.fromkeys([held, *(p for p in parts if p is not None)]))


def _tells(statement: Statement) -> bool:
    return not isinstance(statement, Correction | Remark)
