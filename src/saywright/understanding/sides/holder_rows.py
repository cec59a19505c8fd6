"""What holds a part, right behind "on": "carb on nuts at ten", "caliper on the two bolts to thirty"."""

from __future__ import annotations

from saywright.understanding.around import Around
from saywright.understanding.bench_words import FASTENERS
from saywright.understanding.meanings import Meaning
from saywright.understanding.tags import Tag
from saywright.understanding.tokens import BREAK
from saywright.units import get_unit

_HELD = frozenset(
    {"washer", "washers", "spring", "ring", "rings", "seal", "spacer", "collar", "grommet", "cap"}
)
_HELD_OR_HOLDS = _HELD | FASTENERS
_ARTICLES = frozenset({"the", "its", "their"})
_SEVERAL = frozenset({"BOTH", "ALL"})
_ENDS = frozenset({"", BREAK})


def fastener_begins(around: Around, last: Tag, at: int) -> bool:
    """ "carb on nuts to ten newton metres", "bail on nut tight": what holds it, of which more is said."""
    at += bool(around.names(at).tags & _SEVERAL)  # "hub on both nuts tight"
    found = around.lexicon.match(around.texts, at) if around.text(at) not in {"", BREAK} else None
    if found is None or not (found[1].parts or found[1].aliases) or last.kind != "PART":
        return False
    end = at + found[0]
    if around.texts[end - 1] not in FASTENERS or around.texts[last.end - 1] in _HELD_OR_HOLDS:
        return False  # "washer on stud bent"
    return around.text(end) not in {"", BREAK, "and"}


def value_of_holder(around: Around, last: Tag, at: int) -> bool:
    """ "caliper on the two bolts to twenty four": what holds it, and what that was tightened to."""
    if last.kind != "PART" or around.texts[last.end - 1] in _HELD_OR_HOLDS:
        return False
    at += around.text(at) in _ARTICLES
    while around.text(at) not in _ENDS and (at in around.measures or around.names(at).positions):
        at += 1
    found = around.lexicon.match(around.texts, at) if around.text(at) not in _ENDS else None
    if found is None or not holds(around, found[1], around.texts[at + found[0] - 1]):
        return False
    at += found[0]
    led = around.lexicon.match(around.texts, at) if around.text(at) not in _ENDS else None
    if led is not None and (around.text(at) in {"to", "at"} or led[1].tags & {"READS"}):
        at += led[0]
    return at in around.measures


def holds(around: Around, named: Meaning, word: str) -> bool:
    """True for fasteners, and for what nothing but a torque is read on."""
    if word in FASTENERS:
        return bool(named.parts or named.aliases)
    parts = [around.lexicon.sheet.get(c) for c in (*named.parts, *named.aliases)]
    read = [c for part in parts if part is not None for c in part.characteristic]
    return bool(read) and all(get_unit(c.unit).kind == "torque" for c in read)
