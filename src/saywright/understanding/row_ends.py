"""What stands behind "in" and "on": the next part of a row, or the place of the part before."""

from __future__ import annotations

from saywright.understanding.around import Around
from saywright.understanding.tags import Tag
from saywright.understanding.tokens import BREAK
from saywright.units import get_unit

_FASTENERS = frozenset({"nut", "nuts", "bolt", "bolts", "screw", "screws", "stud", "studs", "clip", "clips"})
_HELD = frozenset(
    {"washer", "washers", "spring", "ring", "rings", "seal", "spacer", "collar", "grommet", "cap"}
)
_PARTICLES = frozenset({"in", "on", "off", "out", "back"})
_LEADS = frozenset({"NEW", "BOTH", "ALL"})
_AGES = frozenset({"NEW", "OLD", "SAME"})
_ENDS = frozenset({"", BREAK})


def new_part_begins(around: Around, at: int) -> bool:
    """ "three screws in new filter": without an article, a new part is the next one, not where these went."""
    if around.names(at).tags.isdisjoint(_AGES) or around.text(at) in {"a", "an", "the"}:
        return False
    at += 1
    if around.text(at) == "ones":
        return True  # "both shoes on new ones"
    while at < len(around.texts) and around.texts[at] not in {"", BREAK} and not around.names_part(at):
        found = around.names(at)
        if not (found.positions or found.tags & _LEADS or at in around.measures):
            return False
        at += 1
    return at < len(around.texts) and around.texts[at] != "" and around.names_part(at)


def several_are_new(around: Around, last: Tag, at: int) -> bool:
    """ "insulator on both gaskets are new": several are new, so it is not the one before that is told of."""
    if last.kind != "PART" or last.meaning.many:
        return False
    if around.names(at).tags & _LEADS - {"NEW"}:
        at += 1
    found = around.lexicon.match(around.texts, at) if around.text(at) not in _ENDS else None
    if found is None or not (found[1].parts or found[1].aliases) or not found[1].many:
        return False
    at += found[0]
    at += around.text(at) == "are"
    at += around.text(at) in {"both", "all"}
    return around.text(at) == "new" and around.text(at + 1) in _ENDS | {"ones", "and"}


def fastener_begins(around: Around, last: Tag, at: int) -> bool:
    """ "carb on nuts to ten newton metres", "bail on nut tight": what holds it, of which more is said."""
    found = around.lexicon.match(around.texts, at) if around.text(at) not in {"", BREAK} else None
    if found is None or not (found[1].parts or found[1].aliases) or last.kind != "PART":
        return False
    end = at + found[0]
    if around.texts[end - 1] not in _FASTENERS or around.texts[last.end - 1] in _HELD | _FASTENERS:
        return False  # "washer on stud bent"
    return around.text(end) not in {"", BREAK, "and"}


def both_moved(around: Around, last: Tag, at: int) -> bool:
    """ "nuts on both eight newton metres each": how many of what is named before."""
    if last.kind != "PART" or not last.meaning.many or around.text(at) not in {"both", "all"}:
        return False
    measure = around.measures.get(at + 1)
    torque = measure is not None and measure.unit is not None and get_unit(measure.unit).kind == "torque"
    return torque or (around.text(at + 1) in {"", BREAK} and around.texts[last.end - 1] in _FASTENERS)


def done_and_moved(around: Around, at: int) -> bool:
    """ "spring on, link straightened and on": something was done to it before it moved."""
    found = around.lexicon.match(around.texts, at) if around.text(at) not in {"", BREAK} else None
    if found is None or not found[1].acts:
        return False
    end = at + found[0]
    return around.text(end) == "and" and around.text(end + 1) in _PARTICLES


def is_where_one_is(around: Around, last: Tag, at: int) -> bool:
    """ "pressure shim in the front one's one point oh five": which of several a single part is of."""
    if last.kind != "PART" or last.meaning.many or around.text(at) != "the":
        return False
    found = around.names(at + 1)
    return bool(found.positions) and not found.conditions and around.text(at + 2) == "one"
