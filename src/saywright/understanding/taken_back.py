"""A finding taken back in the same breath: "has a crack, no hang on, that's just a casting mark"."""

from __future__ import annotations

from collections.abc import Sequence

from saywright.understanding.facts import Fact
from saywright.understanding.tokens import HESITATIONS
from saywright.understanding.walk import Walk

_PAUSES = HESITATIONS | {"hang", "hold", "on", "wait", "sorry", "actually", "well", "oh", "no", "nope"}
_IT = frozenset({"it", "that", "they", "this", "those"})
_IS = frozenset({"is", "are", "was", "were"})
_ONLY = frozenset({"just", "only"})


def take_back(walk: Walk) -> None:
    """Deny the findings that the words behind them deny, and free what is told in their place."""
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
    return alike and following.negated and bool(between) and _PAUSES.issuperset(between)


def _denied_anew(fact: Fact, texts: Sequence[str]) -> bool:
    return "not" in texts[fact.phrase.start : fact.phrase.end] or texts[fact.phrase.start - 1] == "not"
