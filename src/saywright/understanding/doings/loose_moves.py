"""Words of movement that move no part: "back on it", "hold it in place", "a hundred mil of oil in"."""

from __future__ import annotations

from itertools import pairwise

from saywright.understanding.bench_words import FLUIDS, PARTICLES, SPEAKER_IS
from saywright.understanding.doings.held_so import only_held
from saywright.understanding.doings.move_verbs import takes_object
from saywright.understanding.doings.only_set import is_only_set
from saywright.understanding.doings.within_limits import is_within
from saywright.understanding.facts import Fact, Told
from saywright.understanding.tokens import BREAK
from saywright.understanding.working import Working

_PRONOUNS = frozenset({"it", "that", "them", "this"})
_PERSONS = frozenset({("i",), ("we",), ("he",), ("she",)})
_HAVE = frozenset({("i", "have"), ("we", "have"), ("i", "am"), ("we", "are")})
# How, when and by whose hands it moved: beside the verb they lead nowhere else.
_IDLE = frozenset(
    ["just", "now", "then", "also", "already", "finally", "really", "simply", "eventually", "gently",
     "carefully", "slowly", "easily", "quickly", "quietly", "nicely", "cleanly", "both", "all", "again"]
)  # fmt: skip
_TIMES = frozenset({"have", "has", "had", "been", "i", "we"})
_AT_TIMES = frozenset({"if", "whenever", "unless", "sometimes", "usually", "flakes"})
_SPENT = frozenset({("for", "a"), ("for", "the")})
_FORM = frozenset({"shape", "true", "line", "square", "balance"})
_BY_HAND = frozenset(
    {("by", "hand"), ("in", "one"), ("one", "piece"), ("by", "itself"), ("by", "themselves")}
)
_PUSHING = frozenset({"pushing", "pressing", "pulling", "push", "press"})
_AWAY = frozenset({("off",), ("out",)})
_JOINS = frozenset({"and", "then", BREAK})
_LEADS = _JOINS | {"now", "so", "right", "okay", "next"}
_RIGHT = frozenset({("right",), ("straight",)})
_OF_ITSELF = frozenset(
    ["comes", "come", "came", "lifts", "lift", "lifted", "slides", "slide", "slid", "drops", "drop",
     "dropped", "pops", "pop", "popped", "falls", "fall", "fell", "unhooks", "slips", "slip", "slipped",
     "pulls", "pull", "pulled"]
)  # fmt: skip
_COMES = frozenset({"it", "they"})
_TAKE_OBJECT = takes_object()
_ON_A_THING = ("on", "a", "thing")
_ARTICLES = frozenset({"the", "a", "an", "my", "this", "that", "some"})
_LAID_ON = frozenset(
    ["surface", "bench", "vice", "vise", "lathe", "piece", "sheet", "glass", "flat", "table", "tray", "press",
     "scales", "scale", "tester"]
)  # fmt: skip
_HELD_IN = frozenset({"vee", "v", "vice", "vise", "chuck", "lathe", "jig", "centres", "centers", "press"})
_NEAR = 3  # tokens from the verb to "out"
_ENDS_HOW = frozenset({"with", "using", "anyway", "anyhow", "regardless"})
_IMPERATIVES = frozenset({("pull",), ("lift",), ("take",), ("undo",), ("remove",), ("unscrew",)})


