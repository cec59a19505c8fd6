"""Findings → conditions of parts."""

from __future__ import annotations

from itertools import pairwise

from saywright.flags import Flag, FlagKind, flag
from saywright.sheets.model import Stage
from saywright.understanding.bench_words import IS, PLAIN
from saywright.understanding.conditions.alone import is_told_alone, is_told_in_place
from saywright.understanding.conditions.better_now import stage_now
from saywright.understanding.conditions.freed import is_likeness, was_freed
from saywright.understanding.conditions.idle_states import finds_nothing
from saywright.understanding.conditions.of_all import of_all
from saywright.understanding.conditions.on_rubber import ON_RUBBER, on_rubber
from saywright.understanding.conditions.told_before import (
    judges_before,
    judges_value,
    known_so,
    said_already,
    said_with_it,
    told_before,
)
from saywright.understanding.conditions.without_verb import ends_there, is_said_apart, stands_without_verb
from saywright.understanding.facts import Fact, Told
from saywright.understanding.meanings import NOTHING
from saywright.understanding.stages import stage_of_part
from saywright.understanding.statements import ConditionNote, Remark, Severity
from saywright.understanding.subjects.noun_phrases import Subject
from saywright.understanding.subjects.parts import Part
from saywright.understanding.subjects.which_one import doubt_place
from saywright.understanding.tags import DEGREES
from saywright.understanding.tokens import BREAK
from saywright.understanding.wordforms import is_past
from saywright.understanding.working import Working

_SEVERITY: tuple[tuple[str, Severity], ...] = (
    ("SEVERE", "severe"),
    ("MODERATE", "moderate"),
    ("SLIGHT", "slight"),
)
# "nice and dry, no cracks"
_BESIDE = frozenset({"and", "but", "no", BREAK, "nice", "lovely", "all", "too", "so"})
_PROPER = frozenset({"proper", "actual", "real", "deep", "serious", "major"})
_ARTICLES = frozenset({"a", "an", "some"})
# What a fault has the shape of: "a rust ring on the edge", "some wear marks".
_SHAPES = frozenset(
    ["ring", "rings", "mark", "marks", "spot", "spots", "patch", "patches", "line", "lines", "stain",
     "stains", "band", "streak", "streaks", "track", "tracks", "step", "ridge", "bloom", "pattern"]
)  # fmt: skip
_AS_FAR = 8  # tokens from "there are" to what is there
_AMOUNT = 4  # tokens: "a thin line of"
_SHE = frozenset({"it", "she", "that"})
_RUNNING = frozenset({"running", "spinning", "turning", "rolling", "sitting", "lying"})
_SELF = {("i",), ("we",), ("you",)}
_SEEMS = frozenset({"looks", "look", "feels", "feel", "seems"})  # where the sheet's name has it
_WORKS = frozenset(
    ["moves", "slides", "spins", "turns", "runs", "works", "opens", "closes", "seats", "holds", "wants",
     "tends", "likes", "starts", "begins", "tries"]
)  # fmt: skip


def is_finding(work: Working, told: Told, fact: Fact, condition: str) -> bool:
    """ "good man", "dry today": a word of praise or weather finds nothing on the part in hand."""
    if (in_place := is_told_in_place(work, fact)) or finds_nothing(work, told, fact, condition):
        return in_place
    spec = work.sheet.get_condition(condition)
    good = spec is not None and spec.good
    whole = is_told_alone(work, told, fact, condition, good=good) or was_freed(work, fact)
    whole = whole or _says_it_all(work, fact) or is_likeness(work, fact)
    whole = whole or (condition == "good" and judges_value(work, told, fact))
    if whole or _is_imperative(told, fact):
        return whole
    degree = bool(fact.phrase.aux_tags & DEGREES)
    alone = len(work.texts) <= fact.phrase.end - fact.phrase.start + 1  # "turns lovely"
    acts = work.texts[fact.phrase.start] in _WORKS or _behind_verb(work, fact)
    acts = (acts and bool(fact.subjects or alone)) or _does_so(work, fact)
    apart = is_said_apart(work, fact)
    bare = stands_without_verb(work, told, fact)
    said_of = acts or bool(fact.phrase.aux_tags & {"COP", "NEG"}) or degree or fact.negated or fact.introduced
    said_of = said_of or _goes_on(work, told, fact) or work.texts[max(0, fact.phrase.start - 1)] == "some"
    said_of = said_of or _is_there(work, fact) or apart or bare
    if spec is not None and (_is_denial(work, fact) if spec.good else _opens(work, fact)):
        return True
    alone = not told.strays.get(fact.segment)
    if not said_of and ((not alone and not _is_amount(work, fact)) or _leads_a_noun(work, fact)):
        return False
    if spec is None or not spec.good or (degree and not fact.subjects):
        return True  # "bit dry": a good word with a degree is a fault
    if bare and condition != "good":
        return True
    if alone and not fact.subjects and not fact.phrase.aux and not _is_told_in_row(work, told, fact):
        return _only_named(work) and len(work.texts) <= fact.phrase.end - fact.phrase.start + 1
    that = condition == "good" and any(work.texts[s.start : s.end] == ("that",) for s in fact.subjects)
    that = that and not judges_before(work, fact)  # "that's clean" is no mere praise
    return _is_told_in_row(work, told, fact) or (
        (acts or apart or "COP" in fact.phrase.aux_tags or work.texts[fact.phrase.start] in _SEEMS)
        and not that
        and bool(fact.subjects or _noun_before(work, fact))
    )


