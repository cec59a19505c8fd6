"""Positions said behind their values: "one eighty four left and one eighty six right".

Where every value of the utterance has its position behind it, the positions are put before them,
so that each value is read like "left one eighty four".
"""

from __future__ import annotations

from collections.abc import Sequence
from collections.abc import Set as AbstractSet
from dataclasses import replace

from saywright.sheets.model import Component, Sheet
from saywright.understanding.meanings import NOTHING, Meaning
from saywright.understanding.phrases import Phrase
from saywright.understanding.sides.place_ends import places_ended
from saywright.understanding.tags import AGES, Tag

_LINKS = frozenset({"PREP", "OF"})
_ARE_ON = (("is", "on"), ("are", "on"))
_EVERY = frozenset({"BOTH", "ALL"})
_FOR = (("for",), ("for", "the"))
_ON = Meaning(tags=frozenset({"MOVE_ON"}))
_AT = Meaning(tags=frozenset({"PREP"}))


def positions_first(found: Sequence[Phrase], texts: Sequence[str], sheet: Sheet) -> Sequence[Phrase]:
    """The same phrases, each position before the value it belongs to; unchanged where it leads already.

    Also where the part is named with it: "six on the left adjuster and five on the right". A side before
    all values leads none of its own: "the right hand ones are four inner and five outer".
    """
    values = [index for index, phrase in enumerate(found) if phrase.kind == "measure"]
    if len(values) == 1 and "same" in texts:  # "ten left and the same right"
        values += [i for i, p in enumerate(found) if "SAME" in p.tags and i > values[0]][:1]
    places = [_place_behind(found, index, texts) for index in values]
    if len(values) < 2 or None in places or "OTHER" in found[places[0] or 0].lead_tags:
        return found
    head = [at for at in range(values[0]) if _is_place(found, at)]
    sided = len(head) == 1 and _is_side_of(found, head[0], places, sheet)
    if (head and not sided) or _others_named(found, values[0], places):
        return found
    moved = dict(zip(values, places, strict=True))
    gone = {at for value, place in moved.items() if place is not None for at in range(value, place + 1)}
    out: list[Phrase] = []
    for index, phrase in enumerate(found):
        place = moved.get(index)
        if place is not None:
            between = found[index + 1 : place]
            each = [tag for p in between if _is_each(p) for tag in p.lead]
            out.append(replace(found[place], lead=(*each, *found[place].lead)) if each else found[place])
            out += [*(p for p in between if p.kind == "char"), phrase]
        elif index not in gone:
            out.append(phrase)
    return out


def _others_named(found: Sequence[Phrase], first: int, places: Sequence[int | None]) -> bool:
    """ "outer pad three point one for the rear left pad, …": a part before the values, another behind."""
    before = (p for p in found[:first] if p.kind == "subject" and p.meaning != NOTHING)
    named = {found[at].meaning.parts for at in places if at is not None and not _is_place(found, at)}
    return bool(named) and any(phrase.meaning.parts not in named for phrase in before)


def positions_listed(found: Sequence[Phrase]) -> Sequence[Phrase]:
    """The same phrases, of values and as many positions in two rows each position before its value."""
    values = [index for index, phrase in enumerate(found) if phrase.kind == "measure"]
    if len(values) < 2 or not _in_row(found, values):
        return found
    apart = _placed_behind(found)
    at = [index for index, phrase in enumerate(apart) if phrase.kind == "measure"]
    return _listed(apart, at) or found


def _in_row(found: Sequence[Phrase], some: Sequence[int]) -> bool:
    """True where nothing but "and" and pauses stands between the phrases at *some*."""
    return all(at in some or _joins(found[at]) for at in range(some[0], some[-1]))


def _joins(phrase: Phrase) -> bool:
    return phrase.kind in {"break", "char"} or (phrase.kind == "link" and "AND" in phrase.tags)


def _listed(found: Sequence[Phrase], values: Sequence[int]) -> Sequence[Phrase]:
    """ "twenty four point one and twenty four point oh, front and rear": the first is of the first.

    The phrases with each position before its value; () where there are not as many of both.
    """
    places = [at for at in range(len(found)) if _is_place(found, at)]
    if len(places) != len(values) or not _in_row(found, places):
        return ()
    behind = places[0] > values[-1]
    first, second = (values, places) if behind else (places, values)
    between = [at for at in range(first[-1] + 1, second[0]) if not _joins(found[at])]
    if first[-1] > second[0] or any("COP" not in found[at].aux_tags for at in between):
        return ()
    row = [found[at] for pair in zip(places, values, strict=True) for at in pair]
    named = [phrase for phrase in found[first[0] : second[-1]] if phrase.kind == "char"][:1]
    return [*found[: first[0]], *named, *row, *found[second[-1] + 1 :]]


