""" "Front nozzle's new rear one's old": what ends one saying and begins the next, without the comma."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from saywright.sheets.model import Sheet
from saywright.understanding.phrases import Phrase
from saywright.understanding.subjects.both_of_two import both_of_two
from saywright.understanding.subjects.nouns_left_out import nouns_put_in
from saywright.understanding.subjects.part_picks import are_renewed
from saywright.understanding.tags import AGES

_ALL = frozenset({"BOTH", "ALL"})


def ages_apart(found: Sequence[Phrase], texts: Sequence[str], sheet: Sheet) -> Sequence[Phrase]:
    """The same phrases, a "new" that ends what was said before it as a phrase of its own."""
    found = both_of_two(found) if "both" in texts else found
    found = nouns_put_in(sides_apart(found, texts), texts, sheet)
    out: list[Phrase] = []
    trailing = _ages_trailing(found)
    for at, phrase in enumerate(found):
        if not phrase.lead:
            out.append(phrase)
            continue
        counts = _all_moved(found, at, sheet) or _pair_of_them(found, at, texts)
        renewed = _new_row_ends(found, at, sheet)
        row = at in trailing or _row_is_new(found, at) or _two_ages(found, at)
        if not (counts or renewed or row or _ends_before(found, at, texts)):
            out.append(phrase)
            continue
        both = phrase.lead[1:] and (phrase.lead[1].tags | phrase.lead[0].tags) & _ALL and at not in trailing
        cut = len(phrase.lead) if counts else 2 if both else 1
        first, rest = phrase.lead[:cut], phrase.lead[cut:]
        begins = rest[0].start if rest else phrase.head.start if phrase.head is not None else phrase.end
        out.append(Phrase("lead", phrase.start, first[-1].end, None, first))
        out.append(replace(phrase, start=begins, lead=rest))
    return out


def sides_apart(found: Sequence[Phrase], texts: Sequence[str]) -> Sequence[Phrase]:
    """ "seals both sides drum on": behind a part "both sides" is of that, and the next part begins."""
    if "sides" not in texts:
        return found
    out: list[Phrase] = []
    for phrase in found:
        ends = phrase.lead[0].end if phrase.lead else 0
        behind = bool(out) and out[-1].kind == "subject" and out[-1].end == phrase.start
        if behind and ends and phrase.kind == "subject" and texts[ends - 1] == "sides":
            first, rest = phrase.lead[:1], phrase.lead[1:]
            begins = rest[0].start if rest else phrase.head.start if phrase.head is not None else phrase.end
            out.append(Phrase("lead", phrase.start, ends, None, first))
            out.append(replace(phrase, start=begins, lead=rest))
        else:
            out.append(phrase)
    return out


def _ages_trailing(found: Sequence[Phrase]) -> frozenset[int]:
    """ "shoes new springs old drum new": each age stands behind its part; which phrases begin with one."""
    last = next((i for i, p in enumerate(found) if _is_age(p) and i and found[i - 1].end == p.start), 0)
    first = last
    while first and found[first - 1].end == found[first].start and found[first - 1].kind == "subject":
        first -= 1
        if not _begins_aged(found[first]):
            break
    row = range(first + 1, last)
    named = found[first].meaning.parts or found[first].meaning.aliases
    plain = last - first > 1 and bool(named) and found[first].lead_tags.isdisjoint(AGES)
    ends = last + 1 == len(found) or found[last + 1].kind in {"break", "mark"}
    return frozenset(row) if plain and ends and all(_begins_aged(found[i]) for i in row) else frozenset()


def _is_age(phrase: Phrase) -> bool:
    return phrase.kind == "lead" and all(tag.tags & AGES for tag in phrase.lead)


def _begins_aged(phrase: Phrase) -> bool:
    """ "old springs", without an article: the age may be of what stands before it."""
    return (
        phrase.kind == "subject"
        and bool(phrase.lead)
        and bool(phrase.lead[0].tags & AGES)
        and phrase.lead[0].tags.isdisjoint({"DET"})
    )


def _row_is_new(found: Sequence[Phrase], at: int) -> bool:
    """ "front cup rear cup both new piston back in": the two are new, and of the piston there is one.

    So they are where the next has its own age behind it: "cylinders both new, nipples old ones".
    """
    phrase = found[at]
    if not at or phrase.kind != "subject" or len(phrase.lead) < 2:
        return False
    first, second = phrase.lead[:2]
    before, behind = found[at - 1], found[at + 1] if at + 1 < len(found) else None
    if (
        not (first.tags & _ALL and second.tags & AGES)
        or before.kind != "subject"
        or before.end != phrase.start
    ):
        return False
    own = behind is not None and behind.start == phrase.end and not behind.lead_tags.isdisjoint(AGES)
    breaks = [p.kind for p in found[at + 1 : at + 3]] == ["break", "break"]  # "three old ones" is taken out
    return own or breaks or not phrase.meaning.many


def _two_ages(found: Sequence[Phrase], at: int) -> bool:
    """ "shoes new old springs": the first age is of the shoes."""
    phrase = found[at]
    ages = [tag for tag in phrase.lead[:2] if tag.tags & AGES]
    if len(ages) < 2 or not at or "DET" in ages[0].tags or phrase.kind != "subject":
        return False
    return found[at - 1].end == phrase.start and bool(phrase.meaning.parts or phrase.meaning.aliases)


def _all_moved(found: Sequence[Phrase], at: int, sheet: Sheet) -> bool:
    """ "pump bolts out all four pump off": how many bolts; there is one pump, or there are not so many."""
    phrase, before = found[at], found[at - 1] if at else None
    if before is None or before.kind not in {"off", "on"} or before.end != phrase.start:
        return False
    counted = len(phrase.lead) == 2 and phrase.lead[0].tags & _ALL and phrase.lead[1].count is not None
    if not counted or phrase.kind != "subject" or not phrase.meaning.parts:
        return False
    parts = [part for part in map(sheet.get, phrase.meaning.parts) if part is not None]
    most = max((max(part.count, len(part.positions)) for part in parts), default=1)
    return not phrase.meaning.many or (phrase.lead[1].count or 0) > most


def _pair_of_them(found: Sequence[Phrase], at: int, texts: Sequence[str]) -> bool:
    """ "springs off the pair of them, pins too": how many springs, and the pins are the next."""
    phrase, before = found[at], found[at - 1] if at else None
    if before is None or before.kind not in {"off", "on"} or before.end != phrase.start or not phrase.lead:
        return False
    end = phrase.lead[-1].end
    return phrase.kind == "subject" and tuple(texts[end - 2 : end]) == ("of", "them")


def _new_row_ends(found: Sequence[Phrase], at: int, sheet: Sheet) -> bool:
    """ "gasket and diaphragm new pump cover on": the gasket and the diaphragm are renewed, a cover is not."""
    phrase, before = found[at], found[at - 1] if at else None
    moved = at + 1 < len(found) and found[at + 1].kind == "on" and len(phrase.lead) == 1
    if before is None or not moved or not phrase.lead[0].tags & {"NEW"} or phrase.lead[0].tags & {"DET"}:
        return False
    if before.kind != "subject" or before.end != phrase.start or before.lead:
        return False
    return are_renewed(sheet, before.meaning.parts) and not are_renewed(sheet, phrase.meaning.parts)


def _is_so(found: Sequence[Phrase], at: int, texts: Sequence[str]) -> bool:
    """ "packing's new nut's snugged down": the packing is new, and of the nut something else is said."""
    phrase = found[at]
    if at < 2 or at + 1 >= len(found) or phrase.kind != "subject":
        return False
    if len(phrase.lead) != 1 and not (len(phrase.lead) == 2 and phrase.lead[0].tags & _ALL):
        return False
    before, told = found[at - 1], found[at - 2]
    if "NEW" not in phrase.lead_tags or "DET" in phrase.lead_tags or told.kind != "subject":
        return False
    is_so = texts[before.start : before.end] in {("is",), ("are",)} and before.end == phrase.start
    return is_so and texts[found[at + 1].start] in {"is", "are"}


def _ends_before(found: Sequence[Phrase], at: int, texts: Sequence[str]) -> bool:
    """True for a part, "is", then "new" and a position, of which something is said in turn."""
    phrase = found[at]
    if _is_so(found, at, texts):
        return True
    if not at or phrase.kind != "subject" or len(phrase.lead) < 2:
        return False
    first, second = phrase.lead[:2]
    if at + 1 >= len(found) and not (second.tags & _ALL and len(phrase.lead) > 2):
        return False  # "… new both of them new spring" ends so
    if first.tags & AGES and second.tags & _ALL:  # "body o rings new both cover on"
        before = found[at - 1]
        return before.kind == "subject" and before.end == phrase.start and before.meaning.many
    if not first.tags & AGES or first.tags & {"DET"} or not second.meaning.positions:
        return False
    if texts[found[at + 1].start] not in {"is", "are"}:
        return False
    before = found[at - 1]
    if before.kind == "subject":  # "front disc new rear one's the old one"
        return before.end == phrase.start and any(tag.meaning.positions for tag in before.lead)
    is_so = texts[before.start : before.end] in {("is",), ("are",)}
    return is_so and at > 1 and found[at - 2].kind == "subject"
