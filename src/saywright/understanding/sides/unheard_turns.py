"""Turns to a side by talk of what the sheet does not know: "front wheel out", "round to the chain end"."""

from __future__ import annotations

from collections.abc import Sequence

from saywright.understanding.bench_words import NO_NAME, PLAIN
from saywright.understanding.counting.counts import small_count
from saywright.understanding.facts import Told
from saywright.understanding.sides.side_turns import NOT_SAID
from saywright.understanding.sides.turning import FEW_PARTS, has_side, other_side, the_side
from saywright.understanding.statements import Movement, Remark
from saywright.understanding.tags import Tag
from saywright.understanding.working import Working

_SHORTEST = 4  # letters of a noun that was not made out
_TURN_TAGS = 3  # a side, a noun and what is told of it
_TURNED = frozenset({"flip", "spin", "turn", "roll", "swing", "flipped", "turned", "spun", "swung", "rolled"})
_OVER = frozenset({"over", "round", "around"})
_THING = frozenset({"it", "her", "him", "them", "this", "that", "the", "whole", "lot", "unit", "thing"})
_ONTO = frozenset({("round", "to"), ("around", "to"), ("over", "to"), ("across", "to"), ("on", "to")})
_ENDS = frozenset({"end", "side"})


def unheard_side(told: Told, work: Working, tags: Sequence[Tag], *, placed: bool) -> str | None:
    """The side that the talk turns to; "" where the one worked on goes on no further; None for neither.

    Most of it is told by a side that is named (*placed*).
    """
    if len(tags) < _TURN_TAGS or (told.facts and not placed) or any(m.tags & NOT_SAID for m in told.marks):
        return None
    if not placed:
        return _round_to(work)
    if not told.facts:
        return _turned_over(work, tags) or _round_to(work) or _of_a_stranger(work, tags)
    return _of_a_stranger(work, tags)


def _turned_over(work: Working, tags: Sequence[Tag]) -> str | None:
    """ "flip it over now so second stage", "spin it round outlet end up": the one side that is named."""
    texts = work.texts
    verb = next((at for at, text in enumerate(texts) if text in _TURNED), len(texts))
    over = next((at for at in range(verb + 1, len(texts)) if texts[at] not in _THING), len(texts))
    if texts[over : over + 1] == () or texts[over] not in _OVER:
        return None
    said = [the_side(tag.meaning.positions, work.sheet) for tag in tags if tag.meaning.positions]
    sides = {side for side in said if side is not None and _is_of_bench(work, side)}
    return sides.pop() if len(sides) == 1 else None


def _is_of_bench(work: Working, side: str) -> bool:
    return sum(has_side(c, side) for c in work.sheet.component) > 1


def _round_to(work: Working) -> str | None:
    """ "okay round to the chain end": an end by a word that the sheet has not, so not the one worked on."""
    texts, held = work.texts, work.hand
    if len(texts) < _TURN_TAGS or texts[-1] not in _ENDS or held is None or held.side is None:
        return None
    at = next((i for i in range(len(texts) - 2) if texts[i : i + 2] in _ONTO), None)
    if at is None or texts[at + 2] != "the" or len(texts) - at > _TURN_TAGS + 2:
        return None
    noun = texts[at + 3 : -1]
    known = (
        len(noun) != 1
        or noun[0] in PLAIN
        or noun[0] in NO_NAME
        or work.lexicon.names(texts, at + 3).positions
    )
    wide = sum(has_side(c, held.side) for c in work.sheet.component) >= FEW_PARTS
    return None if known or not wide else other_side(work.sheet, held.side, texts[-1])


def _of_a_stranger(work: Working, tags: Sequence[Tag]) -> str | None:
    """ "left wool off", "front wheel out": the side at the head, where nothing else tells one.

    Where nothing came off the side worked on before goes on no further: "left wool's perished".
    """
    known = [s for s in work.out if type(s) is not Remark]
    head = next((at for at, tag in enumerate(tags) if not _opens_talk(tag, work)), len(tags))
    if head + 2 >= len(tags) or tags[head].kind != "MOD":
        return None
    side, noun, word = (
        the_side(tags[head].meaning.positions, work.sheet),
        tags[head + 1],
        work.texts[tags[head + 1].start],
    )
    if side is None:
        return None
    if small_count(noun.measure) is not None and not known:
        return side  # "offside, five more nuts"
    if noun.kind != "WORD" or noun.tags or word in NO_NAME or word in PLAIN or len(word) < _SHORTEST:
        return None
    held, behind = work.hand, tags[head + 2]
    if behind.kind == "OFF" and all(getattr(s, "which", None) is None for s in known):
        return side
    counted = all(type(s) is Movement and s.which is None for s in known)  # "… off, five nuts"
    fresh = held is not None and held.turned and side not in {held.side, "right"}
    return "" if counted and fresh and "COP" in behind.tags else None


def _opens_talk(tag: Tag, work: Working) -> bool:
    """ "right" before the offside is a word of talk."""
    return "FILLER" in tag.tags or (tag.kind == "WORD" and work.texts[tag.start : tag.end] == ("right",))
