"""Single ones told by number: "number two point five three", "spring one is an inch"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from saywright.understanding.lexicon import Lexicon
from saywright.understanding.meanings import Meaning
from saywright.understanding.numbers.words import CARDINALS
from saywright.understanding.quantities.measures import find_measures
from saywright.understanding.subjects.shares_of_all import join_shares
from saywright.understanding.tags import Tag
from saywright.understanding.values.fitting import PRONOUN

_IS = frozenset({"is", "was", "has"})
NUMBERED = frozenset({"one", "number", "of", "couple"})


def told_by_number(tags: Sequence[Tag], texts: Sequence[str], lexicon: Lexicon) -> tuple[Tag, ...]:
    """The same tags, with numbers that tell which of several as what they are."""
    if "one" not in texts and "number" not in texts:
        return join_shares(tags, texts)
    out: list[Tag] = []
    for index, tag in enumerate(tags):
        after = tags[index + 1 : index + 2]
        if _numbered_one(tag, after, out, texts, lexicon):
            out[-1] = replace(out[-1], end=tag.end, order=1)
            continue
        which = _behind_number(tag, after, out, texts, lexicon)
        if which and out[-1].kind == "CHAR":
            out[-1] = replace(out[-1], kind="WORD", meaning=Meaning())
        first, *rest = which or (tag,)
        if _goes_with_number(first, out, texts):
            first = replace(first, start=out.pop().start)  # "in number two forty five oh three"
        out += (first, *rest)
    return join_shares(out, texts)


def _goes_with_number(tag: Tag, before: Sequence[Tag], texts: Sequence[str]) -> bool:
    """True for which one it is behind the word "number"."""
    which = tag.kind == "MOD" and (tag.order or tag.meaning.positions)
    return bool(which and before) and texts[before[-1].start : before[-1].end] == ("number",)


def _numbered_one(
    tag: Tag, after: Sequence[Tag], before: Sequence[Tag], texts: Sequence[str], lexicon: Lexicon
) -> bool:
    """ "spring one is an inch", "carb one bowl off": the first of several that are told by number."""
    if texts[tag.start : tag.end] != ("one",) or not before or before[-1].kind != "PART":
        return False
    part = before[-1]
    named = [lexicon.sheet.get(c) for c in part.meaning.parts]
    several = [c for c in named if c is not None and c.count > 1 and not c.positions]
    plain = bool(several) and not part.meaning.many and part.order is None
    if plain and after and after[0].kind == "PART" and not after[0].meaning.many:
        held = map(lexicon.sheet.get, after[0].meaning.parts)
        return all(c is not None and "1" in c.whiches and c.id not in part.meaning.parts for c in held)
    return plain and bool(after) and ("COP" in after[0].tags or texts[after[0].start] in _IS)


def _behind_number(
    tag: Tag, after: Sequence[Tag], before: Sequence[Tag], texts: Sequence[str], lexicon: Lexicon
) -> tuple[Tag, ...]:
    """ "number two point five three": number two of several, and the value; () where it is neither."""
    word = texts[tag.start]
    if tag.measure is None or word not in CARDINALS or not before:
        return ()
    if texts[before[-1].start : before[-1].end] != ("number",):
        return ()
    if before[-1].kind not in {"WORD", "MOD"} and not _of_a_counted_part(before, lexicon):
        return ()
    order = CARDINALS.index(word) + 1
    if not any(c.count >= order and c.count > 1 and not c.positions for c in lexicon.sheet.component):
        return ()
    which = Tag("MOD", tag.start, tag.start + 1, Meaning(), order=order)
    if tag.end - tag.start == 1:
        goes_on = bool(after) and (after[0].kind in {"WORD", "AUX"} or "READS" in after[0].tags)
        return (which,) if goes_on else ()
    rest = find_measures(tuple(texts[tag.start + 1 : tag.end]), lexicon.units)
    if not rest or (rest[0].start, rest[0].end) != (0, tag.end - tag.start - 1):
        return ()
    behind = [replace(r, flags=(*r.flags, PRONOUN)) for r in rest[0].readings[:1]]
    whole = [r for r in tag.measure.readings[:1] if r.value != rest[0].readings[0].value]
    measure = replace(rest[0], start=tag.start + 1, end=tag.end, readings=(*behind, *whole))
    return which, replace(tag, start=tag.start + 1, measure=measure)


def _of_a_counted_part(before: Sequence[Tag], lexicon: Lexicon) -> bool:
    """ "bowl screws two point six, number three …", where the number of a jet is read: which screw it is."""
    named = [tag for tag in before[:-1] if tag.kind == "PART"]
    parts = [lexicon.sheet.get(c) for c in (named[-1].meaning.parts if named else ())]
    return any(part is not None and part.count > 1 and not part.positions for part in parts)
