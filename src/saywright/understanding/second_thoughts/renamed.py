"""The part of what was said last put right: "main jet blocked, no, the pilot", "the trailing one, I mean"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from saywright.understanding.bench_words import IS
from saywright.understanding.facts import Fact
from saywright.understanding.phrases import Phrase
from saywright.understanding.second_thoughts.words import IT, NO, PAUSES, TURNING, turns
from saywright.understanding.subjects.noun_phrases import Subject, subject_of_lead, subject_of_phrase
from saywright.understanding.walk import Walk

_MEANT = frozenset({("i", "mean"), ("i", "meant"), ("that", "is"), ("it", "is"), ("sorry",)})
_POINTED = frozenset({"that", "it"})
_NOT = frozenset({"not"})


def rename(walk: Walk) -> None:
    """Give the last fact the part named behind a change of mind, or keep the part for the talk before."""
    if TURNING.isdisjoint(walk.texts) and _POINTED.isdisjoint(walk.texts):
        return
    phrases = _without_denied(walk)
    meant = bool(phrases) and tuple(walk.texts[phrases[-1].start : phrases[-1].end]) in _MEANT
    if meant:
        phrases.pop()
    last = phrases[-1] if phrases else None
    subject = _named(last) if last is not None else None
    if last is None or subject is None or any(f.phrase.end > last.start for f in walk.out.facts):
        return
    fact = max(walk.out.facts, key=lambda one: one.phrase.end, default=None)
    begin = _end(fact, last.start) if fact is not None else 0
    between = [text for text in walk.texts[begin : last.start] if text not in PAUSES]
    if _is_asked(between):
        subject = replace(subject, unclear="said so, and asked")
    elif not (_is_meant(walk, begin, last, subject, meant=meant) or _is_of_another(fact, subject, between)):
        return
    if fact is None:
        walk.out.renamed = subject
    elif any(s.components or (s.which and fact.characteristics) for s in fact.subjects):
        _give(walk, fact, subject)
        _tell_apart(walk, fact, subject)


def _without_denied(walk: Walk) -> list[Phrase]:
    """The phrases without what is denied at their end: "that's the right, not the left"."""
    phrases = list(walk.phrases)
    if len(phrases) > 1 and _named(phrases[-1]) is not None:
        before = [text for text in walk.texts[phrases[-2].start : phrases[-1].start + 1] if text in _NOT]
        if before:
            phrases.pop()
            while phrases and walk.texts[phrases[-1].start] in _NOT | PAUSES | {"", "and"}:
                phrases.pop()
    return phrases


def _named(phrase: Phrase) -> Subject | None:
    subject = None
    if phrase.kind == "subject":
        subject = subject_of_phrase(phrase)
    elif phrase.kind == "lead":
        subject = subject_of_lead(phrase)
    return subject if subject is not None and (subject.components or subject.which) else None


def _end(fact: Fact, limit: int) -> int:
    return max(fact.phrase.end, *(s.end for s in fact.subjects if s.end <= limit), 0)


def _is_meant(walk: Walk, begin: int, phrase: Phrase, subject: Subject, *, meant: bool) -> bool:
    """True where the words before the part tell that what was said was of another."""
    between = [text for text in walk.texts[begin : phrase.start] if text not in PAUSES]
    if meant and (IT | IS | NO).issuperset(between):
        return True
    if len(between) > 0 and NO.issuperset(between) and subject.components and "DET" not in phrase.lead_tags:
        return False  # "disc off, no screws"
    pointed = begin == 0 and between[:1] in (["that"], ["it"]) and between[1:] in (["was"], ["is"])
    return pointed or turns(walk.texts, begin, phrase.start)


def _is_asked(between: Sequence[str]) -> bool:
    """ "left nut ten, or is that the right": it may be of another."""
    said = [text for text in between if text not in {"the", "a"}]
    return len(said) == len(("or", "is", "that")) and said[0] == "or" and said[1] in IS and said[2] in IT


def _is_of_another(fact: Fact | None, subject: Subject, between: Sequence[str]) -> bool:
    """ "left nut ten, that was the right": of a value, and of another one than it was said of."""
    if fact is None or fact.kind != "value" or len(between) != len(("that", "was")):
        return False
    told = {which for s in fact.subjects for which in s.which}
    said = between[0] in _POINTED and between[1] in IS
    return said and bool(told) and bool(subject.which) and told.isdisjoint(subject.which)


def _tell_apart(walk: Walk, last: Fact, subject: Subject) -> None:
    """ "filter's washed and back on, the air filter I mean": what else was said of that short name."""
    for fact in walk.out.facts:
        short = [s for s in fact.subjects if set(subject.components) < set(s.components)]
        if fact is not last and short and not subject.unclear:
            fact.subjects = [subject if s in short else s for s in fact.subjects]
            fact.renamed = "told"


def _give(walk: Walk, fact: Fact, subject: Subject) -> None:
    """*fact* is told of *subject* and of nothing else."""
    before = next((s for s in fact.subjects if s.components), fact.subjects[0])
    if not subject.components:
        unclear = subject.unclear
        subject = replace(
            before, which=subject.which, selector=subject.selector, end=subject.end, unclear=unclear
        )
    if subject.components:
        named = {key[1] for key in fact.characteristics}
        fact.characteristics = tuple(
            (component, one)
            for component in subject.components
            for one in sorted(named)
            if walk.sheet.find(component, one) is not None
        )
    fact.subjects, fact.renamed = [subject], "asked" if subject.unclear else "told"
    fact.cover(subject.start, subject.end)