def positions_joined(found: Sequence[Phrase], texts: Sequence[str], sheet: Sheet) -> Sequence[Phrase]:
    """The same phrases, a part and its position behind it as one: "pump rod on the left", "for the left"."""
    found = places_ended(found, sheet)
    if "lead" not in [phrase.kind for phrase in found]:
        return found
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
        if at + 2 < len(found) and _is_placed(found[at : at + 3], named, texts, sheet):
            part, place = found[at], found[at + 2]
            out.append(replace(part, end=place.end, lead=(*part.lead, *place.lead)))
            at += 3
            continue
        out.append(found[at])
        at += 1
    return out


def new_ones_on(found: Sequence[Phrase], texts: Sequence[str]) -> Sequence[Phrase]:
    """ "new boot is on the left": what is new and is on there was fitted, and there."""
    for at in range(1, len(found) - 1):
        part, verb, place = found[at - 1 : at + 2]
        if part.kind != "subject" or place.kind != "lead" or texts[verb.start : verb.end] not in _ARE_ON:
            continue
        if "NEW" in part.lead_tags:
            every = not place.lead_tags.isdisjoint(_EVERY)
            on = Tag("ON" if every else "LINK", verb.start, verb.end, _ON if every else _AT)
            return [*found[:at], replace(verb, kind=on.kind.lower(), head=on, aux=()), *found[at + 1 :]]
    return found


def _placed_behind(found: Sequence[Phrase]) -> Sequence[Phrase]:
    """ "front and rear springs" as "springs front and rear"."""
    for at in range(len(found) - 2):
        first, link, part = found[at : at + 3]
        if not _leads_part(first, link, part):
            continue
        where = tuple(tag for tag in part.lead if tag.meaning.positions)
        rest = tuple(tag for tag in part.lead if not tag.meaning.positions)
        noun = replace(part, start=first.start, lead=rest)
        last = Phrase("lead", where[0].start, where[-1].end, None, where)
        return [*found[:at], noun, first, link, last, *_placed_behind(found[at + 3 :])]
    return found


def _leads_part(first: Phrase, link: Phrase, part: Phrase) -> bool:
    if first.kind != "lead" or part.kind != "subject" or link.kind != "link" or "AND" not in link.tags:
        return False
    if not part.meaning.many or not (part.meaning.parts or part.meaning.aliases):
        return False
    placed = [tag for tag in (*first.lead, *part.lead) if tag.meaning.positions]
    return len(placed) == len(first.lead) + len(part.lead) == 2


def _named_by(phrase: Phrase, before: Sequence[Phrase]) -> tuple[str, ...]:
    """The parts that *phrase* names; of "the old one" behind a part with its position, that part."""
    if phrase.head is not None and phrase.head.kind == "ONE" and phrase.lead_tags & AGES:
        at = next((i for i in range(len(before) - 1, -1, -1) if before[i].kind == "subject"), -1)
        places = (
            [tag for p in before[at:] if p.kind in {"subject", "lead"} for tag in p.lead] if at >= 0 else []
        )
        placed = "ONES" in phrase.tags or any(tag.meaning.positions for tag in places)
        of_many = at >= 0 and before[at].meaning.many and before[at].end == phrase.start
        # "pistons, old one in the top, new one in the bottom"
        return _named_by(before[at], before[:at]) if at >= 0 and (placed or of_many) else ()
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
    return any(c is not None and c.has_places(said) for c in map(sheet.get, named))


def _are_sides(three: Sequence[Phrase], before: Sequence[Phrase], sheet: Sheet) -> bool:
    """ "front and rear pistons": a plural, and two positions that a part so called has."""
    if [p.kind for p in three] != ["lead", "link", "subject"] or (before and before[-1].kind == "link"):
        return False
    first, link, part = three
    if "AND" not in link.tags or not part.meaning.many or not part.lead:
        return False
    both = (*first.lead, part.lead[0])
    said = {p for tag in both for p in tag.meaning.positions}
    plain = all(tag.meaning.positions or tag.tags & {"DET", *AGES} for tag in (*first.lead, *part.lead))
    if len(said) < 2 or not plain:
        return False
    return any(c is not None and c.has_places(said) for c in map(sheet.get, _named_by(part, ())))


