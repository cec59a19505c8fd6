"""What goes along with something else: "both jets are going in with it", "with a drop of oil"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import chain

from saywright.understanding.facts import Fact
from saywright.understanding.meanings import Meaning
from saywright.understanding.statements import ActionNote
from saywright.understanding.tags import Tag
from saywright.understanding.working import Working

_GOES = frozenset({"going", "goes", "go", "went", "gone"})
_BATHS = frozenset({"ultrasonic", "soak"})  # of the base sheet
_TOO = frozenset([("with", "it"), ("with", "them"), ("with", "that"), ("as", "well")])
_SOME = frozenset(
    ["drop", "smear", "dab", "squirt", "spot", "lick", "splash", "drip", "blob", "can", "tin", "tube"]
)
_BACK = frozenset({"GO_BACK", "MOVE_LOOSE_ON"})
_ON = Meaning(tags=frozenset({"MOVE_ON"}))
_UTTERANCES = 3  # that the bath was spoken of before


def is_some_stuff(texts: Sequence[str], start: int) -> bool:
    """ "with a drop of mineral oil": some of it was used; it is not what is talked of."""
    return start > 1 and texts[start - 1] == "of" and texts[start - 2] in _SOME


def going_on(tags: tuple[Tag, ...], work: Working) -> tuple[Tag, ...]:
    """ "old lever going back with its pin": of a part, while the job goes back together, a fitting."""
    if work.stage != "as_left":
        return tags
    return tuple(
        replace(t, kind="ON", meaning=_ON)
        if work.texts[t.end - 1] == "back" and t.tags & _BACK and _said_of_part(tags, at)
        else t
        for at, t in enumerate(tags)
    )


def _said_of_part(tags: tuple[Tag, ...], at: int) -> bool:
    """True right behind a part, with no more than what goes along behind it."""
    before = tags[at - 2 : at] if at and "COP" in tags[at - 1].tags else tags[max(0, at - 1) : at]
    ends = at + 1 == len(tags) or tags[at + 1].kind == "BREAK" or bool(tags[at + 1].tags & {"AND", "WITH"})
    return bool(before) and before[0].kind == "PART" and ends


def goes_in_too(work: Working, fact: Fact) -> ActionNote | None:
    """The bath that *fact* goes into with what went before; None where it is a fitting."""
    words = work.texts[fact.phrase.start : fact.phrase.end]
    behind = work.texts[fact.phrase.end : fact.phrase.end + 2]
    if fact.kind != "on" or words[-1] != "in" or _GOES.isdisjoint(words) or work.stage == "as_left":
        return None
    if behind not in _TOO and behind[:1] not in {("too",), ("also",)}:
        return None
    before = chain.from_iterable(work.before.recent[-_UTTERANCES:])
    done = [s for s in before if isinstance(s, ActionNote)]
    return done[-1] if done and done[-1].action in _BATHS else None
