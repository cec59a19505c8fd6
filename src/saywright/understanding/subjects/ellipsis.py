"""What an utterance leaves out because its other words tell it."""

from __future__ import annotations

from dataclasses import replace

from saywright.sheets.model import Component, Sheet
from saywright.understanding.bench_words import FASTENERS, TOO
from saywright.understanding.facts import Fact
from saywright.understanding.naming.sheet_names import component_names
from saywright.understanding.subjects.noun_phrases import Subject
from saywright.understanding.tokens import BREAK
from saywright.understanding.walk import Walk

_OPPOSITES = [
    ("high", "low"), ("upper", "lower"), ("inner", "outer"), ("front", "rear"), ("left", "right"),
    ("top", "bottom"), ("inlet", "outlet"), ("main", "pilot"), ("primary", "secondary"), ("big", "small"),
    ("drive", "driven"), ("leading", "trailing"), ("near", "far"), ("long", "short"), ("fast", "slow"),
]  # fmt: skip
_AFTER_TOO = frozenset({BREAK, "and", "but"})
_REPEATED = frozenset({"off", "on", "finding"})


def fill_gaps(walk: Walk) -> None:
    """Put in what was left out of the facts of *walk*."""
    same_movement(walk)
    if len(walk.out.facts) > 1:
        _moved_once(walk)
    if walk.out.marks:
        _meant(walk)
    named = [s for s in walk.out.subjects if s.components and s.which]
    for fact in walk.out.facts:
        filled = [_with_name(s, named) for s in fact.subjects]
        fact.subjects = [one for subject in filled for one in single_components(subject, walk.sheet)]


def same_movement(walk: Walk, *, too: bool = False) -> None:
    """ "seals out and the dust boots", "pads out, pins too": what was said last goes for one more part."""
    fact = walk.last
    if fact is None or walk.used or not walk.current:
        return
    too = too or _ends_with_too(walk)
    if fact.kind not in _REPEATED and not (too and fact.kind == "doing"):
        return
    counted = _ends_counted(walk) or _counted_between(walk, fact)
    if not (walk.joined_by_and or too or counted) or fact not in walk.out.facts:
        return
    if fact.kind == "finding" and not too:
        return
    begin = walk.current[0].start
    strays = [at for at in walk.out.strays.get(walk.segment, ()) if at >= begin]
    if "AUX" in walk.glue or (strays and not counted):
        return  # "and the hose is hanging to one side" says something else of it
    for subject in walk.current:
        moved = subject.pronoun and any(s.components == subject.components for s in fact.subjects)
        if _is_from_where(walk, fact, subject) or _how_many(fact, subject):
            continue
        if subject.start >= fact.phrase.end and not moved:
            more = replace(fact, subjects=[subject], start=subject.start, end=subject.end)
            walk.out.facts.append(more)
            if fact.kind != "finding":
                walk.last = replace(more, segment=walk.segment)
                walk.out.facts[-1] = walk.last
    walk.used = True


def _is_from_where(walk: Walk, fact: Fact, subject: Subject) -> bool:
    """ "hose off the caliper, bolt and both washers": the caliper is where they came from."""
    led = fact.kind == "off" and subject.start == fact.phrase.end
    return led and walk.texts[subject.start - 2 : subject.start] == ("off", "the")


def _how_many(fact: Fact, subject: Subject) -> bool:
    """ "packing's out, three rings": of that so many; *fact* is told so."""
    told = fact.subjects[-1] if fact.kind in {"off", "on"} and len(fact.subjects) == 1 else None
    if (
        told is None
        or subject.count is None
        or subject.which
        or subject.age
        or subject.start < fact.phrase.end
    ):
        return False
    if told.components != subject.components or told.count or told.which or told.selector or told.age:
        return False
    fact.subjects = [replace(told, count=subject.count)]
    fact.cover(subject.start, subject.end)
    return True


def _moved_once(walk: Walk) -> None:
    """ "new plug in, tapped down": two words for one movement of what was named once."""
    kept: list[Fact] = []
    for fact in walk.out.facts:
        before = kept[-1] if kept else None
        named = all(s.components and s.count is None for s in fact.subjects) and bool(fact.subjects)
        if (
            before is not None
            and named
            and fact.kind in {"off", "on"}
            and (before.kind, before.subjects) == (fact.kind, fact.subjects)
        ):
            before.cover(fact.start, fact.end)
            continue
        kept.append(fact)
    walk.out.facts[:] = kept


def _ends_counted(walk: Walk) -> bool:
    """ "mount on, four screws": so many more, and nothing said of them."""
    subject = walk.current[-1]
    every = subject.selector in {"both", "all"} and walk.texts[subject.end - 1] in FASTENERS
    counted = subject.count is not None or every  # "cap on both screws", not "ties on both sleeves"
    if not counted or not subject.components or subject.age == "new":
        return False
    rest = walk.texts[subject.end : subject.end + 1]
    return rest in {(), (BREAK,), ("with",)}


def counted_before(walk: Walk, said: Subject) -> None:
    """ "pump off six screws diaphragm's cracked": so many more of the movement, before the next part."""
    if not said.components or not walk.current:
        return
    beside = not walk.glue and said.start == walk.current[-1].end
    if beside or (walk.glue == {"AND"} and is_counted_beside(walk)):
        same_movement(walk, too=walk.glue == {"AND"})


def one_of_them(walk: Walk) -> None:
    """ "both pads out, one is cracked", "six bolts, one's bent": of them one that is not told apart."""
    if is_counted_beside(walk):
        same_movement(walk)  # "cover off, six bolts, one's bent"
    held = walk.current[-1]
    if len(walk.current) == 1 and walk.last is not None and not held.which and (held.many or held.selector):
        walk.current = [replace(held, selector="", count=None, many=False, single=True)]


