"""Where a clause begins that tells what was found here: "… and ours comes out at", "… and I read". Pure.

A limit, a rule or a memory told beside such a clause does not reach over its begin, and a
limit with a number of its own reaches no further back than its own clause.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import Final

from saywright.understanding.facts import Fact, Mark, Told
from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.tokens import BREAK

_JOINS: Final = frozenset({"and", "but", "so", "yet", "whereas", BREAK})
_REASONS: Final = frozenset({"since", "because", "as"})
_SELF: Final = frozenset({"i", "we"})
_OURS: Final = frozenset({"ours"})
_READS: Final = frozenset(
    ["read", "reads", "measure", "measured", "make", "made", "get", "got", "getting", "have", "had", "find",
     "found", "see", "saw", "reading", "measuring"]
)  # fmt: skip
_PAST: Final = frozenset({"was", "were", "came", "had", "got", "gave", "measured", "did", "turned"})
# Words of a clause that tells a rule or a wish itself.
_RULES: Final = frozenset(
    ["should", "ought", "must", "may", "might", "would", "will", "shall", "could", "want", "wants", "need",
     "needs", "allow", "allows", "allowed", "accept", "limit", "limits", "maximum", "minimum", "max", "min",
     "spec", "specs", "tolerance", "nominal", "book", "manual", "card", "sheet", "says", "supposed", "meant",
     "permitted", "if", "to", "new", "last", "yesterday", "ago"]
)  # fmt: skip
_UP_TO: Final = frozenset({"up", "down", "out", "in", "back"})  # "pulled up to two hundred"
_SETS: Final = frozenset({"came", "comes", "works", "worked", "turned"})
_DAYS: Final = frozenset(
    ["monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday", "tomorrow", "week"]
)
_WHEN: Final = frozenset({"before", "until", "till", "by", "for", "on", "next", "this"})
_BIDS: Final = frozenset({BREAK, "and", "then", "so", "just"})  # "… and test it tomorrow"
_GIVES: Final = frozenset({"when", "where", "while", "whereas", "with", "against", "which"})


_IT_SELF: Final = frozenset({"it", "they", "he", "she"})
_LEADS_ON: Final = frozenset(
    ["till", "until", "when", "if", "so", "before", "once", "then", "and", "because", "that", "unless",
     "where", "while", "as", "how", "what", "whether", "or", "see"]
)  # fmt: skip
_IS: Final = frozenset({"is", "are", "was", "were", "has"})


def own_begin(texts: Sequence[str], start: int) -> int | None:
    """The token at which the clause of the word *start* begins, where it tells what was found here."""
    at = next((i for i in range(start - 1, 0, -1) if texts[i] in _JOINS), None)
    return at + 1 if at is not None and _tells_own(texts[at + 1 : start]) else None


def _tells_own(said: Sequence[str]) -> bool:
    """ "ours comes out at", "what I measure is", "two of them were", "all were pulled up to"."""
    if not said or (said[0] in CLASSES and len(said) < 2):
        return False
    if said[0] in _OURS:
        return True
    clause = said[1:] if said[0] == "what" else said
    rule = _RULES - {"to"} if _is_up_to(said) else _RULES
    if not rule.isdisjoint(clause):
        return False
    if clause[:1] and clause[0] in _SELF:
        return not _READS.isdisjoint(clause[1:])
    return said is clause and not _PAST.isdisjoint(clause)


def _is_up_to(said: Sequence[str]) -> bool:
    """ "were pulled up to", "came out to", "came to": as far as it went, no rule."""
    return any(two in _UP_TO | _SETS and to == "to" for two, to in pairwise(said))


def beyond_limit(fact: Fact, mark: Mark, told: Told, texts: Sequence[str]) -> bool:
    """True where the quoted limit at *mark* is told in another clause than the value *fact*."""
    start = fact.phrase.start
    if mark.end <= start:
        begin = own_begin(texts, start)
        return begin is not None and begin >= mark.end
    return fact.phrase.end <= mark.start and _has_its_own(fact, mark, told, texts)


def _has_its_own(fact: Fact, mark: Mark, told: Told, texts: Sequence[str]) -> bool:
    """ "it is twelve and we are allowed ten", "… of two point four when two is the maximum"."""
    behind = [f.phrase.start for f in told.facts if f.kind == "value" and f.phrase.start >= fact.phrase.end]
    between = texts[fact.phrase.end : mark.start]
    joined = next((i for i, text in enumerate(between) if text in _GIVES), None)
    if joined is None and fact.introduced and "and" in between:
        joined = between.index("and")
        if _SELF.isdisjoint(between[joined:]) and "is" not in between[joined:]:
            return False
    return joined is not None and any(at > fact.phrase.end + joined for at in behind)


def in_reason(mark: Mark, fact: Fact, texts: Sequence[str]) -> bool:
    """ "… I've gone up to a thirty eight since the last owner drilled it": only why it was done."""
    between = texts[fact.phrase.end : mark.start]
    return fact.phrase.end <= mark.start and not _REASONS.isdisjoint(between)


def is_only_when(mark: Mark, fact: Fact, texts: Sequence[str]) -> bool:
    """ "I'm not changing that before Sunday", "I'll clean it tomorrow": when it is to be done, or not."""
    said = texts[mark.start : mark.end]
    ours = not _SELF.isdisjoint(texts[fact.phrase.start : fact.phrase.end]) or not _SELF.isdisjoint(
        texts[max(0, fact.phrase.start - 2) : fact.phrase.start]
    )
    form = fact.phrase.meaning.acts[0].form if fact.kind == "doing" else ""
    if form in {"base", "ing"} and texts[max(0, fact.phrase.start - 1)] in _BIDS | {texts[fact.phrase.start]}:
        ours = (
            ours or form == "base" or texts[mark.start - 1] == "for"
        )  # "measuring that is a job for tomorrow"
    if fact.kind != "doing" or not ours or mark.start < fact.phrase.end or said[-1] not in _DAYS:
        return False
    return "DONE" not in fact.aux and (said[-1] in {"tomorrow", "week"} or texts[mark.start - 1] in _WHEN)


def is_upon_it(mark: Mark, fact: Fact, texts: Sequence[str]) -> bool:
    """ "anything over three has to go, so we replace the fluid": what is done by the rule told before."""
    between = texts[mark.end : fact.phrase.start + 1]
    return any(one == "so" and who in _SELF | {"that", "this"} for one, who in pairwise(between))


def tells_of_it(said: Sequence[str]) -> bool:
    """ "you could grow potatoes in this cover it's that dirty": told of it behind; not "… till it's snug"."""
    at = next((i for i in range(len(said) - 2, 1, -1) if said[i] in _IT_SELF and said[i + 1] in _IS), 0)
    return at > 1 and said[at - 1] not in _LEADS_ON


def clicks(words: Sequence[str]) -> bool:
    """ "only got to eight and the wrench clicked": what the tool did is told in a clause of its own."""
    tool = tuple(words[-2:-1])  # a socket that slips says nothing of how tight it is
    return tuple(words[:2]) == ("and", "the") and tool == ("wrench",) and words[-1] in {"clicks", "clicked"}
