"""What was read just before, read once more without its name: "again sixty seven", "and five again".

Talk at a gauge names a value once. Told to be another reading, by a word or because nothing else is said, and
near the one before, it is of the same, in the unit said then.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

from saywright.flags import FlagKind, flag
from saywright.quantity import parse_value
from saywright.understanding.facts import Fact, Told
from saywright.understanding.second_thoughts.reread import its_own
from saywright.understanding.statements import Correction, Reading, Remark
from saywright.understanding.subjects.noun_phrases import Subject, subject_of_components
from saywright.understanding.tokens import BREAK
from saywright.understanding.values.fitting import best_choice
from saywright.understanding.values.opening import opens_at
from saywright.understanding.working import Working

_NEAR = Fraction(1, 4)  # of the value before
_BREATHS = 2  # utterances back in which the last value stands
_AGAIN = frozenset({"again"})
_ONCE_MORE = frozenset(
    [("once", "more"), ("second", "time"), ("second", "go"), ("third", "time"), ("another", "go"),
     ("one", "more"), ("it", "round"), ("it", "around"), ("degrees", "round"), ("degrees", "around"),
     ("way", "round"), ("way", "around"), ("other", "way"), ("turned", "round"), ("and", "now")]
)  # fmt: skip
_ONLY_THAT = frozenset(
    ["and", "yeah", "yes", "yep", "so", "then", "still", "now", "nice", "good", "dead", "spot", "on",
     "exactly", "steady", "it", "is", "that", "lovely", "same", "a", BREAK]
)  # fmt: skip
_JOINS = frozenset({"and", "again", "then", BREAK})
_ITS = frozenset({("it",), ("them",), ("her",)})  # "bent it up a hair", "rock it": what is read is handled
_NO_HANDLING = frozenset({"is", "was", "if", "leave", "order", "at", "on", "of", "for", "than"})
_TWICE = frozenset({("twice",), ("both", "times"), ("each", "time"), ("two", "times")})
_TWICE_HEADS = frozenset({"twice", "times", "time"})
_SAME = (
    "component",
    "which",
    "characteristic",
    "place",
    "value",
    "unit",
    "unit_said",
    "in_sheet_unit",
    "approximate",
)
_OPEN = frozenset({FlagKind.PART_AMBIGUOUS, FlagKind.WHICH_UNCLEAR, FlagKind.CHARACTERISTIC_AMBIGUOUS})
_SAY_NOTHING = frozenset({Remark, Correction})


def mark_repeats(told: Told, work: Working) -> None:
    """Give the values of *told* that are read once more what they are of."""
    values = [fact for fact in told.facts if fact.kind == "value"]
    for before, fact in pairwise(values):
        _go_on(before, fact, work)
    last = _last(work) if values else None
    if last is None or any(s.components and last.component not in s.components for s in told.subjects):
        return
    for at, fact in enumerate(values):
        if any(f.characteristics and not f.subjects for f in values[:at]):
            continue  # "bore nineteen point oh seven, again the other way …": of what is named here
        if opens_at(work.texts, fact.phrase.start):
            continue  # "pumped it up and it blows off at three ten": not of the turns
        if _is_open(fact, work) and _is_once_more(fact, work) and _is_near(fact, last, work):
            row = next((g for g in reversed(work.before.recent) if last in g), (last,))
            of = its_own([s for s in row if type(s) is Reading], fact, values)
            _give(fact, of, work)
            others = {s.which for s in row if type(s) is Reading and s.component == of.component}
            if of is last and len(others) > 1 and not values.index(fact):
                fact.doubts = (*fact.doubts, flag(FlagKind.WHICH_UNCLEAR, f"{of.which}, as read last"))


def _go_on(before: Fact, fact: Fact, work: Working) -> None:
    """ "Float point oh seven and point oh seven": what was read right *before*, and its value once more."""
    gap = work.texts[before.phrase.end : fact.phrase.start]
    one, then = before.phrase.measure, fact.phrase.measure
    if not before.characteristics or fact.characteristics or one is None or then is None:
        return
    own = fact.subjects not in ([], before.subjects)
    if own or not gap or not _JOINS.issuperset(gap) or one.unit_said != then.unit_said:
        return
    if parse_value(one.readings[0].value) == parse_value(then.readings[0].value):
        fact.subjects, fact.characteristics = before.subjects, before.characteristics


def _last(work: Working) -> Reading | None:
    """The reading of the last breaths, where nothing of another part was told since."""
    for group in reversed(work.before.recent[-_BREATHS:]):
        told = [s for s in group if type(s) not in _SAY_NOTHING and s.id not in work.gone]
        read = [s for s in told if type(s) is Reading]
        if read:
            return read[-1] if read[-1].place is None and _in_hand(read[-1], told, work) else None
        if told:
            return None
    return None


def _in_hand(last: Reading, told: Sequence[object], work: Working) -> bool:
    """True where all that was *told* there is of one and the same, and that is still in hand."""
    held = work.hand
    if held is None or held.component != last.component or held.which not in {None, last.which}:
        return False
    return all(getattr(s, "component", last.component) == last.component for s in told)


def _is_open(fact: Fact, work: Working) -> bool:
    """True for a value that no part is named with, and no characteristic that it could be of."""
    measure = fact.phrase.measure
    if measure is None or any(s.components or s.other_words for s in fact.subjects):
        return False
    named = best_choice(measure, fact.characteristics, work.sheet) if fact.characteristics else None
    return named is None or not named[0].fits


def _is_once_more(fact: Fact, work: Working) -> bool:
    """True where words tell it, or none tell anything else."""
    texts, start, end = work.texts, fact.phrase.start, fact.phrase.end
    around = (*texts[:start], *texts[end : end + 2])
    if not _AGAIN.isdisjoint(around) or not _ONCE_MORE.isdisjoint(pairwise(around)):
        return True
    if _ONLY_THAT.issuperset((*texts[:start], *texts[end:])):
        return True
    tool = texts[start - 1] in {"the", "my"}  # "shut it down and undo the nuts with the thirteen"
    return texts[1:2] in _ITS and texts[0].isalpha() and texts[0] not in _NO_HANDLING and not tool


def _is_near(fact: Fact, last: Reading, work: Working) -> bool:
    """True where the value can be of what was read *last*, and is near it."""
    measure = fact.phrase.measure
    if measure is None:
        return False
    carried = _carried(fact, last, work).phrase.measure
    found = best_choice(carried or measure, [(last.component, last.characteristic)], work.sheet)
    if found is None or not found[0].fits or found[0].in_sheet_unit is None or last.in_sheet_unit is None:
        return False
    before, now = parse_value(last.in_sheet_unit), parse_value(found[0].in_sheet_unit)
    return abs(now - before) <= _NEAR * abs(before)


def _carried(fact: Fact, last: Reading, work: Working) -> Fact:
    """*fact* in the unit that was said with *last*, where none is said."""
    measure, spec = fact.phrase.measure, work.sheet.find(last.component, last.characteristic)
    if measure is None or measure.unit_said is not None or measure.units or last.unit_said is None:
        return fact
    if spec is None or spec.unit == last.unit:
        return fact
    said = replace(measure, unit=last.unit, unit_said=last.unit_said)
    head = fact.phrase.head
    return replace(fact, phrase=replace(fact.phrase, head=head and replace(head, measure=said)))


def _give(fact: Fact, last: Reading, work: Working) -> None:
    fact.phrase = _carried(fact, last, work).phrase
    fact.characteristics = ((last.component, last.characteristic),)
    fact.subjects = [_of(last, fact)]
    fact.doubts = tuple(f for f in last.flags if f.kind in _OPEN)  # where that asked, this does


def _of(last: Reading, fact: Fact) -> Subject:
    """What *last* was of."""
    said = subject_of_components((last.component,), fact.phrase.start, fact.phrase.end)
    return replace(said, which=(last.which,) if last.which is not None else ())


def put_twice(work: Working) -> None:
    """ "twenty nine point nine eight twice": read so each time."""
    if _TWICE_HEADS.isdisjoint(work.texts):
        return
    for reading in [s for s in work.out if type(s) is Reading]:
        fact = work.said.get(reading.id)
        end = fact.phrase.end if fact is not None else len(work.texts)
        said = next((n for n in (1, 2) if work.texts[end : end + n] in _TWICE), 0)
        if not said or work.texts[end + said : end + said + 1] not in {(), (BREAK,), ("and",)}:
            continue
        same = {name: getattr(reading, name) for name in _SAME}
        first = reading.repeat_of or reading.id
        copy = work.make(
            Reading, end, end + said, flags=reading.flags, stage=reading.stage, repeat_of=first, **same
        )
        work.put(copy)
