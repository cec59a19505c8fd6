"""What is said but is not for the record.

Tool sizes, quoted limits, other jobs, prices, times, questions, what-ifs.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from saywright.understanding.clause_values import is_own
from saywright.understanding.counts import small_count
from saywright.understanding.facts import Fact, Mark, Told
from saywright.understanding.tokens import BREAK
from saywright.units import get_unit

_NEAR = 3  # tokens between a number and the tool or the price it belongs to
_NEXT = 1
_ASKED_BACK = ("is", "not", "it")  # "twenty five, isn't it"
_BOUNDS = ("at least", "at most", "no less", "no more", "not less", "not more")
_TIME_WORDS = frozenset({"by", "until", "till", "before"})
_HOURS = frozenset(
    ["one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"]
)
_LATE_HOURS = _HOURS - {"one", "two"}  # "half one" may be turns counted
_OUT_BY = frozenset(
    ["under", "over", "out", "off", "down", "up", "short", "long", "high", "low", "shy", "proud"]
)
_COMPARED = 3  # tokens behind a number in which it is compared
_MINUTES = frozenset({"thirty", "fifteen", "forty", "twenty", "ten", "oh"})


def outside(fact: Fact, told: Told, texts: tuple[str, ...]) -> str:
    """Why *fact* is not for the record; "" where it is."""
    for mark in told.marks:
        reason = _whole(fact, mark, told, texts)
        if reason:
            return reason
    if fact.kind == "value":
        for mark in told.marks:
            reason = _value(fact, mark, told, texts)
            if reason:
                return reason
        return _number(fact, texts)
    if fact.kind == "same" and "should" in texts[: fact.phrase.start]:
        return "quoted limit"  # "they should both be the same"
    if fact.kind == "doing" and (_is_verdict(fact, told) or _is_limit(fact, told, texts)):
        return "quoted limit"
    if fact.kind in {"off", "on"}:
        return _movement(fact, told, texts)
    return ""


def _number(fact: Fact, texts: tuple[str, ...]) -> str:
    """Why the number of *fact* is none for the record, by the words around it; "" where it is one."""
    if _is_bound(fact, texts):
        return "quoted limit"
    if texts[-len(_ASKED_BACK) :] == _ASKED_BACK and texts[fact.phrase.end :] == _ASKED_BACK:
        return "question"
    if _of_noun_behind(fact, texts):
        return "a size or a kind of something else"
    if _is_way_round(fact, texts):
        return "where it was measured"
    if _is_time_of_day(fact, texts):
        return "time of day"
    if texts[fact.phrase.end : fact.phrase.end + 1] == ("off",) and _is_bare(fact):
        return "how many came off"  # "four off the right"
    if _did_not_go(fact, texts):
        return "a gauge that does not go"
    before = texts[max(0, fact.phrase.start - 3) : fact.phrase.start] == ("used", "to", "be")
    return "a difference" if before or _is_difference(fact, texts) else ""


def _did_not_go(fact: Fact, texts: tuple[str, ...]) -> bool:
    """ "… and a forty one won't", "point one doesn't go": the size that was tried in vain."""
    behind = [text for text in texts[fact.phrase.end :] if text != "drill"]
    denied = tuple(behind[:2]) in {(verb, "not") for verb in ("will", "would", "does", "did")}
    return denied and (len(behind) == 2 or behind[2] in {"go", "fit", "pass", "enter", BREAK, "quite"})


def _of_noun_behind(fact: Fact, texts: Sequence[str]) -> bool:
    """ "quarter inch bit", "thirty weight": of a tool, of an oil."""
    behind = tuple(texts[fact.phrase.end :])
    kind = behind[:1] in {("weight",), ("grade",)}
    return not fact.characteristics and (kind or behind in {("bit",), ("bits",)})


def _is_way_round(fact: Fact, texts: Sequence[str]) -> bool:
    """ "one point oh four two, quarter turn round, one point oh four one": where the next was measured."""
    measure = fact.phrase.measure
    after = texts[fact.phrase.end : fact.phrase.end + 1]
    turned = measure is not None and measure.unit in {"turn", "deg"}
    return turned and bool(after) and after[0] in {"on", "round", "around", "further", "apart"}


def _is_bare(fact: Fact) -> bool:
    """A small whole number without a unit and without a characteristic."""
    return not fact.characteristics and small_count(fact.phrase.measure) is not None


def _whole(fact: Fact, mark: Mark, told: Told, texts: Sequence[str]) -> str:
    if "QUESTION" in mark.tags and _asked(fact, mark, told):
        return "question"
    if "WHATIF" in mark.tags and mark.start < fact.phrase.start and not _but_between(mark, fact, told):
        decided = {("no", "i"), ("no", "we")} & set(pairwise(texts[mark.end : fact.phrase.start + 2]))
        return "" if decided else "what if"  # "I might, no I will"
    if "EVERYTHING" in mark.tags and mark.segment == fact.segment and fact.kind in {"finding", "doing"}:
        return "of no single part"
    if "HYPO" in mark.tags:
        return "what if"
    if (
        "OTHER_JOB" in mark.tags
        and (mark.segment == fact.segment or mark.start < fact.start)
        and not _set_apart(mark, fact, told)
    ):
        return "another job or time"
    return ""


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


def _is_verdict(fact: Fact, told: Told) -> bool:
    """ "anything under nine five is scrap": what a limit says ought to be done."""
    of_limit = any("LIMIT" in m.tags and m.segment == fact.segment for m in told.marks)
    return of_limit and "COP" in fact.aux and fact.phrase.meaning.acts[0].form == "base"


def _is_limit(fact: Fact, told: Told, texts: tuple[str, ...]) -> bool:
    """ "spec is flush": how it ought to be, not what is done."""
    start = fact.phrase.start
    base = fact.phrase.meaning.acts[0].form == "base"
    return base and any("LIMIT" in m.tags and m.end == start and texts[start - 1] == "is" for m in told.marks)


def _but_between(mark: Mark, fact: Fact, told: Told) -> bool:
    return any(m.tags & {"BUT"} and mark.start < m.start <= fact.phrase.start for m in told.marks)


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
    relative = after == 1 and texts[end] in {"it", "they", "you"} and mark.end == len(texts)
    own = mark.end < start - 1 and is_own(texts, start) and _value_between(mark, fact, told)
    if "LIMIT" in mark.tags and (mark.segment == fact.segment or relative) and not own:
        return "quoted limit"  # "over the one mil it should be"
    if "TOOL" in mark.tags and _size_like(fact) and (0 <= after <= _NEAR or 0 <= before <= _NEXT):
        return "tool size"
    numbered = texts[max(0, start - 1)] == "number"  # "number thirty two drill"
    if "TOOL" in mark.tags and after == 0 and (numbered or not fact.characteristics):
        return "tool size"  # "two pound hammer"
    if "PRICE" in mark.tags and (0 <= after <= _NEAR or (mark.segment == fact.segment and before >= 0)):
        return "price"
    hour = texts[mark.end - 1] in {"o'clock", "oclock"}  # of the number before it alone
    if "CLOCK" in mark.tags and (0 <= after <= _NEXT or (0 <= before <= _NEXT and not hour)):
        return "time or count of something else"
    return ""


def _size_like(fact: Fact) -> bool:
    measure = fact.phrase.measure
    if measure is None or fact.characteristics:
        return False
    codes = [measure.unit] if measure.unit else list(measure.units)
    return not codes or any(get_unit(code).kind == "length" for code in codes)


def _movement(fact: Fact, told: Told, texts: Sequence[str]) -> str:
    if fact.aux & {"NEG", "DECLINE"} or (fact.aux & {"NEED", "FUTURE"} and not fact.aux & {"DONE"}):
        return "not moved"
    for mark in told.marks:
        if "LIMIT" in mark.tags and mark.start < fact.start and _says_in(fact, texts):
            return "quoted limit"  # "book says fourteen, so they're both in"
        if mark.segment == fact.segment and mark.tags & {"NOT_MOVED"} and not _counted_behind(mark, fact):
            return "not moved"
        if (
            mark.segment == fact.segment
            and mark.tags & {"SUBORDINATE", "FUTURE"}
            and mark.end <= fact.start + 8
            and mark.start <= fact.start
        ):
            return "not yet moved"
    return ""


def _says_in(fact: Fact, texts: Sequence[str]) -> bool:
    """ "they're both in": how what is in hand stands to a limit, not where it was put."""
    named = any(s.components for s in fact.subjects)
    words = texts[fact.phrase.start : fact.phrase.end]
    return (
        not named
        and words[-1] == "in"
        and {"in", "is", "are", "both", "all", "only", "just"}.issuperset(words)
    )


def _counted_behind(mark: Mark, fact: Fact) -> bool:
    """ "one's still in, there's seven out": how many did move, told behind those that did not."""
    return mark.end <= fact.phrase.start and any(s.count is not None for s in fact.subjects)


def _is_time_of_day(fact: Fact, texts: Sequence[str]) -> bool:
    """ "by two thirty", "at five": a bare number behind such a word that no characteristic claims."""
    start, measure = fact.phrase.start, fact.phrase.measure
    if fact.characteristics or measure is None or measure.unit_said is not None:
        return False
    if _is_clock_time(fact, texts):
        return True
    if start and texts[start - 1] in _TIME_WORDS:
        return True
    if not start:
        return False
    clock = texts[start] in _HOURS and (fact.phrase.end - start == 1 or texts[start + 1] in _MINUTES)
    if texts[start - 1] == "at" and clock and not {"o'clock", "oclock"}.isdisjoint(texts):
        return True  # "four two five at twelve o'clock and four two two at six"
    return texts[start - 1] == "at" and clock and not any(s.components for s in fact.subjects)


def _is_difference(fact: Fact, texts: Sequence[str]) -> bool:
    """ "it's under by a thou and a half", "half a turn richer than the left": how far it is out."""
    if "than" in texts[fact.phrase.end : fact.phrase.end + _COMPARED]:
        return True
    at = next((i for i in range(fact.phrase.start, fact.phrase.start - 2, -1) if texts[i] == "by"), 0)
    if fact.characteristics and texts[max(0, at - 1)] == "out":
        return False  # "the rim's out by a mil": its run out
    return at > 0 and texts[at - 1] in _OUT_BY


def _is_clock_time(fact: Fact, texts: Sequence[str]) -> bool:
    """ "half five, home time", "quarter to six": a share before an hour, and nothing it could be of."""
    start, end = fact.phrase.start, fact.phrase.end
    if any(s.components for s in fact.subjects):
        return False
    if texts[start:end] == ("half",):
        return texts[end] in _LATE_HOURS if end < len(texts) else False
    if end - start == 1 and texts[start] in _LATE_HOURS and texts[max(0, start - 1) : start] == ("half",):
        return start == 1 or texts[start - 2] not in {"a", "and"}
    said = texts[start + 1 : end] if texts[start] == "a" else texts[start:end]
    return len(said) == 3 and said[:2] in {("quarter", "to"), ("quarter", "past")} and said[2] in _HOURS


def _is_bound(fact: Fact, texts: Sequence[str]) -> bool:
    """ "at least four": a bound is quoted, not read."""
    measure = fact.phrase.measure
    hedge = (measure.hedge or "") if measure is not None else ""
    if any(words in hedge for words in _BOUNDS):
        return True
    start = fact.phrase.start
    if {"no", "not"} & set(texts[max(0, start - 2) : start]) and hedge.startswith(("less than", "more than")):
        return True
    named = bool(fact.characteristics) or any(s.components for s in fact.subjects)
    return not named and any(words in hedge.split() for words in ("under", "over", "above", "below"))
