"""States said in passing: "all bolts in finger tight", "bowl's not leaking, good", "when a pad wears"."""

from __future__ import annotations

from typing import Final

from saywright.understanding.facts import Fact, Told
from saywright.understanding.tokens import BREAK
from saywright.understanding.working import Working

_FIRMLY: Final = frozenset({("finger", "tight"), ("hand", "tight"), ("not", "tight")})
_HARDLY: Final = frozenset({"only", "barely", "hardly", "just", "were", "was", "is", "are"})
_WAS: Final = frozenset({"was", "were"})
_PUT: Final = frozenset({"in", "on", "up", "down", "back", "home", "to"})
_ANY: Final = frozenset({"a", "an", "your", "you"})
_RUNS: Final = frozenset({"run", "running", "runs", "ran"})
_THEN: Final = frozenset({"once", "until", "till"})
_NOW: Final = frozenset({"is", "are", "gets", "get", "goes"})
_ONLY_GOOD: Final = ("good",)


def is_in_passing(work: Working, told: Told, fact: Fact) -> bool:
    """True where the words of a state tell how a thing was put on, how it pleases, or how such parts go."""
    words = work.texts[fact.phrase.start : fact.phrase.end]
    if _is_only_then(work, fact):
        return True
    if fact.negated and work.texts[fact.phrase.end : fact.phrase.end + 1] == ("please",):
        return True  # "no kinks please": how somebody is to do it
    if words[-1] == "tight":
        return _as_put_on(work, told, fact)
    if words[-1] == "dry":  # "the one they keep running dry"
        return work.texts[max(0, fact.phrase.end - 2)] in _RUNS
    if words[-1] == "wet":  # "new seal in, wet with fluid"
        behind = work.texts[fact.phrase.end : fact.phrase.end + 1]
        return behind == ("with",) and any(f.kind == "on" for f in told.facts)
    if words[-1] == "good":
        return _is_pleased(work, told, fact)
    return "when" in work.texts and _when_any(work, fact)


def _as_put_on(work: Working, told: Told, fact: Fact) -> bool:
    """ "Eight bolts in finger tight", "back in snug not tight": how far it was done up for now."""
    end = fact.phrase.end
    if work.texts[end - 2 : end] not in _FIRMLY or fact.phrase.aux:
        return False
    before = work.texts[max(0, end - 3) : end - 2]
    if not _HARDLY.isdisjoint(before) or not _WAS.isdisjoint(work.texts[max(0, end - 4) : end - 2]):
        return False  # "the cap was on finger tight": so it was found
    return (
        work.stage == "as_left"
        or not _PUT.isdisjoint(before)
        or any(f.kind == "on" and f.phrase.end <= fact.phrase.start for f in told.facts)
    )


def _is_pleased(work: Working, told: Told, fact: Fact) -> bool:
    """ "Bowl's not leaking good", "oh there is, good": that it is so; nothing more is found."""
    start, end = fact.phrase.start, fact.phrase.end
    words = work.texts[start:end]
    if words == ("is", "good") and start and work.texts[start - 1] == "there":
        return True
    if words != _ONLY_GOOD or end != len(work.texts):
        return False
    if start and work.texts[start - 1] == BREAK:
        start -= 1
    return any(f.kind == "finding" and f.negated and f.phrase.end == start for f in told.facts)


def _is_only_then(work: Working, fact: Fact) -> bool:
    """ "Wants tightening once it's wet", "leave it till it's dry": so it will be."""
    start = min([s.start for s in fact.subjects if s.start < fact.phrase.start] or [fact.phrase.start])
    be = work.texts[fact.phrase.start : fact.phrase.end]
    pronoun = work.texts[start - 1 : start] not in {("it",), ("they",), ("that",), ("everything",)}
    begin = start if pronoun else start - 1
    begin -= work.texts[max(0, begin - 1)] in {"the", "that", "those"}
    at_once = work.texts[max(0, begin - 2) : begin] == ("at", "once")
    return begin > 0 and work.texts[begin - 1] in _THEN and not at_once and not _NOW.isdisjoint(be)


def _when_any(work: Working, fact: Fact) -> bool:
    """ "When a pad wears like a wedge": of all such parts."""
    at = work.texts.index("when")
    led = at < fact.phrase.start and work.texts[at + 1] in _ANY
    return led and "COP" not in fact.phrase.aux_tags and fact.phrase.start - at <= 4
