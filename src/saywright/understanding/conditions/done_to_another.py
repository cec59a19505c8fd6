"""Words of a state that do something to another thing: "wrecked the old one", "won't tighten that". Pure."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from saywright.understanding.facts import Fact

_DENIED: Final = frozenset(("not", verb) for verb in ("tighten", "turn", "move"))
_DOES: Final = frozenset(
    {"wrecked", "ruined", "bashed", "busted", "holds", "holding", "jams", "jamming", "passing"}
)
_HAPPENS: Final = frozenset({"had", "took", "taken", "lost"})
_PERSONS: Final = frozenset({"i", "we", "you"})
_OBJECTS: Final = frozenset({"the", "that", "this", "these", "those", "it", "them", "a", "an", "my", "your"})
_ENDS: Final = frozenset({"until", "till", "to", "before", "from", "yet"})


def done_to_another(fact: Fact, texts: Sequence[str]) -> bool:
    """ "I've wrecked the old gasket", "the cup holds the spring in", "won't move on until that's right"."""
    at = fact.phrase.start
    if texts[at] in _HAPPENS and at and texts[at - 1] in _PERSONS:
        return True  # "we had a knock on the door"
    said, behind = tuple(texts[: fact.phrase.end]), tuple(texts[fact.phrase.end :])
    if said[-2:] in _DENIED and behind[:1] == ("on",):
        return said[-1] == "move" and behind[1:2] != () and behind[1] in _ENDS
    done = said[-2:] in _DENIED or said[-1] in _DOES or said[-2:] == ("messed", "up")
    return done and "COP" not in fact.phrase.aux_tags and behind[:1] != () and behind[0] in _OBJECTS