def is_loose_move(work: Working, told: Told, fact: Fact) -> bool:
    """ "back on it", "hold it in place": words of movement that move no part."""
    aside = _put_on_order(work, told, fact) or _is_filled(work, told, fact) or is_only_set(work, fact)
    aside = aside or _is_laid_on(work, told, fact) or _is_bought(work, told, fact)
    if aside or only_held(work, told, fact) or _is_pushed(work, fact) or is_within(work, fact):
        return True
    start, end = _verb_at(work, fact), fact.phrase.end
    leaves = work.texts[end - 1] in PARTICLES and work.texts[start] not in _TAKE_OBJECT
    lunch = any("CLOCK" in m.tags and m.end == start for m in told.marks)  # "lunch, back in thirty"
    if lunch or (leaves and SPEAKER_IS & set(pairwise(work.texts[max(0, start - 2) : start + 2]))):
        return True  # "I'm off for lunch", not "I'm removing the four bolts"
    if any(s.components for s in fact.subjects):
        tools = [m for m in told.marks if "TOOL" in m.tags and m.segment == fact.segment and m.end <= start]
        return fact.kind == "on" and bool(tools) and all(s.start >= end for s in fact.subjects)
    if not fact.subjects and (work.texts[start] == "going" or work.texts[start:end] in _IMPERATIVES):
        return True  # "going back in now": what comes next
    behind = max((s.end for s in fact.subjects), default=end)
    if work.texts[behind : behind + 1] == ("again",) and end - start == 1:
        return work.texts[start:end] in _IMPERATIVES or any(f.kind == "value" for f in told.facts)
    is_of_it = any(s.end == start for s in fact.subjects)
    if is_of_it and (work.texts[start] in {"is", "are"} or fact.subjects[0].other_words):
        return False  # "it's out", "leading one pushed out": said of what is in hand, whatever else is said
    if _is_plain(work, told, fact):
        return False
    after = work.texts[end : end + 1]
    points_back = bool(after) and after[0] in _PRONOUNS and work.texts[start] not in _TAKE_OBJECT
    itself = not _COMES.isdisjoint(work.texts[start:end])  # "bit of heat and out it comes"
    return points_back or (_is_led_away(work, told, fact) and not itself)


def _verb_at(work: Working, fact: Fact) -> int:
    """The token of its verb: "now pick it out", "I have just levered it out"."""
    start = fact.phrase.start
    if fact.kind != "off":
        return start + (work.texts[start] == "now" and fact.phrase.end > start + 1)
    idle = _IDLE | _TIMES if not _IDLE.isdisjoint(work.texts[start : fact.phrase.end]) else frozenset()
    while start < fact.phrase.end - 1 and work.texts[start] in idle:
        start += 1
    return start


def _leads_up(work: Working, start: int) -> int:
    """Where what says when and how begins before the verb at *start*: "I finally had to" of "had to pull"."""
    while start and (work.texts[start - 1] in _IDLE or work.texts[start - 2 : start] == ("had", "to")):
        start -= 1 + (work.texts[start - 1] == "to")
    return start


def _is_pushed(work: Working, fact: Fact) -> bool:
    """ "Pushing the drawbar in", "they've been done up hard": tried, or as it was, where none is off."""
    start = _verb_at(work, fact)
    if fact.kind != "on" or work.stage == "as_left":
        return False
    named = [c for s in fact.subjects for c in s.components]
    held = [work.hand.component] if work.hand is not None and not named else []
    tried = work.texts[start] in _PUSHING or work.texts[start : fact.phrase.end][-2:] == ("done", "up")
    return tried and not any(work.off.get(c, 0) for c in (*named, *held))


def _is_plain(work: Working, told: Told, fact: Fact) -> bool:
    """ "I unscrew it and hold it to the light", "it comes off the spigot": whatever is said behind it."""
    start, end = _verb_at(work, fact), fact.phrase.end
    values = [f for f in told.facts if f.kind == "value"]
    if fact.kind != "off" or any(f.phrase.start > start for f in values) or _only_at_times(work, end):
        return False
    if work.texts[start] in _TAKE_OBJECT and any(s.start == end for s in fact.subjects):
        way = end + 1 + (work.texts[end + 1 : end + 2] in _RIGHT)
        led = _leads_up(work, start)
        away = work.texts[way : way + 1] in _AWAY and (not led or work.texts[led - 1] in _LEADS)
        has = work.texts[max(0, led - 2) : led] in _HAVE  # "I've drawn it out of the body"
        return away or has or work.texts[led - 1 : led] in _PERSONS  # "take it off, two bolts and the pipe"
    led = _leads_up(work, start)
    itself = next((s for s in fact.subjects if led <= s.end <= start and s.pronoun), None)
    if itself is None or values or work.texts[start] not in _OF_ITSELF:
        return False
    joined = work.texts[itself.start - 1] in _JOINS  # "two long bolts and it comes off …"
    strays = (at for at in told.strays.get(fact.segment, ()) if work.texts[at] not in _IDLE)
    return joined or not any(at < start for at in strays)


