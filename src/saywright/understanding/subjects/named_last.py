""" "That's gone hard, the seal, the left one": the part named behind what was said of "that"."""

from __future__ import annotations

from dataclasses import replace

from saywright.understanding.facts import Fact
from saywright.understanding.phrases import Phrase
from saywright.understanding.subjects.attach_facts import predicate_follows
from saywright.understanding.subjects.noun_phrases import Subject, subject_of_lead, subject_of_phrase
from saywright.understanding.tokens import BREAK
from saywright.understanding.walk import Walk

_DEFINITE = frozenset({"the", "that", "this", "those", "these"})
_STANDS = frozenset({"that", "this", "it", "they", "these", "those", "she"})
_IS_SO = frozenset({("that", "is"), ("this", "is"), ("those", "are"), ("these", "are"), ("they", "are")})
_POINTS = frozenset({"that", "this", "these", "those"})
_NOTHING_SAID = frozenset({"BREAK", "AND", "OR", "BUT", "WITH"})
_STAYS = frozenset({"bends", "turns", "twists", "ends", "starts", "begins", "stops", "flexes", "curves"})
_OPENS = frozenset({"you", "i", "we", "he", "she", "they", "somebody", "someone", "nobody", "look", "see"})
_NEXT_CLAUSE = _OPENS | {"no", "so", "like", "again", "too", "though", "now", "anyway"}


def named_last(walk: Walk, index: int, said: Subject) -> bool:
    """Give what was found on "that" or "it" to the part that is named behind it, with nothing said of it."""
    last = walk.last
    if last is None or last.kind != "finding":
        return False
    if not said.components:
        return _told_which(walk, index, said, last)
    if walk.texts[walk.phrases[index].start] not in _DEFINITE or not _stands(walk, index, last):
        return False
    between = [p for p in walk.phrases[:index] if p.start >= last.phrase.end]
    if any(p.kind in {"break", "mark", "measure"} or p.tags & _NOTHING_SAID for p in between):
        return False
    if any("COP" in p.aux_tags for p in between[:-1]):
        return False  # "it's milky so water's got past the seals": another clause
    said, behind = _with_place(walk, index, said)
    if not _closes(walk, behind):
        return False
    pointed = last.subjects
    for fact in [f for f in walk.out.facts if f.kind == last.kind and f.subjects == pointed]:
        fact.subjects = [_placed(said, pointed)]
        fact.cover(said.start, said.end)
        walk.extendable.append(fact)
    walk.out.subjects.append(said)
    walk.hold([said], used=True)
    walk.taken.update(range(index, behind))
    walk.waiting, walk.carried, walk.claims, walk.glue = [], [], [], set()
    return True


def _told_which(walk: Walk, index: int, said: Subject, fact: Fact) -> bool:
    """ "that's bent the tip of that, the left one": which of those in hand."""
    before = walk.before(index)
    if not (said.single and said.which) or before is None or not _closes(walk, index + 1):
        return False
    pointed = walk.texts[before.end - 1] in _POINTS and before.end == said.start
    pointed = pointed and fact.phrase.end <= said.start - 1 and _stands(walk, index, fact)
    if not (pointed or _named_before(walk, said, fact)):
        return False
    if not pointed:
        said = replace(said, components=fact.subjects[0].components, alias=fact.subjects[0].alias)
    fact.subjects = [replace(said, single=False)]
    fact.cover(said.start, said.end)
    walk.hold(fact.subjects, used=True)
    walk.waiting, walk.carried, walk.claims, walk.glue = [], [], [], set()
    return True


def _named_before(walk: Walk, said: Subject, fact: Fact) -> bool:
    """ "That bush is scored, the lower one": the part was named, and right behind its state which one."""
    if walk.texts[said.start] not in _DEFINITE or len(fact.subjects) != 1:
        return False
    of, between = fact.subjects[0], walk.texts[fact.phrase.end : said.start]
    one = bool(of.components) and not (of.which or of.selector or of.many or of.count or of.age)
    return one and of.end <= fact.phrase.start and set(between) <= {BREAK}


def _stands(walk: Walk, index: int, fact: Fact) -> bool:
    """True where *fact* is of a mere pronoun, or of nothing yet, and no word leads to the part as a place."""
    before = walk.phrases[index - 1]
    words = walk.texts[before.start : before.end]
    if words[-1:] and words[-1] in _POINTS and before.kind in {"subject", "link"}:
        return all(not s.components for s in fact.subjects)  # "wire's broken on this the sensor"
    bare = all(s.pronoun and not (s.selector or s.age or s.count) for s in fact.subjects)
    if not bare or not all(walk.texts[s.end - 1] in _STANDS for s in fact.subjects):
        return False
    if before.kind == "aux":  # "worn that is the seat"
        return walk.texts[max(0, before.start - 1) : before.end] in _IS_SO
    if before.kind == "link" or (_in_place_clause(walk, fact) and words[-1] not in _STAYS):
        return False
    return bool(fact.subjects)


def _in_place_clause(walk: Walk, fact: Fact) -> bool:
    """ "scored where it meets the bowl": the noun behind the verb is a place."""
    return "where" in walk.texts[fact.phrase.end : walk.phrases[-1].end]


def _with_place(walk: Walk, index: int, said: Subject) -> tuple[Subject, int]:
    """ "the seal the left one": the part with its place, and the phrase behind."""
    after = walk.after(index)
    if said.which or after is None or after.start != said.end:
        return said, index + 1
    told = _place_of(after)
    if told is None or predicate_follows(walk, index + 1):
        return said, index + 1
    return replace(said, which=told.which, selector=told.selector, end=after.end), index + 2


def _place_of(phrase: Phrase) -> Subject | None:
    if phrase.kind == "lead":
        told = subject_of_lead(phrase)
    elif phrase.kind == "subject" and not (phrase.meaning.parts or phrase.meaning.aliases):
        told = subject_of_phrase(phrase)
    else:
        return None
    return told if told is not None and (told.which or told.selector) else None


def _closes(walk: Walk, at: int) -> bool:
    """True where the clause ends behind the part, before phrase *at*."""
    after = walk.phrases[at] if at < len(walk.phrases) else None
    if after is None or after.kind in {"break", "mark"}:
        return True
    if after.kind in {"subject", "lead", "measure", "char"}:
        return after.kind == "subject" and walk.texts[after.start] in _NEXT_CLAUSE
    if after.kind == "link":
        return "AND" in after.tags
    word = walk.texts[after.start]
    return word in _OPENS or (word in _NEXT_CLAUSE and not predicate_follows(walk, at - 1))


def _placed(said: Subject, pointed: list[Subject]) -> Subject:
    """ "that left one's gone hard the seal": with the place that was told before."""
    which = pointed[0].which if len(pointed) == 1 and not said.which else said.which
    return replace(said, which=which)
