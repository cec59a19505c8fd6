"""States that are others on rubber: "o ring's flat" is squashed, "diaphragm's gone stiff" hardened."""

from __future__ import annotations

from typing import Final

from saywright.understanding.facts import Fact
from saywright.understanding.meanings import NOTHING
from saywright.understanding.tokens import spoken_form
from saywright.understanding.working import Working

ON_RUBBER: Final = frozenset({"flat", "sticking"})
_RUBBERS: Final = (("seal",), ("seals",), ("grommet",), ("packing",))
_SOFT: Final = (("diaphragm",), ("boot",), ("boots",), ("hose",), ("gasket",), ("gaiter",), ("belt",))
_O_RINGS: Final = (("o", "ring"), ("o", "rings"), ("quad", "ring"))


def on_rubber(work: Working, fact: Fact, component: str | None, condition: str) -> str:
    """What *condition* is called on *component*, where the sheet has a word for it; a flat face is well."""
    spec = work.sheet.get(component) if component is not None else None
    if spec is None:
        return condition
    names = [spoken_form(name) for name in spec.names]
    rubber = any(name[-1:] in _RUBBERS or name[-2:] in _O_RINGS for name in names)
    soft = any(name[-1:] in _SOFT for name in names)
    said = work.texts[fact.phrase.start : fact.phrase.end]
    if condition == "flat":
        squashed = rubber or (names[0][-1] == "gasket" and "as" in said)  # "flat as paper"
        other = ("flattened",) if squashed else ()
    else:
        other = ("hardened",) if said[-1] == "stiff" and (rubber or soft) else ()
    known = work.lexicon.table.get(other, NOTHING).conditions if other else ()
    return known[-1] if known else condition
