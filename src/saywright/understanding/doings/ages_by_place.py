"""How old each is by its place, where there are more than two: "springs, new one top left, the rest are old".

Words → groups of one age with the places it is told of: "the new one in three and the old ones in one and
two", "inner left new, outer left old", "the right one new, the others old". Pure.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import lru_cache
from itertools import combinations, pairwise
from typing import Final, Literal

from saywright.sheets.model import Component
from saywright.understanding.fixed import fixed
from saywright.understanding.numbers.tokens import is_number_word
from saywright.understanding.numbers.words import TO_TWELVE
from saywright.understanding.tokens import BREAK

Age = Literal["old", "new"]
AGES: Final[dict[str, Age]] = {"new": "new", "old": "old", "own": "old", "original": "old"}
_ALIKE: Final = (
    ("rear", "back"),
    ("upper", "top", "above"),
    ("lower", "bottom", "below", "underneath"),
    ("inner", "inside"),
    ("outer", "outside"),
)
PLACES: Final = frozenset(word for alike in _ALIKE for word in alike)
_REST: Final = frozenset({"rest", "others", "remaining"})
_FEW: Final = (("two",), ("three",))
_TO_PLACE: Final = frozenset({"in", "on", "at", "to", "for", "into", "onto"})
_IS: Final = frozenset({"is", "are", "gets", "get", "got", "has"})
_PARTS: Final = frozenset({BREAK, "and", "then"})
_THERE: Final = ("on", "the")
_NUMBERED: Final = frozenset({"in", "on", "number", "at", "for", "into"})
_EXCEPT: Final = (("except", "for"), ("apart", "from"), ("bar",), ("except",), ("all", "but"))
_AGED: Final = tuple((age,) for age in AGES)
_FEWEST: Final = 3
_MOST: Final = 8  # ages and places in one saying


@fixed
class Told:
    """An age, a place, the rest, or a word that takes what follows out, by its tokens [start, end)."""

    kind: Literal["age", "place", "rest", "except"]
    start: int
    end: int
    words: tuple[str, ...] = ()


@fixed
class Group:
    """What one age is told of."""

    age: Age
    which: tuple[str, ...]  # of each place its words; () for the rest
    many: bool
    start: int
    end: int


def told_at(texts: Sequence[str], at: int, part: Component, told: Sequence[Told]) -> Told | None:
    """The age, the place of *part* or the rest that begins at *at*."""
    word = texts[at]
    if word in AGES:
        return Told("age", at, at + 1)
    if word in _REST or (word == "other" and any(t.kind == "place" for t in told)):
        return Told("rest", at, at + 1 + (texts[at + 1 : at + 2] in _FEW))  # "in the other two"
    if _tells_rest(texts, at, part):
        return Told("rest", at, at + 1)
    if told and (out := next((e for e in _EXCEPT if texts[at : at + len(e)] == e), None)):
        return Told("except", at, at + len(out))
    end, words = at, list[str]()
    while end < len(texts):
        if words and _further_told(texts, end, part, words):
            end += len(_THERE)
        if not (known := _place_word(texts, end, part)):
            break
        words.append(known)
        end += 1
    able = [p for p in part.positions if set(words) <= set(p.split())]
    return Told("place", at, end, tuple(words)) if words and able else _number(texts, at, part, told)


def _further_told(texts: Sequence[str], at: int, part: Component, words: Sequence[str]) -> bool:
    """ "The new upper on the right": one place, told by both its words."""
    known = _place_word(texts, at + 2, part) if texts[at : at + 2] == _THERE and at + 2 < len(texts) else ""
    return bool(known) and any({*words, known} <= {*p.split()} for p in part.positions)


def _tells_rest(texts: Sequence[str], at: int, part: Component) -> bool:
    """ "Two old ones and a new one for the middle": of three, all but the one whose place is told."""
    if texts[at] not in TO_TWELVE or texts[at + 1 : at + 2] not in _AGED or part.count < _FEWEST:
        return False
    return TO_TWELVE.index(texts[at]) + 2 == part.count and "ones" in texts[at + 2 : at + 3]


def groups_of(texts: Sequence[str], told: Sequence[Told], part: Component) -> list[Group]:
    """Each age with its places, as they lie best beside each other; none where that cannot be told."""
    ages = sum(t.kind == "age" for t in told)
    kinds = [t.kind for t in told]
    if "except" in kinds:
        return _taken_out(texts, told, kinds.index("except"))
    if kinds == ["place", *["age", "place"] * ages] and ages > 1:  # "upper, a new one suction, old delivery"
        lead, told = told[0].words, told[1:]
        told = [replace(t, words=(*lead, *t.words)) if t.kind == "place" else t for t in told]
        whole = {frozenset(p.split()) for p in part.positions}
        if any(t.kind == "place" and frozenset(t.words) not in whole for t in told):
            return []
    if ages < 2 or len(told) > _MOST:
        return []
    able = [cuts for cuts in combinations(range(1, len(told)), ages - 1) if _are_groups(told, cuts)]
    if not able:
        return []
    best = max(able, key=lambda cuts: _fit(texts, told, cuts))
    return [_group(texts, some) for some in _cut(told, best)]


def _taken_out(texts: Sequence[str], told: Sequence[Told], at: int) -> list[Group]:
    """ "All old bar the delivery": one age of all, and the other one of those that are taken out."""
    every, out = told[:at], told[at + 1 :]
    ages = [t for t in every if t.kind == "age"]
    here = [t for t in out if t.kind == "age"]
    places = tuple([" ".join(t.words) for t in out if t.kind == "place"])
    if len(ages) != 1 or any(t.kind == "place" for t in every) or not places or len(here) > 1:
        return []
    age = AGES[texts[ages[0].start]]
    other: Age = AGES[texts[here[0].start]] if here else "new" if age == "old" else "old"
    if other == age or len(here) + len(places) != len(out):
        return []
    return [
        Group(other, places, len(places) > 1, out[0].start, out[-1].end),
        Group(age, (), True, every[0].start, every[-1].end),
    ]


def places_of_group(group: Group, part: Component) -> tuple[str, ...]:
    """The positions of *part* that a group names by all their words, or by some."""
    return tuple([p for p in part.whiches for words in group.which if set(words.split()) <= set(p.split())])


def tells_side(part: Component, which: str, side: set[str]) -> bool:
    """ "Upper left" tells the side, too; "upper" is of the side worked on."""
    places = [set(p.split()) for p in part.positions if set(which.split()) <= set(p.split())]
    return len({side <= place for place in places}) == 1


def _place_word(texts: Sequence[str], at: int, part: Component) -> str:
    """The word of a position that stands at *at*, on its sheet; "" for none."""
    known, word = _words_of(part), texts[at]
    if word in known and word.isalpha() and word not in TO_TWELVE:
        return word
    for alike in _ALIKE:
        mine = [one for one in alike if one in known]
        if (
            word in alike
            and len(mine) == 1
            and (word != "back" or texts[at - 1 : at] in {("the",), ("one",)})
        ):
            return mine[0]
    return ""


@lru_cache(maxsize=256)
def _words_of(part: Component) -> frozenset[str]:
    return frozenset(word for position in part.positions for word in position.split())


def _number(texts: Sequence[str], at: int, part: Component, told: Sequence[Told]) -> Told | None:
    """ "in three", "and two" behind another number: one of those that are told by number."""
    if not is_number_word(texts, at) or texts[at] not in TO_TWELVE:
        return None
    if not any(t.kind == "age" for t in told):
        return None  # "nuts on, two old, two new": how many
    number = str(TO_TWELVE.index(texts[at]) + 1)
    which = next((w for w in part.whiches if w in {number, texts[at]}), None)
    again = texts[at - 1] == "and" and bool(told) and told[-1].end == at - 1 and told[-1].words
    led = at > 0 and (texts[at - 1] in _NUMBERED or (again and told[-1].words[0] in part.whiches))
    return Told("place", at, at + 1, (which,)) if which is not None and led else None


def _cut(told: Sequence[Told], cuts: Sequence[int]) -> Iterator[Sequence[Told]]:
    for start, end in pairwise((0, *cuts, len(told))):
        yield told[start:end]


def _are_groups(told: Sequence[Told], cuts: Sequence[int]) -> bool:
    """Each has one age, and places or the rest."""
    for some in _cut(told, cuts):
        kinds = [t.kind for t in some]
        if kinds.count("age") != 1 or len(kinds) < 2 or ("rest" in kinds and "place" in kinds):
            return False
    return True


def _fit(texts: Sequence[str], told: Sequence[Told], cuts: Sequence[int]) -> int:
    """How well the groups lie: what joins within, what parts between, one order in all."""
    points = 0
    for at, (one, two) in enumerate(pairwise(told), start=1):
        between = set(texts[one.end : two.start])
        parts = not between.isdisjoint(_PARTS)
        joined = (one.kind == "age" and not between.isdisjoint(_TO_PLACE)) or (
            two.kind == "age" and not between.isdisjoint(_IS)
        )
        several = one.kind == two.kind == "place"
        points += (
            ((1 if several else 2) * parts - 4 * joined)
            if at in cuts
            else (4 * joined - 2 * (parts and not several))
        )
    order = [some[0].kind == "age" for some in _cut(told, cuts)]
    return points + 2 * all(first == order[0] for first in order)


def _group(texts: Sequence[str], some: Sequence[Told]) -> Group:
    age = next(t for t in some if t.kind == "age")
    which = tuple([" ".join(t.words) for t in some if t.kind == "place"])
    many = len(which) > 1 or "ones" in texts[some[0].start : some[-1].end + 1]
    return Group(AGES[texts[age.start]], which, many, some[0].start, some[-1].end)
