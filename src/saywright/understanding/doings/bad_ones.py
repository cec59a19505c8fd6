"""Which of several an order for one is of: "one drum", where one drum alone is beyond its limits."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import replace

from saywright.quantity import parse_value
from saywright.sheets.model import Component, Stage
from saywright.understanding.discourse import ReadingKey
from saywright.understanding.phrases import Phrase
from saywright.understanding.statements import ActionNote, Reading
from saywright.understanding.subjects.noun_phrases import Subject
from saywright.understanding.working import Working

_SETS = frozenset({("set",), ("sets",), ("kit",)})
_DONE_WITH = frozenset({"scrap", "replace"})


def the_bad_one(item: Subject, work: Working, *, bought: bool = True) -> Subject:
    """*item* with the place of the only one that is to be thrown away, is beyond a limit or is faulty.

    "A spindle", "one upper spring", "the one pin": a single one, told of several. "Order one" is one of
    what is in hand, and the one in hand where that is one of several. What is *bought* needs no number: "a
    spindle" is no more than one.
    """
    held = work.hand is not None and work.hand.which is not None and work.hand.component in item.components
    alone = item.count == 1 or (bought and item.count is None and not (item.many or item.pronoun or held))
    a_set = work.texts[item.end : item.end + 1] in _SETS and work.texts[item.end + 1 : item.end + 2] != (
        "of",
    )
    if not alone or item.selector or item.described or a_set:
        return item  # "a bush set" is of all of them
    if not item.components:
        return _in_hand(item, work) if item.pronoun and item.count == 1 and not item.which else item
    spec = work.sheet.get(item.components[0]) if len(item.components) == 1 else None
    if spec is None or spec.count < 2 or item.which in {(one,) for one in spec.whiches}:
        return item
    bad = {*_thrown_away(spec, work)} or {*_beyond(spec, work)} or {*_faulty(spec, work)}
    if "" in bad:
        return item
    said = {word for which in item.which for word in which.split()}
    bad = {which for which in bad if said <= set(which.split())}
    return replace(item, which=tuple(bad)) if len(bad) == 1 else item


def _in_hand(item: Subject, work: Working) -> Subject:
    """ "pressed that one out, order one": that one."""
    held = work.hand
    spec = work.sheet.get(held.component) if held is not None else None
    if held is None or spec is None or not spec.positions:
        return item
    return replace(item, which=(held.which,)) if held.which in spec.positions else item


def any_beyond(subjects: Collection[Subject], work: Working) -> bool:
    """True where each of *subjects*, or what is in hand, was last read beyond a limit."""
    held = (work.hand.component,) if work.hand is not None else ()
    named = [component for s in subjects for component in s.components or held]
    parts = [spec for component in named if (spec := work.sheet.get(component)) is not None]
    return bool(parts) and all(read_beyond(spec, work.latest) for spec in parts)


def read_beyond(spec: Component, latest: Mapping[tuple[ReadingKey, Stage], Reading]) -> bool:
    """True where one of *spec*, or the only one there is, was last read beyond a limit as found."""
    last = ((key, stage, reading) for (key, stage), reading in latest.items() if key[0] == spec.id)
    return any(stage == "as_found" and _is_beyond(spec, reading) for _, stage, reading in last)


def found_on(item: Subject, phrase: Phrase, work: Working) -> str:
    """ "a screw for the bent one": where that fault was found on one of them; "" for none or two."""
    faults = {fault for tag in phrase.lead for fault in tag.meaning.conditions}
    seen = {w for c, w, fault, present in work.seen if present and c in item.components and fault in faults}
    return seen.pop() or "" if len(seen) == 1 else ""


def _beyond(spec: Component, work: Working) -> Iterator[str]:
    """The ones of *spec* that were last read beyond a limit as found."""
    for ((component, which, _), stage), reading in work.latest.items():
        if component == spec.id and which is not None and stage == "as_found" and _is_beyond(spec, reading):
            yield which


def _faulty(spec: Component, work: Working) -> Iterator[str]:
    """The ones of *spec* that a fault was found on; "" where it was not said which has it."""
    faults = {c.id for c in work.sheet.condition if not c.good}
    yield from (w or "" for c, w, what, present in work.seen if present and c == spec.id and what in faults)


def _is_beyond(spec: Component, reading: Reading) -> bool:
    """True where it is beyond a limit, of what is not set anew: a worn diameter, not an end float."""
    read = next((c for c in spec.characteristic if c.id == reading.characteristic), None)
    if read is None or "as_left" in read.when or reading.in_sheet_unit is None:
        return False
    lower, upper = read.exact_limits
    value = parse_value(reading.in_sheet_unit)
    return (lower is not None and value < lower) or (upper is not None and value > upper)


def _thrown_away(spec: Component, work: Working) -> Iterator[str]:
    """The ones of *spec* that are to be scrapped or replaced, by what was said a moment ago."""
    for group in work.before.recent:
        for said in group:
            if type(said) is not ActionNote or said.component != spec.id or said.which is None:
                continue
            if said.status == "proposed" and said.action in _DONE_WITH and said.id not in work.gone:
                yield said.which
