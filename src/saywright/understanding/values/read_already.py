"""A value that no part is named with, and what is in hand was read in the breath before: of what is it?

"Unloader opens at one fifty eight" … "one forty eight bar on the gauge", where the pump has a pressure too.
"""

from __future__ import annotations

from collections.abc import Sequence

from saywright.flags import Flag, FlagKind, flag
from saywright.quantity import parse_value
from saywright.understanding.facts import Fact
from saywright.understanding.meanings import CharacteristicKey
from saywright.understanding.quantities.measures import Measure
from saywright.understanding.statements import ActionNote, Reading
from saywright.understanding.values.fitting import Choice, best_choice
from saywright.understanding.working import Working

_ONCE_MORE = frozenset({"again", "now", "still", "back", "this", "that", "it", "so", "up", "down"})


def of_what_is_open(
    work: Working, fact: Fact, own: Sequence[CharacteristicKey], like: Sequence[CharacteristicKey]
) -> tuple[list[CharacteristicKey], list[Flag]]:
    """Of *own*, or where they were read in the last breath of the one *like* them that was not read yet.

    It asks where both would be as likely. What was worked on since, or is told with "now" or "it", was read
    once more.
    """
    measure, last = fact.phrase.measure, _just_read(work, own)
    if measure is None or last is None or not _ONCE_MORE.isdisjoint(work.texts[: fact.phrase.start]):
        return list(own), []
    before = best_choice(measure, own, work.sheet)
    if before is None or parse_value(before[0].value) == parse_value(last.value):
        return list(own), []
    read = {(part, of.partition("@")[0]) for (part, _, of), stage in work.latest if stage == last.stage}
    others = [key for key in like if key not in own and key not in read]
    found = [one for key in others if (one := _fitting(work, measure, key)) is not None and one.inside]
    if not found:
        return list(own), []
    if len(found) == 1 and not before[0].inside:
        return [found[0].key], []
    names = dict.fromkeys(choice.key[0] for choice in (before[0], *found))
    return list(own), [flag(FlagKind.PART_AMBIGUOUS, " or ".join(names))]


def _just_read(work: Working, own: Sequence[CharacteristicKey]) -> Reading | None:
    """The reading of one of *own* in the utterance before, where nothing was done with that."""
    group = [*work.last_group(), *work.out]
    if any(isinstance(s, ActionNote) for s in group):
        return None
    read = [s for s in group if isinstance(s, Reading) and (s.component, s.characteristic) in own]
    single = [s for s in read if s.which is None and s.place is None]
    return single[-1] if single else None


def _fitting(work: Working, measure: Measure, key: CharacteristicKey) -> Choice | None:
    found = best_choice(measure, [key], work.sheet)
    return found[0] if found is not None and found[0].fits else None
