"""What is said but is not for the record.

Tool sizes, quoted limits, other jobs, prices, times, questions, what-ifs.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from saywright.sheets.model import Sheet
from saywright.understanding.aside.believed import ought_to_be, was_believed
from saywright.understanding.aside.expected_same import expected_same
from saywright.understanding.aside.limit_doings import is_rule, is_verdict
from saywright.understanding.aside.not_moved import movement_outside
from saywright.understanding.aside.of_other_things import TIMES_DONE
from saywright.understanding.aside.outside_numbers import number_outside
from saywright.understanding.aside.own_clauses import (
    beyond_limit,
    clicks,
    in_reason,
    is_only_when,
)
from saywright.understanding.aside.prices import costs_so_much, is_paid_for
from saywright.understanding.aside.stories import told_of_none
from saywright.understanding.aside.told_limits import is_of_limit
from saywright.understanding.aside.turned_till import is_how_far
from saywright.understanding.bench_words import IS, SOMEBODY
from saywright.understanding.facts import Fact, Mark, Told
from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.tokens import BREAK, HESITATIONS
from saywright.understanding.values.clause_values import is_own
from saywright.units import get_unit

_SOMEBODY = SOMEBODY - {"nobody"}  # "it's a one eighteen, somebody's been in here before me"
_SHOWN_ON = frozenset({("on",), ("on", "the"), ("on", "my")})
_NEAR = 3  # tokens between a number and the tool or the price it belongs to
_NEXT = 1
_MAY_BE = ("may", "be")
_SAY_NOTHING = HESITATIONS | {"so", "really", "though", "anyway", "then"}
_CAN = frozenset({"can", "could", "would"})  # "can you take a photo of these"
_YES = frozenset({"yes", "yeah", "yep", "yup", "aye"})
_SWORN = (("sworn",), ("said",), ("thought",))  # "I'd have sworn it was bent but it's straight"
_IT = (("it",), ("they",), ("that",), ("those",))
_IT_OR_THE = (*_IT, ("the",))  # "could it be the hose, no, the hose is sound"
_ITS_PAUSED = tuple((BREAK, *one) for one in _IT)
_EACH = (("a",), ("per",), ("an",), ("each",), ("every",))  # "beats fifty times a minute": its rate
_STANDING = frozenset({"inside", "within", "under", "over", "above", "below", "past", "beyond", "outside"})
_LIMITS = frozenset({"limit", "limits", "minimum", "maximum", "spec", "tolerance"})
_BY_THE = frozenset({("at", "the"), ("by", "the"), ("from", "the")})  # "pressed in at the factory"
_SO = frozenset({"so", "needs", "need", "wants"})
_YESTERDAY = (("yesterday",), ("last", "night"))
_ANY_OTHER = frozenset({"a", "an", "another", "some"})
_US = frozenset({"i", "we"})
_KNOWN = frozenset({"the", "both", "all", "those", "these", "that"})
_SUPPOSED = frozenset({"would", "could", "might", "if", "had", "should"})
_SPEAKERS = frozenset({"i", "we", "it", "he", "she", "they", "you"})


def outside(fact: Fact, told: Told, texts: tuple[str, ...], sheet: Sheet) -> str:
    """Why *fact* is not for the record; "" where it is."""
    for mark in told.marks:
        reason = _whole(fact, mark, told, texts)
        if reason:
            return reason
    told_so = told_of_none(fact, texts, sheet)
    if not told_so and fact.kind == "finding":
        told_so = "once believed" if was_believed(fact, texts) else ""
        told_so = told_so or ("quoted limit" if ought_to_be(fact, texts, sheet) else "")
    if told_so:
        return told_so
    if fact.kind == "value":
        for mark in told.marks:
            reason = _value(fact, mark, told, texts)
            if reason:
                return reason
        return number_outside(fact, told, texts) or ("price" if costs_so_much(fact, texts, sheet) else "")
    if fact.kind == "same":
        return expected_same(fact, texts)
    if fact.kind == "doing":
        return _doing(fact, told, texts)
    if fact.kind in {"off", "on"}:
        return movement_outside(fact, told, texts)
    return "how far it was turned" if is_how_far(fact, texts) else ""


def _doing(fact: Fact, told: Told, texts: tuple[str, ...]) -> str:
    if is_verdict(fact, told, texts) or is_rule(fact, told, texts) or is_of_limit(fact, told, texts):
        return "quoted limit"
    if texts[fact.phrase.start] in TIMES_DONE and texts[max(0, fact.phrase.start - 1)] in CLASSES:
        return "how often something was done"  # "ten laps and I'll look again"
    return "price" if is_paid_for(fact, told, texts) else ""


def _whole(fact: Fact, mark: Mark, told: Told, texts: Sequence[str]) -> str:
    if texts[mark.end - 1] == "factory" and tuple(texts[max(0, mark.end - 3) : mark.end - 1]) in _BY_THE:
        return "another job or time" if mark.segment == fact.segment else ""
    if "QUESTION" in mark.tags and _asked(fact, mark, told) and not _answers(fact, mark, texts):
        return "" if fact.kind == "photo" and texts[mark.start] in _CAN else "question"
    if "WHATIF" in mark.tags and mark.start < fact.phrase.start and not _but_between(mark, fact, told):
        decided = {("no", "i"), ("no", "we")} & set(pairwise(texts[mark.end : fact.phrase.start + 2]))
        allowed = (
            fact.kind == "doing" and mark.end == fact.phrase.start and texts[mark.start : mark.end] == _MAY_BE
        )
        return "" if decided or allowed else "what if"  # "I might, no I will", "it may be used again"
    if "WHATIF" in mark.tags and _wondered(fact, mark, texts):
        return "question"
    if "EVERYTHING" in mark.tags and mark.segment == fact.segment and fact.kind in {"finding", "doing"}:
        return "of no single part"
    sworn = texts[mark.end : mark.end + 1] in _SWORN and _but_between(mark, fact, told)
    if "HYPO" in mark.tags and not (
        sworn
        or _but_after(fact, mark, told)
        or _would_be_behind(fact, mark, told)
        or _decided_behind(fact, mark, told, texts)
    ):
        return "what if"
    if (
        "OTHER_JOB" in mark.tags
        and (mark.segment == fact.segment or mark.start < fact.start)
        and not _set_apart(mark, fact, told)
        and not (_told_to_do(mark, fact, texts) or _answered(mark, fact, texts))
        and not _did_yesterday(mark, fact, texts)
        and not (in_reason(mark, fact, texts) or is_only_when(mark, fact, texts))
        and _SOMEBODY.isdisjoint(texts[fact.phrase.end : mark.start])
    ):
        return "another job or time"
    return ""


def _wondered(fact: Fact, mark: Mark, texts: Sequence[str]) -> bool:
    """ "they'd clean up, I wonder": asked at its end."""
    said = tuple(texts[mark.start : mark.end]) == ("i", "wonder")
    ends = texts[mark.end : mark.end + 1] in {(), (BREAK,)}
    return said and ends and mark.segment == fact.segment and fact.end <= mark.start


def _told_to_do(mark: Mark, fact: Fact, texts: Sequence[str]) -> bool:
    """ "he says replace it", "owner says leave it": what is to be done was decided by somebody."""
    says = texts[mark.end - 1] in {"says", "said"}
    return (
        says
        and fact.kind == "doing"
        and fact.phrase.start == mark.end
        and fact.phrase.meaning.acts[0].form == "base"
    )


def _did_yesterday(mark: Mark, fact: Fact, texts: Sequence[str]) -> bool:
    """ "I washed both calipers yesterday and blew them out": of this job, where they are named as known."""
    if texts[mark.start : mark.end] not in _YESTERDAY or fact.kind != "doing" or not fact.subjects:
        return False
    if not _ANY_OTHER.isdisjoint(texts[: mark.start]):
        return False  # "I did a set of carbs yesterday and cleaned both floats"
    ours = texts[fact.phrase.start] in _US or texts[max(0, fact.phrase.start - 1)] in _US | {"and"}
    past = fact.phrase.meaning.acts[0].form == "past"
    return ours and past and all(s.pronoun or texts[s.start] in _KNOWN for s in fact.subjects)


def _answered(mark: Mark, fact: Fact, texts: Sequence[str]) -> bool:
    """ "he said yes so I am ordering the shoes": what the speaker does upon it."""
    says = texts[mark.end - 1] in {"says", "said"}
    between = texts[mark.end : fact.phrase.start + 1]
    return says and any(one in {"so", "and"} and who in {"i", "we"} for one, who in pairwise(between))


def _asked(fact: Fact, mark: Mark, told: Told) -> bool:
    """True where *fact* is inside the question: from its first words to its mark, in speech to the end."""
    ends = [m for m in told.marks if m.written]
    if mark.written:
        opened = [m for m in told.marks if "QUESTION" in m.tags and not m.written and m.start < mark.start]
        return fact.start < mark.start and (
            fact.segment == mark.segment or (bool(opened) and fact.start >= opened[0].start)
        )
    closed = any(mark.start < end.start <= fact.phrase.start for end in ends)
    return fact.end > mark.start and not closed


def _answers(fact: Fact, mark: Mark, texts: Sequence[str]) -> bool:
    """ "should I grease those, yeah, greased", "is it torn, no, it's fine": what he says to it himself."""
    start = fact.phrase.start
    said = texts[mark.end : start]
    if not _YES.isdisjoint(said):
        return True
    at = next((i for i in range(mark.end, start) if texts[i] == "no"), None)
    if at is None:
        return False
    return texts[at + 1 : at + 2] in _IT_OR_THE or texts[at + 1 : at + 3] in _ITS_PAUSED


def _but_between(mark: Mark, fact: Fact, told: Told) -> bool:
    return any(m.tags & {"BUT"} and mark.start < m.start <= fact.phrase.start for m in told.marks)


def _but_after(fact: Fact, mark: Mark, told: Told) -> bool:
    """ "it was corroded but it would still work": what is told before the "but" is so."""
    return any("BUT" in m.tags and fact.phrase.end <= m.start <= mark.start for m in told.marks)


def _decided_behind(fact: Fact, mark: Mark, told: Told, texts: Sequence[str]) -> bool:
    """ "They would do another year but they go as a set so all four need replacing": so it is decided."""
    buts = [m.end for m in told.marks if "BUT" in m.tags and mark.start < m.start <= fact.phrase.start]
    if not buts or fact.kind not in {"doing", "need_new"}:
        return False
    said = texts[buts[-1] : fact.phrase.end]
    return _SUPPOSED.isdisjoint(said) and not _SO.isdisjoint(said)


def _would_be_behind(fact: Fact, mark: Mark, told: Told) -> bool:
    """ "gap's three point five, it would have been three new": what is read before what would be."""
    read = fact.kind == "value" and fact.phrase.end <= mark.start
    return read and any(f.kind == "value" and f.phrase.start >= mark.end for f in told.facts)


def _set_apart(mark: Mark, fact: Fact, told: Told) -> bool:
    """True where "but", or "this one" named anew, stands between the mark and the fact."""
    if fact.segment == mark.segment:
        return False
    anew = any(s.this and mark.end <= s.start <= fact.phrase.start for s in fact.subjects)
    return anew or _but_between(mark, fact, told)


def _value_between(mark: Mark, fact: Fact, told: Told) -> bool:
    """ "supposed to be eighteen four, I've got seventeen nine": the limit is told before."""
    values = [f.phrase.start for f in told.facts if f.kind == "value"]
    return any(mark.end <= start < fact.phrase.start for start in values)


def _value(fact: Fact, mark: Mark, told: Told, texts: Sequence[str]) -> str:
    start, end = fact.phrase.start, fact.phrase.end
    after, before = mark.start - end, start - mark.end
    relative = after > 0 and _of_the_limit(texts[end : mark.start], texts[mark.end :])
    other = not relative and _limits_another(fact, mark, told, texts)
    own = (
        other
        or _stands_to(fact, mark, told, texts)
        or ("LIMIT" in mark.tags and beyond_limit(fact, mark, told, texts))
        or (mark.end < start - 1 and is_own(texts, start) and _value_between(mark, fact, told))
    )
    if "LIMIT" in mark.tags and (mark.segment == fact.segment or relative) and not own:
        return "quoted limit"  # "over the one mil it should be"
    own_clause = not _SPEAKERS.isdisjoint(texts[end : mark.start])  # "fifty five, I stopped the wrench early"
    behind = 0 <= before <= _NEXT and texts[start - 1] not in {"to", "at"}  # "I set the wrench to thirty six"
    own_clause |= "INSTRUMENT" in mark.tags and tuple(texts[end : mark.start]) in _SHOWN_ON  # "on the wrench"
    own_clause |= clicks(texts[end : mark.end + 1])
    if "TOOL" in mark.tags and _size_like(fact) and (0 <= after <= _NEAR or behind):
        return "" if own_clause else "tool size"
    numbered = texts[max(0, start - 1)] == "number"  # "number thirty two drill"
    if "TOOL" in mark.tags and after == 0 and (numbered or not fact.characteristics):
        return "tool size"  # "two pound hammer"
    if "PRICE" in mark.tags and (0 <= after <= _NEAR or (mark.segment == fact.segment and before >= 0)):
        return "price"
    if texts[end : mark.end] == ("both", "times"):
        return ""  # "two point five one both times": it was read so
    if texts[mark.end - 1] == "times" and mark.start == end and fact.characteristics:
        return "" if texts[mark.end : mark.end + 1] in _EACH else "time or count of something else"
    hour = texts[mark.end - 1] in {"o'clock", "oclock"}  # of the number before it alone
    if "CLOCK" in mark.tags and (0 <= after <= _NEXT or (0 <= before <= _NEXT and not hour)):
        return "time or count of something else"
    return ""


def _stands_to(fact: Fact, mark: Mark, told: Told, texts: Sequence[str]) -> bool:
    """ "one thirty point six, inside the limit", "four point one, under the minimum": how it stands to it."""
    words = texts[max(0, mark.start - 2) : mark.end]
    if _STANDING.isdisjoint(words) or "anything" in words or texts[mark.end - 1] not in _LIMITS:
        return False
    behind = any(f.kind == "value" and f.phrase.start >= mark.end for f in told.facts)
    return (
        fact.phrase.end <= mark.start
        and not behind
        and texts[mark.end : mark.end + 1] not in (("of",), ("is",))
    )


def _limits_another(fact: Fact, mark: Mark, told: Told, texts: Sequence[str]) -> bool:
    """ "ten newton meters, eight to ten it's meant to be": the number right before is the limit."""
    behind = [f.phrase.end for f in told.facts if f.kind == "value" and f.phrase.start >= fact.phrase.end]
    ends = [end for end in behind if end < mark.start]
    return bool(ends) and _of_the_limit(texts[ends[-1] : mark.start], texts[mark.end :])


def _of_the_limit(between: Sequence[str], behind: Sequence[str]) -> bool:
    """ "eight to ten it's meant to be", "ten to twenty it should be, so": what was said is the limit."""
    return (
        between[0] in {"it", "they", "you"} and IS.issuperset(between[1:]) and _SAY_NOTHING.issuperset(behind)
    )


def _size_like(fact: Fact) -> bool:
    measure = fact.phrase.measure
    if measure is None or fact.characteristics:
        return False
    codes = [measure.unit] if measure.unit else list(measure.units)
    return not codes or any(get_unit(code).kind == "length" for code in codes)
