"""Numbers that are not for the record by the words around them: limits, times, shares, numbers of bays."""

from __future__ import annotations

from collections.abc import Callable, Collection
from typing import Final

from saywright.quantity import parse_value
from saywright.understanding.aside.asked_or_between import is_asked, is_between
from saywright.understanding.aside.bounds import is_beside_limit, is_bound, is_range
from saywright.understanding.aside.meant import meant_value
from saywright.understanding.aside.no_such_value import (
    FAULTS,
    HEAT,
    is_heat_for_it,
    is_size_of_fault,
    never_got_there,
)
from saywright.understanding.aside.of_other_things import (
    IS_THE,
    NEEDS,
    OF_SOMETHING,
    TIMES_DONE,
    counts_a_noun,
    is_called_by_size,
    is_some_of_it,
    is_times_done,
    is_tool_for,
    of_noun_behind,
)
from saywright.understanding.aside.only_counted import HOW_MANY, how_many_there_are, so_many_of_them
from saywright.understanding.aside.other_jobs import (
    is_from_number,
    is_in_another,
    is_of_machine,
    is_one_called,
    is_ordered,
)
from saywright.understanding.aside.prices import is_price
from saywright.understanding.aside.time_of_day import is_time_of_day
from saywright.understanding.aside.told_limits import SAID as TOLD_OF_LIMITS
from saywright.understanding.aside.told_limits import is_told_limit
from saywright.understanding.aside.turned_till import TURNS_SO, is_turned_to_free
from saywright.understanding.aside.wanted import WISH, is_only_wanted
from saywright.understanding.aside.years import is_of_kind, is_year
from saywright.understanding.counting.counts import small_count
from saywright.understanding.doings.beside_doings import (
    is_of_rule,
    is_taken_off,
    measured_over,
    turned_further,
    was_used,
)
from saywright.understanding.facts import Fact, Told
from saywright.understanding.numbers.words import CLASSES, HOMOPHONES, TO_TWELVE
from saywright.understanding.steps import Calls
from saywright.understanding.tokens import BREAK
from saywright.units import get_unit

# A rule, and the reason that it tells.
_ByTold = tuple[Callable[[Fact, Told, tuple[str, ...]], bool], str]
_ByWords = tuple[Callable[[Fact, tuple[str, ...]], bool], str]

_IN = frozenset({"in", "on", "of", "at", "from"})
_ASKED_BACK = ("is", "not", "it")  # "twenty five, isn't it"
_IS_IT = {("is", "it"), ("was", "it")}
_QUESTIONS = frozenset({"what", "when", "who", "where", "which", "how"})
_CARDINALS = TO_TWELVE[:10]
_OUT_BY = frozenset(
    ["under", "over", "out", "off", "down", "up", "short", "long", "high", "low", "shy", "proud"]
)
_STEPS = (("lower",), ("higher",), ("down",), ("up",), ("richer",), ("leaner",))
_DIFFERS = {*(word for words in _STEPS for word in words), "used", "either", "weaker", "than", "by"}
_COMPARED = 3  # tokens behind a number in which it is compared
_COMPARISONS = {("richer",), ("leaner",), ("weaker",)}
_A_COUNT = 3  # numbers in a row
_WITH_A = {("with", article) for article in ("a", "an", "the", "my")}
_BEHIND_TOOL = {(), (BREAK,), ("on",), ("and",), ("long",), ("then",), ("so",), ("this",), ("again",)}
_BEHIND_TOOL |= {("key",), ("bar",), ("gun",), ("tee",), ("long",)}  # "with the five mil key"
_TURNS_OUT = frozenset(
    ["out", "off", "undone", "loose", "undo", "undoing", "undid", "slacken", "slackened", "loosened"]
)  # fmt: skip
_HAD = {(word,) for word in ("did", "do", "done", "had", "have", "seen", "saw", "got")}
_NEW_ENDS = {(), (BREAK,), ("so",), ("and",), ("but",), ("these",), ("those",)}
_THEY_ARE = {(it, verb) for it in ("they", "it", "these", "those") for verb in ("are", "is", "were", "was")}
_THEIRS = (("his",), ("hers",), ("theirs",), ("yours",))


