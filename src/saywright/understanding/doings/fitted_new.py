""" "New o-ring on the back", "input bearing new": while the job goes back together, what is new went in."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from saywright.understanding.bench_words import AWAY, CLOSERS
from saywright.understanding.counting.mixed_ages import shares_behind
from saywright.understanding.doings.fasteners_on import TORQUES
from saywright.understanding.doings.movements import put_movements
from saywright.understanding.facts import Fact, Told
from saywright.understanding.going_back import begins_back, were_going_on
from saywright.understanding.phrases import NO_PHRASE
from saywright.understanding.statements import Movement, Reading
from saywright.understanding.subjects.noun_phrases import Subject
from saywright.understanding.subjects.parts import resolve
from saywright.understanding.tokens import BREAK
from saywright.understanding.working import Working

_NOT_FITTED = frozenset(
    {"QUESTION", "WHATIF", "OTHER_JOB", "PRICE", "LIMIT", "FUTURE", "NOT_MOVED", "BEFORE_WORK"}
)
_WANTS = frozenset(
    ["need", "needs", "want", "wants", "order", "no", "not", "without", "would", "will", "could", "for",
     "than"]
)  # fmt: skip
_OVER = frozenset((way, "the") for way in ("over", "past", "against", "around", "round", "between"))
_WITH_THE_NEW = frozenset({("with", "the", "new")})
_IN = frozenset({"in", "on", "into", "onto", "of", "for", "to", "inside"})
_WANT_REACH = 5  # tokens before a new part that tell it is not there yet
_BEGINS = frozenset({BREAK, "and", "then", "so"})
_WITHIN = frozenset({("in",), ("on",), ("into",), ("onto",)})
_JOINED = frozenset({(), (BREAK,), ("and",), ("then",), ("and", "then")})
_BEHIND = frozenset({(), (BREAK,), ("and",), ("with",)})
_ENDS_MEMBER = frozenset(
    [BREAK, "and", "then", "plus", "all", "both", "round", "around", "sides", "ends", "of", "them", "each",
     "side", "behind", "under", "beside", "it"]
)  # fmt: skip
_AGES = frozenset({"new", "old"})
_PUT = frozenset({"in", "on", "into", "onto"})
_HEAD = 2  # tokens before the first part: "and a new"
_FEWEST = 2  # parts of a row
_BE = frozenset({("is",), ("are",)})
_ONES = frozenset({("one",), ("ones",)})


def fit_new(told: Told, work: Working) -> None:
    """ "New o-ring on the back", "input bearing new": while the job goes back together, one was fitted."""
    back = begins_back(work, [c for s in told.subjects for c in s.components]) or _apart_by_age(told, work)
    back = back or _goes_in_next(told, work)
    if not (back or Movement in map(type, work.out)):
        return
    if told.marks:
        read = any(fact.kind == "value" for fact in told.facts)
        apart = _NOT_FITTED if read else _NOT_FITTED - {"LIMIT"}  # no number, no limit
        if any(m.tags & apart for m in told.marks):
            return
    told_of = (fact for fact in told.facts if fact.kind not in {"need_new", "value"})
    said_of = {s.start for fact in told_of for s in fact.subjects if not _only_done(fact, s, work)}
    for subject in told.subjects:
        row = back and not told.facts and _goes_on(subject, told, work)
        along = back and (_has_new_with_it(subject, told, work.texts) or _set_in(subject, told, work))
        if not back and not (subject.age == "new" and _is_fitted_here(work)):
            continue  # in the first line that goes back: "shaft seal in and a new circlip"
        along = along or (back and _is_shared_out(subject, work))
        if (subject.age is None and not (row or along)) or subject.start in said_of or not subject.components:
            continue
        beside_new = any(s.age == "new" and s.components == subject.components for s in told.subjects)
        put_there = _is_same(subject, work.texts) or _on_it(subject, told) or _in_place(subject, work.texts)
        put_there = put_there or _is_said_to_be(subject, work.texts)
        put_there = put_there or (back and _is_aged_member(subject, told, work))
        if not (beside_new or put_there or row or along):
            continue
        tells = (_tells_of(f, subject, work) and not _read_on_it(f, subject, told, work) for f in told.facts)
        if not along and any(tells):
            continue  # "new pads, both of them eleven point one": measured, and fitted when it is said
        led = work.texts[max(0, subject.start - 1) : subject.start + 2]
        if (led in _WITH_THE_NEW and not work.out) or led[0] == "of":
            continue  # "tester again with the new fluid": told of before; "a hundred mil of fresh oil"
        if _slid_over(subject, work) or _not_here(subject, work.texts):
            continue
        them = {"them", "those", "these"} & {*work.texts[subject.start : subject.end]}  # "one of them is new"
        there = _placed_with_next(subject, told, work)
        part = resolve(
            there, work.sheet, work.hand, work.now, off=work.off, movement="" if them else "fitted"
        )
        if part is not None:
            work.named(part.component, part.single)
            fitted = Fact("on", NO_PHRASE, 0, [there], start=there.start, end=there.end)
            put_movements(work, fitted, [part], "fitted")


def _placed_with_next(subject: Subject, told: Told, work: Working) -> Subject:
    """ "New pin and boot in the left lower": both there."""
    behind = next((s for s in told.subjects if s.start == subject.end + 1 and s.which), None)
    if behind is None or subject.which or subject.many or work.texts[subject.end] != "and":
        return subject
    led = not _IN.isdisjoint(work.texts[behind.start + 1 : behind.end]) and not (behind.many or behind.count)
    parts = [work.sheet.get(c) for c in subject.components]
    here = led and all(p is not None and p.has_places(behind.which) for p in parts)
    return replace(subject, which=behind.which) if here else subject


def _goes_in_next(told: Told, work: Working) -> bool:
    """ "New float needle in the clutch side" right behind what went on, its old one told or not."""
    first = told.subjects[0] if told.subjects else None
    if first is None or first.age != "new" or first.start > _HEAD or not first.components:
        return False
    return not _PUT.isdisjoint(work.texts[first.start : first.end + 1]) and were_going_on(work)


def _slid_over(subject: Subject, work: Working) -> bool:
    """ "Drum slid on over the new shoes": they were on by then."""
    over = work.texts[max(0, subject.start - 1) : subject.start + 1] in _OVER
    return over and not any(work.off.get(c, 0) for c in subject.components)


def _not_here(subject: Subject, texts: Sequence[str]) -> bool:
    """ "Order new pads", "new pads in the box": wanted, or where it is, and not fitted."""
    if not _WANTS.isdisjoint(texts[max(0, subject.start - _WANT_REACH) : subject.start]):
        return True
    behind = texts[subject.end : subject.end + 3]
    return behind[:1] in _WITHIN and not AWAY.isdisjoint(behind[1:])


def _apart_by_age(told: Told, work: Working) -> bool:
    """ "new needle, old spring, old lever": all of them off, some new and some old; so they go on again."""
    row = [s for s in told.subjects if s.components]
    if len(row) < _FEWEST:
        return False
    ages = {s.age for s in row if s.age is not None}
    apart = len(ages) > 1 and len({s.components for s in row}) > 1
    apart = apart and all(fact.kind != "finding" for fact in told.facts)  # "… both cracked"
    return apart and all(any(work.off.get(c, 0) for c in s.components) for s in row)


def _goes_on(subject: Subject, told: Told, work: Working) -> bool:
    """ "new gasket, then the new diaphragm, then the cover": the end of a row of what went in."""
    texts, ages = work.texts, work.ages
    before = texts[max(0, subject.start - 1) : subject.start] if subject.end == len(texts) else ()
    aged = [s for s in told.subjects if (s.age is not None or s.end in ages) and s.end < subject.start]
    several = len(aged) > 1 or any(s.end in ages for s in aged)  # "clamps, six new ones, and the rail"
    off = all(work.off.get(c, 0) for c in subject.components)  # "new shoes all round and the pins"
    along = before == ("and",) and (several or off) and len(aged) == len(told.subjects) - 1
    along = along or before == ("then",)  # "new cylinder, new hose and the washer"
    return (bool(aged) and along) or _closes(subject, told, texts)


def _closes(subject: Subject, told: Told, texts: Sequence[str]) -> bool:
    """ "new gasket, cover and four screws": the cover and what holds it go on over what is new."""
    row = told.subjects
    if subject not in row or row[0].age != "new" or row[-1].end != len(texts):
        return False
    plain = all(s.components and not s.pronoun for s in row)
    joined = all(texts[a.end : b.start] in _JOINED for a, b in pairwise(row))
    begins = not row[0].start or texts[row[0].start - 1] in _BEGINS
    upto = row[1 : row.index(subject) + 1]
    return plain and joined and begins and any(texts[s.end - 1] in CLOSERS for s in upto)


def _has_new_with_it(subject: Subject, told: Told, texts: Sequence[str]) -> bool:
    """ "banjo with two new washers": with those it went on."""
    if texts[subject.end : subject.end + 1] != ("with",) or subject.pronoun:
        return False
    if not _IN.isdisjoint(texts[max(0, subject.start - 2) : subject.start + 1]):
        return False  # "new second gear on the mainshaft with a new ring"
    new = [s for f in told.facts if f.kind == "on" for s in f.subjects if s.age == "new"]
    return any(subject.end < s.start <= subject.end + 3 for s in new)


def _set_in(subject: Subject, told: Told, work: Working) -> bool:
    """ "gear on the shaft with the old key", "needle in the slide": what was off went in there."""
    texts = work.texts
    begins = not subject.start or texts[subject.start - 1] in _BEGINS
    if not begins or subject.pronoun or texts[subject.end : subject.end + 1] not in _WITHIN:
        return False
    holder = next((s for s in told.subjects if 0 <= s.start - subject.end <= 1), None)
    if holder is None or not holder.components or texts[holder.end : holder.end + 1] not in _BEHIND:
        return False
    return len(subject.components) == 1 and bool(work.off.get(subject.components[0]))


def _is_fitted_here(work: Working) -> bool:
    return any(isinstance(s, Movement) and s.movement == "fitted" for s in work.out)


def _is_same(subject: Subject, texts: Sequence[str]) -> bool:
    """ "same fibre washer, I didn't have another": the old one went back on."""
    before = texts[subject.start - 1] if subject.start else BREAK
    return before in {BREAK, "and"} and "same" in texts[subject.start : subject.start + 2]


def _is_said_to_be(subject: Subject, texts: Sequence[str]) -> bool:
    """ "and the clip's the old one": of the part, how old the one is that went in."""
    words = texts[subject.start : subject.end]
    return words[-1:] in _ONES and not {"is", "are"}.isdisjoint(words)


def _is_shared_out(subject: Subject, work: Working) -> bool:
    """ "valve springs, three old ones and a new one": how many of each age, and no more."""
    return bool(shares_behind(work.ages, work.texts, subject.end)[1]) and not subject.pronoun


def _is_aged_member(subject: Subject, told: Told, work: Working) -> bool:
    """ "new shoes old springs new seal": of each how old it is, and no more; alone what was off went back."""
    row = [s for s in told.subjects if s.components]
    behind = next((s.start for s in row if s.start >= subject.end), len(work.texts))
    before = max((s.end for s in row if s.end <= subject.start), default=0)
    texts = work.texts
    others = any(s.age is not None and s is not subject for s in row)
    done_up = any(f.phrase.start == subject.end and _is_done_up(f, work) for f in told.facts)
    ends = _ENDS_MEMBER.issuperset(texts[subject.end : behind]) or done_up
    ends = ends or (others and _told_of_stranger(subject, told))
    if subject.pronoun or not (_opens_member(texts[before : subject.start]) and ends):
        return False
    return others or all(bool(work.off.get(c)) for c in subject.components)


def _told_of_stranger(subject: Subject, told: Told) -> bool:
    """ "… old lever, pin screw nipped up": what stands behind it is told of something else."""
    behind = [f for f in told.facts if f.phrase.start >= subject.end]
    return bool(behind) and all(s.start >= subject.end and not s.components for s in behind[0].subjects)


def _opens_member(words: Sequence[str]) -> bool:
    return (_ENDS_MEMBER | _AGES).issuperset(words[-1:])  # "shoes new old springs"


def _only_done(fact: Fact, subject: Subject, work: Working) -> bool:
    """ "the inner's the old one greased", "new rings front and rear, greased": done to it, and it went in."""
    placed = subject.age == "new" and bool(subject.which) and not subject.pronoun
    return fact.kind == "doing" and (placed or _is_said_to_be(subject, work.texts))


def _in_place(subject: Subject, texts: Sequence[str]) -> bool:
    """ "old float in the top": where it went is named behind it."""
    return bool(subject.which) and not {"in", "on"}.isdisjoint(texts[subject.start + 1 : subject.end])


def _read_on_it(fact: Fact, subject: Subject, told: Told, work: Working) -> bool:
    """ "new slide, one point one two two": one part, with what was read on it as it went in."""
    if fact.kind != "value" or subject.many or work.texts[subject.end : subject.end + 1] in _BE:
        return False
    ages = {s.age for s in told.subjects if s.age is not None and s.components == subject.components}
    read = any(isinstance(s, Reading) and work.said.get(s.id) is fact for s in work.out)
    return read and (
        len(ages) == 1 or _in_place(subject, work.texts)
    )  # "old spring forty, new one forty two"


def _on_it(subject: Subject, told: Told) -> bool:
    """ "carb on, old gaskets": right behind what was fitted."""
    return any(fact.kind == "on" and fact.phrase.end == subject.start for fact in told.facts)


def _may_be_of(fact: Fact, subject: Subject, work: Working) -> bool:
    """False for a value of a part on which nothing is read: "new seal and the screws torqued to ninety"."""
    parts = [c for c in map(work.sheet.get, subject.components) if c is not None]
    return fact.kind != "value" or not parts or any(c.characteristic for c in parts)


def _is_done_up(fact: Fact, work: Working) -> bool:
    """ "both hoses new eighteen newton metres each": with its torque it is on, as the job goes back."""
    measure = fact.phrase.measure
    return measure is not None and measure.unit in TORQUES and work.stage == "as_left"


def _tells_of(fact: Fact, subject: Subject, work: Working) -> bool:
    """A value or a state behind *subject* that may be its own."""
    if fact.kind not in {"value", "finding"} or fact.phrase.start < subject.end:
        return False
    if _is_done_up(fact, work):
        return False
    owners = {component for component, _ in fact.characteristics}
    if owners and not fact.subjects and owners.isdisjoint(subject.components):
        return False  # "front plate's new, end clearance sixteen tenths"
    if subject.which and all(s.which and s.which != subject.which for s in fact.subjects):
        return not fact.subjects  # "nearside one's new, offside one's fine"
    told = [s for s in fact.subjects if not s.pronoun and _may_be_of(fact, s, work)]
    named = {c for s in told for c in s.components}
    return not named or bool(named & set(subject.components))
