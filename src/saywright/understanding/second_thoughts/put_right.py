"""Which part a value that is put right is of: "inner pad 5.8, outer 6, no, inner's 5.3"."""

from __future__ import annotations

from saywright.sheets.model import Component, Sheet
from saywright.understanding.discourse import Hand
from saywright.understanding.statements import Reading
from saywright.understanding.subjects.noun_phrases import Subject
from saywright.understanding.subjects.parts import Part, whiches_said

_SEVERAL = 2


def there_too(part: Part | None, owner: Component | None) -> str | None:
    """ "diaphragm one on, bolt eighteen newton metres": *owner*'s at that place, where it has it."""
    there = part.single if part is not None else None
    return there if owner is not None and there in owner.stations else None


def _is_all(subject: Subject, spec: Component) -> bool:
    """True where *subject* names every one of *spec*, and neither a place nor another part."""
    if subject.which or not set(subject.components) <= {spec.id} or len(spec.whiches) < _SEVERAL:
        return False
    if subject.selector == "both":
        return len(spec.whiches) == _SEVERAL
    return subject.selector == "all" and subject.count in {None, len(spec.whiches)}


def part_put_right(subject: Subject | None, sheet: Sheet, old: Reading, hand: Hand | None) -> Part:
    """The part of *old*: the same one of several, or the one whose position *subject* names."""
    spec = sheet.get(old.component)
    if subject is not None and spec is not None and _is_all(subject, spec):  # "no, fifteen on all three"
        return Part(spec.id, spec.whiches, None, False, None, ())
    if subject is None or not subject.which or spec is None:
        return Part(old.component or "", (old.which,), None, False, None, ())
    whiches, flags = whiches_said(subject, spec, hand)
    return Part(spec.id, whiches, None, False, None, tuple(flags))