def number_outside(fact: Fact, told: Told, texts: tuple[str, ...]) -> str:
    """Why the number of *fact* is none for the record, by the words around it; "" where it is one."""
    asked = texts[-len(_ASKED_BACK) :] == _ASKED_BACK and texts[fact.phrase.end :] == _ASKED_BACK
    if (asked and not is_bound(fact, texts)) or _asked_is_it(fact, texts):
        return "question"
    claimed = bool(fact.characteristics)
    for is_told_so, reason in (_BY_TOLD_CLAIMED if claimed else _BY_TOLD).by(texts):
        if is_told_so(fact, told, texts):
            return reason
    for is_so, reason in (_BY_WORDS_CLAIMED if claimed else _BY_WORDS).by(texts):
        if is_so(fact, texts):
            return reason
    return ""


def _asked_is_it(fact: Fact, texts: tuple[str, ...]) -> bool:
    """ "what time are they booked in for, is it six"."""
    start = fact.phrase.start
    tried = texts[max(0, start - 2) : start] in _IS_IT and texts[fact.phrase.end :] == ()
    return tried and not _QUESTIONS.isdisjoint(texts[: start - 2])


def _is_counted_aloud(fact: Fact, told: Told, texts: tuple[str, ...]) -> bool:
    """ "screws out, one two three four five six": how many moved."""
    start, end = fact.phrase.start, fact.phrase.end
    if end - start < _A_COUNT or texts[start:end] != _CARDINALS[: end - start] or fact.characteristics:
        return False
    before = [f for f in told.facts if f.phrase.end <= start]
    first = before[-1].phrase if before else None
    if first is not None and first.measure is not None and first.end == start:
        return parse_value(first.measure.readings[0].value) == end - start  # "that's third, one two three"
    return bool(before) and before[-1].kind in {"off", "on"} and start - before[-1].phrase.end <= 1


def _is_tool_of(fact: Fact, told: Told, texts: tuple[str, ...]) -> bool:
    """ "four wheel bolts off with the seventeen", "got it out with a twelve mil on the nut": a spanner."""
    start, measure = fact.phrase.start, fact.phrase.measure
    if texts[max(0, start - 2) : start] not in _WITH_A or measure is None or fact.characteristics:
        return False
    codes = (measure.unit,) if measure.unit else measure.units
    lengths = not codes or any(get_unit(code).kind == "length" for code in codes)
    if not lengths or texts[start] == "point":
        return False
    moved = any(f.kind in {"off", "on", "doing"} and f.phrase.end <= start for f in told.facts)
    moved = moved or not _TURNS_OUT.isdisjoint(texts[:start])
    return moved and texts[fact.phrase.end : fact.phrase.end + 1] in _BEHIND_TOOL


def _did_not_go(fact: Fact, texts: tuple[str, ...]) -> bool:
    """ "… and a forty one won't", "point one doesn't go": the size that was tried in vain."""
    if "not" not in texts[fact.phrase.end :]:
        return False
    behind = [text for text in texts[fact.phrase.end :] if text != "drill"]
    denied = tuple(behind[:2]) in {(verb, "not") for verb in ("will", "would", "does", "did")}
    ends = {"go", "fit", "pass", "enter", BREAK, "quite", "so", "but"}
    return denied and (len(behind) == 2 or behind[2] in ends)


def _is_share(fact: Fact, texts: tuple[str, ...]) -> bool:
    """ "nine times out of ten", "two out of six": how often, or of how many."""
    start, end, measure = fact.phrase.start, fact.phrase.end, fact.phrase.measure
    if fact.characteristics or measure is None or measure.unit_said is not None:
        return False
    if texts[end : end + 3] == ("of", "the", "way"):
        return True  # "split about two thirds of the way along"
    counted = texts[end : end + 2] == ("out", "of") and texts[end + 2 : end + 3] and texts[end + 2] in CLASSES
    return texts[max(0, start - 2) : start] == ("out", "of") or bool(counted)


