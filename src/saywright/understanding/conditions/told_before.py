"""States on record already, or that what is told says too: "blocked with fluff", "so that's good"."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from saywright.understanding.facts import Fact, Told
from saywright.understanding.statements import ConditionNote, Reading
from saywright.understanding.tokens import BREAK
from saywright.understanding.working import Working

Found = tuple[str | None, str | None, str, bool]  # component, which, condition, present

_MANY: Final = 3  # findings, of which some are known: what was found is summed up
_STUFF: Final = frozenset({"dirty", "gritty", "varnished", "gummed_up", "rusted", "corroded", "wet"})
_SO: Final = frozenset({"so", "and", "that", "is", "then", "even", "well", BREAK})
_ALONE: Final = 1  # token: a bare "good" behind a value
_WITH_REACH: Final = 3  # tokens: "with old clutch fluff"


_SAID_ALONE = frozenset(
    {"that", "so", "and", "then", "well", "still", "okay", "yeah", "yes", "right", BREAK}
)  # "so that is fine"
_STAYS = frozenset({"stays", "stay", "back", "leave", "again", "reuse", "keep", "keeping"})


def told_before(work: Working, told: Told, said: Found) -> bool:
    """ "So that's the lot, body's furred, pilot's blocked, spindle's loose": what is known is summed up."""
    if said not in work.before.seen or work.stage != "as_found":
        return False
    component, which, condition, present = said
    if (component, which, condition, not present) in work.seen:
        return False
    return sum(f.kind == "finding" for f in told.facts) >= _MANY


def known_so(work: Working, fact: Fact, said: Found) -> bool:
    """ "The bent screw goes back in for now": the state it is known by is on record."""
    start, end = fact.phrase.start, fact.phrase.end
    leads = work.texts[max(0, start - 1) : start] in {("the",), ("that",)}
    if not leads or fact.negated or not any(s.components and s.start <= end <= s.end for s in fact.subjects):
        return False
    component, which, condition, _ = said
    known = {w for c, w, one, so in work.before.seen if (c, one, so) == (component, condition, True)}
    return which in known or (which is None and bool(known))


def said_with_it(work: Working, fact: Fact, said: Found) -> bool:
    """ "Blocked, no daylight", "blocked with fluff": the block is told, and what it is of or shows by.

    "Can't see any light through it, that's blocked" is no more than blocked, and
    what does not want to move and is seized no more than seized.
    """
    component, which, condition, present = said
    if condition == "blocked" and present:
        _give_way(work, said_already(work, (component, which, "clear", False)))
        return False
    if condition == "seized" and present:
        _give_way(work, said_already(work, (component, which, "sticking", True)))
        return False
    stuff = present and condition in _STUFF
    if not stuff and (condition, present) != ("clear", False):
        return False
    words = work.texts[max(0, fact.phrase.start - _WITH_REACH) : fact.phrase.start]
    if stuff and "with" not in words and "for" not in words:
        return False
    return said_already(work, (component, which, "blocked", True)) is not None


def judges_value(work: Working, told: Told, fact: Fact) -> bool:
    """ "Run out's point oh four so that's good", "eleven inches that's a go": of what it was read on."""
    if any(s.end > fact.phrase.end or not s.pronoun for s in fact.subjects):
        return False
    end = fact.phrase.end
    if work.texts[end : end + 1] not in {(), (BREAK,)} or "that" not in work.texts[: fact.phrase.end]:
        return False
    values = [f for f in told.facts if f.kind == "value" and f.phrase.end <= fact.phrase.start]
    between = work.texts[values[-1].phrase.end : fact.phrase.start] if values else ("",)
    return _SO.issuperset(between) and bool(between or fact.phrase.end - fact.phrase.start > _ALONE)


def said_already(work: Working, said: Found) -> ConditionNote | None:
    """ "a ridge worn in it", "some wear, heavy wear": one thing said twice in an utterance."""
    for s in work.out:
        if isinstance(s, ConditionNote) and (s.component, s.which, s.condition, s.present) == said:
            return s
    return None


def _give_way(work: Working, note: ConditionNote | None) -> None:
    if note is not None:
        work.out.remove(note)


def judges_before(work: Working, fact: Fact) -> bool:
    """ "the spring is forty long" … "that is fine": it is all that is said, and right behind a reading."""
    before = work.before.recent[-1] if work.before.recent else ()
    rest = work.texts[: fact.phrase.start] + work.texts[fact.phrase.end :]
    rest = work.texts[: fact.phrase.start] if _stays(work.texts[fact.phrase.end :]) else rest
    alone = _SAID_ALONE.issuperset(rest) and work.texts[fact.phrase.start] in {"is", "are"}
    return alone and len([s for s in before if isinstance(s, Reading)]) == 1


def _stays(behind: Sequence[str]) -> bool:
    """ "… that goes back", "… shaft stays", "… no need to change it": decided on what is good."""
    return not _STAYS.isdisjoint(behind) or tuple(behind[:2]) == ("no", "need")
