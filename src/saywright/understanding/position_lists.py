"""Numbers that list which of several: "diodes one, two and four are good, three's leaking"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from saywright.quantity import parse_value
from saywright.sheets.model import Component
from saywright.understanding.counts import small_count
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.plausible import is_plausible
from saywright.understanding.tags import Tag
from saywright.understanding.tokens import BREAK

_CARDINALS = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")
_BETWEEN = frozenset({BREAK, "and"})
_GOES_ON = frozenset({"point", "and", "half", "quarter", *_CARDINALS})


def number_parts(tags: Sequence[Tag], texts: Sequence[str], lexicon: Lexicon) -> tuple[Tag, ...]:
    """The same tags, with lists of numbers behind a part and numbers before a state as what they are."""
    out: list[Tag] = []
    numbered: Component | None = None  # the part that is fitted by number, named last here
    queue = list(tags)
    while queue:
        tag = queue.pop(0)
        if tag.kind == "PART":
            numbered = _numbered(tag, lexicon)
            if numbered is not None:
                tag, queue = _with_list(tag, queue, texts, numbered)
        elif numbered is not None and _leads_state(tag, out, queue, numbered):
            tag = replace(tag, kind="MOD", measure=None, order=small_count(tag.measure))
            queue = queue[1:] if queue[0].kind == "BREAK" else queue
        out.append(tag)
    return tuple(out)


def _numbered(tag: Tag, lexicon: Lexicon) -> Component | None:
    """The component that *tag* names, where its single ones are told by number."""
    found = [lexicon.sheet.get(c) for c in (tag.meaning.parts or tag.meaning.aliases)]
    part = found[0] if len(found) == 1 else None
    return part if part is not None and part.count > 1 and not part.positions else None


def _with_list(tag: Tag, queue: list[Tag], texts: Sequence[str], part: Component) -> tuple[Tag, list[Tag]]:
    """The part with the numbers behind it, and the tags behind those."""
    orders: list[int] = []
    at = end = tag.end
    while at < len(texts) and (texts[at] in _BETWEEN or texts[at] in _CARDINALS):
        if texts[at] in _CARDINALS:
            order = _CARDINALS.index(texts[at]) + 1
            if order > part.count or (orders and order <= orders[-1]):
                break
            orders.append(order)
            end = at + 1
        at += 1
    rest = [t for t in queue if t.start >= end]
    cut = any(t.start < end < t.end for t in queue)
    if len(orders) < 2 or cut or (end < len(texts) and texts[end] in _GOES_ON):
        return tag, queue
    if not _has_state(rest) and _is_value(queue, end, part):
        return tag, queue
    return replace(tag, end=end, orders=tuple(orders)), rest


def _has_state(rest: Sequence[Tag]) -> bool:
    """True where a state is said of what stands before *rest*."""
    said = [t for t in rest[:2] if "COP" not in t.tags]
    return bool(said) and said[0].kind == "COND"


def _is_value(queue: Sequence[Tag], end: int, part: Component) -> bool:
    """True where the numbers may just as well be read on the part."""
    values = [t.measure.readings[0].value for t in queue if t.measure is not None and t.start < end]
    return any(is_plausible(c, parse_value(value)) for c in part.characteristic for value in values)


def _leads_state(tag: Tag, before: Sequence[Tag], queue: Sequence[Tag], part: Component) -> bool:
    """ "two, fine", "three's leaking": a number that begins a clause and has a state said of it."""
    count = small_count(tag.measure)
    if count is None or count > part.count or tag.end - tag.start != 1 or not queue:
        return False
    opens = not before or before[-1].kind in {"BREAK", "COND", "WORD"} or "AND" in before[-1].tags
    first = queue[0]
    said = queue[1] if len(queue) > 1 and (first.kind == "BREAK" or "COP" in first.tags) else first
    return opens and said.kind == "COND"
