"""How old what went in is on each side: "tubes in, the old one left, the new one right"; "left gets its own".

Of a part that is fitted once on each of two sides, told at the head of what is said.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final, Literal

from saywright.sheets.model import Component
from saywright.understanding.doings.movements import put_movements
from saywright.understanding.facts import Fact
from saywright.understanding.fixed import fixed
from saywright.understanding.numbers.tokens import is_number_word
from saywright.understanding.phrases import NO_PHRASE
from saywright.understanding.subjects.noun_phrases import subject_of_components
from saywright.understanding.subjects.parts import resolve
from saywright.understanding.tokens import BREAK
from saywright.understanding.working import Working

Age = Literal["old", "new"]
_AGES: Final[dict[str, Age]] = {"new": "new", "old": "old", "own": "old", "original": "old"}
_LEADS: Final = frozenset({"and", "so", "then", "now", "okay", "well", "the", "a", BREAK})
_ONES: Final = frozenset({"one", "ones", "side"})
_INS: Final = frozenset({"in", "on", "back", "into", "onto"})
_GOES: Final = frozenset({"goes", "gets", "go", "went", "get", "got", "fitted", "put"})
_SMALL: Final = frozenset({"the", "a", "an", "its", "his", "for", "at", "to", "and", "is", "has", BREAK})
_FILL: Final = _ONES | _INS | _GOES | _SMALL
_IS: Final = frozenset({"is", "are", "has", "was", "needs", "wants"})
_CUTS: Final[dict[str, tuple[int, ...]]] = {
    "ASAS": (2, 4), "SASA": (2, 4), "ASSA": (2, 4), "SAS": (1, 3), "ASS": (2, 3), "AS": (2,), "SA": (2,)
}  # fmt: skip
_CLOSES: Final = frozenset({BREAK, "and", "then", "now", "so", "mind"})
_ARTICLES: Final = frozenset({"a", "an", "its", "the", "his", "my"})
_TURNS: Final = frozenset({"left", "right"})  # words of their own, too: "left over", "right at the top"
_JOINS: Final = frozenset({BREAK, "and"})
_NO_SIDE: Final = frozenset(
    ["down", "first", "up", "at", "away", "there", "here", "to", "over", "through", "off", "where", "by",
     "next", "behind", "home", "a", "some"]
)  # fmt: skip
_NOT_YET: Final = frozenset({"tomorrow", "later", "once", "when", "if", "until", "till", "next"})
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
    if _AGES.keys().isdisjoint(work.texts[begin:]):
        return begin
    found = _named(work, begin) or _held(work, begin)
    if found is None:
        return begin
    part, noun, at = found
    end, sides = _sides(work, part, noun, at)
    if not sides or not _goes_in(work, part, begin, end) or not _IS.isdisjoint(work.texts[end : end + 1]):
        return begin
    for side in sides:
        named = subject_of_components((part.id,), side.start, side.end)
        said = replace(named, which=(side.which,), age=side.age)
        made = resolve(said, work.sheet, work.hand, work.now, off=work.off, movement="fitted")
        if made is not None:
            put_movements(work, Fact("on", NO_PHRASE, 0, [said], start=begin, end=end), [made], "fitted")
        work.named(part.id, side.which)
    work.covered.append((begin, end))
    return end


def _named(work: Working, begin: int) -> tuple[Component, tuple[int, int], int] | None:
    """The part named at the head, its tokens, and where what is told of it begins: before it, or behind."""
    texts, at = work.texts, begin
    while at < len(texts) and (
        texts[at] in _LEADS or texts[at] in _AGES or texts[at] in work.lexicon.positions
    ):
        at += 1
    found = work.lexicon.match(texts, at) if at < len(texts) else None
    if found is None:
        return None
    parts = [work.sheet.get(c) for c in found[1].parts or found[1].aliases]
    able = [p for p in parts if p is not None and _has_sides(p)]
    gone = [p for p in able if work.off.get(p.id, 0)] if len(able) > 1 else able
    if len(gone) != 1:
        return None
    return gone[0], (at, at + found[0]), begin


def _held(work: Working, begin: int) -> tuple[Component, tuple[int, int], int] | None:
    """The part in hand, of which new and old ones are told: "new one on the left, old one on the right"."""
    held = work.sheet.get(work.hand.component) if work.hand is not None else None
    if held is None or not _has_sides(held):
        return None
    return held, (begin, begin), begin


def _has_sides(part: Component) -> bool:
    return len(part.positions) == _TWO and all(p.isalpha() for p in part.positions)


def _sides(work: Working, part: Component, noun: tuple[int, int], at: int) -> tuple[int, list[_Side]]:
    """Where what is told of the sides ends, and each of them; none where it is told in another way."""
    texts, told, end = work.texts, [], at
    while end < len(texts):
        if end == noun[0] and noun[1] > noun[0]:
            end = noun[1]
        elif texts[end] in _AGES or texts[end] in part.positions:
            told.append(end)
            end += 1
        elif texts[end] in _FILL:
            end += 1
        elif (again := work.lexicon.match(texts, end)) is not None and part.id in {
            *again[1].parts,
            *again[1].aliases,
        }:
            end += again[0]
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


def _goes_on(texts: Sequence[str], told: Sequence[int], end: int) -> bool:
    """ "… new left foot bolt", "… inner eleven point two": what follows is told of the side."""
    behind = texts[end] if end < len(texts) else BREAK
    if is_number_word(texts, end) or behind in _NOT_YET:
        return True
    if end == told[-1] + 1 and texts[told[-1]] in _TURNS and behind in _NO_SIDE:
        return True  # "the new one right down to the stop"
    if end == told[-1] + 1 and texts[told[-1]] in _AGES and texts[told[-1] - 1] in _ARTICLES:
        return behind not in _CLOSES  # "the inner one's got a new shim"
    beside = len(told) > 1 and told[-1] - told[-2] == 1 and texts[told[-2]] in _AGES
    return beside and end == told[-1] + 1 and behind not in _CLOSES


def _opens(texts: Sequence[str], at: int) -> bool:
    """ "… the right in the book": a preposition of what follows; not "screws in, a new one …"."""
    led = texts[at] in _INS and texts[at + 1 : at + 2] in {("the",), ("a",), ("my",)}
    return led and _AGES.keys().isdisjoint(texts[at + 2 : at + 3])


def _pairs(texts: Sequence[str], told: Sequence[int], part: Component) -> list[_Side]:
    """Each side with the age beside it: "old left, new right", "new right, left its own"."""
    kinds = "".join("A" if texts[at] in _AGES else "S" for at in told)
    if kinds == "ASS" and "back" not in texts[told[1] :]:
        return []  # "new ones left and right", "a new one on the rear, the front one stays"
    cuts = (2, 3) if kinds == "SAS" and _is_of_first(texts, told) else _CUTS.get(kinds, ())
    out: list[_Side] = []
    first = 0
    for last in cuts:
        group = told[first:last]
        which = next(texts[at] for at in group if texts[at] in part.positions)
        age = next((_AGES[texts[at]] for at in group if texts[at] in _AGES), None)
        out.append(_Side(which, age, group[0], group[-1] + 1))
        first = last
    return out


def _is_of_first(texts: Sequence[str], told: Sequence[int]) -> bool:
    """ "left gets its own, right …", "left new and right …": the age is of the side before it."""
    if texts[told[1]] == "own" or texts[told[1] - 1] in {"its", "his"}:
        return True
    return _JOINS.isdisjoint(texts[told[0] : told[1]])  # "leading one new trailing one honed"


def _all_went_in(texts: Sequence[str], noun: tuple[int, int]) -> bool:
    """ "floats on, new one's on the right": all went in, and one of them is told apart."""
    several = noun[1] > noun[0] and texts[noun[1] - 1].endswith("s")
    return several and texts[noun[1] : noun[1] + 1] in {(p,) for p in _INS} and not _opens(texts, noun[1])


def _goes_in(work: Working, part: Component, begin: int, end: int) -> bool:
    """True where something says that they went in: a word of it, what is off, how far the job is."""
    texts = work.texts
    if work.stage == "as_left" or work.off.get(part.id, 0) or not _GOES.isdisjoint(texts[begin:end]):
        return True
    sides = {(p,) for p in part.positions}
    said = (at for at in range(begin, end) if texts[at] in _INS)
    return any(not _opens(texts, at) and texts[at + 1 : at + 2] not in sides for at in said)
