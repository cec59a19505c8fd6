"""Several hypotheses → one set of statements, each value with the probability that it is right.

Every hypothesis was read. The meaning most probable over all of them is taken, each weighed by
how plausible its readings are for the sheet. What speaks for a value is its share of that
probability; what speaks against it: a place outside the plausible range, odd words around it,
another value for the same thing in the same breath, decimals that are not read here.
`saywright.understanding.doubt_figures` turns both into a probability, as measured for each
listener; below the threshold the value asks.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from math import exp, log

from saywright.flags import Flag, FlagKind, flag
from saywright.quantity import decimals, parse_value
from saywright.sheets.model import Characteristic, Sheet
from saywright.understanding.discourse import Discourse
from saywright.understanding.doubt_figures import FIGURES, TAKEN_FROM, Figures
from saywright.understanding.sounds.command_sounds import SOUND_ALIKE
from saywright.understanding.statements import BenchCommand, Correction, Reading, Remark, Statement, Unclear

_IMPLAUSIBLE_WEIGHT = 0.2
_ODD_WEIGHT = 0.5
_NAME_WEIGHT = 0.5
_OUTSIDE = frozenset({FlagKind.OUTSIDE_PLAUSIBLE, FlagKind.UNIT_MISMATCH})
_ODD = frozenset({FlagKind.NUMBER_ODD, FlagKind.HOMOPHONE, FlagKind.SECOND_NUMBER})
_NAME = frozenset({FlagKind.PART_MENDED, FlagKind.PART_AMBIGUOUS, FlagKind.WHICH_UNCLEAR})
SHARE_LIMIT = 0.01  # shares are kept this far from 0 and 1: five hypotheses tell no more
_READING_FROM = 0.3  # share of hypotheses with a reading from which one is asked about, not dropped
_FINE_PLACES = 2  # decimals of limits from which a missing one tells; "three thou" is said for 3.0
_WORDING_FROM = 0.1  # share of a wording from which it may stand for others of the same meaning
_AGREE = 0.9  # share from which the hearings do not disagree, yet the value may ask

# A recogniser that was measured to be surely wrong too often: 30 to 80 % of its numbers in
# noise. What it hears is proposed, never taken.
UNTRUSTED = ("sphinx",)
TYPED = "scripted"  # the listener's name of words that were not heard

Result = tuple[float, Discourse, tuple[Statement, ...]]
_Key = tuple[object, ...]
_NOTHING: _Key = ()  # the meaning of words without a reading


@dataclass(frozen=True, slots=True)
class Evidence:
    """What is known about one value as heard."""

    share: float  # 0…1, of the hypotheses' probability, that gives this value for this thing
    outside: bool  # it is outside the plausible range, or its unit does not fit
    odd: bool  # words around the number do not fit it
    crowded: bool = False  # the same words give another value for the same thing, or something unclear
    misfit: bool = False  # its decimals are not those of the sheet's limits and instrument


def weigh(results: Sequence[Result], listener: str, sheet: Sheet) -> tuple[Discourse, tuple[Statement, ...]]:
    """The state and statements of the meaning most probable over *results* (probability, state, statements).

    Each reading carries the probability that it is right; words that were typed carry none.
    """
    if listener == TYPED and len(results) == 1:
        return results[0][1], results[0][2]
    chosen, known = choose(results, sheet)
    _, state, statements = results[chosen]
    doubted = tuple(_doubt(s, known[s.id], listener) if isinstance(s, Reading) else s for s in statements)
    return _with(state, statements, doubted), doubted


def choose(results: Sequence[Result], sheet: Sheet) -> tuple[int, dict[str, Evidence]]:
    """Which of *results* is taken, and what is known about each of its readings, by id."""
    weights = [probability * _weight(statements) for probability, _, statements in results]
    total = sum(weights) or 1.0
    told = sum(probability for probability, _, statements in results if _readings(statements))
    by_meaning: dict[_Key, float] = defaultdict(float)
    shares: dict[_Key, float] = defaultdict(float)
    for weight, (_, _, statements) in zip(weights, results, strict=True):
        by_meaning[_meaning(statements)] += weight / total
        for key in {_value_key(reading) for reading in _readings(statements)}:
            shares[key] += weight / total
    # By plain probability: a value that is unlikely on this sheet was still said, and asks.
    if told >= _READING_FROM * sum(probability for probability, _, _ in results) and len(by_meaning) > 1:
        by_meaning.pop(_NOTHING, None)
    best_meaning = max(by_meaning, key=lambda meaning: by_meaning[meaning])
    same = [index for index, result in enumerate(results) if _meaning(result[2]) == best_meaning]
    heaviest = max(same, key=lambda index: weights[index])
    worded = [index for index in same if weights[index] >= _WORDING_FROM * total] or [heaviest]
    chosen = min(worded, key=lambda index: (_waiting(results[index][2]), -weights[index]))
    if not _told(results[chosen][2]):
        chosen = next((index for index in worded if _orders(results[index][2])), chosen)
    crowded = _crowded(results[chosen][2])
    known = {
        r.id: evidence(r, shares[_value_key(r)], sheet, crowded=r.id in crowded)
        for r in _readings(results[chosen][2])
    }
    return chosen, known


def evidence(reading: Reading, share: float, sheet: Sheet, *, crowded: bool) -> Evidence:
    """What is known about *reading*, given by *share* of the hypotheses."""
    kinds = {f.kind for f in reading.flags}
    spec = sheet.find(reading.component, reading.characteristic)
    return Evidence(
        share=min(1.0, share),
        outside=bool(kinds & _OUTSIDE),
        odd=bool(kinds & _ODD),
        crowded=crowded,
        misfit=spec is not None and _misfit(reading, spec, sheet),
    )


def probability_right(known: Evidence, figures: Figures) -> float:
    """The probability that a value is right: a logistic function of what is known."""
    share = min(1 - SHARE_LIMIT, max(SHARE_LIMIT, known.share))
    sum_ = figures.base + figures.share * log(share / (1 - share))
    sum_ += figures.outside * known.outside + figures.odd * known.odd
    sum_ += figures.crowded * known.crowded + figures.misfit * known.misfit
    return 1 / (1 + exp(-sum_))


def figures_of(listener: str) -> Figures:
    """The listener's own figures, else those of its engine; those of "" for one that was not measured."""
    return FIGURES.get(listener) or FIGURES.get(listener.partition(" ")[0], FIGURES[""])


