"""What a line alone tells of the part that the next one moves: "got a new needle here" / "in it goes"."""

from __future__ import annotations

from typing import Literal

from saywright.understanding.facts import Fact
from saywright.understanding.statements import Movement, Remark
from saywright.understanding.subjects.parts import Part
from saywright.understanding.working import Working

_NEW = frozenset({"new", "replacement", "fresh"})
_OLD = frozenset({"old", "original"})
_NOT_THERE = frozenset(
    ["no", "not", "need", "needs", "want", "wants", "order", "ordered", "if", "without", "than", "like",
     "would", "could", "should", "never", "neither", "nor"]
)  # fmt: skip


def age_before(work: Working, fact: Fact, part: Part) -> Literal["old", "new"] | None:
    """How old what goes in is, where the line before only named it: "found the old one after all"."""
    named = work.before.hand
    only_it = all(s.pronoun and not s.components for s in fact.subjects)
    if named is None or not only_it or (named.component, named.utterance) != (part.component, work.now - 1):
        return None
    said = work.before.recent[-1] if work.before.recent else ()
    if not said or any(type(s) is not Remark or s.reason for s in said):
        return None
    words = {word.strip(",.") for s in said for word in s.heard.lower().split()}
    new, old = not _NEW.isdisjoint(words), not _OLD.isdisjoint(words)
    if new == old or not _NOT_THERE.isdisjoint(words):
        return None
    return "new" if new else "old"


def went_in_just_now(work: Working, fact: Fact, part: Part) -> bool:
    """ "new float pin" / "in she goes": it is what went in right before, and none of it is off any more."""
    said = work.before.recent[-1] if work.before.recent else ()
    last = next((s for s in reversed(said) if type(s) is not Remark), None)
    picks = any(s.selector or s.which or s.count for s in fact.subjects)  # "other two in"
    if picks or not isinstance(last, Movement) or last.movement != "fitted":
        return False
    return (last.component, last.which) == (part.component, part.single) and not work.off.get(part.component)