def _is_there(work: Working, fact: Fact) -> bool:
    """ "there are a couple of shallow grooves in it": with words for what they are like between."""
    before = work.texts[max(0, fact.phrase.start - _AS_FAR) : fact.phrase.start]
    if "there" not in before or fact.participle or not fact.subjects:
        return False
    return any(pair[0] == "there" and pair[1] in IS for pair in pairwise(before))


def _goes_on(work: Working, told: Told, fact: Fact) -> bool:
    """ "it's chipped on two vanes and worn at the eye", "has scoring and a rust ring": the same verb."""
    at = next(i for i, f in enumerate(told.facts) if f is fact)
    before = told.facts[at - 1] if at else None
    joined = before is not None and before.kind == "finding" and before.segment == fact.segment
    if joined and before is not None and not before.subjects and _opens(work, before):
        return fact.participle and not fact.subjects  # "cracked right along and gone hard as well"
    return (
        joined
        and before is not None
        and "COP" in before.phrase.aux_tags
        and (fact.participle or work.texts[fact.phrase.start - 1] in _ARTICLES)
        and bool(fact.subjects)
        and fact.subjects == before.subjects
    )


def _is_told_in_row(work: Working, told: Told, fact: Fact) -> bool:
    """ "straight, no scoring", "bone dry the pair of them": nothing but how it is was said."""
    found = [f for f in told.facts if f.kind == "finding"]
    if any("COP" in f.phrase.aux_tags for f in found):
        return False
    spans = [(f.phrase.start, f.phrase.end) for f in found]
    spans += [(s.start, s.end) for s in fact.subjects if s.start >= fact.phrase.end and s.pronoun]
    said = {at for start, end in spans for at in range(start, end)}
    rest = {text for at, text in enumerate(work.texts) if at not in said}
    return len(spans) > 1 and rest <= _BESIDE


def _is_denial(work: Working, fact: Fact) -> bool:
    """ "nothing wrong with it", "no damage to the teeth": what finds no fault is no mere praise."""
    head = fact.phrase.head
    return head is not None and not fact.negated and work.texts[head.start] in {"no", "nothing"}


def _is_amount(work: Working, fact: Fact) -> bool:
    """ "a line of rust round it": how much of it there is; the noun leads away from no part."""
    start = fact.phrase.start
    words = work.texts[max(0, start - _AMOUNT) : start]
    return "of" in words[-2:] and not _ARTICLES.isdisjoint(words[:-2])


def _behind_verb(work: Working, fact: Fact) -> bool:
    """ "it rolls straight": a verb of a third person between the pronoun and how it is."""
    at = fact.phrase.start - 1
    verb = work.texts[at] if at > 0 else ""
    third = verb.isalpha() and len(verb) > 3 and verb.endswith("s") and not verb.endswith("ss")
    if verb in _RUNNING and work.texts[at - 1] in IS:
        return work.texts[at - 2] in {"it", "that", "she"} or bool(fact.subjects)  # "it's running dead true"
    return (
        third
        and work.texts[at - 1] in {"it", "that", "she"}
        and verb not in PLAIN
        and (verb,) not in work.lexicon.table
    )


def _does_so(work: Working, fact: Fact) -> bool:
    """ "it rattles about in the bore", "they leak at the seam": a fault that is told by a verb."""
    start = fact.phrase.start
    who, verb = work.texts[start - 1] if start else "", work.texts[start]
    if who == "they":
        return work.lexicon.table.get((verb + "s",), NOTHING).conditions == fact.phrase.meaning.conditions
    told = work.texts[fact.phrase.end : fact.phrase.end + 1] != ("so",)  # "it wobbles so it's bent"
    return told and who in _SHE and verb.endswith("s") and not verb.endswith("ss")


def _says_it_all(work: Working, fact: Fact) -> bool:
    """ "both dry", "and now I can see daylight through it": it says which, or it can say nothing else."""
    both = not fact.phrase.aux and [s.selector for s in fact.subjects] == ["both"]
    seen = "daylight" in work.texts[fact.phrase.start : fact.phrase.end]
    return both or seen or any(_says_which(s, fact) for s in fact.subjects)


def _says_which(subject: Subject, fact: Fact) -> bool:
    """True where the part, or which one, is said: "the other one I can see daylight"."""
    other = subject.selector == "other" and subject.end <= fact.phrase.start
    return other or bool(subject.components or subject.which or subject.unclear)