def _weight(statements: Sequence[Statement]) -> float:
    weight = 1.0
    for reading in _readings(statements):
        kinds = {f.kind for f in reading.flags}
        weight *= _IMPLAUSIBLE_WEIGHT if kinds & _OUTSIDE else _ODD_WEIGHT if kinds & _ODD else 1.0
        weight *= _NAME_WEIGHT if kinds & _NAME else 1.0
    return weight


def _crowded(statements: Sequence[Statement]) -> set[str]:
    """Ids of readings that share their thing with another value, or their words with what is unclear.

    "Nine void five" for "nine point five" gives two numbers for one weight, or one and a rest. What
    was put right at once does not count.
    """
    gone = {one for s in statements if isinstance(s, Correction) for one in s.supersedes}
    things: dict[_Key, list[Reading]] = defaultdict(list)
    for reading in _readings(statements):
        if reading.id not in gone:
            things[reading.component, reading.which, reading.characteristic, reading.place].append(reading)
    unclear = any(isinstance(s, Unclear) for s in statements)
    crowds = [group for group in things.values() if unclear or len({parse_value(r.value) for r in group}) > 1]
    return {reading.id for group in crowds for reading in group}


def _misfit(reading: Reading, found: Characteristic, sheet: Sheet) -> bool:
    """True where the decimals are not those that are read here: a lost or a doubled digit looks so.

    Fewer than the sheet's limits have, or more than they and the instrument have.
    """
    if "/" in reading.value or reading.unit != found.unit or found.unit == "turn":
        return False
    places = len(reading.value.partition(".")[2])
    limits = max(found.limit_places, decimals(found.nominal))
    shown = max(
        (decimals(one.resolution) for one in sheet.instrument if one.id == found.instrument), default=None
    )
    return (limits >= _FINE_PLACES and places < limits) or (shown is not None and places > max(limits, shown))


def _told(statements: Sequence[Statement]) -> bool:
    """True where the words told anything; what was not understood did not."""
    return any(not isinstance(s, Remark) for s in statements)


def _orders(statements: Sequence[Statement]) -> bool:
    """True of a command in two or more of its own words: one word, or one by its sound, comes too easily."""
    said = [tuple(s.heard.split()) for s in statements if isinstance(s, BenchCommand)]
    return any(len(words) > 1 and words not in SOUND_ALIKE for words in said)


def _waiting(statements: Sequence[Statement]) -> int:
    return sum(isinstance(s, Unclear) or (isinstance(s, Reading) and s.asks) for s in statements)


def _readings(statements: Iterable[Statement]) -> list[Reading]:
    return [statement for statement in statements if isinstance(statement, Reading)]


def _value_key(reading: Reading) -> _Key:
    return (
        reading.component,
        reading.which,
        reading.characteristic,
        reading.place,
        parse_value(reading.value),
        reading.unit,
    )


def _meaning(statements: Sequence[Statement]) -> _Key:
    return tuple(sorted(repr(_value_key(reading)) for reading in _readings(statements)))


def _doubt(reading: Reading, known: Evidence, listener: str) -> Reading:
    probability = round(probability_right(known, figures_of(listener)), 4)
    flags = (*reading.flags, *_asks(reading, known, probability, listener))
    return reading.model_copy(update={"probability": probability, "flags": flags})


def _asks(reading: Reading, known: Evidence, probability: float, listener: str) -> list[Flag]:
    """What asks about this reading because of how it was heard."""
    found = []
    percent = round(100 * known.share)
    told = {f.kind for f in reading.flags}
    if probability < TAKEN_FROM and FlagKind.HEARINGS_DISAGREE not in told:
        if known.crowded:
            found.append(flag(FlagKind.SECOND_NUMBER, reading.value))
        elif known.share < _AGREE:
            found.append(flag(FlagKind.HEARINGS_DISAGREE, f"{reading.value} in {percent} % of them"))
        elif known.misfit:
            found.append(flag(FlagKind.POORLY_HEARD, f"{reading.value} has other decimals than the sheet"))
        elif not reading.asks and not listener.startswith(UNTRUSTED):
            chance = f"{reading.value} is right with {round(100 * probability)} %"
            found.append(flag(FlagKind.POORLY_HEARD, chance))
    if listener.startswith(UNTRUSTED):
        found.append(flag(FlagKind.POORLY_HEARD, f"{listener} alone is not trusted with numbers"))
    return found


def _with(state: Discourse, before: tuple[Statement, ...], after: tuple[Statement, ...]) -> Discourse:
    """The state with the doubted statements in place of the plain ones."""
    changed = {
        old.id: new
        for old, new in zip(before, after, strict=True)
        if isinstance(new, Reading) and old is not new
    }
    if not changed:
        return state
    recent = (*state.recent[:-1], tuple(changed.get(s.id, s) for s in state.recent[-1]))
    first = {key: changed.get(r.id, r) for key, r in state.first.items()}
    latest = {key: changed.get(r.id, r) for key, r in state.latest.items()}
    return replace(state, recent=recent, first=first, latest=latest)