def _ends(found: Sequence[Phrase], at: int) -> bool:
    ends = {"break", "on", "off", "finding", "doing", "subject"}
    return at == len(found) or found[at].kind in ends or "AND" in found[at].tags


def _is_placed(three: Sequence[Phrase], named: Sequence[str], texts: Sequence[str], sheet: Sheet) -> bool:
    """A part that tells no position, a preposition, and nothing but a position that the part has."""
    part, link, place = three
    leads = link.kind == "link" and bool(link.tags & _LINKS)
    leads = leads or texts[link.start : link.end] in _FOR  # that may tell what is needed
    if part.kind != "subject" or place.kind != "lead" or not leads:
        return False
    said = {p for tag in place.lead for p in tag.meaning.positions}
    before = {p for tag in part.lead for p in tag.meaning.positions}
    if not said or any(tag.order is not None for tag in part.lead):
        return False
    if before and not any(c is not None and _is_one(c, before | said) for c in map(sheet.get, named)):
        return False
    if any(not (tag.meaning.positions or "DET" in tag.tags) for tag in place.lead) or "AND" in link.tags:
        return False
    # "the one at the rear"
    one = part.head is not None and part.head.kind == "ONE" and not part.lead_tags & AGES
    parts = sheet.component if one else map(sheet.get, named)
    return any(c is not None and c.has_places(said) for c in parts)


def _is_one(component: Component, said: AbstractSet[str]) -> bool:
    """ "the upper pin on the left": the words of one position, in two places."""
    return any(said <= set(position.split()) for position in component.positions)


def _is_each(phrase: Phrase) -> bool:
    """ "four each at the rear": one of every one that is so placed."""
    return phrase.kind == "lead" and all(not tag.tags.isdisjoint(_EVERY) for tag in phrase.lead)


def _place_behind(found: Sequence[Phrase], value: int, texts: Sequence[str]) -> int | None:
    """Index of the position right behind the value at index *value* and what it is of; None where none is."""
    at = value + 1
    if at < len(found) and found[at].kind == "word" and "FILLER" in found[at].tags:
        at += 1  # "three left on the inner"
    if at < len(found) and found[at].kind == "char":  # "three clicks back on the left"
        at += 1 + (at + 1 < len(found) and found[at + 1].kind == "on")
    at += at + 1 < len(found) and _is_each(found[at]) and found[at + 1].kind == "link"
    begin = at
    while at < len(found) and _leads_place(found[at], texts):
        at += 1
    led = at > begin
    return at if at < len(found) and (_is_place(found, at) or (led and _is_placed_part(found, at))) else None


def _leads_place(phrase: Phrase, texts: Sequence[str]) -> bool:
    """ "on the", "of", "for the"."""
    if phrase.kind == "aux":
        return texts[phrase.start : phrase.end] in _FOR
    return phrase.kind == "link" and bool(phrase.tags & _LINKS) and "AND" not in phrase.tags


def _is_placed_part(found: Sequence[Phrase], at: int) -> bool:
    """ "on the left adjuster", with nothing that goes on about it: a part and which of them."""
    phrase, after = found[at], found[at + 1 : at + 2]
    if phrase.kind != "subject" or not any(tag.meaning.positions for tag in phrase.lead):
        return False
    return not after or after[0].kind in {"break", "measure"} or bool(after[0].tags & {"AND", "BUT"})


def _is_side_of(found: Sequence[Phrase], head: int, places: Sequence[int | None], sheet: Sheet) -> bool:
    """True where the place at *head* and each of *places* together are a position of one part."""
    side, *rest = (
        {word for tag in found[at].lead for p in tag.meaning.positions for word in p.split()}
        for at in (head, *places)
        if at is not None
    )
    whole = [side | place for place in rest]
    here = ([set(p.split()) for p in c.positions] for c in sheet.component)
    return side not in rest and any(all(one in positions for one in whole) for positions in here)


def _is_place(found: Sequence[Phrase], at: int) -> bool:
    """True for "left" and "the left one": a position without a part's name."""
    phrase = found[at]
    if phrase.kind == "subject" and (phrase.meaning.parts or phrase.meaning.aliases):
        return False
    return phrase.kind in {"lead", "subject"} and any(
        tag.meaning.positions or tag.order is not None or "OTHER" in tag.tags for tag in phrase.lead
    )
