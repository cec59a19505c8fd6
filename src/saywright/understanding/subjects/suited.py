"""What a state suits: "it's blocked solid" with the float in hand is of the jet spoken of just before."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from saywright.sheets.model import Component
from saywright.understanding.facts import Fact
from saywright.understanding.statements import BenchCommand, Correction, Remark
from saywright.understanding.subjects.noun_phrases import Subject, subject_of_components
from saywright.understanding.tokens import words_of
from saywright.understanding.working import Working

_SOLID: Final = words_of(
    "float link linkage lever spring springs gasket pin diaphragm shaft spindle rod nut bolt clip bracket "
    "plate bearing bush bushing gear pad shoe disc drum ring seal wheel"
)
_FLOAT: Final = words_of("float floats")
_HOLDS: Final = words_of("bowl carb carburettor tank chamber body cover reservoir cup")
# State → what it suits, or does not suit, by the last word of a part's name.
_SUITS: Final = {"fuel_filled": _FLOAT}
_NOT: Final = {"blocked": _SOLID, "clear": _SOLID}
_REACH: Final = 4  # utterances with statements that are looked back over


def suited(fact: Fact, work: Working) -> list[Subject]:
    """The part that the state of *fact* is of, where what is in hand is none that can be so; else []."""
    state = fact.phrase.meaning.conditions[-1]
    if (state not in _SUITS and state not in _NOT) or work.hand is None:
        return []
    if any(not s.pronoun or s.components or s.other_words or s.unclear for s in fact.subjects):
        return []
    held = work.sheet.get(work.hand.component)
    if held is None or _can_be(held, state) or (state in _SUITS and held.names[0].split()[-1] in _HOLDS):
        return []  # "bowl off, it's full of fuel": no float
    spoken = (part for part in map(work.sheet.get, spoken_of(work)) if part is not None)
    one = next((part for part in spoken if _can_be(part, state)), None)
    if one is None and state in _SUITS:
        every = [part for part in work.sheet.component if _can_be(part, state)]
        one = every[0] if len(every) == 1 else None
    if one is None:
        return []
    start, end = (fact.subjects[0].start, fact.subjects[0].end) if fact.subjects else (fact.start, fact.start)
    part = subject_of_components((one.id,), start, end)
    side = work.hand.which if work.hand.which in one.whiches else work.hand.side
    return [part.placed(side) if side is not None and side in one.whiches else part]


def _can_be(part: Component, state: str) -> bool:
    noun = part.names[0].split()[-1]
    return noun in _SUITS[state] if state in _SUITS else noun not in _NOT[state]


def spoken_of(work: Working) -> Iterator[str | None]:
    """Components told of, the last first."""
    yield from (
        s.component for s in reversed(work.out) if not isinstance(s, Correction | Remark | BenchCommand)
    )
    for group in reversed(work.before.recent[-_REACH:]):
        yield from (
            s.component for s in reversed(group) if not isinstance(s, Correction | Remark | BenchCommand)
        )
