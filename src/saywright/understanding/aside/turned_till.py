"""How far something was turned: "wound it up till it binds", "back it off four clicks to free it". Pure."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from saywright.understanding.facts import Fact

_STOPS: Final = frozenset({"tight", "seized", "blocked", "sticking"})  # what such words are else
_TILL: Final = frozenset({"till", "until"})
_TURNS: Final = frozenset(
    ["back", "backed", "backing", "slacken", "slackened", "slackening", "wind", "winds", "wound", "winding",
     "turn", "turned", "turning", "screw", "screwed", "loosen", "loosened", "let"]
)  # fmt: skip
_BACKS: Final = frozenset(
    {"back", "backed", "backing", "slacken", "slackened", "slackening", "loosened", "let"}
)
_FREES: Final = frozenset({"get", "free", "release", "clear", "pull", "draw", "slide", "lift", "let"})
_COMES: Final = frozenset(
    {"comes", "come", "slides", "slide", "drops", "drop", "pulls", "pull", "lets", "will"}
)
_AWAY: Final = frozenset({"off", "out", "free", "away", "clear", "over", "past"})
_BLOWS: Final = {("and", "give"), ("and", "tap"), ("and", "knock"), ("and", "hit"), ("and", "whack")}
TURNS_SO: Final = _AWAY | {"give", "tap", "knock", "hit", "whack", "get", "release"}
_STEPS: Final = frozenset({"clicks", "click", "notches", "notch", "teeth", "flats", "turns"})
_FAR: Final = 6  # tokens
_REACH: Final = 4  # tokens of "till they just bind"


def is_turned_to_free(fact: Fact, texts: Sequence[str]) -> bool:
    """ "Back the adjuster off four clicks and give it a wallop", "… six notches so the drum comes off"."""
    start, end = fact.phrase.start, fact.phrase.end
    end += not _STEPS.isdisjoint(texts[end : end + 1])
    behind = tuple(texts[end : end + _FAR])
    if _TURNS.isdisjoint(texts[max(0, start - _FAR) : start]) or len(behind) < 2:
        return False
    backed = not _BACKS.isdisjoint(texts[max(0, start - _FAR) : start])  # not "wound in two turns so …"
    if behind[:2] in _BLOWS:
        return backed
    away = not _AWAY.isdisjoint(behind[2:])
    if behind[0] == "to" and behind[1] in _FREES:
        return behind[1] in {"free", "release"} or away
    return behind[0] == "so" and away and backed and not _COMES.isdisjoint(behind)


def is_how_far(fact: Fact, texts: Sequence[str]) -> bool:
    """True for a state that only tells where the turning ended."""
    start = fact.phrase.start
    if fact.kind != "finding" or fact.negated or _TILL.isdisjoint(texts[max(0, start - _REACH) : start]):
        return False
    return not _STOPS.isdisjoint(fact.phrase.meaning.conditions)
