"""Positions said behind their values: "one eighty four left and one eighty six right".

Where every value of the utterance has its position behind it, the positions are put before them,
so that each value is read like "left one eighty four".
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from saywright.sheets.model import Sheet
from saywright.understanding.phrases import Phrase
from saywright.understanding.place_ends import places_ended

_LINKS = frozenset({"PREP", "OF"})
_AGES = frozenset({"NEW", "OLD"})


def positions_first(found: Sequence[Phrase]) -> Sequence[Phrase]:
    """The same phrases, each position before the value it belongs to; unchanged where it leads already."""
    values = [index for index, phrase in enumerate(found) if phrase.kind == "measure"]
    places = [_place_behind(found, index) for index in values]
    if len(values) < 2 or any(place is None for place in places):
        return found
    if any(_is_place(found, at) for at in range(values[0])):
        return found
    moved = dict(zip(values, places, strict=True))
    dropped = {
        at for value, place in moved.items() if place is not None for at in range(value + 1, place + 1)
    }
    out: list[Phrase] = []
    for index, phrase in enumerate(found):
        place = moved.get(index)
        if place is not None:
            out.append(found[place])
        if index not in dropped:
            out.append(phrase)
    return out


def positions_joined(found: Sequence[Phrase], sheet: Sheet) -> Sequence[Phrase]:
    """The same phrases, a part and its position behind it as one: "pump rod on the left"."""
    found = places_ended(found)
    out: list[Phrase] = []
    at = 0
    while at < len(found):
        named = _named_by(found[at], out)
        if at + 2 < len(found) and _is_placed(found[at : at + 3], named, sheet):
            part, place = found[at], found[at + 2]
            out.append(replace(part, end=place.end, lead=(*part.lead, *place.lead)))
            at += 3
            continue
        out.append(found[at])
        at += 1
    return out


def _named_by(phrase: Phrase, before: Sequence[Phrase]) -> tuple[str, ...]:
    """The parts that *phrase* names; of "the old one" behind a part with its position, that part."""
    if phrase.head is not None and phrase.head.kind == "ONE" and phrase.lead_tags & _AGES:
        last = next((p for p in reversed(before) if p.kind == "subject"), None)
        placed = last is not None and any(tag.meaning.positions for tag in last.lead)
        return _named_by(last, ()) if last is not None and placed else ()
    return phrase.meaning.parts or phrase.meaning.aliases


def _is_placed(three: Sequence[Phrase], named: Sequence[str], sheet: Sheet) -> bool:
    """A part that tells no position, a preposition, and nothing but a position that the part has."""
    part, link, place = three
    if (part.kind, link.kind, place.kind) != ("subject", "link", "lead") or not link.tags & _LINKS:
        return False
    said = {p for tag in place.lead for p in tag.meaning.positions}
    if not said or any(tag.meaning.positions or tag.order is not None for tag in part.lead):
        return False
    if any(not (tag.meaning.positions or "DET" in tag.tags) for tag in place.lead) or "AND" in link.tags:
        return False
    return bool(named) and any(c is not None and said <= set(c.positions) for c in map(sheet.get, named))


def _place_behind(found: Sequence[Phrase], value: int) -> int | None:
    """Index of the position right behind the value at index *value*; None where there is none."""
    at = value + 1
    while (
        at < len(found)
        and found[at].kind == "link"
        and found[at].tags & _LINKS
        and "AND" not in found[at].tags
    ):
        at += 1
    return at if at < len(found) and _is_place(found, at) else None


def _is_place(found: Sequence[Phrase], at: int) -> bool:
    """True for "left" and "the left one": a position without a part's name."""
    phrase = found[at]
    if phrase.kind == "subject" and (phrase.meaning.parts or phrase.meaning.aliases):
        return False
    return phrase.kind in {"lead", "subject"} and any(
        tag.meaning.positions or tag.order is not None for tag in phrase.lead
    )
