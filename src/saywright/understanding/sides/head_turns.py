"""A turn at the head, with what is done there behind it: "other carb top cap off", "last one bowl off"."""

from __future__ import annotations

from collections.abc import Sequence

from saywright.understanding.bench_words import NO_NAME, PLAIN
from saywright.understanding.sides.going_words import KIND_OF
from saywright.understanding.sides.place_meant import side_meant
from saywright.understanding.sides.turn_signs import is_noun, signs_of
from saywright.understanding.sides.turning import count_on, has_side
from saywright.understanding.sides.turns import Turn
from saywright.understanding.sides.whole_turns import TARGETS, Going, came_off
from saywright.understanding.tags import Tag
from saywright.understanding.working import Working

_LONGEST = 10  # tags before the part
_NO_SIDE = NO_NAME | PLAIN | {"thing", "things", "job", "minute", "second", "day"}


def head_turn(tags: Sequence[Tag], work: Working) -> Turn | None:
    """The turn that the words before the first part tell, where they tell nothing else.

    A side told by its name alone is not read here, but one that is left for another is.
    """
    first = next((at for at, tag in enumerate(tags[:_LONGEST]) if tag.kind == "PART"), 0)
    end = first
    while end and _describes(tags[end - 1]):
        end -= 1
    if any(tag.kind == "OFF" and came_off(tags[: at + 1]) for at, tag in enumerate(tags[:end])):
        return None  # "the other one comes out with its ring"
    signs = signs_of(tags[:end], work) if end and first + 1 < len(tags) else None
    if not signs:
        return None
    said = [sign for sign in signs if sign.kind != "."]
    kinds = "".join([sign.kind for sign in said])
    targets = [at for at, kind in enumerate(kinds) if kind in TARGETS]
    if targets and kinds[targets[-1]] != "X" and len(targets) < 2:
        return None
    going = Going(said, kinds, work, work.texts[: tags[end].start])
    if kinds in {"X", "XU"}:
        told = kinds == "XU" or _is_told_there(said[0].side, tags[first : first + 2], work)
        side = going.resolved(0, going.held) if told else None
        if told and side is None and kinds == "X" and going.held is not None:
            side = side_meant(said[0].word, "side", going.held, work)  # "other caliper": there is one on each
    else:
        side = going.side(targets)
    if side is None or side.startswith("-") or not _all_there(tags[first], side, work):
        return None
    return Turn(side, 0, end, leaves=not side)


def _describes(tag: Tag) -> bool:
    """True for "the", "new", before a part."""
    plain = tag.tags.isdisjoint({"OTHER", "LAST", "ORD", "NEG"})
    return tag.kind == "MOD" and not tag.meaning.positions and plain


def _is_told_there(noun: str, behind: Sequence[Tag], work: Working) -> bool:
    """ "other carb top cap off", "other one slide's worn"; not "the other needle's bent", in passing."""
    if noun == "one":
        return True
    hand, meaning = work.hand, behind[0].meaning
    again = hand is not None and hand.component in {*meaning.parts, *meaning.aliases}
    return not again and (behind[1].kind in {"PART", "OFF", "ON"} or _is_noun(behind[1], work))


def _is_noun(tag: Tag, work: Working) -> bool:
    """ "other caliper, air on"; not "last float I bought"."""
    return is_noun(tag, work.texts[tag.start]) and len(work.texts[tag.start]) > 1


def _all_there(tag: Tag, side: str, work: Working) -> bool:
    """True where one of the part is on *side*."""
    parts = [work.sheet.get(c) for c in (*tag.meaning.parts, *tag.meaning.aliases)]
    if not side:
        return all(part is not None and bool(part.stations) for part in parts)
    return all(
        part is not None and has_side(part, side) and (side in part.stations or count_on(part, side) == 1)
        for part in parts
    )


def may_be_side(tags: Sequence[Tag], texts: Sequence[str]) -> bool:
    """ "now the lift side", "over to the …": a word not made out, or none, where a side would stand."""
    last = tags[-1]
    if "DET" in last.tags or texts[last.end - 1] in {"the", "side", "end"}:
        return True
    strange = (tag for tag in tags if tag.kind == "WORD" and not tag.tags)
    return any(texts[tag.start] not in _NO_SIDE and texts[tag.start] not in KIND_OF for tag in strange)
