""" "Two vanes are chipped" with the key in hand: of the impeller just spoken of, for a key has none.

Of nouns that the sheet does not know, what a piece is a piece of: flaps of a diaphragm, teeth of a gear.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from saywright.sheets.model import Component
from saywright.understanding.facts import Fact
from saywright.understanding.naming.sheet_names import component_names
from saywright.understanding.subjects.noun_phrases import Subject, subject_in_hand, subject_of_components
from saywright.understanding.subjects.suited import spoken_of
from saywright.understanding.tokens import words_of
from saywright.understanding.wordforms import singular
from saywright.understanding.working import Working

_THREADED: Final = words_of(
    "screw bolt nut stud plug nipple union adapter fitting spindle shaft axle cap body head housing cover "
    "hub barrel adjuster pushrod rod insert sleeve jet"
)
_SPRUNG: Final = words_of("spring solenoid")
_GEARS: Final = words_of("gear pinion sprocket rack ratchet pawl wheel coupling star adjuster starter")
_SEALS: Final = words_of("seal wiper boot gland cup ring packing sealing")
_BEARINGS: Final = words_of("bearing race")
_IMPELLERS: Final = words_of("impeller rotor fan turbine wheel propeller pump")
_CABLES: Final = words_of("cable wire rope lead")
_FLAPS: Final = words_of("diaphragm membrane valve reed damper choke block check pump")
# What it is a piece of, by the last word of a part's name.
_OWNERS: Final = {
    **dict.fromkeys(("vane", "vanes", "veins", "blade", "blades"), _IMPELLERS),
    **dict.fromkeys(("flap", "flaps", "petal", "petals"), _FLAPS),
    **dict.fromkeys(("tooth", "teeth"), _GEARS),
    **dict.fromkeys(("point", "points"), words_of("needle screw pin poppet cone plunger pick valve")),
    **dict.fromkeys(("lobe", "lobes"), words_of("rotor cam camshaft")),
    **dict.fromkeys(("coil", "coils"), _SPRUNG),
    **dict.fromkeys(("bellows",), words_of("seal head")),
    **dict.fromkeys(("lips",), _SEALS),
    **dict.fromkeys(("race", "races", "rollers", "cage"), _BEARINGS),
    **dict.fromkeys(("strand", "strands"), _CABLES),
    **dict.fromkeys(("winding", "windings"), words_of("motor solenoid coil stator rotor armature")),
    **dict.fromkeys(("threads",), _THREADED),
}


def owner_of_piece(fact: Fact, work: Working) -> list[Subject]:
    """The part that has the piece named before the state of *fact*; [] where none has it."""
    at = fact.phrase.start - 1
    owners = _OWNERS.get(work.texts[at]) if at >= 0 else None
    if owners is None or work.hand is None or any(_told(s, at) for s in fact.subjects):
        return []
    held = work.sheet.get(work.hand.component)
    if held is not None and _has(held, owners):
        return [subject_in_hand(at, at + 1)]
    part = next((c for c in _recent(work) if _has(c, owners)), None)
    if part is None:
        return []
    said = subject_of_components((part.id,), at, at + 1)
    side = work.hand.which if work.hand.which in part.whiches else work.hand.side
    return [said.placed(side) if side is not None and side in part.whiches else said]


def _told(subject: Subject, at: int) -> bool:
    """True where the part, or which of several, is named with it."""
    own = bool(subject.which or subject.selector or subject.count or subject.age)
    return bool(subject.components) or (own and subject.end != at + 1)


def _has(part: Component, owners: frozenset[str]) -> bool:
    return any(singular(name[-1]) in owners for name, _ in component_names(part))


def _recent(work: Working) -> Iterator[Component]:
    """Parts told of, the last first."""
    yield from (c for c in map(work.sheet.get, spoken_of(work)) if c is not None)
