""" "Anything under nine is scrap", "over three and I change it": what a limit says is to be done. Pure."""

from __future__ import annotations

from saywright.understanding.aside.own_clauses import is_upon_it
from saywright.understanding.facts import Fact, Told

_IT = (("it",), ("they",), ("that",), ("those",))
_IS_ENDS = (("is",), ("are",))
_GOES = frozenset({"goes", "go", "gets"})
_OUGHT_TO = frozenset({"must", "needs", "has", "should", "need", "have", "is", "are"})
_RULE = 12  # tokens from "anything over" to what is done then


def is_verdict(fact: Fact, told: Told, texts: tuple[str, ...]) -> bool:
    """ "anything under nine five is scrap": what a limit says ought to be done."""
    of_limit = any("LIMIT" in m.tags and m.segment == fact.segment for m in told.marks)
    start = fact.phrase.start
    said = texts[max(0, start - 3) : start + 1]
    said = said[1:] if said[-1:] in _IS_ENDS else said[:-1]
    if said[:1] == ("so",) and said[1:2] in _IT and said[2:] in _IS_ENDS:
        return False  # "anything under one eight is scrap so it's scrap"
    goes = texts[max(0, start - 1)] in _GOES and "so" not in texts[:start]
    return of_limit and ("COP" in fact.aux or goes) and fact.phrase.meaning.acts[0].form == "base"


def is_rule(fact: Fact, told: Told, texts: tuple[str, ...]) -> bool:
    """ "anything over three and I'd be changing it": what would be done at another value."""
    opens = [m for m in told.marks if "LIMIT" in m.tags and m.end <= fact.phrase.start]
    if _quoted_before(fact, texts):
        return True
    if opens and is_upon_it(opens[-1], fact, texts):
        return False
    if not opens or texts[opens[-1].start] not in {"any", "anything", "owt"}:
        return False
    between = [f for f in told.facts if opens[-1].end <= f.phrase.start < fact.phrase.start]
    near = fact.phrase.start - opens[-1].end < _RULE and len(between) < 2
    return near and bool(fact.aux & {"NEED", "COP"})


def _quoted_before(fact: Fact, texts: tuple[str, ...]) -> bool:
    """ "two hundred and one before it must be scrapped": what is done at another value."""
    before = texts[max(0, fact.phrase.start - 4) : fact.phrase.end]
    at = before.index("before") if "before" in before else len(before)
    return before[at + 1 : at + 2] in {("it",), ("they",), ("you",)} and not _OUGHT_TO.isdisjoint(before[at:])
