"""Which of the readings just told a correction is of, by the position that it names: "no, inner's 5.3"."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from saywright.quantity import parse_value
from saywright.understanding.facts import Fact, Told
from saywright.understanding.second_thoughts.number_corrections import is_strange
from saywright.understanding.second_thoughts.swapped import told_of_each
from saywright.understanding.statements import Reading
from saywright.understanding.working import Working

_HAVE: Final = frozenset({"got", "have", "had"})


def reading_there(fact: Fact, near: Sequence[Reading], told: Told) -> Reading | None:
    """What was read last at the position that *fact* names; None where it names none, or nothing was read.

    Where a value is told of each, none is moved from one to the other.
    """
    return _at_position(fact, near) or _at_its_place(fact, near, each=told_of_each(told))


def not_of(work: Working, fact: Fact, reading: Reading) -> bool:
    """True where *fact* cannot put *reading* right: many times as much, or told of another place."""
    return is_strange(work, fact, reading) or _is_elsewhere(work, fact, reading)


def _at_position(fact: Fact, near: Sequence[Reading]) -> Reading | None:
    """ "no, the upper's eight point oh four": what was read last at the position named."""
    which = {w for s in fact.subjects for w in s.which}
    if not which or not near:
        return None
    last = (near[-1].component, near[-1].characteristic)
    alike = (r for r in reversed(near) if (r.component, r.characteristic) == last and r.which in which)
    return next(alike, None)


def _at_its_place(fact: Fact, near: Sequence[Reading], *, each: bool) -> Reading | None:
    """ "inner pad 5.8, outer 6, no, inner's 5.3": what was read there, of the part read last."""
    said = {word for s in fact.subjects if not s.components for which in s.which for word in which.split()}
    measure = fact.phrase.measure
    if not said or not near or measure is None:
        return None
    values = {parse_value(r.value) for r in measure.readings}
    if parse_value(near[-1].value) in values and not each:
        return None  # "no, make that outer": the same value on another
    of_it = (r for r in reversed(near) if r.component == near[-1].component and r.which is not None)
    return next((r for r in of_it if said <= set((r.which or "").split())), None)


def _is_elsewhere(work: Working, fact: Fact, reading: Reading) -> bool:
    """ "inner pad 1.5 …, no sorry, the outer's 3.5": another value at another place; the inner's holds."""
    said = {word for s in fact.subjects if not s.components for which in s.which for word in which.split()}
    measure = fact.phrase.measure
    if not said or measure is None or reading.which is None or said <= {*reading.which.split()}:
        return False
    part = work.sheet.get(reading.component)
    if part is None or not part.has_places(said):
        return False  # "no, front one only got to two": of bolts that are told apart by number
    if "i" in work.texts[: fact.phrase.start] and not _HAVE.isdisjoint(work.texts[: fact.phrase.start]):
        return False  # "sorry, the right one I've got is 41.4"
    return parse_value(reading.value) not in {parse_value(r.value) for r in measure.readings}
