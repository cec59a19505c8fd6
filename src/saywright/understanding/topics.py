"""A position named as what comes next: "primary first", "now the octopus", "right carb then".

It holds for the parts that have such a position and are named without one, with a note, until
another is named, several are spoken of together, or the job goes back together.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from saywright.sheets.model import Sheet
from saywright.understanding.facts import Fact, Told
from saywright.understanding.subjects import Subject, subject_in_hand
from saywright.understanding.tokens import BREAK
from saywright.understanding.working import Working

_OPENERS = frozenset(
    ["now", "next", "first", "then", "start", "starting", "begin", "beginning", "onto", "moving", "doing"]
)
_AROUND = _OPENERS | frozenset(
    ["right", "okay", "ok", "so", "and", "on", "to", "for", "the", "over", "with", "let", "us", "do", "at",
     "side", "one", "done", "is", "that", "well", "going", "we", "will", "i", "am", "uh", "um", "back", BREAK]
)  # fmt: skip
_LEAST = 2  # parts that a position must tell apart to be a topic


def under_topic(fact: Fact, work: Working) -> list[Subject]:
    """The subjects of *fact*, with the position that is being worked on where they name none."""
    if work.topic is None:
        return fact.subjects
    if any(_leaves(s, work.topic, work.sheet) for s in fact.subjects):
        work.topic = None
        return fact.subjects
    owners = {component for component, _ in fact.characteristics}
    if not fact.subjects and _have(owners, work.topic, work.sheet):
        here = subject_in_hand(fact.phrase.start, fact.phrase.start)
        return [replace(here, which=(work.topic,), assumed=True)]
    return [_placed(s, work) for s in fact.subjects]


def settle_topic(told: Told, work: Working) -> None:
    """Note the position that the utterance ends on as what comes next."""
    if work.stage != work.before.stage:
        work.topic = None
    last = told.subjects[-1] if told.subjects else None
    if last is None or last.selector or last.count is not None:
        return
    if any(f.end > last.start or f.kind == "value" for f in told.facts) or told.named:
        return
    rest = _around(told, work.texts)
    named = last.which or [w for w in rest[1:] if w in _places(last, work.sheet)]
    known = [w for w in named if _tells_apart(w, work.sheet)]
    strange = {work.texts[at] for group in told.strays.values() for at in group}  # "on to the brakes"
    others = {w for w in rest if w not in known and w not in _AROUND}
    if len(known) != 1 or len(others) > 1 or not others <= strange:
        return
    opened = not _OPENERS.isdisjoint((*rest, *work.texts[last.start : last.end]))
    if opened or _pair(rest) == ("on", "to"):
        work.topic = known[0]
        _take_in_hand(known[0], work)


def _places(subject: Subject, sheet: Sheet) -> set[str]:
    """ "on to the hubs, left first": the positions of what was named."""
    return {p for c in map(sheet.get, subject.components) if c is not None for p in c.positions}


def _around(told: Told, texts: Sequence[str]) -> list[str]:
    """The words that belong to no subject and no fact."""
    said = {at for s in told.subjects for at in range(s.start, s.end)}
    said |= {at for f in told.facts for at in range(f.start, f.end)}
    return [text for at, text in enumerate(texts) if at not in said and text]


def _pair(words: Sequence[str]) -> tuple[str, ...]:
    """The first "on" of *words* with what follows it."""
    return tuple(words[words.index("on") :][:2]) if "on" in words else ()


def _take_in_hand(position: str, work: Working) -> None:
    held = work.sheet.get(work.hand.component) if work.hand is not None else None
    if held is not None and position in held.positions:
        work.named(held.id, position)


def _tells_apart(which: str, sheet: Sheet) -> bool:
    return sum(which in component.positions for component in sheet.component) >= _LEAST


def _have(components: Sequence[str] | set[str], position: str, sheet: Sheet) -> bool:
    """True where all of *components* have such a position, and there are any."""
    found = [sheet.get(c) for c in components]
    return bool(found) and all(c is not None and position in c.positions for c in found)


def _leaves(subject: Subject, topic: str, sheet: Sheet) -> bool:
    """True where another position, or several of one part, are spoken of."""
    if any(which != topic and _tells_apart(which, sheet) for which in subject.which):
        return True
    several = subject.selector in {"both", "all", "other"} or (subject.many and subject.count is None)
    return several and any(_have([c], topic, sheet) for c in subject.components)


def _placed(subject: Subject, work: Working) -> Subject:
    """*subject* with the position that is being worked on, where its part has one and none was said."""
    if subject.which or subject.selector or subject.described or subject.count is not None:
        return subject
    if subject.pronoun and not subject.components:
        return subject
    if work.topic is None or not any(_have([c], work.topic, work.sheet) for c in subject.components):
        return subject
    return replace(subject, which=(work.topic,), assumed=True)
