"""Numbers that list which of several: "diodes one, two and four are good, three's leaking"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from saywright.quantity import parse_value
from saywright.sheets.model import Component
from saywright.understanding.counting.counts import small_count
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.numbers.words import TO_TWELVE
from saywright.understanding.quantities.plausible import is_plausible
from saywright.understanding.tags import Tag
from saywright.understanding.tokens import BREAK

_CARDINALS = TO_TWELVE[:10]
_COUNTED = frozenset(_CARDINALS)
_BETWEEN = frozenset({BREAK, "and"})
_GOES_ON = frozenset({"point", "and", "half", "quarter", *_CARDINALS})


def number_parts(tags: Sequence[Tag], texts: Sequence[str], lexicon: Lexicon) -> tuple[Tag, ...]:
    """The same tags, with lists of numbers behind a part and numbers before a state as what they are."""
    if _COUNTED.isdisjoint(texts) and not [tag for tag in tags if tag.measure is not None]:
        return tuple(tags)
    out: list[Tag] = []
    numbered: Component | None = None  # the part that is fitted by number, named last here
    several = False  # a part of which several are fitted was named last here
    queue = list(tags)
    while queue:
        tag = queue.pop(0)
        if tag.kind == "PART":
            numbered = _numbered(tag, lexicon)
            several = any(part.count > 1 for part in _named(tag, lexicon))
            if numbered is not None:
                tag, queue = _with_list(tag, queue, texts, numbered)
        elif numbered is not None and _leads_state(tag, out, queue, texts, numbered):
            tag = replace(tag, kind="MOD", measure=None, order=small_count(tag.measure))
            queue = queue[1:] if queue[0].kind == "BREAK" else queue
        elif several and _counts_state(tag, out, queue):
            tag = replace(tag, kind="MOD", measure=None, count=small_count(tag.measure))
        out.append(tag)
    return tuple(out)


def _named(tag: Tag, lexicon: Lexicon) -> list[Component]:
    found = map(lexicon.sheet.get, tag.meaning.parts or tag.meaning.aliases)
    return [part for part in found if part is not None]


def _counts_state(tag: Tag, before: Sequence[Tag], queue: Sequence[Tag]) -> bool:
    """ "five screws good, one stripped": how many are so."""
    opens = bool(before) and (before[-1].kind in {"BREAK", "COND"} or "AND" in before[-1].tags)
    return opens and small_count(tag.measure) is not None and bool(queue) and queue[0].kind == "COND"


def _numbered(tag: Tag, lexicon: Lexicon) -> Component | None:
    """The component that *tag* names, where its single ones are told by number."""
    found = [part for part in _named(tag, lexicon) if part.count > 1]
    return found[0] if len(found) == 1 and not found[0].positions else None


def _with_list(tag: Tag, queue: list[Tag], texts: Sequence[str], part: Component) -> tuple[Tag, list[Tag]]:
    """The part with the numbers behind it, and the tags behind those."""
    orders: list[int] = []
    at = end = tag.end
    while at < len(texts) and (texts[at] in _BETWEEN or texts[at] in _CARDINALS or _ranges(texts, at)):
        if orders and _ranges(texts, at):
            last = _CARDINALS.index(texts[at + 1]) + 1
            orders.extend(range(orders[-1] + 1, min(last, part.count + 1)))
        if texts[at] in _CARDINALS:
            order = _CARDINALS.index(texts[at]) + 1
            if order > part.count or (orders and order <= orders[-1]):
                break
            orders.append(order)
            end = at + 1
        at += 1
    rest = [t for t in queue if t.start >= end]
    cut = any(t.start < end < t.end for t in queue)
    alone = orders == [1] and not tag.meaning.many and _has_state(rest)  # "cover screw one is bent"
    if not (len(orders) > 1 or alone) or cut or (end < len(texts) and texts[end] in _GOES_ON):
        return tag, queue
    if not _has_state(rest) and _is_value(queue, end, part):
        return tag, queue
    return replace(tag, end=end, orders=tuple(orders)), rest


def _ranges(texts: Sequence[str], at: int) -> bool:
    """ "diodes one to three": up to which one."""
    return texts[at] in {"to", "through"} and at + 1 < len(texts) and texts[at + 1] in _CARDINALS


def _has_state(rest: Sequence[Tag]) -> bool:
    """True where a state is said of what stands before *rest*."""
    said = [t for t in rest[:2] if "COP" not in t.tags]
    return bool(said) and said[0].kind == "COND"


def _is_value(queue: Sequence[Tag], end: int, part: Component) -> bool:
    """True where the numbers may just as well be read on the part."""
    values = [t.measure.readings[0].value for t in queue if t.measure is not None and t.start < end]
    return any(is_plausible(c, parse_value(value)) for c in part.characteristic for value in values)


def _leads_state(
    tag: Tag, before: Sequence[Tag], queue: Sequence[Tag], texts: Sequence[str], part: Component
) -> bool:
    """ "two, fine", "three's leaking": a number that begins a clause and has a state said of it."""
    count = small_count(tag.measure)
    if count is None or count > part.count or tag.end - tag.start != 1 or not queue:
        return False
    opens = not before or before[-1].kind in {"BREAK", "COND", "WORD"} or "AND" in before[-1].tags
    first = queue[0]
    single = first.kind == "BREAK" or (count > 1 and texts[first.start] in {"is", "has"})
    return opens and single and len(queue) > 1 and queue[1].kind == "COND"  # "two stripped" is how many
