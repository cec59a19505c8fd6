"""Words of movement that tell how a part is held or set."""

from __future__ import annotations

from collections.abc import Sequence

from saywright.understanding.bench_words import TRANSITIVE
from saywright.understanding.counting.aloud import is_counted
from saywright.understanding.facts import Fact, Told
from saywright.understanding.statements import Direction, Movement, Reading, Statement
from saywright.understanding.wordforms import is_past
from saywright.understanding.working import Working

_BE = frozenset({"is", "are"})
_CONNECTED = frozenset({"hooked", "connected", "plugged", "rigged", "piped"})
_HUNG = frozenset({"hung", "hang", "hanging"})
_HUNG_THERE = frozenset((word,) for word in ("on", "from", "up", "by", "off", "to", "out", "over", "there"))
_FIXED = frozenset({"staked", "peened"})
_THERE = {("on",), ("in",)}
_WINDS = frozenset({"wind", "wound", "winding", "screw", "screwing", "screwed", "turn", "turned", "turning"})
_COULD = frozenset({"could", "would", "might"})
_HOME = frozenset({"in", "on"})


def only_held(work: Working, told: Told, fact: Fact) -> bool:
    """True where the words of movement tell how a part is held, and nothing moved."""
    return (
        is_connected(work, fact)
        or is_lifted(work, fact)
        or is_off_its_stop(work, fact)
        or is_of_fault(work, told, fact)
        or is_on_it(work, told, fact)
    )


def is_held_so(work: Working, fact: Fact) -> bool:
    """ "it's pressed in", while the job comes apart: nothing was off that could have been fitted."""
    said = work.texts[fact.phrase.start : fact.phrase.end]
    if said == ("is", "mounted") and all(s.pronoun for s in fact.subjects):
        return True  # "it's mounted on two rubbers": how the whole is held
    if fact.kind == "on" and work.stage == "as_found" and not _HUNG.isdisjoint(said):
        away = any(work.off.get(c, 0) for s in fact.subjects for c in s.components)
        # "caliper off, hung on a bit of wire"; not "floats hung, pins in"
        return not away or work.texts[fact.phrase.end : fact.phrase.end + 1] in _HUNG_THERE
    if fact.kind == "on" and work.stage == "as_found" and _is_wound_in(work, fact):
        return True
    if fact.kind == "on" and work.stage == "as_found" and not _FIXED.isdisjoint(said):
        return True  # "both screws are staked"
    end = fact.phrase.end
    if fact.kind == "on" and work.texts[end : end + 3] == ("all", "the", "way"):
        away = any(work.off.get(c, 0) for s in fact.subjects for c in s.components)
        return not away  # "screw in all the way, two turns": turned, to count them
    words = [text for text in said if text not in _BE]
    if fact.kind != "on" or work.stage != "as_found" or len(words) != 2 or any(s.age for s in fact.subjects):
        return False
    told = "COP" in fact.aux or said[0] in _BE
    if not told or not is_past(words[0]) or words[1] not in _HOME:
        return False
    hand = (work.hand.component,) if work.hand is not None else ()
    named = {c for s in fact.subjects for c in s.components} or set(hand)
    return bool(named) and not any(work.off.get(c, 0) for c in named)


def _is_wound_in(work: Working, fact: Fact) -> bool:
    """ "wind it in and count": what is turned to count it was not off."""
    said = work.texts[fact.phrase.start : fact.phrase.start + 3]  # "wind it in"
    if work.hand is None or said[0] not in _WINDS or "in" not in said:
        return False
    if any(s.components for s in fact.subjects) or work.off.get(work.hand.component, 0):
        return False
    part = work.sheet.get(work.hand.component)
    return part is not None and any(is_counted(c) for c in part.characteristic)


