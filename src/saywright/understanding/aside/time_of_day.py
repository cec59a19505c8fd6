"""Numbers that tell the hour: "by two thirty", "half five, home time", "ten to four". Pure."""

from __future__ import annotations

from saywright.quantity import parse_value
from saywright.understanding.facts import Fact
from saywright.understanding.numbers.words import TO_TWELVE
from saywright.understanding.values.opening import opens_at

_TIME_WORDS = frozenset({"by", "until", "till", "before"})
_HOURS = frozenset(TO_TWELVE)
_LATE_HOURS = _HOURS - {"one", "two"}  # "half one" may be turns counted
_DAYS = frozenset(
    [("yesterday",), ("tomorrow",), ("tonight",), ("this", "morning"), ("this", "afternoon"),
     ("this", "evening"),
     ("last", "night"), ("in", "the", "morning"), ("in", "the", "afternoon"), ("in", "the", "evening")]
)  # fmt: skip
_MINUTES = frozenset({"thirty", "fifteen", "forty", "twenty", "ten", "oh"})


def is_time_of_day(fact: Fact, texts: tuple[str, ...]) -> bool:
    """ "by two thirty", "at five": a bare number behind such a word that no characteristic claims."""
    start, measure = fact.phrase.start, fact.phrase.measure
    if fact.characteristics or fact.changes or measure is None or measure.unit_said is not None:
        return False
    if _is_clock_time(fact, texts) or _falls(fact, texts):
        return True
    clock = texts[start] in _HOURS and (fact.phrase.end - start == 1 or texts[start + 1] in _MINUTES)
    if start and texts[start - 1] == "at" and clock and _tells_day(texts, fact.phrase.end):
        return True
    if opens_at(texts, start):
        return False  # "relief lifts at three oh five"
    if start and (
        texts[start - 1] in _TIME_WORDS or texts[max(0, start - 3) : start] == ("it", "is", "gone")
    ):
        return True
    if not start:
        return False
    if texts[start - 1] == "at" and clock and not {"o'clock", "oclock"}.isdisjoint(texts):
        return True  # "four two five at twelve o'clock and four two two at six"
    return texts[start - 1] == "at" and clock and not any(s.components for s in fact.subjects)


def _tells_day(texts: tuple[str, ...], end: int) -> bool:
    """ "Head lifted at nine this morning", "at ten yesterday": the day is told right behind it."""
    return texts[end : end + 1] in _DAYS or texts[end : end + 2] in _DAYS or texts[end : end + 3] in _DAYS


def _falls(fact: Fact, texts: tuple[str, ...]) -> bool:
    """ "and that's me done, ten to four": no range goes down."""
    measure = fact.phrase.measure
    if measure is None or not measure.second or texts[fact.phrase.end - 1] not in _HOURS:
        return False
    return parse_value(measure.readings[0].value) > parse_value(measure.second[0].value)


def tells_time(texts: tuple[str, ...]) -> bool:
    """ "that's half three, kettle on": the hour, no half that is counted."""
    return "half" in texts and any(
        texts[at] == "half" and texts[at - 1] in {"is", "past", "at"} and texts[at + 1] in _LATE_HOURS
        for at in range(1, len(texts) - 1)
        if texts[at + 2 : at + 3] not in {("turn",), ("turns",)}
    )


def _is_clock_time(fact: Fact, texts: tuple[str, ...]) -> bool:
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
