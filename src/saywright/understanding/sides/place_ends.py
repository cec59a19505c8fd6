"""A position behind its part, before the next: "new valve in the front, old one in the rear, new washers".

Without the comma the position would go to the part that follows it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from saywright.sheets.model import Sheet
from saywright.understanding.meanings import Meaning
from saywright.understanding.phrases import Phrase
from saywright.understanding.tags import AGES, Tag

_HOME = frozenset({"in", "on"})
_ONE = frozenset({("one",), ("another",)})
_ONE_OF_THEM = Meaning(tags=frozenset({"ONE"}))


def places_ended(found: Sequence[Phrase], sheet: Sheet) -> Sequence[Phrase]:
    """The same phrases, a position that the part before it has been given apart from the next part."""
    if not any(tag.meaning.positions for p in found if p.kind == "subject" for tag in p.lead):
        return found
    out: list[Phrase] = []
    given: set[str] = set()  # positions that parts before have been given
    for phrase in _sides_behind(found):
        cut = _age_behind_place(phrase) or _count_behind_place(phrase, sheet) if _leads_to_place(out) else 0
        if not cut and _is_back_at(out) and _all_place(phrase):
            cut = len(phrase.lead) if given and given.isdisjoint(_positions(phrase)) else 0
        if not cut:
            out.append(phrase)
            continue
        place = phrase.lead[:cut]
        given |= {p for tag in place for p in tag.meaning.positions}
        rest = phrase.lead[cut:]
        head = phrase.head
        begins = rest[0].start if rest else (head.start if head is not None else place[-1].end)
        out.append(Phrase("lead", phrase.start, place[-1].end, None, place))
        out.append(replace(phrase, start=begins, lead=rest))
    return out


def one_more_there(found: Sequence[Phrase], texts: Sequence[str]) -> Sequence[Phrase]:
    """ "new hose on the left and one on the right": one more that is as old, and no number."""
    if "one" not in texts and "another" not in texts:
        return found
    for at in range(2, len(found) - 2):
        joined, one, link, place = found[at - 1 : at + 3]
        if tuple(texts[one.start : one.end]) not in _ONE or "AND" not in joined.tags or link.kind != "link":
            continue
        part = next((p for p in reversed(found[:at]) if p.kind == "subject"), None)
        age = tuple(t for t in part.lead if t.tags & AGES) if part is not None else ()
        if not age or texts[link.start] not in _HOME or not _is_place_alone(place):
            continue
        behind = found[at + 3] if at + 3 < len(found) else None
        if not _is_place_alone(found[at - 2]) or not (behind is None or behind.kind in {"break", "link"}):
            continue
        head = Tag("ONE", one.start, one.end, _ONE_OF_THEM)
        more = Phrase("subject", one.start, place.end, head, (*age[:1], *place.lead))
        return [*found[:at], more, *found[at + 3 :]]
    return found


def _is_place_alone(phrase: Phrase) -> bool:
    """ "on the left": a position, and nothing else before a noun."""
    plain = all(tag.meaning.positions or "DET" in tag.tags for tag in phrase.lead)
    return phrase.kind == "lead" and plain and any(tag.meaning.positions for tag in phrase.lead)


def _sides_behind(found: Sequence[Phrase]) -> Sequence[Phrase]:
    """ "new brush front, old one rear": each has its place right behind it."""
    at = next((i for i in range(1, len(found)) if _ages_around_place(found[i - 1], found[i])), 0)
    behind = found[at + 1] if at and at + 1 < len(found) else None
    if behind is None or behind.kind != "lead" or not all(tag.meaning.positions for tag in behind.lead):
        return found
    first, second = found[at - 1], found[at]
    cut = _age_behind_place(second)
    place, rest = second.lead[:cut], second.lead[cut:]
    return [
        *found[: at - 1],
        replace(first, end=place[-1].end, lead=(*first.lead, *place)),
        replace(second, start=rest[0].start, end=behind.end, lead=(*rest, *behind.lead)),
        *found[at + 2 :],
    ]


def _ages_around_place(first: Phrase, second: Phrase) -> bool:
    """ "new brush", "front old one"."""
    if first.kind != "subject" or first.end != second.start or not first.lead_tags & AGES:
        return False
    one = second.head is not None and second.head.kind == "ONE"
    return one and not _positions(first) and _age_behind_place(second) > 0


def _age_behind_place(phrase: Phrase) -> int:
    """Words of the lead up to "old" or "new" behind a position; 0 where it is not so."""
    if phrase.kind != "subject":
        return 0
    at = next((i for i, tag in enumerate(phrase.lead) if tag.tags & AGES), 0)
    before = phrase.lead[:at]
    only = all(tag.meaning.positions or "DET" in tag.tags for tag in before)
    return at if only and any(tag.meaning.positions for tag in before) else 0


def _count_behind_place(phrase: Phrase, sheet: Sheet) -> int:
    """ "new disc on the front, six bolts": words up to the count of what has no such position; 0 for none."""
    if phrase.kind != "subject":
        return 0
    at = next((i for i, tag in enumerate(phrase.lead) if tag.count is not None), 0)
    before, said = phrase.lead[:at], _positions(phrase)
    if not said or not all(tag.meaning.positions or "DET" in tag.tags for tag in before):
        return 0
    parts = [sheet.get(c) for c in (*phrase.meaning.parts, *phrase.meaning.aliases)]
    return at if parts and all(part is not None and not part.has_places(said) for part in parts) else 0


def _leads_to_place(out: Sequence[Phrase]) -> bool:
    """A part and a preposition, or "in" and "on" of what moved: "new bearing in left, new seals"."""
    if len(out) > 1 and out[-1].kind == "aux" and out[-1].aux_tags == {"NEED"} and "NEW" in out[-2].lead_tags:
        return out[-2].kind == "subject"  # "new valve for the front old one back in the rear"
    if len(out) < 2 or out[-2].kind != "subject" or out[-1].kind not in {"link", "on", "off"} or out[-1].aux:
        return False
    if out[-1].kind == "off":
        return "OF" in out[-1].tags  # "gasket off the drive end two dowels out"
    return "PREP" in out[-1].tags and "AND" not in out[-1].tags and out[-2].end == out[-1].start


def _is_back_at(out: Sequence[Phrase]) -> bool:
    """ "old one back on": which way it moved, and where to."""
    if len(out) < 2 or out[-1].kind != "on" or out[-1].head is None:
        return False
    one, moved = out[-2], out[-1].head
    aged = one.head is not None and one.head.kind == "ONE" and bool(one.lead_tags & AGES)
    return aged and moved.end - moved.start == len(_HOME)


def _all_place(phrase: Phrase) -> bool:
    """ "the rear nuts": a part with nothing but its position before it."""
    plain = all(tag.meaning.positions or "DET" in tag.tags for tag in phrase.lead)
    defined = bool(phrase.lead) and "DET" in phrase.lead[0].tags
    return phrase.kind == "subject" and plain and defined and bool(_positions(phrase))


def _positions(phrase: Phrase) -> set[str]:
    return {p for tag in phrase.lead for p in tag.meaning.positions}