def _is_numbered(fact: Fact, told: Told, texts: tuple[str, ...]) -> bool:
    """ "out of bay three", "on page twelve": a noun that nothing here knows, behind a preposition."""
    start, measure = fact.phrase.start, fact.phrase.measure
    if fact.characteristics or measure is None or measure.unit_said is not None or start < 2:
        return False
    noun = start - 1 in told.strays.get(fact.segment, ()) and texts[start - 1] not in HOMOPHONES
    return noun and texts[start - 2] in _IN and measure.readings[0].value.isdigit()


_ON_WHAT: Final = frozenset({"the", "both", "all", "each", "this", "that", "these", "those", "it", "them"})


def _is_way_round(fact: Fact, texts: tuple[str, ...]) -> bool:
    """ "one point oh four two, quarter turn round, one point oh four one": where the next was measured."""
    measure = fact.phrase.measure
    after = texts[fact.phrase.end : fact.phrase.end + 1]
    turned = measure is not None and measure.unit in {"turn", "deg"}
    if after == ("on",) and not _ON_WHAT.isdisjoint(texts[fact.phrase.end + 1 : fact.phrase.end + 2]):
        return False  # "one and a half turns on both"
    return turned and bool(after) and after[0] in {"on", "round", "around", "further", "apart"}


def _is_difference(fact: Fact, texts: tuple[str, ...]) -> bool:
    """ "it's under by a thou and a half", "half a turn richer than the left": how far it is out."""
    if texts[max(0, fact.phrase.start - 3) : fact.phrase.start] == ("used", "to", "be"):
        return True
    behind = texts[fact.phrase.end : fact.phrase.end + 2]
    if behind == ("either", "way") or (behind[:1] in _COMPARISONS and not fact.characteristics):
        return True  # "half a mil either way", "go one richer"
    if texts[fact.phrase.start : fact.phrase.end] == ("one",) and behind[:1] in _STEPS:
        return True  # "the clip's one lower": than the others
    if "than" in texts[fact.phrase.end : fact.phrase.end + _COMPARED]:
        return True
    start = fact.phrase.start
    at = start if texts[start] == "by" else start - 1
    if at < 1 or texts[at] != "by":
        return False
    if fact.characteristics and texts[at - 1] == "out":
        return False  # "the rim's out by a mil": its run out
    return texts[at - 1] in _OUT_BY


def _is_a_thing(fact: Fact, texts: tuple[str, ...]) -> bool:
    """ "I did one for the golf club": one of the kind, no number."""
    start, end = fact.phrase.start, fact.phrase.end
    if texts[max(0, start - 1) : start] == ("as",):
        return texts[start:end] == ("one",) and not fact.characteristics  # "both came out as one"
    return texts[start:end] == ("one",) and texts[max(0, start - 1) : start] in _HAD


def _came_off(fact: Fact, texts: tuple[str, ...]) -> bool:
    """ "four off the right"."""
    bare = not fact.characteristics and small_count(fact.phrase.measure) is not None
    return bare and texts[fact.phrase.end : fact.phrase.end + 1] == ("off",)


def _is_of_his(fact: Fact, texts: tuple[str, ...]) -> bool:
    """ "half a mil free play on his": of somebody else's, where the talk ends so."""
    behind, measure = texts[fact.end : fact.end + 3], fact.phrase.measure
    told = bool(fact.characteristics) or (measure is not None and measure.unit_said is not None)
    return told and behind[:1] == ("on",) and behind[1:2] in _THEIRS and behind[2:] in {(), (BREAK,)}


def _is_of_new_ones(fact: Fact, texts: tuple[str, ...]) -> bool:
    """ "new ones eight and a half", "they're thirty seven new": what such things have when they are new."""
    start, end = fact.phrase.start, fact.phrase.end
    told = texts[end : end + 1] == ("new",) and texts[end + 1 : end + 2] in _NEW_ENDS
    if told and small_count(fact.phrase.measure) is None and texts[max(0, start - 2) : start] in _THEY_ARE:
        return True
    head = texts[max(0, start - 2) : start] == ("new", "ones") and (start == 2 or texts[start - 3] == BREAK)
    return head and texts[end:] in {(), (BREAK,)}


