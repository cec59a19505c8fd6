"""What "the same" repeats: all that was told of a side, or of the part behind "as", with what is left out."""

from __future__ import annotations

from collections.abc import Sequence

from saywright.flags import Flag, FlagKind, flag
from saywright.quantity import parse_value
from saywright.sheets.model import Characteristic, Component
from saywright.understanding.facts import Fact
from saywright.understanding.quantities.plausible import is_far_out, is_inside
from saywright.understanding.sides.turning import other_side
from saywright.understanding.statements import (
    ActionNote,
    ConditionNote,
    Movement,
    Reading,
    Statement,
    Unclear,
)
from saywright.understanding.subjects.noun_phrases import Subject, subject_in_hand, subject_of_components
from saywright.understanding.subjects.parts import which_flags
from saywright.understanding.tokens import BREAK
from saywright.understanding.working import Working

Repeated = Reading | ConditionNote | Movement | ActionNote
REPEATABLE = (Reading, ConditionNote, Movement, ActionNote)

_EXCEPT = frozenset({"bar", "except", "apart", "barring", "excepting"})
_OTHERS = ((), (BREAK,), ("one",), ("side",), ("end",))
_SEVERAL = (("two",), ("three",), ("ones",), ("pair",))
_EARLIER = frozenset({"last", "first", "previous"})
_BEFORE = (("we",), ("i",), ("before",), ("did",))  # "as the last one we did"
_BAD = frozenset({"bad", "worse", "better"})
_NEARLY = frozenset({"much", "nearly", "almost", "roughly", "approximately", "virtually", "practically"})
_NEAR_ENOUGH = frozenset({("near", "enough"), ("or", "less"), ("just", "about")})
_LINKS = frozenset({"as", "on", "the", "for", "with", "its"})


def told_with(work: Working, last: Repeated, subject: Subject) -> list[Repeated]:
    """What is repeated of *subject* together with *last*."""
    return chain_of(work, last) if subject.components else of_that_side(work, last)


def _with(work: Working, last: Repeated) -> Sequence[Statement]:
    """The statements of the utterance that told *last*."""
    return next((g for g in (work.out, *reversed(work.before.recent)) if last in g), ())


def of_that_side(work: Working, last: Repeated) -> list[Repeated]:
    """What was told with *last* in one utterance, of one side or of parts that have none; *last* among it."""
    told = [
        s for s in _with(work, last) if isinstance(s, REPEATABLE) and s.id not in work.gone and s.component
    ]
    sides = {s.which for s in told if s.which is not None}
    if len(sides) != 1 or not all(_on_sides(work, s) for s in told):
        return [last]
    return told


def chain_of(work: Working, last: Repeated) -> list[Repeated]:
    """ "cam polished and greased, pin ditto": all doings, or all states, told with *last* of its part."""
    if not isinstance(last, ActionNote | ConditionNote):
        return [last]
    alike = [s for s in _with(work, last) if isinstance(s, type(last)) and s.id not in work.gone]
    same = [s for s in alike if (s.component, s.which) == (last.component, last.which)]
    if isinstance(last, ActionNote):
        return [s for s in same if isinstance(s, ActionNote) and s.status == last.status]
    return [s for s in same if isinstance(s, ConditionNote) and s.present is last.present]


def _on_sides(work: Working, said: Repeated) -> bool:
    """True for one of several with named positions, and for a movement of such as are counted."""
    spec = work.sheet.get(said.component)
    if spec is None:
        return False
    counted = isinstance(said, Movement) and spec.count > 1 and not spec.stations
    return said.which in spec.stations or (counted and said.which is None)


def told_of(work: Working, component: Component, which: str) -> list[ConditionNote | Reading]:
    """What holds of one of several: its states, and its values as the sheet would have them now."""
    states = [s for s in work.live() if isinstance(s, ConditionNote) and work.stage in {"as_found", s.stage}]
    values = [s for (key, stage), s in work.latest.items() if stage == work.stage]
    told: list[ConditionNote | Reading] = [*states, *values]
    return [s for s in told if (s.component, s.which) == (component.id, which)]


