"""What is taken back in the same breath: "has a crack, no hang on, that's just a casting mark"."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from saywright.understanding.bench_words import IS
from saywright.understanding.facts import Fact
from saywright.understanding.second_thoughts.words import IT, NO, ONLY, PAUSES, TURNING, read_turn, turns
from saywright.understanding.walk import Walk

_PEOPLE = frozenset({"i", "we", "he", "she"})
_SHORT = IS | {"will", "would", "am", "do", "does", "did", "has", "have", "can", "could"}
_MOVES = frozenset({"off", "on"})
_DOING_LEADS = PAUSES | IS | ONLY | {"i", "we", "will", "would", "am", "going", "to", "no", "better", "might"}
_WHERE = 5  # tokens behind a state that may tell where it is


def take_back(walk: Walk) -> None:
    """Deny, decline or drop what the words behind it take back, and free what is told in its place."""
    if TURNING.isdisjoint(walk.texts) and "actually" not in walk.texts:
        return
    _take_back_shortly(walk)
    _take_back_at_the_end(walk)
    for fact, following in pairwise(sorted(walk.out.facts, key=lambda one: one.phrase.start)):
        if _turned(walk, fact, following):
            _put_in_its_place(walk, fact, following)
        elif _more_like(walk.texts, fact, following):
            following.negated, following.end = False, following.phrase.end + 2
            _put_in_its_place(walk, fact, following)
        elif _said_anew(walk.texts, fact, following):
            fact.negated, fact.degree = True, frozenset()
    for mark in [m for m in walk.out.marks if "LEAVE" in m.tags]:
        last = _last_before(walk, mark.start)
        if last is None or last.kind != "doing":
            continue
        if turns(walk.texts, _end(last, mark.start), mark.start):
            last.aux |= {"DECLINE"}  # "I'd replace that, no, leave it"
            walk.out.marks.remove(mark)


def _last_before(walk: Walk, at: int) -> Fact | None:
    before = [f for f in walk.out.facts if f.phrase.end <= at]
    return max(before, key=lambda fact: fact.phrase.end, default=None)


def _turned(walk: Walk, fact: Fact, following: Fact) -> bool:
    """True where the words between the two facts take back the first."""
    named = [s.start for s in following.subjects if s.start >= fact.phrase.end]
    begin = min([following.phrase.start, *named])
    end = _end(fact, begin)
    if fact.kind == following.kind == "doing" and "actually" in walk.texts[end:begin]:
        return _DOING_LEADS.issuperset(walk.texts[end:begin])
    # "bent at the tip, no, it's straight": where it was may stand before
    return any(turns(walk.texts, at, begin) for at in range(end, min(end + _WHERE, begin)))


def _end(fact: Fact, limit: int) -> int:
    """The token behind *fact* and those of its objects that stand before *limit*."""
    return max(fact.phrase.end, *(s.end for s in fact.subjects if s.end <= limit), 0)


def _put_in_its_place(walk: Walk, fact: Fact, following: Fact) -> None:
    """*following* holds, and *fact* does not: it is denied, declined or not told at all."""
    kinds = (fact.kind, following.kind)
    same = _same_part(fact, following)
    if kinds == ("finding", "finding"):
        if following.negated:
            _denied_anew(walk, fact, following)
            return
        alike = fact.phrase.meaning.conditions == following.phrase.meaning.conditions
        if alike or (same and _is_good(walk, fact)):
            _drop(walk, fact, following)
        elif same and not fact.negated:
            fact.negated, fact.degree = True, frozenset()
    elif kinds == ("doing", "finding") and same and _is_good(walk, following) and not following.negated:
        fact.aux |= {"DECLINE"}
    elif kinds == ("doing", "doing"):
        if same:
            _drop(walk, fact, following)
    elif set(kinds) <= _MOVES and _moved_otherwise(fact, following):
        _drop(walk, fact, following)


def _denied_anew(walk: Walk, fact: Fact, following: Fact) -> None:
    """ "perished, no sorry, it's not perished": the same state, told in full."""
    alike = fact.phrase.meaning.conditions == following.phrase.meaning.conditions
    if alike and _same_part(fact, following) and not fact.negated:
        _drop(walk, fact, following)


def _moved_otherwise(fact: Fact, following: Fact) -> bool:
    """ "needle out, sorry, seat out", "bowl on, no, off": another part moved, or the other way."""
    return (fact.kind == following.kind) != _same_part(fact, following)


def _drop(walk: Walk, fact: Fact, following: Fact) -> None:
    if not any(s.components or s.which for s in following.subjects):
        following.subjects = list(fact.subjects)
    walk.out.facts.remove(fact)


def _same_part(fact: Fact, following: Fact) -> bool:
    """True where *following* names no part of its own."""
    own = [s for s in following.subjects if s.components or s.which or s.selector]
    told = {(s.components, s.which) for s in fact.subjects}
    return all((s.components, s.which) in told for s in own)


def _is_good(walk: Walk, fact: Fact) -> bool:
    spec = walk.sheet.get_condition(fact.phrase.meaning.conditions[-1])
    return spec is not None and spec.good


def _more_like(texts: Sequence[str], fact: Fact, following: Fact) -> bool:
    """ "stretched by some clown, no, squashed more like": the second state instead of the first."""
    if (fact.kind, following.kind) != ("finding", "finding") or fact.negated or not following.negated:
        return False
    end = following.phrase.end
    said = tuple(texts[end : end + 2]) == ("more", "like") or tuple(texts[end : end + 1]) == ("rather",)
    return said and texts[following.phrase.start] in NO


def _take_back_shortly(walk: Walk) -> None:
    """ "I'd use it again, no I won't", "boot's on, no it's not": what was said right before is denied."""
    for no in (at for at, text in enumerate(walk.texts) if text in NO):
        end = _short_denial(walk.texts, no)
        if end is not None:
            walk.out.facts = [f for f in walk.out.facts if f.kind != "unlike" or f.phrase.end != end]
        if end is None or any(_tells_in_full(walk, f, end) for f in walk.out.facts):
            continue  # "no, it's not worn": told in full
        last = _last_before(walk, no)
        if last is None:
            continue
        if last.kind in _MOVES:
            walk.out.facts.remove(last)
        elif last.kind == "doing":
            last.aux |= {"DECLINE"}
        elif last.kind == "finding":
            last.negated, last.degree = True, frozenset()
        last.cover(last.start, end)


def _tells_in_full(walk: Walk, fact: Fact, end: int) -> bool:
    """True where the denial that ends at token *end* is that of *fact*: "no, it's not worn"."""
    return fact.phrase.start < end <= fact.phrase.end and ONLY.isdisjoint(walk.texts[end : end + 1])


def _short_denial(texts: Sequence[str], no: int) -> int | None:
    """The token behind "no, I won't" that begins at *no*; None where it is not said there."""
    at, _ = read_turn(texts, no, len(texts))
    said = tuple(texts[at : at + 3])
    short = len(said) == 3 and said[0] in IT | _PEOPLE and said[1] in _SHORT and said[2] == "not"
    return at + 3 if short else None


def _take_back_at_the_end(walk: Walk) -> None:
    """ "has a crack, no that's just a casting mark": what it is instead is no state that is known here."""
    for fact in [f for f in walk.out.facts if f.kind == "finding" and not f.negated]:
        behind = [f.phrase.start for f in walk.out.facts if f.phrase.start >= fact.phrase.end]
        end = min([*behind, len(walk.texts)])
        for at in range(fact.phrase.end, end):
            begin, said = read_turn(walk.texts, at, end)
            if said and walk.texts[at] not in PAUSES and _is_only(walk.texts, begin):
                if not behind or not turns(walk.texts, at, end):
                    fact.negated, fact.degree = True, frozenset()
                break


def _is_only(texts: Sequence[str], at: int) -> bool:
    """ "it's only", "that's just"."""
    said = texts[at : at + 3]
    return len(said) == 3 and said[0] in IT and said[1] in IS and said[2] in ONLY


def _said_anew(texts: Sequence[str], fact: Fact, following: Fact) -> bool:
    """ "perished, no sorry, not perished": the same state denied right behind, of no other part."""
    if fact.kind != "finding" or following.kind != "finding" or fact.negated:
        return False
    if not _same_part(fact, following):
        return False  # "rod's dirty but no muck on the lever"
    between = texts[fact.phrase.end : following.phrase.start]
    alike = fact.phrase.meaning.conditions == following.phrase.meaning.conditions
    said = PAUSES | IT | IS | {"no", "nope", "nah", "sorry"}
    return alike and following.negated and bool(between) and said.issuperset(between)
