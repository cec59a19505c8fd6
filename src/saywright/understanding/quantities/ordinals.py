""" "The clip's in the third groove": an ordinal is the value of what is told by a position.

Where no such characteristic was named, the noun behind the ordinal is a place on the part, no damage.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from saywright.understanding.counting.counted_things import SAYS_NOTHING
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.meanings import NOTHING
from saywright.understanding.numbers.words import CARDINALS
from saywright.understanding.quantities.measures import find_measures
from saywright.understanding.second_thoughts.words import turns
from saywright.understanding.tags import Tag
from saywright.understanding.wordforms import is_past

ORDINALS = frozenset({"first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth"})
_FROM = frozenset({"from", "down", "up"})  # "third from the top", "second down"
_GOES_ON = frozenset({"on", "and", "so", "too", "now", "but", "as"})  # "in the fourth on this one"
_LEADS_POSITION = frozenset({"the", "in"})
_LEAD_KINDS = frozenset({"LINK", "MOD", "PRON", "AUX", "ONE", "BREAK"})
_FROM_REACH = 4  # tokens behind an ordinal that tell from where it is counted
_NUMBERS = frozenset((said,) for said in (*CARDINALS, *"12345678"))


def ordinals_as_values(tags: Sequence[Tag], texts: Sequence[str], lexicon: Lexicon) -> tuple[Tag, ...]:
    """The same tags, an ordinal and the noun behind it as one value, or the noun as no finding."""
    if not [tag for tag in tags if tag.kind == "COND" or "ORD" in tag.meaning.tags]:
        return tuple(tags)
    out: list[Tag] = []
    for at, said in enumerate(tags):
        before = out[-1] if out and out[-1].kind == "MOD" else None
        if before is not None and _is_position(before, said, out, texts, lexicon):
            goes_on = said.kind == "CHAR" and _awaits_position(out, lexicon)  # "clip in the third groove"
            end = said.end if goes_on else before.end
            out[-1] = _as_measure(before, end, texts, lexicon)
            out += () if goes_on else (said,)
            continue
        numbered = said.kind == "COND" and _is_numbered(said, tags[at + 1 : at + 2], texts)
        tag = replace(said, kind="WORD", meaning=SAYS_NOTHING) if numbered else said
        if before is None or not _numbers_place(before, tag, texts):
            out.append(tag)
            continue
        order = before.order
        if order is None or not 1 <= order <= len(CARDINALS) or not _awaits_position(out, lexicon):
            out.append(replace(tag, kind="WORD", meaning=SAYS_NOTHING))
            continue
        out[-1] = _as_measure(before, tag.end, texts, lexicon)
        if any(later.kind == "MEASURE" for later in tags[at + 1 : at + 2]):
            out[-1:] = [before, tag]  # "third groove four": the number is told by itself
    if out and out[-1].kind == "MOD" and _is_position(out[-1], None, out[:-1], texts, lexicon):
        out[-1] = _as_measure(out[-1], out[-1].end, texts, lexicon)
    return tuple(out)


def _as_measure(ordinal: Tag, end: int, texts: Sequence[str], lexicon: Lexicon) -> Tag:
    """The number of *ordinal* as a value; counted from the bottom it asks."""
    read = find_measures((CARDINALS[(ordinal.order or 1) - 1],), lexicon.units)[0]
    odd = ("odd",) if "bottom" in texts[end : end + _FROM_REACH] else ()
    measure = replace(read, start=ordinal.start, end=end, flags=(*read.flags, *odd))
    return Tag("MEASURE", ordinal.start, end, NOTHING, measure)


def _is_position(
    ordinal: Tag, after: Tag | None, before: Sequence[Tag], texts: Sequence[str], lexicon: Lexicon
) -> bool:
    """ "third groove", where the sheet reads a groove; "clip's third", of nothing else."""
    if ordinal.kind != "MOD" or ordinal.order is None or not 1 <= ordinal.order <= len(CARDINALS):
        return False
    if "ORD" not in ordinal.tags or ordinal.end - ordinal.start > 1:
        return False
    if after is not None and after.kind == "CHAR":
        return after.start == ordinal.end and _is_counted(after, lexicon) and not _goes_on(texts, after)
    plain = after is None or after.kind == "BREAK" or texts[after.start] in _FROM | _GOES_ON
    return plain and _awaits_position(before, lexicon)


def _goes_on(texts: Sequence[str], noun: Tag) -> bool:
    """ "third groove four", "the first groove is worn": the number is told by itself, or none is read."""
    following = texts[noun.end] if noun.end < len(texts) else ""
    return (following,) in _NUMBERS or following in {"is", "has", "was", "looks"}


def _is_counted(char: Tag, lexicon: Lexicon) -> bool:
    found = [lexicon.sheet.find(*key) for key in char.meaning.characteristics]
    return any(c is not None and c.unit == "1" for c in found)


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
            return _is_counted(tag, lexicon)
    return False


def positions_taken_back(
    tags: tuple[Tag, ...], texts: Sequence[str], lexicon: Lexicon, *, held: bool, turned: bool
) -> tuple[Tag, ...]:
    """ "no, that's third, one two three, yeah, third": the ordinal that ends a change of mind is the value.

    *held*: what was read last is told by a position; *turned*: the talk before took it back. A number
    counted up to it, or that tells how far it is from the one before ("one richer, fourth"), is none.
    """
    tags = tuple(_no_gauge(tag, texts) for tag in tags)
    turn = next((at for at, tag in enumerate(tags) if "MAKE_THAT" in tag.tags), None)
    said, behind = (tags[:-1], tags[-1:]) if _is_counted_aloud(tags[-2:], texts) else (tags, ())
    last = said[-1] if said else None
    if last is None or last.kind != "MOD" or last.order is None or "ORD" not in last.tags:
        return tags
    known = any(tag.kind == "CHAR" and _is_counted(tag, lexicon) for tag in said[:turn])
    known = known or any(tag.kind == "MEASURE" and texts[tag.start] in ORDINALS for tag in said[:turn])
    denied = texts[last.start - 1 : last.start] in {("no",), ("nope",), ("nah",)}
    turned = turned or denied or turn is not None or turns(texts, 0, last.start)
    if not turned or not (held or known) or not 1 <= last.order <= len(CARDINALS):
        return tags
    begin = turn if turn is not None else 0
    kept = [_plain(tag, texts, last.order) if at > begin else tag for at, tag in enumerate(said[:-1])]
    value = _as_measure(last, last.end, texts, lexicon)
    return (*kept, value, *(_plain(tag, texts, last.order) for tag in behind))


def position_of_other(tags: tuple[Tag, ...], texts: Sequence[str], lexicon: Lexicon) -> tuple[Tag, ...]:
    """Behind "left clip's in the third": "on the right it's the second", "right one's in the second"."""
    last = tags[-1] if len(tags) > 1 else None
    if last is None or last.kind != "MOD" or last.order is None or "ORD" not in last.tags:
        return tags
    others = tags[:-1]
    placed = any("POS" in tag.tags and tag.meaning.positions for tag in others)
    told = _LEADS_POSITION.issuperset(texts[last.start - 1 : last.start])
    bare = all(tag.kind in _LEAD_KINDS or texts[tag.end - 1] in {"in", "on"} for tag in others)
    if not (placed and told and bare) or not 1 <= last.order <= len(CARDINALS):
        return tags
    return (*others, _as_measure(last, last.end, texts, lexicon))


def _is_counted_aloud(tags: Sequence[Tag], texts: Sequence[str]) -> bool:
    """ "third, one two three"."""
    if len(tags) < 2 or tags[0].order is None or tags[1].kind != "MEASURE":
        return False
    return tuple(texts[tags[1].start : tags[1].end]) == CARDINALS[: tags[0].order]


def _no_gauge(tag: Tag, texts: Sequence[str]) -> Tag:
    """ "no, go one richer": a change of mind, where no gauge does not go."""
    step = texts[tag.end + 1] if tag.end + 1 < len(texts) else ""
    if tag.kind == "MARK" and tuple(texts[tag.start : tag.end]) == ("no", "go") and step.endswith("er"):
        return replace(tag, meaning=replace(tag.meaning, tags=frozenset({"MAKE_THAT"})))
    return tag


def _plain(tag: Tag, texts: Sequence[str], order: int) -> Tag:
    """The tag without its number, where that is no value: counted aloud, a step, the same ordinal before."""
    said = tuple(texts[tag.start : tag.end])
    after = texts[tag.end] if tag.end < len(texts) else ""
    counted = tag.kind == "MEASURE" and said == CARDINALS[:order]
    step = tag.kind == "MEASURE" and len(said) == 1 and (after.endswith("er") or after in {"up", "down"})
    if counted or step or (tag.kind == "MOD" and tag.order is not None and "ORD" in tag.tags):
        return replace(tag, kind="WORD", meaning=SAYS_NOTHING, measure=None)
    return tag
