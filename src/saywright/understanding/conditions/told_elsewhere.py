"""States that need no note of their own: "picture of the scoring", "cleaned the varnish off the bowl"."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from saywright.understanding.facts import Fact, Told
from saywright.understanding.meanings import NOTHING
from saywright.understanding.subjects.parts import Part
from saywright.understanding.working import Working

_PIECES = frozenset({"piece", "bit", "chunk", "lump", "corner", "section", "sliver", "tooth"})
_ONE = frozenset({"a", "one"})
_PIECE_REACH = 7  # tokens of "a piece of its outer lip is"
_AWAY = frozenset({"off", "from", "out"})


def is_told_elsewhere(told: Told, fact: Fact, texts: Sequence[str]) -> bool:
    """ "picture of the scoring", "cleaned the varnish off the bowl": the mark or the doing tells it."""
    for other in told.facts:
        off = not _AWAY.isdisjoint(texts[other.phrase.end - 1 : other.phrase.end + 1])
        off = off and all(s.end > fact.phrase.start for s in fact.subjects)  # "strainer dirty, blown out"
        known = texts[max(0, fact.phrase.start - 1)] == "the" and not fact.participle  # "the grooves scraped"
        away = (off or known) and not fact.negated
        if other.kind == "doing" and other.phrase.start == fact.phrase.end and away:
            return True  # "burr's dressed off the plate"
        before = other.phrase.end <= fact.phrase.start
        if other.kind == "photo" and other.segment == fact.segment and before:
            return True
        around = other.start <= fact.phrase.start and other.end > fact.phrase.end
        around = around and not any(
            s.start == fact.phrase.end for s in fact.subjects
        )  # "replaced the cracked one"
        if other.kind == "doing" and before and around and other.subjects == fact.subjects:
            return True
        if other.kind == "doing" and _is_its_object(told, other, fact, texts):
            return True
    return False


def _is_its_object(told: Told, doing: Fact, fact: Fact, texts: Sequence[str]) -> bool:
    """ "polished that burr out": the fault right behind the pronoun is what was done away with."""
    head, end = fact.phrase.head, doing.phrase.end
    beside = head is not None and head.start == fact.phrase.start == end + 1 and texts[end] != "it"
    pronoun = any(s.pronoun and (s.start, s.end) == (end, end + 1) for s in fact.subjects)
    return beside and pronoun and not any(s.start == fact.phrase.end for s in told.subjects)


def is_done_away(work: Working, told: Told, fact: Fact, parts: list[Part]) -> bool:
    """ "lip on the drum filed off": what was found before is gone now."""
    if fact.phrase.aux or fact.negated or fact.introduced:
        return False
    condition = fact.phrase.meaning.conditions[-1]
    known = all(
        (p.component, which, condition, True) in work.before.seen for p in parts for which in p.whiches
    )
    doings = (f for f in told.facts if f.kind == "doing")
    return (
        known
        and bool(parts)
        and any(f.segment == fact.segment and f.subjects == fact.subjects for f in doings)
    )


def of_a_piece(work: Working, fact: Fact) -> str | None:
    """ "a piece of it is missing", "missing a tooth": what the sheet calls that; None for all of it."""
    missing = work.lexicon.table.get(("missing",), NOTHING).conditions
    start, end = fact.phrase.start, fact.phrase.end
    if fact.phrase.meaning.conditions[-1:] != missing[-1:]:
        return None
    before = work.texts[max(0, start - _PIECE_REACH) : start]
    behind = (
        work.texts[end] in _ONE and work.texts[end + 1] in _PIECES if end + 1 < len(work.texts) else False
    )
    if not behind and not any(noun in _PIECES and of == "of" for noun, of in pairwise(before)):
        return None
    chipped = work.lexicon.table.get(("piece", "missing"), NOTHING).conditions
    return chipped[-1] if chipped else None
