"""Numbers in a row that count no turns: "I need one, two, three", "book says one, one and a half"."""

from __future__ import annotations

from saywright.sheets.model import Component
from saywright.understanding.bench_words import COUNT_TALK, THERE_ARE
from saywright.understanding.counting.aloud import Count
from saywright.understanding.counting.count_begins import BEGINS
from saywright.understanding.counting.count_ends import tells_end
from saywright.understanding.counting.count_targets import words_of_places
from saywright.understanding.meanings import NOTHING
from saywright.understanding.naming.sheet_names import component_names
from saywright.understanding.quantities.measures import find_measures
from saywright.understanding.quantities.units import unit_at
from saywright.understanding.working import Working
from saywright.units import get_unit

# Of a limit, another job, what is wanted or did not happen: the numbers behind are of that.
_ELSEWHERE = frozenset({"LIMIT", "OTHER_JOB", "WHATIF", "HYPO"})
_ASKS = frozenset({"QUESTION", "NEG"})  # right before the numbers
_WANTS = frozenset({"need", "needs", "want", "wants", "order", "buy"})  # "I need one, two …"
_RANGES = frozenset({("between",), ("from",)})  # "between one and two and a half"
_TOLD_OF_IT = frozenset({"is", "was", "were", "would"})  # "one, two and a half is what the last one had"
_LEADS = frozenset({"goes", "went", "going", "counts", "i", "get", "got", "again", "gives", "me", "and"})
_BACK = frozenset({"out", "back"})
_PICKS = frozenset({"POS", "OTHER", "ORD", "LAST"})
_COUNTED = frozenset({"turn", "number"})


def counts_no_turns(texts: tuple[str, ...], run: Count, work: Working) -> bool:
    """True where the talk before *run*, or what is counted behind it, is of something else than turns."""
    return _tells_elsewhere(texts[: run.start], work) or _counts_things(texts, run, work)


def tells_value(head: tuple[str, ...], work: Working) -> bool:
    """True where a value is told before the count; "low one, closing it in half …" only tells which."""
    for found in find_measures(head, work.lexicon.units):
        before = work.lexicon.names(head, found.start - 1) if found.start else NOTHING
        if head[found.start : found.end] != ("one",) or not (before.positions or before.tags & _PICKS):
            return True
    return False


def may_be_of_another(texts: tuple[str, ...], run: Count, component: Component, work: Working) -> bool:
    """ "Jack said one, one and a half": other talk leads there, and neither the part nor an end is told."""
    head = texts[: run.start]
    placed = words_of_places(component)
    if not BEGINS.isdisjoint(texts) or tells_end(texts[run.end :]):
        return False
    if COUNT_TALK.union(_LEADS, placed, {"other", "one"}).issuperset(head):
        return False
    if tells_end(head) and not _BACK.isdisjoint(head[-2:]):
        return False  # "in till they seat then out one, two, two and a half"
    found = (work.lexicon.match(head, at) for at in range(len(head)))
    return not any(f is not None and component.id in {*f[1].parts, *f[1].aliases} for f in found)


def leads_to_count(head: tuple[str, ...], component: Component, work: Working) -> bool:
    """ "and now low speed", "it goes", "front carb port side": talk of counting, and which one it is."""
    own = {word for name, _ in component_names(component) for word in name}  # "high screw half one …"
    rest = {*head} - COUNT_TALK - _LEADS - own - words_of_places(component)
    return not rest or rest <= _names_of_holders(component, work)


def _names_of_holders(component: Component, work: Working) -> set[str]:
    """Words that name parts which are where *component* is by one word of its places: the front carb."""
    places = words_of_places(component)
    there = (c for c in work.sheet.component if not places.isdisjoint(words_of_places(c)))
    return {word for c in there for name, _ in component_names(c) for word in name}


def _tells_elsewhere(head: tuple[str, ...], work: Working) -> bool:
    """ "spec's one, one and a half", "last time it was …", "is it one, one and a half", "not one …"."""
    at = 0
    while at < len(head):
        found = work.lexicon.match(head, at)
        length, meaning = found if found is not None else (1, None)
        if meaning is not None:
            asks = at + length == len(head) and meaning.tags & _ASKS and head[at] != "no"
            if asks or meaning.tags & _ELSEWHERE:
                return True
        at += length
    return head[-2:] in THERE_ARE or head[-1:] in _RANGES or not _WANTS.isdisjoint(head[-2:])


def _counts_things(texts: tuple[str, ...], run: Count, work: Working) -> bool:
    """ "one two three of the screws", "one, two new ones", "one, one and a half litres"."""
    behind = texts[run.end :]
    if not _TOLD_OF_IT.isdisjoint(behind[:1]) and not COUNT_TALK.issuperset(behind):
        return True
    if behind[:1] == ("of",) or work.lexicon.names(behind, 0).tags & {"NEW", "OLD"}:
        return True
    unit = unit_at(behind, 0, work.lexicon.units)
    return unit is not None and all(get_unit(code).kind not in _COUNTED for code in unit[1])