# The first that holds tells why, each where one of its words is said; these go by all that is told.
_TOLD: Final[tuple[tuple[_ByTold, Collection[str] | None], ...]] = (
    ((_is_tool_of, "tool size"), {"with"}),
    ((is_taken_off, "how much was taken off"), {"by", "off"}),
    ((was_used, "how it was done"), {"with"}),
    ((turned_further, "how far it was turned on"), {"so", "makes"}),
    ((measured_over, "over how many it was measured"), {"over", "for"}),
    ((_is_counted_aloud, "counted aloud"), {_CARDINALS[_A_COUNT - 1]}),
    ((is_of_rule, "quoted limit"), {"you"}),
    ((meant_value, "quoted limit"), None),
    ((_is_numbered, OF_SOMETHING), _IN),
    ((is_of_kind, OF_SOMETHING), None),
    ((counts_a_noun, OF_SOMETHING), None),
)
# These by the words around the number.
_REASONS: Final[tuple[tuple[_ByWords, Collection[str] | None], ...]] = (
    ((is_one_called, OF_SOMETHING), {"the", "number"}),
    ((is_from_number, OF_SOMETHING), {"number"}),
    ((is_of_machine, OF_SOMETHING), {"off", "from"}),
    ((is_in_another, "another job or time"), {"the", "their"}),
    ((_is_a_thing, "one of its kind"), {"one"}),
    ((how_many_there_are, HOW_MANY), None),
    ((so_many_of_them, HOW_MANY), {"of"}),
    ((is_year, "a year"), None),
    ((is_bound, "quoted limit"), None),
    ((is_told_limit, "quoted limit"), TOLD_OF_LIMITS),
    ((is_only_wanted, "quoted limit"), WISH),
    ((_is_of_new_ones, "quoted limit"), {"new"}),
    ((is_range, "what a tool can read"), {"to"}),
    ((is_beside_limit, "a difference"), {"which", "that"}),
    ((of_noun_behind, "a size or a kind of something else"), {"weight", "grade", "grit", "bit", "bits"}),
    ((is_called_by_size, "a size or a kind of something else"), IS_THE),
    ((is_tool_for, "tool size"), NEEDS),
    ((is_price, "price"), None),
    ((_is_of_his, "another job or time"), {"his", "hers", "theirs", "yours"}),
    ((is_turned_to_free, "how far it was turned"), TURNS_SO),
    ((_is_way_round, "where it was measured"), {"on", "round", "around", "further", "apart"}),
    ((_is_share, "so many out of so many"), {"out", "way"}),
    ((is_time_of_day, "time of day"), None),
    ((is_some_of_it, "how much of something else"), {"half"}),
    ((is_times_done, "how often something was done"), TIMES_DONE),
    ((_came_off, "how many came off"), {"off"}),
    ((_did_not_go, "a gauge that does not go"), {"not"}),
    ((_is_difference, "a difference"), _DIFFERS),
    ((is_between, "how far apart"), {"difference"}),
    ((is_asked, "question"), {"is", "are"}),
    ((never_got_there, "where it stayed"), {"never", "not"}),
    ((is_heat_for_it, "how hot it was made"), HEAT),
    ((is_size_of_fault, "how large a fault is"), FAULTS),
    ((is_ordered, "what is to be had"), {"order"}),
)
# These hold only of a number that no characteristic claims.
_UNCLAIMED: Final = frozenset(
    {_is_tool_of, turned_further, was_used, _is_counted_aloud, _is_numbered, is_from_number, is_of_machine,
     is_beside_limit, of_noun_behind, is_price, _is_share, is_time_of_day, is_some_of_it, is_times_done,
     _came_off, is_ordered, how_many_there_are, counts_a_noun, is_called_by_size, is_tool_for}
)  # fmt: skip
_BY_TOLD: Final = Calls(*_TOLD)
_BY_TOLD_CLAIMED: Final = Calls(*(one for one in _TOLD if one[0][0] not in _UNCLAIMED))
_BY_WORDS: Final = Calls(*_REASONS)
_BY_WORDS_CLAIMED: Final = Calls(*(one for one in _REASONS if one[0][0] not in _UNCLAIMED))
