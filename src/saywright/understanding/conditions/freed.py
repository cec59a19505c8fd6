"""What was freed is free now: "freed it off with a drop of oil", "I've freed the lever off"."""

from __future__ import annotations

from saywright.understanding.facts import Fact
from saywright.understanding.working import Working


def frees_stranger(work: Working, fact: Fact) -> bool:
    """ "… and freed the upper pin off": of a part that the sheet does not know."""
    end = fact.phrase.end
    freed = work.texts[end - 1 : end] == ("freed",) and work.texts[end : end + 1] in {("the",), ("that",)}
    return freed and all(s.end <= fact.phrase.start for s in fact.subjects)


def was_freed(work: Working, fact: Fact) -> bool:
    """ "freed it off with a drop of oil": free now, by what was done."""
    words = work.texts[fact.phrase.start : fact.phrase.end + 1]
    return "freed" in words and (bool(fact.subjects) or words[-1] in {"it", "them", "that", "both"})


def is_likeness(work: Working, fact: Fact) -> bool:
    """ "straight as a die", first of all that is said: of a thing, and nothing else has been named."""
    words = work.texts[fact.phrase.start : fact.phrase.end]
    of_it = work.hand is not None and all(s.pronoun and not s.which for s in fact.subjects)
    return of_it and fact.phrase.start == 0 and words[1:3] == ("as", "a")