def is_on_it(work: Working, told: Told, fact: Fact) -> bool:
    """ "cup on that's worn", "gauze in it's blocked": that it has while it was not off."""
    end = fact.phrase.end
    if work.stage != "as_found" or work.texts[fact.phrase.start : end] not in _THERE:
        return False
    found = any(
        f.kind == "finding" and any(s.pronoun and s.start == end for s in f.subjects) for f in told.facts
    )
    named = [c for s in fact.subjects if s.age is None for c in s.components]
    return found and bool(named) and not any(work.off.get(c, 0) for c in named)


def is_off_its_stop(work: Working, fact: Fact) -> bool:
    """ "two and a half turns and it's off the lever": turned so far, not taken off."""
    end = fact.phrase.end
    if fact.kind != "off" or work.texts[end : end + 1] != ("the",) or end + 1 >= len(work.texts):
        return False
    if any(not s.pronoun for s in fact.subjects) or work.lexicon.names(work.texts, end + 1).parts:
        return False
    return any(isinstance(s, Reading) and s.unit == "turn" for s in work.out)


def only_could(texts: Sequence[str], fact: Fact) -> bool:
    """ "You could knock nails in with it": nothing went in."""
    return not _COULD.isdisjoint(texts[max(0, fact.phrase.start - len(_COULD)) : fact.phrase.start])


def is_connected(work: Working, fact: Fact) -> bool:
    """ "hooked it up before stripping": to try it; nothing was off that could have been fitted."""
    if is_held_so(work, fact):
        return True
    if fact.kind != "on" or work.stage != "as_found" or any(s.components for s in fact.subjects):
        return False
    off = work.off.get(work.hand.component, 0) if work.hand is not None else 0
    return not off and work.texts[fact.phrase.start] in _CONNECTED


def is_of_fault(work: Working, told: Told, fact: Fact) -> bool:
    """ "the dent's out of the float", "pull the dent": what was wrong went, and no part."""
    start, end = fact.phrase.start, fact.phrase.end
    if fact.kind != "off":
        return False
    end += work.texts[end : end + 1] == ("the",) and work.texts[start] in TRANSITIVE
    is_out = work.texts[start:end] in {("is", "out"), ("are", "out")}
    faults = (f for f in told.facts if f.kind == "finding" and not f.participle)
    return any(
        (is_out and f.phrase.end == start)
        or (end > fact.phrase.end and f.phrase.start == end and f.phrase.end not in _begun(fact))
        for f in faults
    )


def _begun(fact: Fact) -> set[int]:
    """Where the parts begin that *fact* is of."""
    return {s.start for s in fact.subjects}


def way_of(work: Working, fact: Fact) -> Direction:
    """ "skid plate down three bolts", "pins pushed through": off while it comes apart, else on."""
    if fact.kind == "off":
        return "removed"
    words = work.texts[fact.phrase.start : fact.phrase.end]
    either = words[-1] == "through" or (words[-1] == "down" and "MOVE_LOOSE_ON" in fact.phrase.tags)
    return "removed" if either and _comes_apart(work, fact) else "fitted"


def _comes_apart(work: Working, fact: Fact) -> bool:
    off = any(work.off.get(c) for s in fact.subjects for c in s.components)
    new = bool(fact.subjects) and all(s.age == "new" for s in fact.subjects)
    back = new or (fact.kind == "on" and any(_is_fitted(s) for s in work.out))  # "float in, pin through"
    return work.stage == "as_found" and not off and not back


def _is_fitted(said: Statement) -> bool:
    return isinstance(said, Movement) and said.movement == "fitted"


def is_lifted(work: Working, fact: Fact) -> bool:
    """ "slide's up": while it comes apart, where it is; it went on where it was off."""
    up = work.texts[fact.phrase.end - 1] == "up" and "MOVE_LOOSE_ON" in fact.phrase.tags
    return up and _comes_apart(work, fact)


def put_in_since(fact: Fact, other: Fact) -> bool:
    """ "leathers were hard so I've fitted new ones": what was found is told of the old ones."""
    behind = fact.kind == "finding" and other.phrase.start >= fact.phrase.end
    return behind and any(s.age == "new" for s in other.subjects)
