"""A list of what to buy that the verb closes: "… wheel cylinder, hub seal and a split pin to order"."""

from __future__ import annotations

from saywright.understanding.bench_words import TOO
from saywright.understanding.facts import Fact
from saywright.understanding.phrases import Phrase
from saywright.understanding.subjects.noun_phrases import Subject, subject_of_phrase
from saywright.understanding.walk import Walk


def order_whole_list(walk: Walk, index: int, fact: Fact) -> None:
    """Give the order at phrase *index* all parts of the row that stands right before it."""
    if fact.kind != "doing" or not fact.subjects or not _orders(walk, fact):
        return
    walk.take(fact, _with_those(walk, index))
    if not _ends(walk, index):
        return
    first = index
    while first and _in_row(walk.phrases[first - 1]):
        first -= 1
    if first < index and _is_place(walk, first):
        first += 1  # "cleaner on the drum, and a seal and a pin to order"
    said_of = {s.start for other in walk.out.facts for s in other.subjects}
    start, end = walk.phrases[first].start, fact.phrase.start
    row = [s for s in walk.out.subjects if start <= s.start < end and s.start not in said_of and s.components]
    if row:
        walk.take(fact, row)
    if walk.after(index) is not None:
        walk.extendable = [fact]  # "a needle to get, and two washers"


def _orders(walk: Walk, fact: Fact) -> bool:
    """True for the bare "to order": what was ordered, or is on order, is told of one part at a time."""
    act = fact.phrase.meaning.acts[0]
    action = walk.sheet.get_action(act.id)
    return action is not None and action.order and act.form == "base"


def _ends(walk: Walk, index: int) -> bool:
    """True where no object follows the verb."""
    after = walk.after(index)
    if after is not None and walk.texts[after.start : after.end] in TOO:
        after = walk.after(index + 1)  # "on the list as well and the wear sensor"
    return after is None or after.kind in {"break", "mark"} or (after.kind == "link" and "AND" in after.tags)


def _with_those(walk: Walk, index: int) -> list[Subject]:
    """ "needle and seat on the order with the floats": what goes on it beside them, which ends the clause."""
    link, along, end = (walk.after(index + at) for at in range(3))
    if link is None or along is None or "WITH" not in link.tags or along.kind != "subject":
        return []
    ends = end is None or end.kind == "break" or "AND" in end.tags or "FILLER" in end.tags
    if not (
        ends and along.meaning.parts and link.end == along.start and link.start == walk.phrases[index].end
    ):
        return []
    walk.taken |= {index + 1, index + 2}
    return [subject_of_phrase(along)]


def _is_place(walk: Walk, at: int) -> bool:
    """True where the part at phrase *at* tells no more than where something else is."""
    before = walk.before(at)
    return before is not None and (before.kind == "on" or bool(before.tags & {"PREP", "OF"}))


def _in_row(phrase: Phrase) -> bool:
    """Parts, and what stands between the parts of a list."""
    joins = phrase.kind == "link" and "AND" in phrase.tags
    return joins or phrase.kind in {"subject", "lead", "break"}