def is_not_yet(work: Working, fact: Fact) -> bool:
    """ "bar's not fitted yet", "I've not fitted it": nothing is missing, it was not done."""
    start, end = fact.phrase.start, fact.phrase.end
    head = fact.phrase.head
    if head is None or work.texts[head.start] != "not":
        return False
    movement = work.lexicon.table.get(work.texts[head.start + 1 : head.end], NOTHING)
    if not movement.tags & {"MOVE_ON", "MOVE_OFF"}:
        return False
    return "yet" in work.texts[end : end + 2] or work.texts[max(0, start - 1)] in {"have", "had"}


def put_findings(
    work: Working, told: Told, fact: Fact, told_by: str, parts: list[Part], *, stage: Stage
) -> None:
    """The condition on record, once for each part it was found on."""
    severity = next((name for tag, name in _SEVERITY if tag in fact.degree), None)
    for component, which, flags in _targets(work, fact, parts):
        condition = on_rubber(work, fact, component, told_by) if told_by in ON_RUBBER else told_by
        key = (component, which, condition, not fact.negated)
        if told_before(work, told, key) or said_with_it(work, fact, key) or known_so(work, fact, key):
            work.covered.append((fact.start, fact.end))
            continue
        said = said_already(work, key)
        if said is None and fact.negated and _less_so(work, fact):
            said = said_already(work, (component, which, condition, True))
        if said is not None:
            work.covered.append((fact.start, fact.end))
            if severity is not None and said.severity is None and said.present:
                work.swap_note(said, said.model_copy(update={"severity": severity}))
            continue
        made = work.make(
            ConditionNote,
            fact.start,
            fact.end,
            flags=flags,
            stage=stage_now(
                work, fact, (component, which, condition), stage_of_part(work, told, component, which, stage)
            ),
            component=component,
            which=which,
            condition=condition,
            present=not fact.negated,
            severity=None if fact.negated or condition == "good" else severity,
        )
        work.put(made)


def _less_so(work: Working, fact: Fact) -> bool:
    """ "rusty, but not rusted through", "worn but not badly worn": how far what was just said goes."""
    but = work.texts[max(0, fact.phrase.start - 3) : fact.phrase.end]
    through = "through" in work.texts[fact.phrase.end - 1 : fact.phrase.end + 1]
    return "but" in but and (bool(fact.degree) or through or not _PROPER.isdisjoint(but))


def _targets(
    work: Working, fact: Fact, parts: list[Part]
) -> list[tuple[str | None, str | None, tuple[Flag, ...]]]:
    if not parts:
        return [(None, None, (flag(FlagKind.PART_AMBIGUOUS, "no part was named"),))]
    return [
        (part.component, which, (*part.flags, *doubt_place(fact, part, which, work.sheet)))
        for part in parts
        for which in of_all(work, fact, part)
    ]


def _is_imperative(told: Told, fact: Fact) -> bool:
    """ "twist and pull": a state's word that is a verb here, before another one."""
    if fact.subjects or fact.phrase.aux or fact.participle or fact.phrase.start:
        return False
    behind = [f for f in told.facts if f.kind in {"off", "on"} and f.phrase.start == fact.phrase.end + 1]
    return any(not f.subjects for f in behind)


def _opens(work: Working, fact: Fact) -> bool:
    """ "pitted just above the seal line": a fault that opens the utterance is the part's in hand."""
    words = work.texts[: fact.phrase.end]
    start = fact.phrase.head.start if fact.phrase.head is not None else fact.phrase.start
    said = [at for at, text in enumerate(words) if at >= start or (text,) in work.lexicon.table]
    past = any(is_past(word) for word in words)  # "curled up as well"
    return len(said) == len(words) and fact.phrase.head is not None and past and len(words) <= 3


def _leads_a_noun(work: Working, fact: Fact) -> bool:
    """ "good man": the word belongs to a noun that nothing here knows."""
    after = work.texts[fact.phrase.end : fact.phrase.end + 1]
    shape = after[:1] and after[0] in _SHAPES and (work.texts[fact.phrase.start - 1] in _ARTICLES)
    known = work.texts[fact.phrase.start - 1 : fact.phrase.start] == ("the",) and after in _SELF
    if known and not fact.participle:
        return True  # "but with the pitting I want a new one": known already
    unknown = bool(after) and after[0].isalpha() and (after[0],) not in work.lexicon.table
    return unknown and not shape and not ends_there(work.texts, fact.phrase.end)


def _only_named(work: Working) -> bool:
    """True where the last utterance named a part and said nothing of it: "key" … "fine"."""
    if work.hand is None or work.now - work.hand.utterance > 1:
        return False
    return all(isinstance(s, Remark) for group in work.before.recent[-1:] for s in group)


def _noun_before(work: Working, fact: Fact) -> bool:
    """ "slot's clean": some noun of the part in hand is the subject."""
    start = fact.phrase.start
    return start > 0 and work.texts[start - 1].isalpha()
