""" "The clip's in the third groove": an ordinal is the value of what is told by a position.

Where no such characteristic was named, the noun behind the ordinal is a place on the part, no damage.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from saywright.understanding.counted_things import SAYS_NOTHING
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.meanings import NOTHING
from saywright.understanding.measures import find_measures
from saywright.understanding.tags import Tag
from saywright.understanding.wordforms import is_past

_CARDINALS = ("one", "two", "three", "four", "five", "six", "seven", "eight")
_NUMBERS = frozenset((said,) for said in (*_CARDINALS, *"12345678"))


def ordinals_as_values(tags: Sequence[Tag], texts: Sequence[str], lexicon: Lexicon) -> tuple[Tag, ...]:
    """The same tags, an ordinal and the noun behind it as one value, or the noun as no finding."""
    out: list[Tag] = []
    for at, said in enumerate(tags):
        before = out[-1] if out else None
        numbered = _is_numbered(said, tags[at + 1 : at + 2], texts)
        tag = replace(said, kind="WORD", meaning=SAYS_NOTHING) if numbered else said
        if before is None or not _numbers_place(before, tag, texts):
            out.append(tag)
            continue
        order = before.order
        if order is None or not 1 <= order <= len(_CARDINALS) or not _awaits_position(out, lexicon):
            out.append(replace(tag, kind="WORD", meaning=SAYS_NOTHING))
            continue
        read = find_measures((_CARDINALS[order - 1],), lexicon.units)[0]
        measure = replace(read, start=before.start, end=tag.end)
        out[-1] = Tag("MEASURE", before.start, tag.end, NOTHING, measure)
        if any(later.kind == "MEASURE" for later in tags[at + 1 : at + 2]):
            out[-1:] = [before, tag]  # "third groove four": the number is told by itself
    return tuple(out)


def _is_numbered(tag: Tag, after: Sequence[Tag], texts: Sequence[str]) -> bool:
    """ "groove three": the number behind tells which groove, not that there is one."""
    noun = texts[tag.start]
    if tag.kind != "COND" or tag.end - tag.start > 1 or is_past(noun) or noun.endswith(("ing", "s")):
        return False
    number = after[0] if after and after[0].kind == "MEASURE" else None
    return number is not None and number.start == tag.end and texts[number.start : number.end] in _NUMBERS


def _numbers_place(before: Tag, tag: Tag, texts: Sequence[str]) -> bool:
    """ "third groove", "second notch": an ordinal right before a noun that is a finding, or nothing here."""
    if before.kind != "MOD" or "ORD" not in before.tags or before.end != tag.start:
        return False
    noun = texts[tag.start]
    if tag.end - tag.start > 1 or not noun.isalpha() or is_past(noun) or noun.endswith("ing"):
        return False
    return tag.kind == "COND" or (tag.kind == "WORD" and not tag.tags and noun not in {"one", "ones"})


def _awaits_position(before: Sequence[Tag], lexicon: Lexicon) -> bool:
    """True where a characteristic that is counted was named, and no value since."""
    for tag in reversed(before):
        if tag.kind in {"MEASURE", "BREAK"}:
            return False
        if tag.kind == "CHAR":
            found = [lexicon.sheet.find(*key) for key in tag.meaning.characteristics]
            return any(c is not None and c.unit == "1" for c in found)
    return False
