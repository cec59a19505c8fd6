"""What moves nothing: what holds on, is turned back, hooked up or set, and how it runs with something on."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from saywright.understanding.walk import Walk

_BACKS = frozenset({"back", "backed", "backing"})
_OBJECTS = frozenset({"it", "them", "that", "this", "him", "her", "she"})
_WHICH = frozenset({"what", "which", "that"})
_HOLDS = frozenset({"holds", "hold", "held", "keeps", "keep", "kept"})
_RUNS = frozenset(
    ["run", "runs", "running", "ran", "start", "starts", "tick", "ticks", "idle", "idles", "works", "work",
     "fire", "fires", "revs", "stalls", "dies", "fine"]
)  # fmt: skip
_RUN_REACH = 6  # tokens of "runs fine with the choke"
_BE = frozenset({"is", "was", "were", "are"})
_HANGS = frozenset({"hung", "hang", "hangs", "hanging"})
_ASIDE = frozenset({"up", "way", "wire", "hook", "string", "aside", "side", "cable", "tie", "bungee"})
_OWN = frozenset({"its", "their"})
_HUNG_REACH = 6  # tokens of "the caliper out of the way"
_HELD_REACH = 6  # tokens of "what holds the two long hoses"


def _hung_aside(behind: Sequence[str]) -> bool:
    """ "Hung it up", "on a bit of wire"; not "hung the spring on its hook", "back on the hook"."""
    at = next((i for i, text in enumerate(behind) if text in _ASIDE), -1)
    return at >= 0 and "back" not in behind[:at] and behind[max(0, at - 1)] not in _OWN


def stays_there(walk: Walk, index: int) -> bool:
    """True where the movement at phrase *index* takes nothing off and puts nothing on."""
    start, end = walk.phrases[index].start, walk.phrases[index].end
    if _measured_there(walk.texts, end):
        return True
    verb, it, off = (*walk.texts[max(0, end - 3) : end], "", "", "")[:3]
    if off == "off" and verb in _BACKS and it in _OBJECTS:
        return True  # "idling fast, back it off"
    if verb == "hook" or walk.texts[start:end] == ("hook",):
        return walk.texts[end : end + 2] == ("it", "up") or (it, off) == (
            "it",
            "up",
        )  # "hook it up like this"
    if not _HANGS.isdisjoint((verb, it, off)) and _hung_aside(walk.texts[end : end + _HUNG_REACH]):
        return True  # "took the caliper off and hung it up"
    if _is_set_to(walk, index) or _runs_with(walk, index) or _billed(walk, index):
        return True
    before = walk.texts[max(0, start - _HELD_REACH) : start]
    return any(one in _WHICH and holds in _HOLDS for one, holds in pairwise(before))


def _is_set_to(walk: Walk, index: int) -> bool:
    """ "regulator was on twenty two bar": what it was set to."""
    phrase, behind = walk.phrases[index], walk.after(index)
    unit = behind.measure.unit_said if behind is not None and behind.measure is not None else None
    said = walk.texts[phrase.start : phrase.end]
    return unit is not None and said[-1:] == ("on",) and said[-2:-1] != () and said[-2] in _BE


def _runs_with(walk: Walk, index: int) -> bool:
    """ "it only runs with the choke on": how it runs; nothing was moved."""
    before = walk.before(index)
    if before is None or before.kind != "subject" or before.end != walk.phrases[index].start:
        return False
    led = walk.texts[max(0, before.start - _RUN_REACH) : before.start]
    return led[-1:] == ("with",) and not _RUNS.isdisjoint(led)


def _billed(walk: Walk, index: int) -> bool:
    """ "put that on his bill"."""
    return any("PRICE" in phrase.tags for phrase in walk.phrases[index + 1 : index + 5]) and walk.texts[
        walk.phrases[index].start
    ] in {"put", "stick"}


def _measured_there(texts: Sequence[str], end: int) -> bool:
    """ "no, I had it on the burr": where it was measured by mistake."""
    opens = texts[0] in {"no", "nope", "sorry", "wait"} and texts[end - 1] == "on"
    held = tuple(texts[1:end]) in {("i", "had", "it", "on"), ("i", "was", "on"), ("that", "was", "on")}
    return opens and held and tuple(texts[end : end + 1]) in {("the",), ("a",)}
