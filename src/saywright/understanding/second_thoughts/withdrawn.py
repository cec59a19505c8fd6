"""What comes in the place of what was withdrawn, and the words that tell why it was."""

from __future__ import annotations

from collections.abc import Sequence

from saywright.understanding.facts import Fact, Mark, Told
from saywright.understanding.numbers.tokens import is_number_word
from saywright.understanding.quantities.measures import find_measures
from saywright.understanding.second_thoughts.number_corrections import reading_of_value
from saywright.understanding.second_thoughts.one_named import About, one_named
from saywright.understanding.second_thoughts.restated import just_said, turned_at_head
from saywright.understanding.statements import Correction, Reading, Remark, Statement, Unclear
from saywright.understanding.subjects.noun_phrases import subject_of_components
from saywright.understanding.tokens import BREAK
from saywright.understanding.working import Working

_REACH = 3  # utterances of mere talk between a withdrawal and the new value
_PAST = frozenset({"was", "were", "had"})


def withdrawn_before(work: Working) -> Reading | None:
    """ "scratch that" … "twelve point six": the reading withdrawn last, where nothing came since but talk."""
    for group in reversed(work.before.recent[-_REACH:]):
        taken = [s for s in group if type(s) is Correction]
        if taken:
            gone = {one for s in taken if s.by is None for one in s.supersedes}
            every = [s for said in work.before.recent for s in said]
            read = [s for s in every if isinstance(s, Reading) and s.id in gone]
            return read[0] if len(read) == 1 and len(taken) == 1 else None
        if not all(type(s) is Remark and not s.reason for s in group):
            return None
    return None


def in_place_of(work: Working, told: Told, fact: Fact, withdrawn: Sequence[Statement]) -> Reading | None:
    """The withdrawn reading whose place the value *fact* takes; None where it is told by itself.

    *withdrawn* is what was withdrawn in this utterance. Behind one that had no place,
    *fact* is of its part.
    """
    read = [s for s in withdrawn if isinstance(s, Reading)]
    old = _meant(read, fact) if read else withdrawn_before(work) if not withdrawn else None
    named = {c for s in fact.subjects for c in s.components}
    placeless = [s.component for s in withdrawn if isinstance(s, Unclear) and s.component]
    if placeless and not read and not fact.characteristics and not named:
        fact.subjects = [subject_of_components((placeless[-1],), fact.start, fact.start)]
    strange = not withdrawn and bool(told.strays.get(fact.segment))
    if old is None or strange or (named and old.component not in named):
        return None
    key = (old.component, old.characteristic)
    return old if not fact.characteristics or key in fact.characteristics else None


def taken_back(work: Working, told: Told, mark: Mark, said: Sequence[Statement]) -> list[Statement]:
    """What of what was *said* last "scratch that" takes back: all, or only what is replaced behind it."""
    if "SCRATCH_OF" in mark.tags:
        return _said_last_of(work, mark)
    if _is_of_number(work.texts, mark.start) and not any(s in work.out for s in said):
        return []
    values = [f for f in told.facts if f.kind == "value" and f.phrase.start >= mark.end]
    read = [s for s in said if isinstance(s, Reading)]
    if not values or not read:
        return list(said)
    replaced = [in_place_of(work, told, fact, said) for fact in values]
    return [s for s in said if s in replaced] or list(said)


def _said_last_of(work: Working, mark: Mark) -> list[Statement]:
    """ "Scrap what I said about the seal": what holds of it of the last utterance that told of it."""
    named = one_named(work.texts, mark.end, work.lexicon, read=True)
    if named is None:
        return []
    for group in reversed(work.before.recent):
        said: list[Statement] = [
            s for s in group if isinstance(s, About) and s.id not in work.gone and named.tells(s)
        ]
        if said:
            return said
    old = [r for r in work.latest.values() if named.tells(r)]
    return [*old[-1:]]


def _is_of_number(texts: Sequence[str], at: int) -> bool:
    """ "to twenty three, scratch that, twenty four": the number right before token *at* is meant.

    What it was of need not have been made out.
    """
    end = next((i for i in range(at - 1, -1, -1) if texts[i] != BREAK), -1)
    return end >= 0 and is_number_word(texts, end)


def _meant(read: Sequence[Reading], fact: Fact) -> Reading:
    """Of several that were withdrawn the one at the place that *fact* names, else the last."""
    keys = {key[1] for key in fact.characteristics}
    places = {place for s in fact.subjects for place in s.which}
    named = {c for s in fact.subjects for c in s.components}
    return max(
        reversed(read),
        key=lambda r: (r.component in named, r.which in places, r.characteristic in keys),
    )


def denies_last(work: Working, fact: Fact) -> bool:
    """ "it's not twelve point five", of what was just read: it holds no more."""
    near = [s for s in (*just_said(work), *work.out) if isinstance(s, Reading)]
    old = reading_of_value(work, fact.phrase.measure) if fact.phrase.measure is not None else None
    if old is None or old.id not in {s.id for s in near} or fact.characteristics:
        return False
    work.supersede([old.id], None, fact.start, fact.end)
    return True


def how_many(work: Working, mark: Mark) -> int:
    """ "strike the last two": how many are withdrawn; 0 where no number belongs there."""
    if "SCRATCH_MANY" not in mark.tags:
        return 0
    measures = find_measures(work.texts[mark.end : mark.end + 2], work.lexicon.units)
    if not measures or not measures[0].readings or not measures[0].readings[0].value.isdigit():
        return 1
    work.covered.append((mark.end, mark.end + measures[0].end))
    return int(measures[0].readings[0].value)


def excuses(work: Working, told: Told, fact: Fact, withdrawn: Sequence[Statement]) -> bool:
    """ "scratch that, it was stuck": why a value was wrong, no state of a part."""
    if fact.kind != "finding" or any(s.components or s.which for s in fact.subjects):
        return False
    if withdrawn:
        return isinstance(withdrawn[-1], Reading | Unclear)
    was = not _PAST.isdisjoint(work.texts[fact.start : fact.phrase.end])
    values = [f for f in told.facts if f.kind == "value" and f.phrase.start > fact.phrase.start]
    plain = any(not v.subjects and not v.characteristics for v in values)
    return was and plain and turned_at_head(work, fact)
