"""Rows of parts without any verb: "low seals, then the retainers", "so that's a needle and two washers"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from saywright.understanding.bench_words import FASTENERS
from saywright.understanding.conditions.back_to_faults import has_fault
from saywright.understanding.counting.counted_rows import counted_rows
from saywright.understanding.doings.buying import is_buying, put_order
from saywright.understanding.doings.movements import put_movements
from saywright.understanding.facts import Fact, Told
from saywright.understanding.going_back import begins_back
from saywright.understanding.numbers.words import TO_TWELVE
from saywright.understanding.phrases import NO_PHRASE
from saywright.understanding.statements import (
    ActionNote,
    ConditionNote,
    Direction,
    Movement,
    Remark,
)
from saywright.understanding.subjects.ellipsis import single_components
from saywright.understanding.subjects.noun_phrases import Subject
from saywright.understanding.subjects.parts import Part, resolve
from saywright.understanding.tokens import BREAK
from saywright.understanding.working import Working

_OPENERS = frozenset({"so", "right", "okay", "well", "then", "next", "now", "first", "and", BREAK})
_JOINERS = frozenset({"then", "and", "next", "plus", "after", "that", "first", BREAK})
_IN_ORDER = frozenset({"then", "next"})
_ALL_NEW = (("all", "new"), ("both", "new"), ("new",))
_EXCEPT = frozenset({"except", "but", "bar"})
_SUM = frozenset({"so", "that", "is", "right", "okay", "well", "then", BREAK})
_LISTED = frozenset({"and", "plus", BREAK})
_ORDER = ("in", "that")
_ARE_NEW = (("is", "new"), ("are", "new"))
_ORDERS = (_ORDER, ("in", "this"))
_FEW = 2  # numbers in a row that may be told for something else than a count
_ARTICLES = frozenset({"a", "an", "one"})
_TAKES = frozenset(
    ["is", "are", "was", "were", "take", "takes", "need", "needs", "want", "wants", "for", "where", "who"]
)


def settle_verbless(told: Told, work: Working) -> None:
    """The movements or orders that a row of parts tells by itself."""
    if "order" in work.texts and work.stage == "as_left" and _in_that_order(told, work):
        return
    if told.facts and not (told.marks and all(_is_tool_size(fact, told) for fact in told.facts)):
        return
    if _counted_moved(told, work) or told.facts or len(told.subjects) < 2:
        return
    row = [s for s in told.subjects if s.components and not s.pronoun]
    if len(row) != len(told.subjects):
        return
    gaps = _gaps(row, work.texts)
    if not _moved_row(row, gaps, work):
        _wanted_row(row, gaps, work)


def _in_that_order(told: Told, work: Working) -> bool:
    """ "lower plate, gasket, upper plate in that order": a row that goes in, and how old one of them is."""
    at = work.texts.index("order") - len(_ORDER)
    if (
        at < 1
        or work.texts[at : at + len(_ORDER)] not in _ORDERS
        or not all(_orders(f, at) for f in told.facts)
    ):
        return False
    row = [s for s in told.subjects if s.end <= at and s.components and not s.pronoun]
    behind = [s for s in told.subjects if s.start > at and s.components]
    gaps = _gaps(row, work.texts[:at])
    if len(row) < _FEW or not all(_OPENERS.issuperset(gap) or _JOINERS.issuperset(gap) for gap in gaps):
        return False
    for subject in row:
        said = next((s for s in behind if set(subject.components) <= set(s.components)), subject)
        new = said.age == "new" or work.texts[said.end : said.end + 2] in _ARE_NEW
        aged = replace(subject, age="new" if new else subject.age)
        part = _part(aged, work, "fitted")
        if part is not None:
            moved = Fact("on", NO_PHRASE, 0, [aged], start=subject.start, end=subject.end)
            put_movements(work, moved, [part], "fitted")
    for subject in row:
        if any(set(subject.components) <= set(s.components) for s in behind):
            _part(subject, work, "")  # in hand for what follows
    work.covered.append((row[0].start, len(work.texts)))
    return True


def _orders(fact: Fact, at: int) -> bool:
    return fact.kind == "doing" and fact.phrase.start == at + len(_ORDER)


def _is_tool_size(fact: Fact, told: Told) -> bool:
    """ "cover bolts, three quarter socket, one two three": the number of the tool that is named behind it."""
    return fact.kind == "value" and any("TOOL" in m.tags and m.start == fact.phrase.end for m in told.marks)


def _counted_moved(told: Told, work: Working) -> bool:
    """ "cover bolts one two three four", "head bolts eight of them, six mil allen": counted as they move.

    On where things go back, else off, where they are still on; True where that was told.
    """
    subject = told.subjects[0] if told.subjects else None
    if subject is None or not subject.components:
        return False
    rows = counted_rows(work.texts, work.lexicon)
    aloud = subject.count is not None and any(subject.start <= row.part < subject.end for row in rows)
    subject = subject if aloud else _all_with_tool(subject, told, work)
    if subject is None:
        return False
    direction: Direction = "fitted" if work.stage == "as_left" else "removed"
    hand, part = work.hand, _part(subject, work, direction)
    if part is None or (direction == "removed" and not _are_on(part, work)):
        work.hand = hand
        return False
    moved = Fact("on", NO_PHRASE, 0, [subject], start=subject.start, end=len(work.texts))
    put_movements(work, moved, [part], direction)
    return True


def _all_with_tool(subject: Subject, told: Told, work: Working) -> Subject | None:
    """ "manifold bolts, eight of them with a six mil allen": the tool tells that they were turned."""
    others = [s for s in told.subjects if s.components and s is not subject]
    if (
        others
        or not any("TOOL" in m.tags for m in told.marks)
        or work.texts[subject.end - 1] not in FASTENERS
    ):
        return None
    if any(m.tags - {"TOOL"} for m in told.marks) or not subject.many or not _TAKES.isdisjoint(work.texts):
        return None
    number, *of_them = (*work.texts[subject.end : subject.end + 3], "")
    behind = TO_TWELVE.index(number) + 1 if number in TO_TWELVE and of_them[:2] == ["of", "them"] else None
    count = subject.count or behind
    return replace(subject, count=count) if count or subject.selector else None


def _are_on(part: Part, work: Working) -> bool:
    """True where as many of *part* as were counted, three or all, are still on."""
    component = work.sheet.get(part.component)
    if component is None:
        return False
    left = component.count - work.off.get(part.component, 0)
    if part.count is None:
        return left == component.count  # "all the head bolts, six mil allen"
    return part.count == left or _FEW < part.count < left


def _gaps(row: Sequence[Subject], texts: tuple[str, ...]) -> list[tuple[str, ...]]:
    """The words before the first part, between the parts, and behind the last."""
    starts = [*(s.start for s in row), len(texts)]
    ends = [0, *(s.end + (s.age is not None and texts[s.end : s.end + 1] == ("new",)) for s in row)]
    return [texts[end:start] for end, start in zip(ends, starts, strict=True)]


def told_before(work: Working) -> Movement | ConditionNote | ActionNote | None:
    """What was told right before; an order also over one remark: "eighty quid that lot" / "screws too"."""
    for group, buys in zip(reversed(work.before.recent[-2:]), (False, True), strict=False):
        if buys and not is_buying(group, work):
            return None
        last = next(
            (s for s in reversed(group) if isinstance(s, (Movement, ConditionNote, ActionNote))), None
        )
        if last is not None or any(not isinstance(s, Remark) for s in group):
            return last
    return None


def _moved_row(row: Sequence[Subject], gaps: Sequence[tuple[str, ...]], work: Working) -> bool:
    """ "low seals then retainers then the high pressure seals, all new except the retainers"."""
    back = begins_back(work, [c for s in row for c in s.components])
    direction: Direction | None = "fitted" if back else _going_off(gaps, work)
    tail = gaps[-1] if set(gaps[-1]) - {BREAK} else ()
    inner = list(gaps[1:-1])
    kept: Subject | None = None
    if inner[-1] and inner[-1][-1] in _EXCEPT and inner[-1][:-1] in _ALL_NEW and not tail:
        kept, row, tail, inner = row[-1], row[:-1], inner[-1][:-1], inner[:-1]
    if direction is None or not _OPENERS.issuperset(gaps[0]) or tail not in {(), *_ALL_NEW}:
        return False
    if len(row) > _FEW and [text for text in inner[0] if text != BREAK] == ["next"] and "then" in inner[1]:
        row, inner = row[1:], inner[1:]  # "relief next, poppet then the spring": what comes now
    said = {word for gap in inner for word in gap}
    ordered = not _IN_ORDER.isdisjoint(said) or (back and "then" in gaps[0] and _all_off(row, work))
    if not said <= _JOINERS or not ordered or not (all(inner) or len(row) > _FEW):
        return False
    for subject in [one for some in row for one in single_components(some, work.sheet)]:
        first = subject.which == ("1",) and work.texts[subject.start] == "first"
        subject = replace(subject, which=()) if first else subject  # noqa: PLW2901 -- "first the seals"
        aged = replace(subject, age="new") if tail and subject.age is None else subject
        if kept is not None and kept.components == subject.components:
            aged = replace(subject, age="old")
        part = _part(aged, work, direction)
        if part is not None:
            moved = Fact("on", NO_PHRASE, 0, [aged], start=subject.start, end=subject.end)
            put_movements(work, moved, [part], direction)
    work.covered.append((row[0].start, len(work.texts)))
    return True


def _all_off(row: Sequence[Subject], work: Working) -> bool:
    """ "then the gasket and the cover": of each some are off."""
    return all(any(work.off.get(c, 0) for c in s.components) for s in row)


def _going_off(gaps: Sequence[tuple[str, ...]], work: Working) -> Direction | None:
    """ "then the manifold, then the plungers": goes on with what came off in the breath before."""
    last = work.last_group()
    off = bool(last) and all(isinstance(s, Movement) and s.movement == "removed" for s in last)
    return "removed" if off and "then" in gaps[0] else None


def _wanted_row(row: Sequence[Subject], gaps: Sequence[tuple[str, ...]], work: Working) -> None:
    """ "so one gasket, no, make that two gaskets, and one diaphragm": what has to be had."""
    opens = gaps[0]
    summed = bool(opens) and _SUM.issuperset(opens) and ("so" in opens or opens[-2:] == ("that", "is"))
    if work.stage == "as_left" or not summed or gaps[-1][:1] not in {(), ("for",), (BREAK,), ("then",)}:
        return
    if not all(_LISTED.issuperset(gap) or _corrects(gap) for gap in gaps[1:-1]):
        return
    if not all(_had_anew(s, work) for s in row):
        return
    behind = [*gaps[1:-1], ()]
    for subject, gap in zip(row, behind, strict=True):
        part = None if _corrects(gap) else _part(subject, work, "")
        if part is not None:
            put_order(work, subject, part)


def _corrects(gap: tuple[str, ...]) -> bool:
    return gap[-2:] == ("make", "that") or gap[-1:] == ("sorry",)


def _had_anew(subject: Subject, work: Working) -> bool:
    """A counted part that is renewed, or that was found faulty."""
    counted = subject.count is not None or work.texts[subject.start] in _ARTICLES
    parts = [work.sheet.get(c) for c in subject.components]
    renewed = all(p is not None and p.renew for p in parts[:1]) or subject.age == "new"
    return counted and (renewed or has_fault(work, [subject]))


def _part(subject: Subject, work: Working, movement: str) -> Part | None:
    part = resolve(subject, work.sheet, work.hand, work.now, off=work.off, movement=movement, seen=work.seen)
    if part is not None:
        work.named(part.component, part.single)
    return part
