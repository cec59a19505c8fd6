"""How old what went in is on each side: "tubes in, the old one left, the new one right"; "left gets its own".

Told at the head of what is said, of a part that is fitted once on each of two sides, or at several places:
"springs, new one top left, the rest are the old ones".
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from saywright.sheets.model import Component
from saywright.understanding.doings.aged_names import GOES, held_part, named_at
from saywright.understanding.doings.ages_by_place import (
    AGES,
    Age,
    Group,
    Told,
    groups_of,
    places_of_group,
    tells_side,
    told_at,
)
from saywright.understanding.doings.movements import put_movements
from saywright.understanding.facts import Fact
from saywright.understanding.fixed import fixed
from saywright.understanding.numbers.tokens import is_number_word
from saywright.understanding.phrases import NO_PHRASE
from saywright.understanding.sides.turning import count_on, words_on
from saywright.understanding.subjects.noun_phrases import subject_of_components
from saywright.understanding.subjects.parts import resolve
from saywright.understanding.tokens import BREAK
from saywright.understanding.working import Working

_ONES: Final = frozenset({"one", "ones", "side", "hole", "bore", "end"})
_INS: Final = frozenset({"in", "on", "back", "into", "onto"})
_SMALL: Final = frozenset(
    {"number", "the", "a", "an", "its", "his", "for", "at", "to", "and", "is", "are", "has", BREAK}
)
_FILL: Final = _ONES | _INS | GOES | _SMALL
_EVERY: Final = frozenset({"all", "that", "everywhere", "round", "every", "here", "there"})
_OUT: Final = frozenset({"except", "apart", "bar", "but"})
_IS: Final = frozenset({"is", "are", "has", "was", "needs", "wants"})
_CUTS: Final[dict[str, tuple[int, ...]]] = {
    "ASAS": (2, 4), "SASA": (2, 4), "ASSA": (2, 4), "SAS": (1, 3), "ASS": (2, 3), "AS": (2,), "SA": (2,)
}  # fmt: skip
_CLOSES: Final = frozenset({BREAK, "and", "then", "now", "so", "mind"})
_ARTICLES: Final = frozenset({"a", "an", "its", "the", "his", "my"})
_TURNS: Final = frozenset({"left", "right"})  # words of their own, too: "left over", "right at the top"
_NO_SIDE: Final = frozenset(
    ["down", "first", "up", "at", "away", "there", "here", "to", "over", "through", "off", "where", "by",
     "next", "behind", "home", "a", "some"]
)  # fmt: skip
_NOT_YET: Final = frozenset({"tomorrow", "later", "once", "when", "if", "until", "till", "next"})
_BEGINS: Final = frozenset({BREAK, "and", "then"})
_SHORTEST: Final = 4  # words of two ages and two places
_TWO: Final = 2


@fixed
class _Side:
    """One side, and how old what went in there is."""

    which: str
    age: Age | None
    start: int
    end: int


def put_aged_sides(work: Working, begin: int) -> int:
    """Take the head of what is said as movements, old or new by their sides; where that ends, or *begin*."""
    if AGES.keys().isdisjoint(work.texts[begin:]):
        return begin
    head = 0 if begin or work.head else _further(work)
    if head:
        work.head = begin = head
    named, noun = named_at(work, begin) or held_part(work, begin)
    gone = [p for p in named if work.off.get(p.id, 0)] if len(named) > 1 else named
    part = gone[0] if len(gone) == 1 else None
    end, sides = _sides(work, part, noun, begin) if part is not None and _has_sides(part) else (begin, [])
    if part is None or not sides or not _went_in(work, part, begin, end):
        return _put_groups(work, named, noun, begin)
    for side in sides:
        said = subject_of_components((part.id,), side.start, side.end)
        said = replace(said, which=(side.which,), age=side.age)
        made = resolve(said, work.sheet, work.hand, work.now, off=work.off, movement="fitted")
        if made is not None:
            put_movements(work, Fact("on", NO_PHRASE, 0, [said], start=begin, end=end), [made], "fitted")
        work.named(part.id, side.which)
    work.covered.append((begin, end))
    return end


def _further(work: Working) -> int:
    """ "seals in and then the new cup in the top and the old one in the bottom": where that begins, or 0."""
    for at, text in enumerate(work.texts[:-_SHORTEST], start=1):
        if text in _BEGINS and work.texts[at] not in _BEGINS and (found := named_at(work, at)) is not None:
            told = [_groups(work, part, found[1], at) for part in found[0]]
            if any(groups and found[1][0] < groups[-1].start for _, groups in told):
                return at
    return 0


def _went_in(work: Working, part: Component, begin: int, end: int) -> bool:
    """True where [begin, end) went in, and nothing more is said of the last of them."""
    return _IS.isdisjoint(work.texts[end : end + 1]) and _goes_in(work, part, begin, end)


def _has_sides(part: Component) -> bool:
    return len(part.positions) == _TWO and all(p.isalpha() for p in part.positions)


def _sides(work: Working, part: Component, noun: tuple[int, int], at: int) -> tuple[int, list[_Side]]:
    """Where what is told of the sides ends, and each of them; none where it is told in another way."""
    texts, told, end = work.texts, [], at
    while end < len(texts):
        if texts[end] in AGES or texts[end] in part.positions:
            told.append(end)
            end += 1
        elif over := _over(work, part, noun, end):
            end = over
        else:
            break
    if not told:
        return at, []
    end = max(told[-1] + 1, noun[1])
    while end < len(texts) and texts[end] in _ONES | _INS and not _opens(texts, end):
        end += 1
    pairs = [] if _goes_on(texts, told, end) else _pairs(texts, told, part)
    if len(pairs) == 1 and told[0] >= noun[1] and _all_went_in(texts, noun):
        other = next(p for p in part.positions if p != pairs[0].which)
        pairs = [_Side(other, None, noun[0], noun[1]), *pairs]
    both = len(pairs) == _TWO and {p.which for p in pairs} == set(part.positions)
    return (end, pairs) if both and any(p.age for p in pairs) else (at, [])


def _over(work: Working, part: Component, noun: tuple[int, int], at: int) -> int:
    """Past a name of *part*, or a word that tells nothing; 0 where neither stands at *at*."""
    if at == noun[0] and noun[1] > noun[0]:
        return noun[1]
    if (
        work.texts[at] in _FILL
        or work.texts[at : at + 2] == ("up", "top")
        or (work.texts[at] in _EVERY and not _OUT.isdisjoint(work.texts))
    ):
        return at + 1
    again = work.lexicon.match(work.texts, at)
    named = {*again[1].parts, *again[1].aliases} if again is not None else set()
    if again is None or not named:
        return 0
    placed = any(work.texts[at - 1] in place.split() for place in part.positions)  # "in the middle carb"
    return at + again[0] if part.id in named or (placed and part.inside in named) else 0


def _put_groups(work: Working, named: Sequence[Component], noun: tuple[int, int], begin: int) -> int:
    """Take the head as movements of a part *named*, by their places; where that ends, or *begin*."""
    read = [(part, *_groups(work, part, noun, begin)) for part in named]
    able = [one for one in read if one[2] and _went_in(work, one[0], begin, one[1])]
    gone = [one for one in able if work.off.get(one[0].id, 0)] if len(able) > 1 else able
    if len(gone) != 1 or any(_told_twice(group, gone[0][0]) for group in gone[0][2]):
        return begin
    part, end, groups = gone[0]
    left = _here(work, part, groups)
    for group in sorted(groups, key=lambda told: not told.which):  # the rest is what is left
        said = replace(subject_of_components((part.id,), group.start, group.end), age=group.age)
        known = places_of_group(group, part) if group.many else ()
        if not group.which and left == 1:
            known = _only_left(work, part, groups)
        count = (len(known) or None) if group.which or known else left
        many = group.many or (count or 1) > 1
        said = replace(said, which=known or group.which, many=many, count=count)
        made = resolve(said, work.sheet, work.hand, work.now, off=work.off, movement="fitted")
        if made is not None:
            moved = Fact("on", NO_PHRASE, 0, [said], start=begin, end=end)
            put_movements(work, moved, [made], "fitted")
            left -= made.count or len(made.whiches)
        work.named(part.id, made.single if made is not None else None)
    work.covered.append((begin, end))
    return end


def _groups(work: Working, part: Component, noun: tuple[int, int], begin: int) -> tuple[int, list[Group]]:
    """Where what is told of *part* by its places ends, and its groups; none where it is told otherwise."""
    texts, end = work.texts, begin + (work.texts[begin] == "up")  # "up top, a new one in the suction"
    told: list[Told] = []
    while end < len(texts):
        one = None if noun[0] <= end < noun[1] else told_at(texts, end, part, told)
        if one is not None:
            told.append(one)
        over = one.end if one is not None else _over(work, part, noun, end)
        if not over:
            break
        end = over
    groups = groups_of(texts, told, part)
    if not groups:
        return begin, []
    end = max(told[-1].end, noun[1])
    while end < len(texts) and texts[end] in _ONES | _INS and not _opens(texts, end):
        end += 1
    return (begin, []) if _goes_on(texts, [one.start for one in told], end) else (end, groups)


def _told_twice(group: Group, part: Component) -> bool:
    """ "The new one at the bottom, right front …": two ways to tell places, which are of two sayings."""
    known = places_of_group(group, part)
    return len(known) > len({*known})


def _here(work: Working, part: Component, groups: Sequence[Group]) -> int:
    """How many of *part* there are where the talk is; all of them where the places tell the side."""
    hand = work.hand
    side = hand.side if hand is not None and hand.turned else None
    words = words_on(part, side)
    told = any(tells_side(part, which, words) for g in groups for which in g.which) and words
    return (0 if told else count_on(part, side) if words else 0) or part.count


def _only_left(work: Working, part: Component, groups: Sequence[Group]) -> tuple[str, ...]:
    """The one place of the side worked on that no group tells: "the other one's the old one"."""
    hand = work.hand
    side = words_on(part, hand.side if hand is not None and hand.turned else None)
    told = [set(which.split()) for group in groups for which in group.which]
    apart = (p for p in part.positions if not any(some <= set(p.split()) for some in told))
    rest = [p for p in apart if side <= set(p.split())]
    return tuple(rest) if len(rest) == 1 else ()


def _goes_on(texts: Sequence[str], told: Sequence[int], end: int) -> bool:
    """ "… new left foot bolt", "… inner eleven point two": what follows is told of the side."""
    behind = texts[end] if end < len(texts) else BREAK
    if is_number_word(texts, end) or behind in _NOT_YET:
        return True
    if end == told[-1] + 1 and texts[told[-1]] in _TURNS and behind in _NO_SIDE:
        return True  # "the new one right down to the stop"
    if end == told[-1] + 1 and texts[told[-1]] in AGES and texts[told[-1] - 1] in _ARTICLES:
        return behind not in _CLOSES  # "the inner one's got a new shim"
    beside = len(told) > 1 and told[-1] - told[-2] == 1 and texts[told[-2]] in AGES
    return beside and end == told[-1] + 1 and behind not in _CLOSES


def _opens(texts: Sequence[str], at: int) -> bool:
    """ "… the right in the book": a preposition of what follows; not "screws in, a new one …"."""
    led = texts[at] in _INS and texts[at + 1 : at + 2] in {("the",), ("a",), ("my",)}
    return led and AGES.keys().isdisjoint(texts[at + 2 : at + 3])


def _pairs(texts: Sequence[str], told: Sequence[int], part: Component) -> list[_Side]:
    """Each side with the age beside it: "old left, new right", "new right, left its own"."""
    kinds = "".join("A" if texts[at] in AGES else "S" for at in told)
    if kinds == "ASS" and "back" not in texts[told[1] :]:
        return []  # "new ones left and right", "a new one on the rear, the front one stays"
    cuts = (2, 3) if kinds == "SAS" and _is_of_first(texts, told) else _CUTS.get(kinds, ())
    out: list[_Side] = []
    first = 0
    for last in cuts:
        group = told[first:last]
        which = next(texts[at] for at in group if texts[at] in part.positions)
        age = next((AGES[texts[at]] for at in group if texts[at] in AGES), None)
        out.append(_Side(which, age, group[0], group[-1] + 1))
        first = last
    return out


def _is_of_first(texts: Sequence[str], told: Sequence[int]) -> bool:
    """ "left gets its own, right …", "left new and right …": the age is of the side before it."""
    if texts[told[1]] == "own" or texts[told[1] - 1] in {"its", "his"}:
        return True
    return _BEGINS.isdisjoint(texts[told[0] : told[1]])  # "leading one new trailing one honed"


def _all_went_in(texts: Sequence[str], noun: tuple[int, int]) -> bool:
    """ "floats on, new one's on the right": all went in, and one of them is told apart."""
    several = noun[1] > noun[0] and texts[noun[1] - 1].endswith("s")
    return several and texts[noun[1] : noun[1] + 1] in {(p,) for p in _INS} and not _opens(texts, noun[1])


def _goes_in(work: Working, part: Component, begin: int, end: int) -> bool:
    """True where something says that they went in: a word of it, what is off, how far the job is."""
    texts = work.texts
    if work.stage == "as_left" or work.off.get(part.id, 0) or not GOES.isdisjoint(texts[begin:end]):
        return True
    sides = {(p,) for p in part.positions}
    said = (at for at in range(begin, end) if texts[at] in _INS)
    return any(not _opens(texts, at) and texts[at + 1 : at + 2] not in sides for at in said)