def _only_at_times(work: Working, end: int) -> bool:
    """ "It pops off if you push it", "pulls out of shape", "took it out for a run": nothing was taken off."""
    behind = work.texts[end:]
    return not _AT_TIMES.isdisjoint(behind) or any(
        behind[i : i + 2] in _SPENT or (behind[i] == "of" and behind[i + 1] in _FORM)
        for i in range(len(behind) - 1)
    )


def _is_led_away(work: Working, told: Told, fact: Fact) -> bool:
    """True where an unknown word stands beside the movement; not behind what it was done with."""
    behind, before = work.texts[fact.phrase.end :], work.texts[: fact.phrase.start]
    own = max((at for at, text in enumerate(before) if text in {"so", "but"}), default=0)
    own = (
        own if any(own < s.start < fact.phrase.start for s in fact.subjects) else 0
    )  # "… so it goes back in"
    tool = next((at for at, text in enumerate(behind) if text in _ENDS_HOW), len(behind))
    away = fact.kind == "off" and not {"out", "off"}.isdisjoint(behind[:_NEAR])
    if before[-1:] == ("and",) and work.texts[fact.phrase.start] in _TAKE_OBJECT and away:
        own = len(before)  # "picking up the drift and driving them both out"
    strays = told.strays.get(fact.segment, ())
    return any(own <= at < fact.phrase.end + tool and not _is_how(work, at, fact) for at in strays)


def _is_how(work: Working, at: int, fact: Fact) -> bool:
    """ "It finally came off", "taken out by hand", "all in one piece": how it moved, and what moved it."""
    if fact.kind != "off" or _only_at_times(work, fact.phrase.end):
        return False
    return work.texts[at] in _IDLE or not _BY_HAND.isdisjoint(
        {work.texts[at - 1 : at + 1], work.texts[at : at + 2]}
    )


def _is_filled(work: Working, told: Told, fact: Fact) -> bool:
    """ "a hundred and eighty millilitres of oil in": an amount of what is filled in fits nothing."""
    if fact.kind != "on" or FLUIDS.isdisjoint(work.texts):
        return False
    fluid = any(work.texts[s.end - 1] in FLUIDS for s in fact.subjects)
    amount = fluid and any(f.kind == "value" and f.subjects == fact.subjects for f in told.facts)
    if not amount:
        return False
    work.covered.append((fact.start, fact.end))
    return True


def _is_laid_on(work: Working, told: Told, fact: Fact) -> bool:
    """ "rolled the rod on the surface plate": where it lay, on what is no part of the sheet."""
    if fact.kind != "on" or work.stage != "as_found":
        return False
    behind = min((s.end for s in fact.subjects), default=fact.phrase.end)
    at = max(behind, fact.phrase.end)
    words = work.texts[at : at + 3]
    held = words[:1] == ("in",) and not _HELD_IN.isdisjoint(words)
    if (words[:1] != ("on",) and not held) or len(words) < len(_ON_A_THING) or words[1] not in _ARTICLES:
        return False
    if work.lexicon.names(work.texts, at + 2).parts:
        return False
    return words[2] in _LAID_ON or at + 2 in told.strays.get(fact.segment, ())


def _is_bought(work: Working, told: Told, fact: Fact) -> bool:
    """ "I paid six bucks for that bearing in seventy nine": when, and nothing went in."""
    words = work.texts[fact.phrase.start : fact.phrase.end]
    return words == ("in",) and any("PRICE" in m.tags for m in told.marks if m.segment == fact.segment)


def _put_on_order(work: Working, told: Told, fact: Fact) -> bool:
    """ "put a disc on the order"."""
    if work.texts[fact.phrase.start] not in {"put", "putting", "stick"}:
        return False
    behind = [f for f in told.facts if f.kind == "doing" and f.phrase.start >= fact.phrase.end]
    return any(f.subjects == fact.subjects and f.segment == fact.segment for f in behind)
