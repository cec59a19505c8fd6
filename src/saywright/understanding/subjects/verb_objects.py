""" "Pulled the bowl and the jet", "cleaned the bowl, jet and float": one more object of the same verb."""

from __future__ import annotations

from collections.abc import Sequence

from saywright.understanding.facts import Fact
from saywright.understanding.phrases import Phrase
from saywright.understanding.subjects.attach_facts import predicate_follows
from saywright.understanding.subjects.noun_phrases import Subject
from saywright.understanding.walk import Walk

_VERBS = frozenset({"doing", "off", "on"})
_OTHERWISE = frozenset(
    ["put", "hold", "held", "offered", "offer", "tried", "try", "on", "onto", "under", "behind"]
)


def extends(walk: Walk, index: int, subject: Subject) -> bool:
    """ "pulled the bowl and the jet": one more object of the same verb."""
    behind_break = "BREAK" in walk.glue and walk.glue <= {"BREAK", "AND"}
    facts = walk.listed if behind_break else walk.extendable
    if not facts or predicate_follows(walk, index) or _of_other_verb(walk, index, facts):
        return False
    if behind_break:
        if not _goes_on_listed(walk, index, facts):
            return False
        walk.extendable = facts
        return True
    denied = all(f.negated or walk.texts[f.phrase.start] == "nothing" for f in facts)  # "… or the boot"
    joined = ("AND" in walk.glue or (denied and "OR" in walk.glue)) and "BREAK" not in walk.glue
    row = not walk.glue and bool(subject.components)  # "order a piston base gasket two seals"
    ordered = all(orders(walk, fact) for fact in facts)
    if joined and ordered and _told_together(walk, index):
        return False
    listed = row and "DET" in walk.phrases[index].lead_tags and all(_came(walk, f) for f in facts)
    counted = (subject.count is not None or _one_more(walk, index) or row) and ordered
    return joined or counted or listed or (row and _goes_on_listed(walk, index, facts))


def _of_other_verb(walk: Walk, index: int, facts: Sequence[Fact]) -> bool:
    """ "Cleaned the hub and put the disc against it", "… and a dab of grease on the pins": of no doing."""
    start = walk.phrases[index].start
    joined = next(
        (at for at in range(start - 1, facts[-1].phrase.end - 1, -1) if walk.texts[at] == "and"), start
    )
    between = walk.texts[joined + 1 : start]
    return not _OTHERWISE.isdisjoint(between) or any(
        "goes" in walk.texts[f.phrase.end : joined] for f in facts
    )


def _told_together(walk: Walk, index: int) -> bool:
    """ "order a gasket and the jet and the float can go again": of what begins with "the" more is said."""
    held = walk.current[-1] if walk.current else None
    first = walk.texts[walk.phrases[index].start]
    other = held is not None and walk.texts[held.start] != "the" and first == "the"
    return other and predicate_follows(walk, _row_end(walk, index)[0])


def _goes_on_listed(walk: Walk, index: int, facts: Sequence[Fact]) -> bool:
    """ "clean the bowl, main jet and pilot jet": of a row of three and more objects one before the last."""
    if any(fact.kind not in _VERBS for fact in facts) or not _is_named(walk.phrases[index]):
        return False
    last, joined = _row_end(walk, index)
    joined |= "AND" in walk.glue
    after = walk.after(last)
    if predicate_follows(walk, last) or (after is not None and not _ends_row(after)):
        return False
    several = last > index or (len(walk.current) > 1 and not walk.joined_by_and)
    return several and (joined or after is None)


def _row_end(walk: Walk, index: int) -> tuple[int, bool]:
    """The last phrase of the row of parts that goes on at *index*; True where an "and" stands in it."""
    joined = False
    while True:
        at, other = index + 1, False
        while at <= walk.last_index and _ends_row(walk.phrases[at]):
            other |= walk.phrases[at].kind != "break"
            at += 1
        if at > walk.last_index or not _is_named(walk.phrases[at]) or (joined and not other):
            return index, joined
        index, joined = at, joined or other


def _is_named(phrase: Phrase) -> bool:
    return phrase.kind == "subject" and bool(phrase.meaning.parts or phrase.meaning.aliases)


def _ends_row(after: Phrase) -> bool:
    return after.kind == "break" or (after.kind == "link" and "AND" in after.tags)


def _came(walk: Walk, fact: Fact) -> bool:
    """ "out comes the slide the spring and the needle": all that is named behind it came."""
    several = fact.phrase.end - fact.phrase.start > 1
    return (
        fact.kind in {"off", "on"} and several and walk.texts[fact.phrase.start] in {"out", "off", "in", "on"}
    )


def _one_more(walk: Walk, index: int) -> bool:
    """ "a check spring": one of them."""
    lead = walk.phrases[index].lead
    return bool(lead) and walk.texts[lead[0].start] in {"a", "an"}


def orders(walk: Walk, fact: Fact) -> bool:
    """ "order two wipers, two seals": a list of what to buy needs no "and"."""
    action = walk.sheet.get_action(fact.phrase.meaning.acts[0].id) if fact.kind == "doing" else None
    return action is not None and action.order
