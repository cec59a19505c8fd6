"""Two positions of one part around an "and": "valves out inlet and outlet", "left and right clips"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from saywright.sheets.model import Sheet
from saywright.understanding.phrases import Phrase
from saywright.understanding.tags import Tag

_BORDERS = frozenset({"break", "off", "on", "finding", "doing"})
_SAID_OF = frozenset({"off", "on", "finding", "doing", "measure"})
_NO_PLACE = frozenset({"DET", "BOTH"})  # "left and right both seized"
_TWO = 2


def both_positions(found: Sequence[Phrase], sheet: Sheet) -> Sequence[Phrase]:
    """The same phrases, with two positions that belong to one part as one."""
    if not [p for p in found if p.kind == "lead" or (p.lead and p.head and p.head.kind == "ONE")]:
        return found
    out: list[Phrase] = []
    at = 0
    while at < len(found):
        three = found[at : at + 3]
        if at + 3 < len(found) and (two := _said_of_two(found, at, out, sheet)):
            out.extend(two)
            at += 3 + sum(_is_both(p) for p in found[at + 3 : at + 5]) + len(two) - 1
            continue
        if len(three) == 3 and _are_two(three):
            second = three[2].lead[: 1 + _articled(three[2])]
            said = [p for tag in (*three[0].lead, *second) for p in tag.meaning.positions]
            if three[2].kind == "lead" and out and _placed_behind(out[-1], said, sheet):
                lead = (*out[-1].lead, *_by_word(three[0].lead), *three[2].lead)
                out[-1] = replace(out[-1], end=three[2].end, lead=lead)  # "springs front and rear"
                at += 3
                continue
            if _of_moved(out, three[2], said, sheet):
                out.extend(_behind(three))
                at += 3
                continue
            if _has(three[2], said, sheet) and (three[2].meaning.many or _opens(out)):
                out.append(replace(three[2], start=three[0].start, lead=(*three[0].lead, *three[2].lead)))
                at += 3
                continue
        out.append(found[at])
        at += 1
    return out


def _placed_behind(part: Phrase, said: Sequence[str], sheet: Sheet) -> bool:
    """True where *part* names several that have the positions *said*, beside the one they are picked by.

    "Rear pads inner and outer" are two where there are a rear inner and a rear outer one.
    """
    picked = [place for tag in part.lead for place in tag.meaning.positions[:1]]
    if part.kind != "subject" or any(tag.order is not None for tag in part.lead):
        return False
    places = [word for place in (*picked, *said) for word in place.split()]
    if len(places) == _TWO:
        return not picked and _has(part, places, sheet)
    ones = part.head is not None and part.head.kind == "ONE"
    each = [(places[0], place) for place in places[1:]]
    if len(places) != _TWO + 1 or not (ones or part.meaning.many):
        return False
    if ones:
        return any(all(c.has_places(two) for two in each) for c in sheet.component)
    return all(_has(part, two, sheet) for two in each)


def _by_word(lead: Sequence[Tag]) -> list[Tag]:
    """ "front inner", said in one, as a tag for each word: the first goes for "and outer" too."""
    out: list[Tag] = []
    for tag in lead:
        words = tag.meaning.positions[0].split() if len(tag.meaning.positions) == 1 else []
        if len(words) < _TWO or len(words) != tag.end - tag.start:
            out.append(tag)
            continue
        for at, word in enumerate(words, start=tag.start):
            meaning = replace(tag.meaning, positions=(word,))
            out.append(replace(tag, start=at, end=at + 1, meaning=meaning))
    return out


def _are_two(three: Sequence[Phrase]) -> bool:
    """A bare position, "and", and another position."""
    first, link, second = three
    if first.kind != "lead" or link.kind != "link" or "AND" not in link.tags or not second.lead:
        return False
    if first.end != link.start or link.end != second.start or second.kind not in {"lead", "subject"}:
        return False
    places = [tag for tag in (*first.lead, *second.lead[: 1 + _articled(second)]) if "DET" not in tag.tags]
    return len(places) > 1 and all(tag.meaning.positions for tag in places)


def _said_of_two(found: Sequence[Phrase], at: int, out: Sequence[Phrase], sheet: Sheet) -> list[Phrase]:
    """ "left and right are hard", "left one and middle one torn": two of what is in hand, as one phrase.

    [] unless how they are, what they measure or what is done with them stands right behind: "are both …".
    """
    first, link, second = found[at : at + 3]
    if not (_is_bare(first) and _is_bare(second) and "AND" in link.tags and _opens(out)):
        return []
    leads = [tag for one in (first, second) for tag in one.lead if not tag.tags & _NO_PLACE]
    said = {p for tag in leads for p in tag.meaning.positions}
    if first.end != link.start or link.end != second.start or len(leads) != len(said) or len(said) != _TWO:
        return []
    rest = [p for p in found[at + 3 : at + 6] if not _is_both(p)]
    aux = [p for p in rest[:1] if p.kind == "aux"]
    behind = rest[len(aux) : len(aux) + 1]
    if not behind or behind[0].kind not in _SAID_OF or not any(c.has_places(said) for c in sheet.component):
        return []
    both = replace(second, kind="lead", head=None, start=first.start, lead=(*first.lead, *second.lead))
    return [both, *aux]


def leads_two(tags: Sequence[Tag], start: int, end: int) -> bool:
    """ "the left one and the middle one are torn": the place at [start, end) is the first of two, no turn."""
    behind = tags[end + 1 : end + 4]
    if end <= start or end + 1 >= len(tags) or "AND" not in tags[end].tags:
        return False
    if any(tag.kind not in {"MOD", "ONE"} for tag in tags[start:end]):
        return False
    places = [at for at, tag in enumerate(behind[:2]) if tag.kind == "MOD" and tag.meaning.positions]
    return bool(places) and all(tag.kind != "PART" for tag in behind[places[-1] + 1 : places[-1] + 2])


def _is_both(phrase: Phrase) -> bool:
    """ "both" alone, of the two before it."""
    return phrase.kind == "lead" and all("BOTH" in tag.meaning.tags for tag in phrase.lead)


def _is_bare(phrase: Phrase) -> bool:
    """ "the left", "left one": a place without a noun."""
    one = phrase.kind == "subject" and phrase.head is not None and phrase.head.kind == "ONE"
    return (one or phrase.kind == "lead") and any(tag.meaning.positions for tag in phrase.lead)


def _articled(phrase: Phrase) -> bool:
    """ "the upper and the lower bolt"."""
    return "DET" in phrase.lead[0].tags and len(phrase.lead) > 1


def _opens(before: Sequence[Phrase]) -> bool:
    return all(one.tags & {"FILLER", "AND"} for one in before[-2:]) or before[-1].kind in _BORDERS


def _of_moved(before: Sequence[Phrase], second: Phrase, said: Sequence[str], sheet: Sheet) -> bool:
    """ "pin clips off left and right pin drifted out": which ones moved; no place of the noun behind."""
    if len(before) < 2 or before[-1].kind not in {"off", "on"} or before[-2].kind != "subject":
        return False
    if any(tag.meaning.positions for tag in before[-2].lead) or not _has(before[-2], said, sheet):
        return False
    several = before[-2].meaning.many or second.meaning.many or len(second.lead) > 1
    return several or not _has(second, said[-1:], sheet)


def _has(phrase: Phrase, said: Sequence[str], sheet: Sheet) -> bool:
    """True where a part that *phrase* names has all the positions *said*."""
    named = map(sheet.get, phrase.meaning.parts or phrase.meaning.aliases)
    return any(c is not None and c.has_places(said) for c in named)


def _behind(three: Sequence[Phrase]) -> list[Phrase]:
    """The two positions as one phrase, and what is left of the noun that stood behind the second."""
    first, _, second = three
    both = Phrase("lead", first.start, second.lead[0].end, None, (*first.lead, second.lead[0]))
    if second.kind == "lead" and len(second.lead) == 1:
        return [both]
    return [both, replace(second, start=second.lead[0].end, lead=second.lead[1:])]
