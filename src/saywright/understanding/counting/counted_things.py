"""Numbers that tell how many of what is no part, or stays: "two cracks", "one to go"; "a couple of seals"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from saywright.understanding.bench_words import FASTENERS, SIZE_WORDS
from saywright.understanding.meanings import Meaning
from saywright.understanding.numbers.words import ORDINALS, TO_TWELVE
from saywright.understanding.tags import Tag

_STILL_TO_MOVE = frozenset({("to", "go"), ("to", "come"), ("to", "do"), ("more", "to"), ("still", "to")})
_ORDINALS = tuple(ORDINALS)[:8]
_FEW = frozenset({("two",), ("three",), ("four",)})
_THEM = frozenset({"those", "these"})
_TELLS = frozenset({"AUX", "WORD", "ACT", "COND", "OFF", "ON"})
SAYS_NOTHING = Meaning(tags=frozenset({"FILLER"}))


def couple(tag: Tag, after: Sequence[Tag]) -> int | None:
    """Two, for "a couple of" before a part in the plural; None for all else."""
    if not _hedged_couple(tag) or not after:
        return None
    after = after[1:] if "DET" in after[0].tags and len(after) > 1 else after
    return 2 if after[0].kind == "PART" and after[0].meaning.many else None


def _hedged_couple(tag: Tag) -> bool:
    return tag.measure is not None and "couple" in (tag.measure.hedge or "").split()


def counts_no_part(
    tag: Tag, after: Sequence[Tag], before: Sequence[Tag], texts: Sequence[str], count: int | None
) -> bool:
    """ "two cracks", "on two links": of what; "screws first": in what order; "one to go": how many stay."""
    if "ORD" in tag.tags and tag.kind == "MOD" and tuple(texts[tag.start : tag.end]) == ("first",):
        return bool(before) and before[-1].kind == "PART" and (not after or after[0].kind == "BREAK")
    if count is not None and tag.measure is not None and _are_left(after, before, texts[tag.end :]):
        return True
    if count is not None and tag.measure is not None and _of_what_is_no_part(after, texts):
        return True
    if not after or (count is None and not _hedged_couple(tag)) or texts[tag.start] == "one":
        return False
    few = _hedged_couple(tag) and "DET" in after[0].tags and len(after) > 1
    if few:
        after = after[1:]  # "couple of the vanes are chipped"
    noun = texts[after[0].end - 1]
    if not noun.endswith("s") or noun.endswith("ss"):
        return False
    if after[0].kind == "COND" or (few and after[0].kind == "WORD" and not after[0].tags):
        return True
    behind_preposition = bool(before) and before[-1].kind == "LINK" and "PREP" in before[-1].tags
    return behind_preposition and after[0].kind == "WORD" and not after[0].tags and noun.isalpha()


def _of_what_is_no_part(after: Sequence[Tag], texts: Sequence[str]) -> bool:
    """ "corrosion on two of its vanes": of a noun in the plural that nothing here knows."""
    if len(after) < len(("of", "its", "vanes")) or texts[after[0].start] != "of":
        return False
    noun = texts[after[2].end - 1]
    owned = texts[after[0].end - 1 : after[1].end] in {("of", "its"), ("of", "the"), ("of", "their")}
    return owned and after[2].kind == "WORD" and noun.endswith("s") and not noun.endswith("ss")


def counted_them(tags: Sequence[Tag], texts: Sequence[str]) -> list[Tag]:
    """ "so those two can stay", "these three are fine": the tags, with how many are pointed at in one."""
    out = list(tags)
    if _THEM.isdisjoint(texts):
        return out
    for at in range(len(out) - 2, 0, -1):
        them, few = out[at - 1], out[at]
        pointed = them.kind == "PRON" and them.end - them.start == 1 and texts[them.start] in _THEM
        counted = few.kind == "MEASURE" and texts[few.start : few.end] in _FEW
        if pointed and counted and out[at + 1].kind in _TELLS:
            out[at - 1 : at + 1] = [replace(them, end=few.end, count=TO_TWELVE.index(texts[few.start]) + 1)]
    return out


def order(last: str, first: str) -> int | None:
    """Which one "second" or "number two" is; None for none."""
    for words in (_ORDINALS, TO_TWELVE):
        for word in (first, last):
            if word in words:
                return words.index(word) + 1
    return None


def _are_left(after: Sequence[Tag], before: Sequence[Tag], behind: Sequence[str]) -> bool:
    """ "three out, one left": behind a movement, as many as have not moved yet."""
    if not behind or not any(tag.kind in {"OFF", "ON"} for tag in before):
        return False
    left = behind[0] in {"left", "remaining"} and not after[0].meaning.positions
    return left or tuple(behind[:2]) in _STILL_TO_MOVE


_ARE = frozenset({"are", "were", "have", "had"})  # behind "the first two"


def some_are_so(behind: Sequence[Tag], before: Sequence[Tag], texts: Sequence[str]) -> bool:
    """ "thirty eight teeth, two of them chipped", "all six out, two are rusty", "bolts out, two rusty"."""
    if [t.kind for t in behind] == ["LINK", "PRON"] and "OF" in behind[0].tags:
        return True
    first = bool(before) and "ORD" in before[-1].tags and texts[behind[0].start] in _ARE if behind else False
    if [t.kind for t in behind] == ["AUX", "COND"] and (first or texts[behind[0].start] == "are"):
        return not (before and "AND" in before[-1].tags)  # not "one and two are"
    moved = [t.kind for t in before[-2:]] == ["PART", "OFF"]
    return moved and bool(behind) and behind[0].kind == "COND" and texts[before[-2].end - 1] in FASTENERS


def of_an_age(words: Sequence[str]) -> bool:
    """ "a new rubber and one old one"."""
    return tuple(words) in {("one", "old", "one"), ("one", "new", "one")}


def one_of(queue: Sequence[Tag], at: int, texts: Sequence[str]) -> bool:
    """ "one of the screws"."""
    said = texts[queue[at].start : queue[at].end]
    return said == ("one",) and at + 1 < len(queue) and "OF" in queue[at + 1].tags


def goes_on(tag: Tag, before: Tag, texts: Sequence[str]) -> bool:
    """ "four little screws", "two of the screws": it belongs to what stands before the noun."""
    if tag.kind == "WORD":
        return before.count is not None and texts[tag.start] in SIZE_WORDS
    return tag.kind == "LINK" and "OF" in tag.tags and before.kind == "MOD" and _takes_of(before)


def _takes_of(tag: Tag) -> bool:
    """ "two of the screws", "both of the pads"."""
    return (
        tag.count is not None
        or tag.order is not None
        or bool(tag.tags & {"BOTH", "ALL", "LAST", "OTHER", "REST"})
    )


def is_single(queue: Sequence[Tag], at: int, before: Sequence[Tag], texts: Sequence[str]) -> bool:
    """ "the leading one came out": behind a position, and more is said of it."""
    if texts[queue[at].start : queue[at].end] != ("one",) or not before:
        return False
    if _are_counted(before) and queue[at + 1 : at + 2] and queue[at + 1].kind == "COND":
        return True  # "four screws one chewed"
    if before[-1].kind != "MOD":
        return False
    behind = queue[at + 1].kind if at + 1 < len(queue) else "BREAK"
    return bool(before[-1].meaning.positions) and behind not in {"BREAK", "MEASURE", "CHAR"}


def _are_counted(before: Sequence[Tag]) -> bool:
    """ "four screws": so many of them."""
    counted = len(before) > 1 and before[-2].kind == "MOD" and (before[-2].count or 0) > 1
    return counted and before[-1].kind == "PART" and before[-1].meaning.many