def is_counted_beside(walk: Walk) -> bool:
    """ "cover off five bolts and the gasket's torn": so many bolts right behind the movement."""
    held, last = walk.current[-1], walk.last
    counted = held.count is not None and held.age is None and walk.texts[held.end - 1] in FASTENERS
    moved = last is not None and last.kind in {"off", "on"} and last.phrase.end == held.start
    return counted and moved and not walk.used


def _counted_between(walk: Walk, fact: Fact | None) -> bool:
    """A count and a part right behind a movement."""
    subject = walk.current[-1]
    every = subject.selector in {"both", "all"} and walk.texts[subject.end - 1] in FASTENERS
    counted = (subject.count is not None or every) and subject.age is None and bool(subject.components)
    return counted and fact is not None and fact.phrase.end == subject.start and not walk.glue


def move_on(walk: Walk, subject: Subject) -> None:
    """ "new needle jet in, then the holder and a one eighty main jet": with its size it moved as well."""
    if walk.row is not None and subject.components:
        more = replace(
            walk.row, subjects=[subject], start=subject.start, end=subject.end, segment=walk.segment
        )
        walk.out.facts.append(more)
    walk.row = None


def end_row(walk: Walk, said: Subject) -> None:
    """ "the bowl's off, and the float too and this float is cracked": the row ends before the part *said*.

    So it does in "front plate too, rear one's pitted" and in "new hose on, old clamp, screen cleaned".
    """
    if walk.used or not walk.current:
        return
    held = walk.current[-1]
    between = tuple(text for text in walk.texts[held.end : said.start] if text not in _AFTER_TOO)
    if between in TOO or (held.end == said.start and said.age is None and _went_on_aged(walk, held)):
        same_movement(walk, too=True)


def end_with_too(walk: Walk, fact: Fact) -> None:
    """ "piston's out, the seal too, and there's rust in the bowl": the row ends before what *fact* tells."""
    if walk.used or not walk.current or not walk.current[-1].components:
        return
    end = walk.current[-1].end
    length = next((n for n in (1, 2) if walk.texts[end : end + n] in TOO), 0)
    ends = walk.texts[end + length : end + length + 1]
    if length and ends and ends[0] in _AFTER_TOO and end + length < fact.phrase.start:
        same_movement(walk, too=True)


def _went_on_aged(walk: Walk, held: Subject) -> bool:
    """ "new hose on, old clamp": what stands right behind what went on, each with its age."""
    last = walk.last
    aged = (
        last is not None and last.kind == "on" and bool(last.subjects) and last.subjects[-1].age is not None
    )
    beside = last is not None and last.phrase.end == held.start and bool(held.components)
    return aged and beside and held.age is not None


def _ends_with_too(walk: Walk) -> bool:
    """ "washers too": nothing but that stands behind the last subject."""
    rest = tuple(text for text in walk.texts[walk.current[-1].end :] if text != BREAK)
    return rest in {("too",), ("as", "well"), ("also",), ("and", "all")}


def _meant(walk: Walk) -> None:
    """ "that piston's scored, the trailing one I mean": which one comes last."""
    fact, mark = walk.last, walk.out.marks[-1] if walk.out.marks else None
    if (
        fact is None
        or mark is None
        or mark.end != len(walk.texts)
        or walk.texts[mark.start :] != ("i", "mean")
    ):
        return
    subject = walk.current[-1] if walk.current else None
    if subject is not None and fact.phrase.end <= subject.start and subject.end == mark.start:
        fact.subjects = [subject]


def _with_name(subject: Subject, named: list[Subject]) -> Subject:
    """ "six two on the inner and six oh on the outer pad": the name comes with the second."""
    if subject.components or not subject.which:
        return subject
    after = [s for s in named if s.start > subject.start]
    return replace(subject, components=after[0].components) if after else subject


def _two_of_a_kind(parts: list[Component]) -> list[Component]:
    """ "both needles", of a high, a low and an inlet needle: the high and the low one; [] where none are."""
    called = {p.id: {word for name, _ in component_names(p) for word in name[:-1]} for p in parts}
    pairs = [
        [one, other]
        for at, one in enumerate(parts)
        for other in parts[at + 1 :]
        if any(
            (a in called[one.id] and b in called[other.id]) or (b in called[one.id] and a in called[other.id])
            for a, b in _OPPOSITES
        )
    ]
    return [*pairs[0]] if len(pairs) == 1 else []


def single_components(subject: Subject, sheet: Sheet) -> list[Subject]:
    """ "both gears": a short name of two parts that are fitted once each means the two of them."""
    if not subject.alias:
        return [subject]
    parts = [sheet.get(c) for c in subject.components]
    plain_plural = subject.many and not subject.which and subject.count is None
    every = subject.selector in {"both", "all"} or plain_plural
    if not every or len(parts) < 2:
        return [subject]
    if subject.selector == "both" and len(parts) > 2:
        two = _two_of_a_kind([p for p in parts if p is not None and p.count == 1])
        if two:
            subject, parts = replace(subject, components=tuple(p.id for p in two)), [*two]
    if (subject.selector != "all" and len(parts) != 2) or any(p is None or p.count > 1 for p in parts):
        return [subject]
    return [
        replace(subject, components=(c,), selector="", alias=False, many=False) for c in subject.components
    ]


def closes_with_these(walk: Walk, index: int) -> bool:
    """ "dry as a bone these": all of those in hand, named last."""
    phrase, after = walk.phrases[index], walk.after(index)
    ends = after is None or after.kind == "break"
    return ends and walk.texts[phrase.start : phrase.end] in {("these",), ("those",)}
