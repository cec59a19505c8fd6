"""A decimal behind the place it is of, while that part is talked of: "left four point three eight …"."""

from __future__ import annotations

from itertools import pairwise
from typing import Final

from saywright.quantity import parse_value
from saywright.understanding.facts import Fact
from saywright.understanding.statements import Reading
from saywright.understanding.tokens import BREAK
from saywright.understanding.values.fitting import Choice
from saywright.understanding.working import Working

_BREATHS: Final = 2  # utterances since the part was named
_LEADS: Final = frozenset({"and", "the", "now", "so", "then", "one", "is", "has", "at", BREAK})
_TURNS: Final = frozenset({"turn", "turned", "spin", "rotate", "move", "moved", "round", "around"})
_FETCHES: Final = frozenset({("let", "me"), ("hang", "on"), ("hold", "on"), ("wait", "a"), ("where", "is")})
_LONGEST: Final = 6  # words of talk
# Leads to a value that is none of the part.
_OF_ANOTHER: Final = frozenset(
    ["with", "of", "on", "off", "from", "than", "for", "to", "in", "by", "says", "say", "said", "was", "were",
     "about", "over", "under", "like", "and", "or", "not", "no", "a", "the", "costs", "needs"]
)  # fmt: skip
# No talk beside the value: what is to be done, when, or who does it.
_NO_TALK: Final = frozenset(
    ["before", "after", "until", "when", "if", "needs", "need", "will", "would", "should", "i", "we", "it",
     "they",     "job", "foot", "hand", "only", "wants", "want", "once", "since", "while"]
)  # fmt: skip
_PUTS_RIGHT: Final = frozenset({"hang", "hold", "wait", "i"})
_NEAR: Final = 10  # the same measured elsewhere is off by less than this part


def at_its_place(work: Working, fact: Fact, best: Choice, *, asks: bool = False) -> bool:
    """True where talk beside the value takes nothing from it.

    At the head of the line stands the place of what was named just before, "now discs" / "left four point
    three eight …"; or the same was read right before in the line and it was turned: "turn it a third of the
    way round four point three seven". Where the value *asks*, also behind a few words at the end of the line:
    "left, a different story, four point two".
    """
    measure, held = fact.phrase.measure, work.hand
    if measure is None or held is None or held.component != best.key[0] or not best.fits:
        return False
    behind = work.texts[fact.phrase.end : fact.phrase.end + 2]
    unsure = behind[:1] == ("no",) and not _PUTS_RIGHT.issuperset(behind[1:])
    if measure.readings[0].how != "decimal" or unsure:
        return False  # "point two no excuse me …": whether it is put right is not heard
    placed = [s for s in fact.subjects if s.which and not s.components and not s.which[0].isdigit()]
    head = placed[0] if placed else None
    start = fact.phrase.start
    if (
        head is not None
        and work.now - held.utterance <= _BREATHS
        and _LEADS.issuperset(work.texts[: head.start])
    ):
        gap = work.texts[head.end : start]
        return _LEADS.issuperset(gap) or (_is_talk(gap, asks=asks) and fact.phrase.end == len(work.texts))
    return _is_read_round(work, start, best)


def _is_talk(gap: tuple[str, ...], *, asks: bool) -> bool:
    """ "one let me find my glasses": a few words between the place and its value."""
    said = gap[1:] if gap[:1] == ("one",) else gap
    if not asks and said[:2] not in _FETCHES:
        return False
    if said[:2] not in _FETCHES and (
        not _NO_TALK.isdisjoint(said) or any(text.endswith("ing") for text in said)
    ):
        return False
    return len(said) <= _LONGEST and said[-1] not in _OF_ANOTHER


def _is_read_round(work: Working, start: int, best: Choice) -> bool:
    last = next((s for s in reversed(work.out) if type(s) is Reading), None)
    before = work.said.get(last.id) if last is not None else None
    if last is None or before is None or (last.component, last.characteristic) != best.key:
        return False
    gap = work.texts[before.phrase.end : start]
    if not any(verb in _TURNS and it in {"it", "him", "that", "a"} for verb, it in pairwise(gap)):
        return False
    first, then = parse_value(last.value), parse_value(best.value)
    return abs(then - first) * _NEAR < abs(first)