def read_like(work: Working, component: Component, which: str) -> list[Reading]:
    """The value of one of *component* of what was read last of another of them."""
    last = work.last_group()[-1:]
    if not last or not isinstance(last[0], Reading) or last[0].component != component.id:
        return []
    told = (s for s in told_of(work, component, which) if isinstance(s, Reading))
    return [s for s in told if s.characteristic == last[0].characteristic][-1:]


def like_which(work: Working, fact: Fact, component: Component, which: str | None) -> str | None:
    """ "cable same as the front left", "as the other side" of *which*: the position behind "as".

    "" for another side that is not known, None where there is nothing of the kind.
    """
    behind = work.texts[fact.phrase.end :]
    if "as" not in (*behind[:1], work.texts[fact.phrase.end - 1]):
        return None
    at = 0
    while at < len(behind) and behind[at] in _LINKS:
        at += 1
    said = behind[at:]
    if said[:1] == ("other",) and said[1:2] in _OTHERS:
        return (other_side(work.sheet, which) if which is not None else None) or ""
    if said[:1] == ("other",) and said[1:2] in _SEVERAL:
        return _alike_others(work, component, which)
    if said and said[0] in _EARLIER and said[1:2] in _OTHERS and said[2:3] not in _BEFORE:
        return _told_before(work, component, which, first=said[0] == "first")
    found = (p for p in component.positions if tuple(p.split()) == said[: len(p.split())])
    called = work.lexicon.other_places.get(said[0]) if said else None  # the "top" one
    return next(found, called if called in component.positions else None)


def _alike_others(work: Working, component: Component, which: str | None) -> str:
    """ "pilot same as the other two": one of those, where what was read of each is the same; else ""."""
    told = {w: told_of(work, component, w) for w in component.whiches if w != which}
    read = {
        w: [(s.characteristic, s.value) for s in some if isinstance(s, Reading)] for w, some in told.items()
    }
    known = {w: values for w, values in read.items() if values}
    values = list(known.values())
    return next(iter(known)) if values and all(one == values[0] for one in values) else ""


def _told_before(work: Working, component: Component, which: str | None, *, first: bool) -> str:
    """ "same as the last one", "as the first": the one of its kind that was read last, or first; else ""."""
    keys = (key for key, stage in work.latest if stage == work.stage or first)
    read = [w for of, w, _ in keys if of == component.id and w not in {None, which}]
    told = read[0] if first and read else read[-1] if read else None
    return told or ""


def as_the_other(work: Working, fact: Fact) -> bool:
    """ "float height same as the other side": that is what it is like, and nothing else is the subject."""
    begin = fact.phrase.end - (work.texts[fact.phrase.end - 1] == "as")
    behind = [s for s in fact.subjects if s.start >= begin and s.selector == "other" and not s.components]
    named = bool(set(work.texts[:begin]) - _LINKS - {"same", "is", "and", "it", "also", "so", BREAK})
    return work.texts[begin : begin + 1] == ("as",) and behind == fact.subjects and named


def held_like(work: Working, fact: Fact, subjects: list[Subject]) -> list[Subject]:
    """ "Same as the other", "same as the middle": what is in hand is as that is, not what it is said of."""
    begin, held = fact.phrase.end - (work.texts[fact.phrase.end - 1] == "as"), work.hand
    if len(subjects) != 1 or subjects[0].components or work.texts[begin : begin + 1] != ("as",):
        return subjects
    spec = work.sheet.get(held.component) if held is not None else None
    if held is None or spec is None or held.which is None:
        return subjects
    if subjects[0].start >= begin and subjects[0].which == (held.which,):
        flags = [flag(FlagKind.WHICH_UNCLEAR, f"{spec.label}: which is as the {held.which}?")]
        reason = "what is said to be the same was not made out"
        unclear = work.make(Unclear, fact.start, fact.end, flags=flags, component=spec.id, reason=reason)
        work.put(unclear)  # "… same as the middle" behind what was read of the middle itself
        return []
    if subjects[0].selector != "other" and not _is_model(work, subjects[0], begin, spec, held.which):
        return subjects
    return [subject_of_components((held.component,), fact.phrase.start, fact.phrase.end)]


