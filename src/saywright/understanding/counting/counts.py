"""Numbers beside a part's name: how many there are, or which of several, not a value read.

"four bowl screws" is a count, "piston two" is one of several, "main jet two" is a reading.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from saywright.quantity import parse_value
from saywright.sheets.model import Component, Sheet
from saywright.understanding.bench_words import SIZE_WORDS
from saywright.understanding.counting import counted_things as things
from saywright.understanding.counting.counted_things import SAYS_NOTHING, counts_no_part, couple, of_an_age
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.meanings import Meaning
from saywright.understanding.numbers.words import CARDINALS
from saywright.understanding.quantities.measures import Measure, find_measures
from saywright.understanding.quantities.plausible import is_plausible
from saywright.understanding.tags import Tag

_MAY_GO_ON = frozenset({"WORD", "LINK"})
_MOST = 24  # more of one part is no count that is said at a bench


def count_parts(tags: Sequence[Tag], texts: Sequence[str], lexicon: Lexicon) -> tuple[Tag, ...]:
    """The same tags, with numbers that count or number parts turned into what they are."""
    out: list[Tag] = []
    queue = things.counted_them(tags, texts)
    at, size = 0, len(queue)
    while at < size:
        tag = queue[at]
        if tag.measure is None and "ORD" not in tag.meaning.tags and texts[tag.start] != "one":
            may_go_on = tag.kind in _MAY_GO_ON and bool(out)
            out.append(replace(tag, kind="MOD") if may_go_on and things.goes_on(tag, out[-1], texts) else tag)
            at += 1
            continue
        if _each_so_many(queue, at, out, texts, lexicon.sheet):
            out.append(Tag("WORD", tag.start, queue[-1].end, SAYS_NOTHING))
            break
        if "ORD" in tag.tags and tag.kind == "MOD":
            tag = replace(tag, order=things.order(texts[tag.end - 1], texts[tag.start]))
        count = 1 if things.one_of(queue, at, texts) else small_count(tag.measure)
        count = count or couple(tag, queue[at + 1 : at + 3])
        if counts_no_part(tag, queue[at + 1 : at + 4], out, texts, count):
            tag, count = replace(tag, kind="WORD", measure=None, order=None, meaning=SAYS_NOTHING), None
        counted = _counted_before(tag, out, texts, lexicon)
        if counted is not None:
            out.append(counted[0])
            tag, count = counted[1], None
        if things.is_single(queue, at, out, texts):
            tag = replace(tag, kind="ONE", measure=None)
        elif (
            count is not None
            and not (out and out[-1].kind == "PART" and _counts_behind(queue[at:]))
            and (
                _counts_left(out, queue[at:], texts, lexicon.sheet)
                or _counts_right(queue, at, out, texts, lexicon.sheet)
            )
        ):
            tag = replace(tag, kind="MOD", measure=None, count=count)
        elif tag.kind == "MEASURE" and out and out[-1].kind == "PART":
            in_row = _counts_behind(queue[at:])
            split = _which(out, tag, queue[at + 1 : at + 2], texts, lexicon, in_row=in_row)
            if split is not None:
                out[-1], rest = split
                if rest is not None:
                    out.append(rest)
                at += 1
                continue
        out.append(replace(tag, kind="MOD") if out and things.goes_on(tag, out[-1], texts) else tag)
        at += 1
    return tuple(out)


def _each_so_many(
    queue: Sequence[Tag], at: int, before: Sequence[Tag], texts: Sequence[str], sheet: Sheet
) -> bool:
    """ "retainers out and the seals, three of each": as many as are fitted of every part named."""
    count = small_count(queue[at].measure)
    if count is None or texts[queue[at].end :] != ("of", "each"):
        return False
    named = [sheet.get(c) for t in before if t.kind == "PART" for c in t.meaning.parts]
    return bool(named) and all(part is not None and part.count == count for part in named)


def _counts_behind(queue: Sequence[Tag]) -> bool:
    """ "balls three springs three": in such a row each number stands behind its part."""
    end = next((i for i, t in enumerate(queue) if t.kind == "BREAK"), len(queue))
    row = queue[:end]
    return (
        len(row) >= 3
        and len(row) % 2 == 1
        and all(
            (small_count(t.measure) is not None) if i % 2 == 0 else (t.kind == "PART" and t.meaning.many)
            for i, t in enumerate(row)
        )
    )


def small_count(measure: Measure | None) -> int | None:
    """The plain small whole number a measure is, or None."""
    if (
        measure is None
        or measure.unit_said is not None
        or measure.approximate
        or measure.sign
        or not measure.readings
    ):
        return None
    best = measure.readings[0]
    if (
        best.how not in {"cardinal", "digits", "figures", "article"}
        or not best.value.isdigit()
        or best.value.startswith("0")
    ):
        return None
    value = int(best.value)
    return value if 1 <= value <= _MOST else None


def _counts_left(before: Sequence[Tag], queue: Sequence[Tag], texts: Sequence[str], sheet: Sheet) -> bool:
    """ "all four", "the other two", "the rear two are"; not "left nine clicks, the other one eleven".

    Nor "and the other nineteen", where nothing is fitted so many times.
    """
    if not before or before[-1].kind != "MOD":
        return False
    if before[-1].meaning.positions and texts[queue[0].end : queue[0].end + 1] in {("are",), ("were",)}:
        return small_count(queue[0].measure) != 1
    ends = len(queue) == 1 or queue[1].kind == "BREAK"
    other = ends and "OTHER" in before[-1].tags
    told = other and any(tag.kind == "MEASURE" for tag in before)
    most = max((c.count for c in sheet.component), default=_MOST)
    if other and (small_count(queue[0].measure) or 0) >= most:
        return False
    return bool(before[-1].tags & {"ALL", "OTHER", "LAST"}) and not told


def _counts_right(
    queue: Sequence[Tag], at: int, before: Sequence[Tag], texts: Sequence[str], sheet: Sheet
) -> bool:
    """ "four bowl screws", "two new gaskets", "three of the screws"."""
    behind = queue[at + 1 : at + 3]
    on_order = bool(behind) and behind[0].kind == "ACT" and texts[behind[0].start] == "on"
    on_order = on_order or _is_article(queue, at, before, texts)
    if on_order or things.some_are_so(behind, before, texts):
        return True  # "get one on order", "thirty eight teeth, two of them chipped"
    if before and (before[-1].kind == "CHAR" or "READS" in before[-1].tags):
        return False
    if small_count(queue[at].measure) == 1 and before and before[-1].kind == "PART":
        return at + 1 < len(queue) and queue[at + 1].kind == "PART"
    for tag in queue[at + 1 : at + 4]:
        if tag.kind == "PART":
            named = [sheet.get(c) for c in (*tag.meaning.parts, *tag.meaning.aliases)]
            several = any(map(_several, named))
            most = max((max(part.count, len(part.positions)) for part in named if part), default=_MOST)
            fits = (small_count(queue[at].measure) or 1) <= most  # not "second fourteen oil ring sixteen"
            row = not fits and bool(before) and before[-1].kind == "PART" and tag.start > queue[at].end
            row = row and _read_on(before[-1], queue[at], sheet)
            # not of "left shoes eight right shoes six", where two are fitted; "top cover six bolts" is
            return (tag.meaning.many and not row) or (
                fits and several and not (before and before[-1].kind == "PART")
            )
        if tag.kind == "PRON" and "OF" in queue[at + 1].tags:
            return True
        if "ONES" in tag.tags or of_an_age(texts[queue[at].start : tag.end]):
            return True  # "two new ones", "one old one"
        if texts[tag.start] in SIZE_WORDS:
            continue  # "four little screws", "four more nuts"
        if not (tag.kind == "MOD" or tag.tags & {"OF"} or tag.kind == "COND"):
            return False
    return False


def _read_on(part: Tag, number: Tag, sheet: Sheet) -> bool:
    """True where *number* may be a value of the part before it."""
    named = map(sheet.get, (*part.meaning.parts, *part.meaning.aliases))
    return number.measure is not None and any(_fits(number.measure, one) for one in named if one is not None)


def _is_article(queue: Sequence[Tag], at: int, before: Sequence[Tag], texts: Sequence[str]) -> bool:
    """ "one pump gasket and one diaphragm": a single one, where a noun phrase begins."""
    if texts[queue[at].start : queue[at].end] != ("one",) or at + 1 >= len(queue):
        return False
    noun = queue[at + 2] if "NEW" in queue[at + 1].tags and at + 2 < len(queue) else queue[at + 1]
    if noun.kind != "PART" or noun.meaning.many:
        return False
    last = before[-1] if before else None
    if last is None or last.kind in {"BREAK", "ACT"} or last.tags & {"FILLER", "AND", "NEED"}:
        return noun.end == len(texts) or queue[queue.index(noun) + 1].kind != "MEASURE"
    return False


def _several(component: Component | None) -> bool:
    return component is not None and component.count > 1


def _counted_before(
    tag: Tag, before: Sequence[Tag], texts: Sequence[str], lexicon: Lexicon
) -> tuple[Tag, Tag] | None:
    """ "all three twenty five point two": how many, and the value; both ways ask where both make sense."""
    if tag.measure is None or tag.end - tag.start < 2 or texts[tag.start] not in CARDINALS:
        return None
    if not before or before[-1].kind != "MOD" or "ALL" not in before[-1].tags:
        return None
    count = CARDINALS.index(texts[tag.start]) + 1
    rest = find_measures(tuple(texts[tag.start + 1 : tag.end]), lexicon.units)
    if not rest or (rest[0].start, rest[0].end) != (0, tag.end - tag.start - 1):
        return None
    fitted = [c for c in lexicon.sheet.component if c.count == count]
    if not any(_fits(rest[0], component) for component in fitted):
        return None
    measure = replace(rest[0], start=tag.start + 1, end=tag.end)
    if any(_fits(tag.measure, component) for component in fitted):
        both = {r.value: replace(r, cost=0) for r in (*measure.readings[:1], *tag.measure.readings[:1])}
        measure = replace(measure, readings=tuple(both.values()))
    return (
        replace(tag, kind="MOD", end=tag.start + 1, measure=None, count=count),
        replace(tag, start=tag.start + 1, measure=measure),
    )


def _which(
    before: Sequence[Tag],
    number: Tag,
    after: Sequence[Tag],
    texts: Sequence[str],
    lexicon: Lexicon,
    *,
    in_row: bool,
) -> tuple[Tag, Tag | None] | None:
    """ "piston two thirty one point four": the first number may tell which of several it is."""
    part, measure = before[-1], number.measure
    components = [
        c
        for c in map(lexicon.sheet.get, part.meaning.parts or part.meaning.aliases)
        if c is not None and _several(c) and not c.positions
    ]
    if measure is None or not components or part.order is not None:
        return None
    component = components[0]
    word = texts[number.start]
    order = CARDINALS.index(word) + 1 if word in CARDINALS else int(word) if word.isdigit() else 0
    if not 1 <= order <= component.count:
        return None
    single = bool(after) and after[0].kind == "AUX" and texts[after[0].start] in {"is", "has", "was"}
    several = part.meaning.many and not single  # "holes two clear, one blocked"
    numbered = replace(part, end=number.start + 1)
    numbered = replace(numbered, count=order) if several else replace(numbered, order=order)
    if measure.end > number.start + 1:
        rest = find_measures(tuple(texts[number.start + 1 : number.end]), lexicon.units)
        return _with_rest(numbered, number, after, rest, component)
    if measure.unit_said is not None:
        return None
    fits = any(is_plausible(c, parse_value(measure.readings[0].value)) for c in component.characteristic)
    kinds = {t.kind for t in before}
    done = not kinds.isdisjoint({"ACT", "ON", "OFF", "COND"}) and "CHAR" not in kinds  # "greased screw two"
    if after and after[0].kind == "PART":
        one_next = order > 1 and not (several or after[0].meaning.many)  # "head three piston three"
        which = (several and in_row) or (one_next and (done or not fits))
        return (numbered, None) if which else None  # "two oil seals, one damper rod"
    is_value = (not after or after[0].kind == "BREAK") and fits and (several or not done)
    return None if is_value else (numbered, None)


def _with_rest(
    numbered: Tag, number: Tag, after: Sequence[Tag], rest: Sequence[Measure], component: Component
) -> tuple[Tag, Tag | None] | None:
    """The part with the first word of *number*, and the *rest* of the words; None for one number."""
    measure, end = number.measure, number.end
    if measure is None or not rest or (rest[0].start, rest[0].end) != (0, end - number.start - 1):
        return None
    many = small_count(rest[0]) if after and after[0].kind == "PART" and after[0].meaning.many else None
    if many is not None and many > 1 and numbered.order is not None:  # "head three twelve bolts"
        return numbered, Tag("MOD", number.start + 1, end, Meaning(), count=many)
    if _fits(measure, component) or not _fits(rest[0], component):
        return None
    shifted = replace(rest[0], start=number.start + 1, end=end)
    return numbered, Tag("MEASURE", number.start + 1, end, Meaning(), shifted)


def _fits(measure: Measure, component: Component) -> bool:
    return any(
        is_plausible(characteristic, parse_value(reading.value))
        for characteristic in component.characteristic
        for reading in measure.readings[:1]
    )
