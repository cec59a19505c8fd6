""" "Same size as the other", "same length": the value that was read of its like, of what is in hand."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from saywright.sheets.model import Characteristic, Component, Stage
from saywright.understanding.doings.movements import put_again
from saywright.understanding.facts import Fact
from saywright.understanding.statements import Movement, Reading
from saywright.understanding.subjects.noun_phrases import Subject, subject_of_components
from saywright.understanding.subjects.parts import Part, resolve
from saywright.understanding.tokens import BREAK, spoken_form
from saywright.understanding.values.alike import REPEATABLE
from saywright.understanding.working import Working

_SIZES = frozenset(
    ["size", "length", "diameter", "thickness", "width", "height", "depth", "value", "reading", "figure",
     "number", "amount", "weight", "torque", "tension", "clearance", "gap", "play", "pressure", "setting"]
)  # fmt: skip
_LIKE = frozenset({"as", "like"})
_ANY = frozenset({"size", "value", "reading", "figure", "number", "amount", "setting"})  # of whatever it is
# Behind the noun: what it is like, where it is the same, and what is not.
_BEHIND = _LIKE | {BREAK, "on", "in", "over", "at", "for", "here", "there", "but", "though", "only"}
_BETWEEN = frozenset({"the", "its", "his", "her", "on", "in", "one"})
_OTHER = frozenset({"other", "mate", "partner", "twin", "brother", "opposite"})
_NOUN = 3  # tokens of what is the same


def same_measure(work: Working, fact: Fact, put: Callable[[Reading, Part, str | None], None]) -> bool:
    """True where a measure is said to be the same; *put* makes the reading of each that has it too."""
    end = _noun_end(work, fact)
    if not end:
        return False
    part = resolve(_of_what(work, fact, end), work.sheet, work.hand, work.now, off=work.off)
    component = work.sheet.get(part.component) if part is not None else None
    if part is None or component is None:
        return True
    fact.cover(fact.start, end)
    for which in part.whiches:
        told = _read_before(work, component, which, end)
        if told is not None:
            put(told, part, which)
    work.named(part.component, part.single)
    _gone_in_too(work, fact)
    return True


def _gone_in_too(work: Working, fact: Fact) -> None:
    """ "New diaphragm, new plate, same torque" behind what went in on the other side: these went in too."""
    aged = [s for s in fact.subjects if s.age is not None and s.components and s.end <= fact.phrase.start]
    last = next((s for s in reversed(work.last_group()) if isinstance(s, Movement)), None)
    if aged and last is not None and last.movement == "fitted":
        put_again(work, last, aged)


def names_another(work: Working, fact: Fact, values: Sequence[Fact]) -> bool:
    """ "Same diameter on the right but the runout's point two": what is the same is not what is told."""
    end = _noun_end(work, fact)
    if not end or any(value.phrase.start < end for value in values):
        return False
    told = [work.sheet.find(*key) for value in values for key in value.characteristics]
    return bool(told) and not any(one is not None and _is_called(one, work.texts[end - 1]) for one in told)


def _noun_end(work: Working, fact: Fact) -> int:
    """The token behind "same size"; 0 where it is not a measure that is the same."""
    texts, start = work.texts, fact.phrase.end
    if texts[start - 1] != "same":
        return 0
    measured = work.lexicon.measured
    for at in range(start, min(start + _NOUN, len(texts))):
        ends = at + 1 == len(texts) or texts[at + 1] in _BEHIND
        if ends and (texts[at] in _SIZES or (at > start and texts[at] in measured)):
            return at + 1
        if texts[at] in _BEHIND:
            return 0
    return 0


def _of_what(work: Working, fact: Fact, end: int) -> Subject | None:
    """The part that is said to have the same: named before, else in hand, by what is read so."""
    before = [s for s in fact.subjects if s.end <= fact.phrase.start and (s.components or s.which)]
    if before:
        return next((s for s in before if _is_read_on(work, s, work.texts[end - 1])), before[0])
    behind = [s for s in fact.subjects if s.start >= end and (s.which or s.selector == "other")]
    if behind and work.texts[end : end + 1] != ("as",) and not behind[0].components:
        return behind[0]  # "same diameter over on the right"
    noun = work.texts[end - 1]
    held = work.hand.component if work.hand is not None else None
    told = [s for s in work.last_group() if isinstance(s, REPEATABLE)]
    for component in dict.fromkeys([held, *(s.component for s in reversed(told))]):
        spec = work.sheet.get(component or "")
        if spec is not None and any(_is_called(c, noun) for c in spec.characteristic):
            which = next((s.which for s in told if s.component == component), None)
            said = subject_of_components((spec.id,), fact.phrase.start, end)
            return said if component == held or which is None else said.placed(which)
    return None


def _is_read_on(work: Working, subject: Subject, noun: str) -> bool:
    """True where what is called *noun* is read on one of what *subject* names."""
    parts = (part for part in map(work.sheet.get, subject.components) if part is not None)
    return any(_is_called(c, noun) for part in parts for c in part.characteristic)


def _read_before(work: Working, component: Component, which: str | None, end: int) -> Reading | None:
    """The value of what it is like: of the one told behind "as", else of another one of its kind."""
    like = _like(work.texts, end, component, which)
    if like is not None and like in {"", which}:
        return None
    noun = work.texts[end - 1]
    named = {c.id for c in component.characteristic if _is_called(c, noun)}
    read: list[tuple[Stage, Reading]] = []
    for ((of, one, characteristic), stage), reading in work.latest.items():
        same = of == component.id and one is not None and one != which and like in {None, one}
        any_of_it = not named and noun in _ANY and reading.unit != "turn"
        if same and (characteristic in named or any_of_it):
            read.append((stage, reading))
    found = [one for stage, one in read if stage == work.stage] or [one for _, one in read]
    told = {(r.characteristic, r.in_sheet_unit) for r in found}
    return found[-1] if len(told) == 1 else None  # of several it is not known which is meant


def _is_called(characteristic: Characteristic, noun: str) -> bool:
    return any(noun == spoken_form(name)[-1] for name in characteristic.names)


def _like(texts: Sequence[str], end: int, component: Component, which: str | None) -> str | None:
    """The one behind "as": "" where it is none of *component*, None where nothing is told."""
    if texts[end : end + 1] == () or texts[end] not in _LIKE:
        return None
    at = end + 1
    while at < len(texts) and texts[at] in _BETWEEN:
        at += 1
    others = [w for w in component.whiches if w != which]
    if at < len(texts) and texts[at] in _OTHER:
        return others[0] if len(others) == 1 else ""
    return next((w for w in others if tuple(w.split()) == tuple(texts[at : at + len(w.split())])), "")