def how_bad(work: Working, fact: Fact) -> str:
    """ "The rear one's worse", "right's just as bad": the word that likens faults; "" for "the same"."""
    last = work.texts[fact.phrase.end - 1]
    word = work.texts[fact.phrase.end - 2] if last == "still" else last
    return word if word in _BAD else ""


def likens_no_fault(work: Working, fact: Fact, told: Repeated) -> bool:
    """ "Outer's worse" behind a value, "no better than the other": no fault is told once more."""
    if not how_bad(work, fact):
        return False
    spec = (
        work.sheet.get_condition(told.condition) if isinstance(told, ConditionNote) and told.present else None
    )
    return spec is None or spec.good or work.texts[fact.phrase.end : fact.phrase.end + 1] == ("than",)


def told_now(work: Working, fact: Fact, component: str, which: str | None, last: ConditionNote) -> bool:
    """True where this utterance told the same of it already."""
    told = (component, which, last.condition, last.present)
    notes = [s for s in work.out if isinstance(s, ConditionNote)]
    said = any((s.component, s.which, s.condition, s.present) == told for s in notes)
    if said:
        work.covered.append((fact.start, fact.end))
    return said


def _is_model(work: Working, said: Subject, begin: int, spec: Component, held: str) -> bool:
    """ "Right spring off, same as the middle": another one, of which a value or a state is on record."""
    which = said.which[0] if len(said.which) == 1 and said.start >= begin else held
    return which != held and which in spec.whiches and bool(told_of(work, spec, which))


def left_out(work: Working, fact: Fact) -> tuple[list[Subject], frozenset[str]]:
    """ "the same on the right bar the seal": of what it is said, and the parts that it does not hold for."""
    at = next((i for i, text in enumerate(work.texts) if text in _EXCEPT and i >= fact.phrase.end), None)
    if at is None:
        return fact.subjects, frozenset()
    parts = {
        c
        for i in range(at + 1, len(work.texts))
        for m in [work.lexicon.names(work.texts, i)]
        for c in (*m.parts, *m.aliases)
    }
    kept = [s for s in fact.subjects if s.start < at]
    words = " ".join(work.texts[:at])
    sides = {p for c in work.sheet.component for p in c.positions if f" {p} " in f" {words} "}
    if not kept and len(sides) == 1:
        kept = [subject_in_hand(fact.phrase.start, at).placed(sides.pop())]
    return kept, frozenset(parts)


def copy_doubts(work: Working, last: Reading, of: tuple[str, str | None], spec: Characteristic) -> list[Flag]:
    """ "bore sixty five oh two, piston same": asks about the value *last*, the same on another part *of*.

    Where the other part ought not to have it, it may be as good or as worn, or have gone back too.
    """
    component, which = work.sheet.get(of[0]), of[1]
    if _is_nearly(work.texts):
        return [flag(FlagKind.NUMBER_AMBIGUOUS, f"{last.value}, or near it?")]
    if component is None or of[0] == last.component:
        return []
    flags = which_flags(component) if which is None else []
    first = work.sheet.find(last.component, last.characteristic)
    if first is not None and first.unit == spec.unit and last.in_sheet_unit is not None:
        value = parse_value(last.in_sheet_unit)
        if is_inside(spec, value) and not is_far_out(spec, value):
            return flags
    return [*flags, flag(FlagKind.NUMBER_AMBIGUOUS, f"{last.value} too on the {component.label}?")]


def _is_nearly(texts: Sequence[str]) -> bool:
    """ "The right's much the same", "near enough the same": its value was not told."""
    at = texts.index("same") if "same" in texts else 0
    at -= at > 0 and texts[at - 1] == "the"
    return bool(at) and (texts[at - 1] in _NEARLY or tuple(texts[at - 2 : at]) in _NEAR_ENOUGH)
