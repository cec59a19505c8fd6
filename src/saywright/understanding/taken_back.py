"""A finding taken back in the same breath: "has a crack, no hang on, that's just a casting mark"."""

from __future__ import annotations

from collections.abc import Sequence

from saywright.understanding.facts import Fact
from saywright.understanding.tokens import HESITATIONS
from saywright.understanding.walk import Walk

_PAUSES = HESITATIONS | {"hang", "hold", "on", "wait", "sorry", "actually", "well", "oh", "no", "nope"}
_IT = frozenset({"it", "that", "they", "this", "those"})
_IS = frozenset({"is", "are", "was", "were"})
_PEOPLE = frozenset({"i", "we", "he", "she"})
_SHORT = _IS | {"will", "would", "am", "do", "does", "did", "has", "have", "can", "could"}
_ONLY = frozenset({"just", "only"})


def take_back(walk: Walk) -> None:
    """Deny the findings that the words behind them deny, and free what is told in their place."""
    _take_back_shortly(walk)
    findings = [f for f in walk.out.facts if f.kind == "finding"]
    for at, fact in enumerate(findings):
        following = findings[at + 1] if at + 1 < len(findings) else None
        end = following.phrase.start + 1 if following is not None else len(walk.texts)
        only = _taken_back(walk.texts, fact.phrase.end, end)
        if following is not None and not fact.negated and _said_anew(walk.texts, fact, following):
            fact.negated, fact.degree = True, frozenset()
            continue
        if fact.negated or only is None:
            continue
        fact.negated, fact.degree = True, frozenset()
        if only and following is not None and not _denied_anew(following, walk.texts):
            following.negated = False


def _take_back_shortly(walk: Walk) -> None:
    """ "I'd use it again, no I won't", "boot's on, no it's not": what was said right before is denied."""
    for no in (at for at, text in enumerate(walk.texts) if text in {"no", "nope"}):
        end = _short_denial(walk.texts, no)
        if end is None or any(f.phrase.start < end <= f.phrase.end for f in walk.out.facts):
            continue  # "no, it's not worn": told in full
        before = [f for f in walk.out.facts if f.phrase.end <= no]
        last = max(before, key=lambda fact: fact.phrase.end, default=None)
        if last is None:
            continue
        if last.kind in {"off", "on"}:
            walk.out.facts.remove(last)
        elif last.kind == "doing":
            last.aux |= {"DECLINE"}
        elif last.kind == "finding":
            last.negated, last.degree = True, frozenset()
        last.cover(last.start, end)


def _short_denial(texts: Sequence[str], no: int) -> int | None:
    """The token behind "no, I won't" that begins at *no*; None where it is not said there."""
    at = no + 1
    while at < len(texts) and texts[at] in _PAUSES:
        at += 1
    said = tuple(texts[at : at + 3])
    short = len(said) == 3 and said[0] in _IT | _PEOPLE and said[1] in _SHORT and said[2] == "not"
    return at + 3 if short else None


def _taken_back(texts: Sequence[str], start: int, end: int) -> bool | None:
    """Whether "it's only" stands in the tokens [start, end) behind a "no"; None where nothing is denied."""
    for no in range(start, end):
        if texts[no] not in {"no", "nope"}:
            continue
        at = no + 1
        while at < end and texts[at] in _PAUSES:
            at += 1
        if texts[at : at + 1] and texts[at] in _IT and texts[at + 1 : at + 2] and texts[at + 1] in _IS:
            word = texts[at + 2] if at + 2 < len(texts) else ""
            last = at + 3 >= len(texts) or texts[at + 3] in HESITATIONS
            if word in _ONLY or (word == "not" and last):
                return word in _ONLY
    return None


def _said_anew(texts: Sequence[str], fact: Fact, following: Fact) -> bool:
    """ "perished, no sorry, not perished": the same state denied right behind."""
    between = texts[fact.phrase.end : following.phrase.start]
    alike = fact.phrase.meaning.conditions == following.phrase.meaning.conditions
    return alike and following.negated and bool(between) and (_PAUSES | _IT | _IS).issuperset(between)


def _denied_anew(fact: Fact, texts: Sequence[str]) -> bool:
    return "not" in texts[fact.phrase.start : fact.phrase.end] or texts[fact.phrase.start - 1] == "not"
