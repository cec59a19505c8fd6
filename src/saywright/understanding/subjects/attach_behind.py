"""Words behind what they pick from: "gear and shaft both out", "seals new front and rear"."""

from __future__ import annotations

from dataclasses import replace

from saywright.understanding.bench_words import TOO
from saywright.understanding.conditions.degrees import is_good
from saywright.understanding.facts import Fact
from saywright.understanding.subjects.attach_facts import predicate_follows
from saywright.understanding.subjects.noun_phrases import Subject
from saywright.understanding.subjects.part_picks import all_have, are_renewed
from saywright.understanding.walk import Walk

_PLURAL_VERBS = frozenset({"are", "were", "have"})
_ALONG = (("together", "with"), ("along", "with"))
_ACROSS = frozenset({("thick",), ("long",), ("wide",), ("deep",), ("across",)})
_ENDS_AGE = frozenset({"break", "mark", "subject", "char", "measure"})


def aged_behind(walk: Walk, index: int, subject: Subject) -> bool:
    """ "input bearing new", "seals new front and rear": said behind the part."""
    before, after = walk.before(index), walk.after(index)
    if subject.age is None or before is None or not walk.current or walk.used:
        return False
    if subject.which and walk.current[-1].which not in {(), subject.which}:
        return False  # "old outer piston, new inner"
    is_so = walk.texts[before.start : before.end] in {("is",), ("are",)} and not subject.which
    too = after is not None and walk.texts[after.start : after.end] in TOO
    after = walk.after(index + 1) if too else after  # "the pipe's new too"
    ends = after is None or after.kind in _ENDS_AGE or bool(after.tags & {"AND"})
    if is_so and (ends or (after is not None and after.lead_tags & {"REST", "OTHER"})):
        said = walk.before(index - 1)  # "bleed nipple's new"
        before = replace(said, end=before.end) if said is not None else before
        placed = before.kind == "lead" and bool(walk.current[-1].which)  # "cam side's new"
    else:
        placed = False
    if (
        not (before.kind == "subject" or placed)
        or before.end != walk.phrases[index].start
        or (after is not None and after.kind == "word")
    ):
        return False
    held = walk.current[-1]
    several = len(walk.current) > 1 and subject.selector in {"both", "all"}  # "seal and wiper are both new"
    row = not several and len(walk.current) > 1 and before.kind == "subject" and walk.joined_by_and
    aged = replace(
        held,
        age=subject.age,
        which=held.which or subject.which,
        selector=held.selector or ("" if several else subject.selector),
        count=subject.count or held.count,
    )
    for at, other in enumerate(walk.current[:-1] if several or row else ()):
        if row and (other.age is not None or not are_renewed(walk.sheet, other.components)):
            continue  # "gasket and seal new", not "carb and gasket new"
        walk.current[at] = replace(other, age=subject.age)
        walk.out.subjects[:] = [walk.current[at] if s is other else s for s in walk.out.subjects]
    walk.current[-1] = aged
    walk.out.subjects[:] = [aged if s is held else s for s in walk.out.subjects]
    if is_so and held.pronoun:
        _age_moved(walk, aged)
    if is_so and aged.components and aged not in walk.out.subjects:
        walk.out.subjects.append(aged)  # "rear one's new"
    return True


def _age_moved(walk: Walk, aged: Subject) -> None:
    """ "lip seal's in that's new": how old what went in is; not "screws in, low one's new"."""
    last = walk.last
    if last is None or last.kind != "on" or len(last.subjects) != 1 or last.subjects[0].age is not None:
        return
    if last.subjects[0].components == aged.components and aged.which == last.subjects[0].which:
        last.subjects = [replace(last.subjects[0], age=aged.age)]


def all_done(walk: Walk, index: int, subject: Subject) -> bool:
    """ "two bushes worn, I'll do all four": more of them than were spoken of."""
    last = walk.last
    if last is None or last.kind != "doing" or last.phrase.end != walk.phrases[index].start or subject.which:
        return False
    fewer = len(last.subjects) == 1 and last.subjects[0].count is not None and last.subjects[0].components
    after = walk.after(index)
    if not fewer or subject.count == last.subjects[0].count or (after is not None and after.kind == "word"):
        return False
    last.subjects = [replace(last.subjects[0], count=subject.count, selector=subject.selector, which=())]
    last.cover(subject.start, subject.end)
    walk.claims = []
    return True


