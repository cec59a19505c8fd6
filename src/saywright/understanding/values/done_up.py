"""Fasteners torqued by their plural: "holders torqued to forty two" is a value of each, or of those left."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from saywright.flags import FlagKind, flag
from saywright.understanding.sides.hand_sides import both_here
from saywright.units import get_unit

if TYPE_CHECKING:
    from saywright.sheets.model import Characteristic, Component
    from saywright.understanding.discourse import Hand
    from saywright.understanding.subjects.noun_phrases import Subject
    from saywright.understanding.subjects.parts import Part
    from saywright.understanding.working import Working


def each_done_up(
    part: Part, subject: Subject | None, read: tuple[Component, Characteristic], work: Working
) -> Part:
    """*part* as each one that a torque told of its plural is of; as it is for any other value.

    Where some were done up before, "front nuts eighty" … "nuts on ninety", it is of the others, and asks.
    """
    component, characteristic = read
    if get_unit(characteristic.unit).kind != "torque":
        return part
    every = _each_of(subject, component, work.hand)
    done = tuple(one for one in every if _is_done_up(one, read, work))
    if not done or len(done) == len(every) or (subject is not None and subject.selector):
        return replace(part, whiches=every) if every else part
    left = tuple(one for one in every if one not in done)
    doubt = flag(FlagKind.WHICH_UNCLEAR, f"{component.label}: not {', '.join(done)}, done before")
    return replace(part, whiches=left, flags=(*part.flags, doubt))


def _is_done_up(which: str, read: tuple[Component, Characteristic], work: Working) -> bool:
    """True where its torque was read in an utterance before, as left."""
    key = (read[0].id, which, read[1].id)
    return (key, "as_left") in work.before.latest


def _each_of(subject: Subject | None, component: Component | None, hand: Hand | None) -> tuple[str, ...]:
    """ "holders", "all six caps": each one of several that are fitted; () for fewer.

    Of two on each side those of the side turned to.
    """
    if subject is None or component is None:
        return ()
    whole = subject.many and subject.count in {None, component.count}
    picked = subject.which or subject.selector not in {"", "all"}
    here = tuple([one for one in both_here(component, hand) if one is not None])
    every = here if here and subject.count is None and not subject.selector else component.whiches
    return every if whole and not picked else ()
