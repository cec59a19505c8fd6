"""A line that only goes to a place: "okay back over the other side, secondary", "up front on the left".

Each of its words is one of going, one of place or a little one: then nothing but the place can be meant.
"""

from __future__ import annotations

from collections.abc import Sequence

from saywright.sheets.model import Sheet
from saywright.understanding.discourse import Hand
from saywright.understanding.sides.going_words import KIND_OF
from saywright.understanding.sides.place_meant import is_one_there
from saywright.understanding.sides.turning import has_side, other_side, side_of
from saywright.understanding.sides.turns import Turn
from saywright.understanding.tags import Tag
from saywright.understanding.tokens import words_of

__all__ = ["GOES", "turn_line"]


GOES = {word for word, kind in KIND_OF.items() if kind in "GLIO"} - {"do", "doing", "look", "looking"}
GOES |= words_of("head roll rolling job drill routine procedure")
# Words that lead nowhere by themselves, and such as only stand in a line that goes somewhere.
_LITTLE = {word for word, kind in KIND_OF.items() if kind in "aNSd.L"} - {"all"}
_LITTLE |= words_of("about away by front got has into last was were where your")
_PLAIN = GOES | _LITTLE
_NOUNS, _ENDS = words_of("side end half corner"), words_of("front rear")
_LAST = words_of("on in off out back up down")  # at the end they tell a movement: "left back on"
_ASKING = words_of("do did shall can will are have is was were am")
_PEOPLE = words_of("i we you he she they it")
_RESUMED = {("were", "we"), ("was", "i"), ("was", "we")}
_LONGEST = 14  # tags
_SAYS = frozenset({"NEG", "QUESTION", "SAME"})


def turn_line(tags: Sequence[Tag], texts: Sequence[str], sheet: Sheet, held: Hand | None) -> Turn | None:
    """The side that the whole line, or its head, turns to; None where neither only goes somewhere."""
    if not _goes(texts) or _is_asked(texts):
        return None
    end = next((at for at, tag in enumerate(tags) if not _only_goes(tag, texts)), len(tags))
    if end > _LONGEST:
        return None
    if end < len(tags) and not _begins_anew(tags, texts, end):
        end = _resumed_at(tags[:end], texts)
        if not end:
            return None
    if end == len(tags) and texts[-1] in _LAST:
        return None
    side = _side(tags[:end], texts, sheet, held)
    return Turn(side, 0, end) if side is not None else None


def _side(tags: Sequence[Tag], texts: Sequence[str], sheet: Sheet, held: Hand | None) -> str | None:
    """The side that *tags* of going and of place tell."""
    said: list[str] = []
    maybe: list[str] = []  # "right" may be a word of talk
    other: Tag | None = None
    for tag in tags:
        if _is_place(tag):
            (said if tag.kind == "MOD" else maybe).extend(tag.meaning.positions)
        elif "OTHER" in tag.tags:
            other = tag
    if other is not None:
        noun = texts[other.end] if other.end < len(texts) else ""
        return _other(said, noun, sheet, held)
    if not said:
        return None
    return (_whole([*said, *maybe], sheet) if maybe else None) or _whole(said, sheet)


def _begins_anew(tags: Sequence[Tag], texts: Sequence[str], end: int) -> bool:
    """ "back over to the other side | new hose", "up front | old hoses off": a noun begins behind a place."""
    if (
        not end
        or texts[tags[end - 1].end - 1] not in _NOUNS | _ENDS
        or GOES.isdisjoint(texts[: tags[end].start])
    ):
        return False
    idiom = texts[tags[end - 1].end - 1] in _NOUNS or texts[tags[end - 1].start - 1] in {"up", "over"}
    tag = tags[end]
    return idiom and (tag.kind == "PART" or bool(tag.tags & {"NEW", "OLD", "DET"}))


def _resumed_at(tags: Sequence[Tag], texts: Sequence[str]) -> int:
    """ "where were we, mag side | you do this one": index behind the place that one comes back to, else 0."""
    at = texts.index("where") if "where" in texts else len(texts)
    if tuple(texts[at + 1 : at + 3]) not in _RESUMED:
        return 0
    places = [i for i, tag in enumerate(tags) if _is_place(tag) and tag.start > at]
    end = places[0] + 1 if places else 0
    return end + (end < len(tags) and texts[tags[end].start] in _NOUNS | {"one"}) if end else 0


def _is_place(tag: Tag) -> bool:
    places = tag.meaning.positions
    return len(places) == 1 and not places[0].isdigit() and tag.kind in {"MOD", "WORD"}


def _goes(texts: Sequence[str]) -> bool:
    """True for a word of going, "the other rear", "where were we, right front"."""
    if "other" in texts or not GOES.isdisjoint(texts):
        return True
    at = texts.index("where") if "where" in texts else len(texts)
    return tuple(texts[at + 1 : at + 3]) in _RESUMED


def _only_goes(tag: Tag, texts: Sequence[str]) -> bool:
    """True for a place, for a word of going, and for one that says nothing."""
    if _is_place(tag) or tag.tags & {"OTHER", "STAGE"}:
        return True
    if tag.kind in {"PART", "CHAR", "MEASURE", "COND", "ACT", "MARK", "ON"} or tag.tags & _SAYS:
        return False
    known = _PLAIN.issuperset(texts[tag.start : tag.end])
    return known or "FILLER" in tag.tags or tag.kind == "BREAK" or "DET" in tag.tags


def _is_asked(texts: Sequence[str]) -> bool:
    """ "shall we do the left first"."""
    return texts[0] in _ASKING and texts[1] in _PEOPLE


def _whole(said: Sequence[str], sheet: Sheet) -> str | None:
    """The one place of all that was *said*: "front" and "left" are the front left."""
    words = {word for one in said for word in one.split()}
    if len(set(said)) == 1:
        return said[0] if any(has_side(c, said[0]) for c in sheet.component) else None
    found = {p for c in sheet.component for p in c.stations if set(p.split()) == words}
    return found.pop() if len(found) == 1 else None


def _other(said: Sequence[str], noun: str, sheet: Sheet, held: Hand | None) -> str | None:
    """The other side of the one in hand; where a place is said too, that one, or the other one there."""
    here = (held.side or side_of(sheet, held.which)) if held is not None else None
    told = _whole(said, sheet)
    if told is None:
        if said or here is None or (noun not in _NOUNS and not is_one_there(sheet, held, here)):
            return None  # "now the other one": the outer pad of the side
        return other_side(sheet, here, noun if noun in {"side", "end"} else "side")
    if here is None or told == here:
        return None if told == here else told
    words = set(told.split())
    there = {p for c in sheet.component for p in c.stations if words < set(p.split())}
    if not words < set(here.split()):
        return told if not there else None
    there = {p for p in there if len(p.split()) == len(here.split())} - {here}
    return there.pop() if len(there) == 1 else None
