"""What was found "in the bottom" or "inside", where what is in hand has none: of the bowl that came off."""

from __future__ import annotations

from typing import Final

from saywright.understanding.bench_words import FASTENERS
from saywright.understanding.facts import Fact
from saywright.understanding.naming.sheet_names import component_names
from saywright.understanding.statements import Movement
from saywright.understanding.subjects.noun_phrases import Subject, subject_of_components
from saywright.understanding.working import Working

_HOLLOW: Final = frozenset(
    ["bowl", "chamber", "tank", "sump", "pan", "reservoir", "housing", "case", "casing", "body", "barrel",
     "cup", "jar", "tray", "canister", "drum", "bucket", "pot", "hopper", "box", "tub", "bottle", "glass"]
)  # fmt: skip
_BOTTOM: Final = frozenset({("in", "the"), ("at", "the"), ("on", "the")})
_SOLID: Final = FASTENERS | {"gasket", "seal", "ring", "washer", "o-ring", "pin", "clamp", "bracket"}
_INSIDE: Final = (("inside",), ("in", "there"), ("inside", "it"))
_UTTERANCES: Final = 2  # since it came off


def in_the_bottom(fact: Fact, work: Working) -> list[Subject]:
    """The hollow part that *fact* was found in; [] where its words tell of none, or of another's."""
    if fact.subjects or work.hand is None or _is_hollow(work, work.hand.component):
        return []
    if not (_told_in_bottom(work) or _told_inside(fact, work)):
        return []
    before = (s for group in reversed(work.before.recent[-_UTTERANCES:]) for s in reversed(group))
    off = (s for s in before if isinstance(s, Movement) and s.movement == "removed" and s.id not in work.gone)
    one = next((s for s in off if _is_hollow(work, s.component)), None)
    if one is None:
        return []
    part = subject_of_components((one.component,), fact.start, fact.start)
    return [part.placed(one.which) if one.which is not None else part]


def _told_in_bottom(work: Working) -> bool:
    if "bottom" in work.lexicon.positions:
        return False
    said = [word.text.lower() for word in work.words]  # the place may be set aside from the tokens
    at = said.index("bottom") if "bottom" in said else 0
    return tuple(said[max(0, at - 2) : at]) in _BOTTOM and said[at + 1 : at + 2] != ["of"]


def _told_inside(fact: Fact, work: Working) -> bool:
    """ "Filthy inside", with the nut or the gasket of it in hand, which have no inside."""
    part = work.sheet.get(work.hand.component) if work.hand is not None else None
    if part is None or part.names[0].split()[-1] not in _SOLID:
        return False
    behind = work.texts[fact.phrase.end :]
    return any(behind[: len(place)] == place and behind[len(place) :][:1] != ("the",) for place in _INSIDE)


def _is_hollow(work: Working, component: str) -> bool:
    part = work.sheet.get(component)
    return part is not None and any(name[-1] in _HOLLOW for name, _ in component_names(part))
