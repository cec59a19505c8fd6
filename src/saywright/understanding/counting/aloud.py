"""Turns counted aloud: "half … one … one and a half … two … and that's seated" is two turns.

A count goes up by eighths, quarters, halves or whole turns, and its steps may change: the last one
is by nature what was left. The last number said is the reading.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from functools import lru_cache

from saywright.quantity import decimal_text
from saywright.sheets.model import Characteristic
from saywright.understanding.bench_words import LITTLE
from saywright.understanding.fixed import fixed
from saywright.understanding.numbers.words import HOMOPHONES
from saywright.understanding.tokens import BREAK
from saywright.units import get_unit

# Eighths of a turn, in which a count is kept while it is read.
_WHOLE = 8
_LEAST_STAMPED = 20  # where a plain number begins this high it is a stamp or a size, no clicks
_STEPS = (4, 2, 8, 1)
_LAST_STEPS = (*_STEPS, 6, 3, 5, 7)
_OVER_ONE = (10, 12, 14)  # "two, three and a quarter"
_UNITS = (
    "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
    "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen", "twenty",
)  # fmt: skip
_SHARES: dict[int, tuple[tuple[str, ...], ...]] = {
    2: (("a", "quarter"), ("quarter",), ("one", "quarter")),
    4: (("a", "half"), ("half",), ("one", "half"), ("two", "quarters")),
    6: (("three", "quarters"), ("three", "quarter")),
    1: (("an", "eighth"), ("eighth",), ("one", "eighth")),
    3: (("three", "eighths"),),
    5: (("five", "eighths"),),
    7: (("seven", "eighths"),),
}
_SHARE_WORDS = frozenset(words for forms in _SHARES.values() for words in forms)
_BETWEEN = frozenset(
    {
        BREAK,
        "and",
        "then",
        "uh",
        "um",
        "er",
        "turn",
        "turns",
        "now",
        "okay",
        "that",
        "is",
        "there",
        "we",
        "go",
        "full",
    }
)
_MORE = (
    ("a", "bit", "more"),
    ("bit", "more"),
    ("a", "touch", "more"),
    ("a", "little", "more"),
    ("a", "turn"),  # "half a turn"
    ("of", "a", "turn"),
    ("of", "one", "turn"),
    ("and", "a", "bit", "more"),
    *(("and", "a", word) for word in sorted(LITTLE)),  # "two and a bit, two and a quarter"
)
_BIT = frozenset((word,) for word in LITTLE)
_MORE_BY_HEAD = {words[0]: tuple(w for w in _MORE if w[0] == words[0]) for words in _MORE}
_ANOTHER = frozenset({"another", "plus"})  # "two and another quarter"
_THEN_MORE = (["more"], ("more",), ["extra"], ("extra",))
CAN_BEGIN = frozenset({*_UNITS, "a", "an", "half", "quarter", "eighth", *map(str, range(len(_UNITS)))})
_NUMBERS = CAN_BEGIN - {"a", "an"}  # one of them is in each number that is counted
_OF_A_RUN = _BETWEEN | {"and"} | {word for said in (*_SHARE_WORDS, *_MORE) for word in said}
_MOST_TURNS = 20


@fixed
class Count:
    """A run of numbers counted up."""

    value: str  # the last number, as a decimal
    said: int  # how many numbers
    start: int  # tokens [start, end)
    end: int
    hedge: str = ""  # what makes its value a guess: "call it", "and a bit"


def count_run(texts: Sequence[str], start: int, after: Fraction | None) -> Count | None:
    """The longest run of counted numbers from *start*, going on after *after*; None where there is none."""
    if texts[start] not in CAN_BEGIN:
        return None
    eighths = after * _WHOLE if after is not None else Fraction(0)
    if eighths.denominator != 1:
        return None
    best: Count | None = None
    for step in _first_steps(texts[start]) if after is None else _LAST_STEPS:
        run = _run(texts, start, int(eighths), step)
        if run is not None and (best is None or (run.said, run.end) > (best.said, best.end)):
            best = run
    return best


@lru_cache(maxsize=len(CAN_BEGIN))
def _first_steps(word: str) -> tuple[int, ...]:
    """The steps with which a count from nothing may begin at *word*; an article may lead to any: "a turn"."""
    if word in _MORE_BY_HEAD:
        return _STEPS
    return tuple(step for step in _STEPS if any(form[0] == word for form in _forms(step, False)))


def _run(texts: Sequence[str], start: int, after: int, step: int) -> Count | None:
    """The run that begins with *step*; both in eighths."""
    value, at, end, said, hedge = after, start, start, 0, ""
    while at < len(texts) and value < _MOST_TURNS * _WHOLE:
        length = _matches(texts, at, value + step)
        if length == 0 and said and texts[at] in HOMOPHONES:
            length = _sounds_like(texts, at, value + step)
        if length == 0 and said:
            step, length = _other_step(texts, at, value, step)
        if length == 0 and said:
            step, length = _added(texts, at, step)
        if length == 0:
            skipped = _says_nothing(texts, at)
            if not skipped and said and (over := _and_a_bit(texts, at, value)):
                at = end = at + over
                hedge = " ".join(texts[at - 3 : at])
                continue
            if not skipped:
                break
            at += skipped
            if said and texts[at - 1] in {"turn", "turns"}:
                end = at  # "three quarters of a turn"
            continue
        value, at, said, hedge = value + step, at + length, said + 1, ""
        end = at
    return Count(_eighths_text(value), said, start, end, hedge) if said else None


@lru_cache(maxsize=_MOST_TURNS * _WHOLE * 2)
def _eighths_text(value: int) -> str:
    """*value* eighths as a decimal."""
    return decimal_text(Fraction(value, _WHOLE))


def _and_a_bit(texts: Sequence[str], at: int, value: int) -> int:
    """ "half, one, one and a bit": the tokens that tell the number once more and a little over."""
    length = max(
        (len(form) for form in _forms(value, False) if tuple(texts[at : at + len(form)]) == form), default=0
    )
    over = tuple(texts[at + length : at + length + 3])
    return length + 3 if length and over[:2] == ("and", "a") and over[2:] in _BIT else 0


def _added(texts: Sequence[str], at: int, step: int) -> tuple[int, int]:
    """ "two, another quarter", "a quarter more": the eighths it goes on by, and the tokens, or none."""
    begin = at + (texts[at] in _ANOTHER)
    for share, forms in _SHARES.items() if begin > at or texts[at] in CAN_BEGIN else ():
        for form in forms:
            end = begin + len(form)
            if tuple(texts[begin:end]) == form and (begin > at or texts[end : end + 1] in _THEN_MORE):
                return share, end - at + (begin == at)
    return step, 0


def _sounds_like(texts: Sequence[str], at: int, value: int) -> int:
    """ "one, too, two and a half": the next number by its sound, with another one behind it."""
    follows = at + 1 < len(texts) and texts[at + 1] in _NUMBERS
    return int(int(HOMOPHONES[texts[at]]) * _WHOLE == value and follows)


def may_run(texts: Sequence[str]) -> bool:
    """True where two words of numbers stand with nothing between them that no count has."""
    numbers = 0
    for text in texts:
        if text in _NUMBERS:
            numbers += 1
            if numbers > 1:
                return True
        elif text not in _OF_A_RUN:
            numbers = 0
    return False


def _says_nothing(texts: Sequence[str], at: int) -> int:
    """How many tokens at *at* only stand between two numbers of a count; 0 for none."""
    for said in _MORE_BY_HEAD.get(texts[at], ()):
        if tuple(texts[at : at + len(said)]) == said:
            return len(said)
    return int(texts[at] in _BETWEEN)


def _other_step(texts: Sequence[str], at: int, value: int, step: int) -> tuple[int, int]:
    """The step by which a number said in full goes on, and its tokens; 0 tokens where none does."""
    if texts[at] not in CAN_BEGIN:
        return step, 0
    steps = (*_LAST_STEPS, *_OVER_ONE) if value >= _WHOLE else _LAST_STEPS
    found = [(_matches(texts, at, value + other, in_full=_is_next(value, other)), other) for other in steps]
    length, other = max(found, key=lambda one: one[0])
    return (other, length) if length else (step, 0)


def _is_next(value: int, step: int) -> bool:
    """False where its share alone tells it: "half, one, half, two, quarter"."""
    return (value + step) // _WHOLE > value // _WHOLE


def _matches(texts: Sequence[str], at: int, value: int, *, in_full: bool = False) -> int:
    """How many tokens at *at* say *value* eighths, *in_full* or only its fraction."""
    for form in _forms(value, in_full):
        if texts[at] != form[0] or tuple(texts[at : at + len(form)]) != form:
            continue
        if value % _WHOLE or not _goes_on(texts, at + len(form)):
            return len(form)
    return 0


@lru_cache(maxsize=1024)
def _forms(value: int, in_full: bool) -> tuple[tuple[str, ...], ...]:
    """The words that say *value* eighths, longest first."""
    whole, share = divmod(value, _WHOLE)
    if not 0 <= whole < len(_UNITS):
        return ()  # a count that would go on from a negative or a large number
    forms: list[tuple[str, ...]] = []
    if share == 0:
        forms.append((_UNITS[whole],))
        forms.append((str(whole),))
    else:
        for said in _SHARES.get(share, ()):
            if whole:
                forms.append((_UNITS[whole], "and", *said))
                forms.append((_UNITS[whole], *said))
            if not (whole and in_full):
                forms.append(said)
    return tuple(sorted(forms, key=len, reverse=True))


def _goes_on(texts: Sequence[str], after: int) -> bool:
    """ "one and a half" is not a one, "three quarters" no three, and "the high one's …" is no number."""
    rest = tuple(texts[after : after + 3])
    if texts[after - 1] == "one" and rest[:1] in {("is",), ("has",), ("was",)}:
        return True
    if rest[:1] in {("quarters",), ("eighths",)} or (texts[after - 1], *rest[:1]) == ("one", "quarter"):
        return True
    if len(rest) < 2 or rest[0] != "and":
        return False
    return rest[1] in {"half", "quarter", "eighth"} or rest[1:3] in _SHARE_WORDS


def is_counted(characteristic: Characteristic) -> bool:
    """True for turns and for plain counts (clicks); not for stamped sizes, which begin above any count."""
    if get_unit(characteristic.unit).kind == "turn":
        return True
    low = min(characteristic.plausible or (0,))
    return characteristic.unit == "1" and not characteristic.allowed and low < _LEAST_STAMPED
