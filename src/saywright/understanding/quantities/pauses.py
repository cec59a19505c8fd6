"""A number with a pause in it: "three … point one" is 3.1, and "three point um three point one" is it too."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from saywright.quantity import parse_value
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.meanings import NOTHING
from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.quantities.measures import Measure, find_measures
from saywright.understanding.second_thoughts.words import PAUSES
from saywright.understanding.tokens import BREAK, HESITATIONS

_PAUSES = HESITATIONS | {"dash", "well", "hmm"}
_COUNTING = frozenset({"to", "too", "then"})  # between two numbers of a count, heard for "two"
_STEP = 2  # turns from one number to the next, one between them misheard
_LONGEST_PAUSE = 3  # tokens
_SPOKEN = _PAUSES - {BREAK}
_OPEN = frozenset({"point", "and"})  # behind them a number is to go on
_CAUGHT = PAUSES | {"no", "sorry", "let", "me", "now"}  # "eleven point hang on eleven point one"
_ROUND = frozenset({"hundred", "thousand"})
_DECIMALS_END = frozenset(
    {(), (BREAK,), ("and",), ("yeah",), ("on",), ("at",), ("for",), ("in",), ("so",), ("which",)}
)
_TWO_DIGITS = 2
_LONGEST_BREAK = 5  # tokens behind "point"


def over_pauses(measures: Sequence[Measure], words: Sequence[str], lexicon: Lexicon) -> list[Measure]:
    """The same measures, with decimals behind a pause joined to the whole number before it."""
    out: list[Measure] = []
    for measure in measures:
        whole = _one_number(out[-1], measure, words, lexicon) if out else None
        if whole is not None:
            out[-1] = whole
        elif out and _digit_behind(out[-1], measure, words):
            out[-1] = _odd(out[-1])
            out.append(_odd(measure))
        else:
            out.append(measure)
    return out


def _one_number(first: Measure, then: Measure, words: Sequence[str], lexicon: Lexicon) -> Measure | None:
    if _counts_on(first, then, words):
        return replace(then, start=first.start)
    return (
        _hundreds_and(first, then, words, lexicon)
        or _broken_off(first, then, words, lexicon)
        or _decimals(first, then, words, lexicon)
        or _whole(first, then, words, lexicon)
        or _tens_and_digit(first, then, words, lexicon)
    )


def _counts_on(first: Measure, then: Measure, words: Sequence[str]) -> bool:
    """ "one turn, two turns and a bit": turns counted as they were made; the last number is how many."""
    counted = first.unit == then.unit == "turn" and not (first.second or first.approximate)
    if not counted or not _COUNTING.issuperset(words[first.end : then.start]):
        return False
    values = [parse_value(m.readings[0].value) for m in (first, then)]
    return values[0] is not None and values[1] is not None and 0 < values[1] - values[0] <= _STEP


def _whole(first: Measure, then: Measure, words: Sequence[str], lexicon: Lexicon) -> Measure | None:
    gap = words[first.end : then.start]
    if words[then.start] != "point" or not gap or len(gap) > _LONGEST_PAUSE or not _PAUSES.issuperset(gap):
        return None
    if first.unit_said is not None or first.second or not first.readings[0].value.isdigit():
        return None
    if _numbers_part(words, first, lexicon) or tuple(words[then.end : then.end + 1]) == ("of",):
        return None  # "one twenty, uh, four of them"
    said = (*words[first.start : first.end], *words[then.start : then.end])
    return _joined(said, first.start, then.end, lexicon)


def _broken_off(first: Measure, then: Measure, words: Sequence[str], lexicon: Lexicon) -> Measure | None:
    """ "twenty three point um twenty three point one", "eighteen point uh four two": one number each.

    Behind "point" whatever else holds one up: "eleven point hang on eleven point one".

    One that broke off where it was to go on, with another behind it, is that other one, and asks.
    """
    gap = tuple(words[first.end : then.start])
    hesitates = 0 < len(gap) <= _LONGEST_PAUSE and not _SPOKEN.isdisjoint(gap)
    pause = gap[1:] if gap[:1] and gap[0] in _OPEN else gap
    held_up = gap[:1] == ("point",) and 1 < len(gap) <= _LONGEST_BREAK and _CAUGHT.issuperset(pause)
    if held_up and _in_full(first, then, words):
        return replace(then, start=first.start)
    if not hesitates or first.unit_said is not None or not _PAUSES.issuperset(pause):
        return None
    said, again = tuple(words[first.start : first.end]), tuple(words[then.start : then.end])
    anew, number = again[: len(said)] == said, again[: then.readings[0].words]
    if anew and len(number if gap[0] in _OPEN else again) > len(said):
        return replace(then, start=first.start)
    if gap[0] == "point" and first.readings[0].value.isdigit() and then.readings[0].value.isdigit():
        whole = _joined((*said, "point", *again), first.start, then.end, lexicon)
        if whole is not None:  # "nine point um eighty two" may be another number, begun anew
            return whole if _told_singly(number) and not anew else _odd(whole)
    return _odd(replace(then, start=first.start)) if gap[0] in _OPEN else None


def _tens_and_digit(first: Measure, then: Measure, words: Sequence[str], lexicon: Lexicon) -> Measure | None:
    """ "twenty um five": a digit behind a hesitation belongs to the tens before it, and asks."""
    gap = words[first.end : then.start]
    tens = CLASSES.get(words[first.end - 1], ("", ""))[0] == "TENS"
    digit = CLASSES.get(words[then.start], ("", ""))[0] == "DIGIT"
    if not gap or len(gap) > _LONGEST_PAUSE or not _SPOKEN.issuperset(gap) or not (tens and digit):
        return None
    if first.unit_said is not None or first.second or not first.readings[0].value.isdigit():
        return None  # "point nine fifty, um, five"
    if _numbers_part(words, first, lexicon) or tuple(words[then.end : then.end + 1]) == ("of",):
        return None  # "one twenty, uh, four of them"
    said = (*words[first.start : first.end], *words[then.start : then.end])
    whole = _joined(said, first.start, then.end, lexicon)
    return None if whole is None else _odd(whole)


def _hundreds_and(first: Measure, then: Measure, words: Sequence[str], lexicon: Lexicon) -> Measure | None:
    """ "A hundred and, uh, twenty eight": what "and" behind hundreds leaves open comes behind it."""
    gap = tuple(words[first.end : then.start])
    open_end = words[first.end - 1] in _ROUND and gap[:1] == ("and",) and first.unit_said is None
    if not open_end or not gap[1:] or len(gap) > _LONGEST_PAUSE or not _SPOKEN.issuperset(gap[1:]):
        return None
    if len(then.readings[0].value) > _TWO_DIGITS:
        return None  # "one hundred and, er, one twenty eight": begun anew
    said = (*words[first.start : first.end], "and", *words[then.start : then.end])
    whole = _joined(said, first.start, then.end, lexicon)
    ends = tuple(words[then.end : then.end + 1]) in _DECIMALS_END  # not "a hundred and, uh, two screws out"
    return whole if ends or whole is None else _odd(whole)


def _decimals(first: Measure, then: Measure, words: Sequence[str], lexicon: Lexicon) -> Measure | None:
    """ "Eighteen point four um two": more decimals behind a hesitation, and asks.

    Several that begin with the last one said are told once more: "one point six um six two" is 1.62.
    """
    gap = words[first.end : then.start]
    if not gap or len(gap) > _LONGEST_PAUSE or not _SPOKEN.issuperset(gap) or first.unit_said is not None:
        return None
    said, more = tuple(words[first.start : first.end]), tuple(words[then.start : then.end])
    digits = more[: then.readings[0].words]
    ends = tuple(words[then.end : then.end + 1]) in _DECIMALS_END
    if "point" not in said[:-1] or first.second or not _told_singly((*said[-1:], *digits)) or not ends:
        return None
    again = len(digits) > 1 and digits[0] == said[-1]
    whole = _joined((*(said[:-1] if again else said), *more), first.start, then.end, lexicon)
    return None if whole is None else _odd(whole)


def _in_full(first: Measure, then: Measure, words: Sequence[str]) -> bool:
    """ "eleven point", "eleven point one": the same words once more, with what was to come."""
    said, again = tuple(words[first.start : first.end]), tuple(words[then.start : then.end])
    return first.unit_said is None and again[: len(said) + 1] == (*said, "point")


def _joined(said: tuple[str, ...], start: int, end: int, lexicon: Lexicon) -> Measure | None:
    found = find_measures(said, lexicon.units)
    if not found or (found[0].start, found[0].end) != (0, len(said)):
        return None
    return replace(found[0], start=start, end=end)


def _odd(measure: Measure) -> Measure:
    return replace(measure, flags=tuple(sorted({*measure.flags, "odd"})))


def _digit_behind(first: Measure, then: Measure, words: Sequence[str]) -> bool:
    """ "two point two four … six", "eighteen … four two": more digits may have come behind a pause."""
    gap, rest = words[first.end : then.start], words[then.end : then.end + 1]
    best = then.readings[0]
    digits = best.value.isdigit() and len(best.value) == then.end - then.start and then.unit_said is None
    digits = digits and _told_singly(words[then.start : then.end])
    ends = not rest or rest[0] == BREAK
    decimal = "." in first.readings[0].value or len(best.value) > 1
    open_end = decimal and first.unit_said is None and not first.approximate
    return bool(gap) and _PAUSES.issuperset(gap) and digits and open_end and ends


def _told_singly(said: Sequence[str]) -> bool:
    """False for "twenty four": a number of its own, no digits of another."""
    return all(CLASSES.get(word, ("DIGIT",))[0] in {"DIGIT", "ZERO"} for word in said)


def _numbers_part(words: Sequence[str], first: Measure, lexicon: Lexicon) -> bool:
    """ "brush two, point three": the number tells which of several."""
    at, number = first.start, int(first.readings[0].value)
    name = lexicon.table.get(tuple(words[max(0, at - 1) : at]), NOTHING)
    named = map(lexicon.sheet.get, (*name.parts, *name.aliases))
    return any(part is not None and part.count > 1 and number <= part.count for part in named)