def done_along(walk: Walk, index: int, said: Subject) -> bool:
    """ "that has to be renewed together with its seal and its boot": one more that the same is done with."""
    last, start = walk.last, walk.phrases[index].start
    if last is None or last.kind != "doing" or not last.subjects or walk.glue & {"BREAK", "BUT", "MARK"}:
        return False
    if last.segment != walk.segment or walk.texts[max(0, start - 2) : start] not in _ALONG:
        return False
    walk.take(last, [said])
    walk.extendable, walk.glue = [last], set()
    walk.hold([said], used=True)
    return True


def _so_decided(walk: Walk, held: Subject, said: Subject) -> bool:
    """ "it's torn so that's a new one": what a fault calls for, not how old the one is that was named."""
    last = walk.last
    if last is None or last.kind != "finding" or not held.pronoun or walk.texts[said.start] == "the":
        return False
    return walk.texts[held.start - 1 : held.start] == ("so",) and not is_good(walk, last.phrase)


def said_to_be_new(walk: Walk, said: Subject) -> bool:
    """ "trailing one's a new one": how old the one named before is."""
    if said.age is None or not (said.single or said.many) or said.components or said.which or walk.used:
        return False
    if len(walk.current) != 1 or not walk.current[0].components or not walk.glue <= {"AUX", "COP"}:
        return False
    held = walk.current[0]
    counted = said.many and bool(held.count or held.selector) and held.end == said.start
    if walk.texts[held.end : said.start] not in {("is",), ("are",)} and not counted:
        return False  # "insulator on, both gaskets are new ones": of another part
    if _so_decided(walk, held, said):
        return False
    aged = replace(held, age=said.age, end=said.end)
    walk.current[0] = aged
    walk.out.subjects[:] = [aged if s is held else s for s in walk.out.subjects]
    if aged not in walk.out.subjects:
        walk.out.subjects.append(aged)
    return True


def ends_value(walk: Walk, index: int, subject: Subject) -> bool:
    """ "seven point two left and right", "twelve mil of oil in each": the last words tell which ones."""
    last = walk.last
    if last is None or last.kind != "value" or last.segment != walk.segment:
        return False
    if not last.subjects and not (last.characteristics and subject.selector in {"both", "all"}):
        return False
    at = next(i for i, phrase in enumerate(walk.phrases) if phrase is last.phrase)
    rest = walk.phrases[at + 1 :]
    rest = [p for p in rest if walk.texts[p.start : p.end] not in _ACROSS]  # "fifteen millimetres thick each"
    if any(p.kind not in {"char", "link", "lead"} for p in rest):
        return False
    which = tuple(w for p in rest if p.kind == "lead" for t in p.lead for w in t.meaning.positions)
    if subject.which and len(which) < 2:
        return False
    held = last.subjects or [_owners_placed(walk, last, subject, which)]
    last.subjects = [replace(s, which=which or s.which, selector=subject.selector) for s in held]
    last.cover(subject.start, walk.phrases[-1].end)
    walk.taken.update(range(index, len(walk.phrases)))
    return True


def _owners_placed(walk: Walk, value: Fact, said: Subject, which: tuple[str, ...]) -> Subject:
    """ "four clicks each at the rear": of what is read so, the parts that have such places."""
    read = dict.fromkeys(component for component, _ in value.characteristics)
    return replace(said, components=tuple(c for c in read if all_have(walk.sheet, (c,), which)))


def selects_back(walk: Walk, index: int, subject: Subject) -> bool:
    """ "gear and shaft both out", "three point nine two both of them", "four point oh each on the pads"."""
    before = walk.before(index)
    if before is None or before.end != walk.phrases[index].start:
        return False
    row = len(walk.current) > 1 and subject.age is None and _is_row_before(walk, index)
    if (before.kind == "subject" or row) and walk.current and not walk.used and not subject.which:
        if len(walk.current) == 1:
            walk.current = [replace(walk.current[0], selector=subject.selector, count=subject.count)]
        return True
    last = walk.last
    if last is not None and last.kind == "restore" and last.phrase is before and walk.after(index) is None:
        last.subjects = [replace(s, which=subject.which, selector=subject.selector) for s in last.subjects]
        return True  # "back where it was, both sides"
    if subject.which and (before.kind != "measure" or walk.after(index) is not None):
        return False
    if before.kind != "measure" or last is None or last.phrase is not before:
        return False
    if subject.which:
        last.subjects = [replace(s, which=subject.which) for s in last.subjects] or [subject]
        last.cover(subject.start, subject.end)
    else:
        walk.each = subject.selector
        measure = last.phrase.measure
        told_by = bool(last.characteristics) or (measure is not None and measure.unit is not None)
        after = walk.after(index)
        alone = told_by and after is None  # "torque twenty four all four"
        if walk.texts[subject.end - 1] in {"sides", "ends"}:
            alone = after is None or after.kind in {"char", "break"}  # "twenty two both sides, run-out …"
        # "both bolts seven each": two of them, also where more are fitted
        two = [replace(s, count=2) if s.selector == "both" else s for s in last.subjects]
        told = [replace(s, selector=subject.selector) for s in two]
        last.subjects = told or ([subject] if alone else [])
    return True


