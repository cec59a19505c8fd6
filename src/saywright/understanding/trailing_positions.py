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
        pair = found[at : at + 4]
        if len(pair) == 4 and _is_pair(pair, named, sheet) and _ends(found, at + 4):
            lead = (*pair[0].lead, *pair[1].lead, *pair[3].lead)
            out.append(replace(pair[0], end=pair[3].end, lead=lead))
            at += 4
            continue
        if _are_sides(found[at : at + 3], out, sheet):
            begin, named_both = found[at], found[at + 2]
            out.append(replace(named_both, start=begin.start, lead=(*begin.lead, *named_both.lead)))
            at += 3
            continue
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
        many = "ONES" in phrase.tags
        placed = last is not None and (many or any(tag.meaning.positions for tag in last.lead))
        return _named_by(last, ()) if last is not None and placed else ()
    return phrase.meaning.parts or phrase.meaning.aliases


def _is_pair(four: Sequence[Phrase], named: Sequence[str], sheet: Sheet) -> bool:
    """ "new springs upper and lower": a plural that tells no position, and two that a part so called has."""
    part, first, link, second = four
    if part.kind != "subject" or (first.kind, link.kind, second.kind) != ("lead", "link", "lead"):
        return False
    places = [*first.lead, *second.lead]
    said = {p for tag in places for p in tag.meaning.positions}
    if "AND" not in link.tags or not all(tag.meaning.positions for tag in places) or len(said) < 2:
        return False
    if not part.meaning.many and "ONES" not in part.tags:
        return False
    if any(tag.meaning.positions or tag.order is not None for tag in part.lead) or part.end != first.start:
        return False
    return any(c is not None and said <= set(c.positions) for c in map(sheet.get, named))


def _are_sides(three: Sequence[Phrase], before: Sequence[Phrase], sheet: Sheet) -> bool:
    """ "front and rear pistons": a plural, and two positions that a part so called has."""
    if [p.kind for p in three] != ["lead", "link", "subject"] or (before and before[-1].kind == "link"):
        return False
    first, link, part = three
    if "AND" not in link.tags or not part.meaning.many or not part.lead:
        return False
    both = (*first.lead, part.lead[0])
    said = {p for tag in both for p in tag.meaning.positions}
    plain = all(tag.meaning.positions or tag.tags & {"DET", *_AGES} for tag in (*first.lead, *part.lead))
    if len(said) < 2 or not plain:
        return False
    return any(c is not None and said <= set(c.positions) for c in map(sheet.get, _named_by(part, ())))


def _ends(found: Sequence[Phrase], at: int) -> bool:
    ends = {"break", "on", "off", "finding", "doing", "subject"}
    return at == len(found) or found[at].kind in ends or "AND" in found[at].tags


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