def _is_row_before(walk: Walk, index: int) -> bool:
    """ "main jet and pilot jet are both back in": the row that "both" picks from, before the verb."""
    verb, noun = walk.before(index), walk.before(index - 1) if index else None
    if verb is None or noun is None or noun.end != verb.start:
        return False
    return noun.kind == "subject" and verb.kind == "aux" and walk.texts[verb.start] in _PLURAL_VERBS


def placed_behind(walk: Walk, index: int, said: Subject) -> bool:
    """ "lever's eleven on the primary and the same on the octopus": which one, behind its value."""
    last = walk.last
    if last is None or last.kind != "value" or last.segment != walk.segment or not said.which:
        return False
    if not walk.glue & {"PREP", "OF"} or walk.glue & {"AND", "BREAK", "BUT", "MARK", "AUX", "OR", "WITH"}:
        return False
    if said.components or said.selector or predicate_follows(walk, index):
        return False
    if not last.subjects or any(s.which or s.selector or s.count for s in last.subjects):
        return False
    itself = last.introduced and [s.pronoun for s in last.subjects] == [True]  # "it's … on the left"
    named = [s for s in last.subjects if s.components or not itself]
    if not all(all_have(walk.sheet, s.components, said.which) for s in named):
        return False
    last.subjects = [replace(s, which=said.which) for s in last.subjects]
    last.cover(said.start, said.end)
    walk.glue = set()
    return True


def tells_which(walk: Walk, said: Subject) -> bool:
    """ "worn on the left one", "milky in the left leg": which of several the last finding is of."""
    last = walk.last
    if last is None or last.kind != "finding" or last.segment != walk.segment:
        return False
    if said.components and not any(s.components for s in last.subjects):
        return False  # "worn on the left pad"
    led = walk.glue & {"PREP", "OF"} or ("AT" in walk.glue and some_there(walk, said))
    if not said.which or not led or walk.glue & {"AND", "BREAK", "BUT", "MARK", "AUX"}:
        return False
    if any(last.phrase.end <= at < said.start for at in walk.out.strays.get(walk.segment, ())):
        return False  # "they are fine, a bit of carbon on the primary one": what is there is the carbon
    held = [
        replace(s, selector="", count=None) if s.selector in {"both", "all"} else s for s in last.subjects
    ]
    if any(s.which or s.selector or s.count or len(s.components) > 1 for s in held):
        return False
    named = [walk.sheet.get(c) for s in last.subjects for c in s.components]
    if any(c is None or not set(said.which) <= set(c.whiches) for c in named) and not some_there(walk, said):
        return False
    if not named and not said.single:
        return False
    last.subjects = [replace(s, which=said.which) for s in held] or [replace(said, single=False)]
    last.cover(said.start, said.end)
    walk.glue = set()
    return True


def some_there(walk: Walk, said: Subject) -> bool:
    """ "discs good at the front": several were named, and what stands behind is where some of them are."""
    last = walk.last
    if last is None or last.kind != "finding" or not said.which or said.components or not last.subjects:
        return False
    if not all(s.many and s.components and not s.which for s in last.subjects):
        return False
    parts = [walk.sheet.get(c) for s in last.subjects for c in s.components]
    return all(part is not None and set(said.which) <= part.place_words for part in parts)


def names_it_on(walk: Walk, said: Subject) -> bool:
    """ "rear tappet roller's pitted", where the sheet has roller tappets: a second word for the same part."""
    held = walk.current[-1] if walk.current and not walk.used else None
    if held is None or not said.alias or said.other_words or held.components != said.components:
        return False
    if held.end != said.start or held.selector or held.count:
        return False
    named = replace(held, end=said.end)
    walk.current[-1] = named
    walk.out.subjects[:] = [named if s is held else s for s in walk.out.subjects]
    return True
