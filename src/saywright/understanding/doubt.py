"""Several hypotheses → one set of statements, each value with the probability that it is right.

The probability of a value is the share of all hypotheses that give the same value for the
same thing, each weighed by how plausible its readings are for the sheet. Below the threshold
the value asks.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import replace

from saywright.flags import FlagKind, flag
from saywright.quantity import parse_value
from saywright.understanding.discourse import Discourse
from saywright.understanding.statements import Reading, Statement

TAKEN_FROM = 0.5  # share of probability on one value from which it is taken without an ask
_IMPLAUSIBLE_WEIGHT = 0.2
_ODD_WEIGHT = 0.5

# A recogniser that was measured to be surely wrong too often: 30 to 80 % of its numbers in
# noise. What it hears is proposed, never taken.
UNTRUSTED = ("sphinx",)

Result = tuple[float, Discourse, tuple[Statement, ...]]
_Key = tuple[object, ...]


def weigh(results: Sequence[Result]) -> tuple[Discourse, tuple[Statement, ...]]:
    """The state and statements of the most probable meaning; *results*: (probability, state, statements)."""
    if len(results) == 1:
        return results[0][1], results[0][2]
    weights = [probability * _weight(statements) for probability, _, statements in results]
    total = sum(weights) or 1.0
    by_meaning: dict[_Key, float] = defaultdict(float)
    for weight, (_, _, statements) in zip(weights, results, strict=True):
        by_meaning[_meaning(statements)] += weight
    best_meaning = max(by_meaning, key=lambda meaning: by_meaning[meaning])
    chosen = max(
        (index for index, result in enumerate(results) if _meaning(result[2]) == best_meaning),
        key=lambda index: weights[index],
    )
    shares: dict[_Key, float] = defaultdict(float)
    for weight, (_, _, statements) in zip(weights, results, strict=True):
        for key in {_value_key(s) for s in statements if isinstance(s, Reading)}:
            shares[key] += weight / total
    state, statements = results[chosen][1], results[chosen][2]
    doubted = tuple(_doubt(s, shares[_value_key(s)]) if isinstance(s, Reading) else s for s in statements)
    return _with(state, statements, doubted), doubted


def mistrust(
    state: Discourse, statements: tuple[Statement, ...], listener: str
) -> tuple[Discourse, tuple[Statement, ...]]:
    """Every reading of an untrusted listener asks."""
    if not listener.startswith(UNTRUSTED):
        return state, statements
    poor = flag(FlagKind.POORLY_HEARD, f"{listener} alone is not trusted with numbers")
    doubted = tuple(
        s.model_copy(update={"flags": (*s.flags, poor)}) if isinstance(s, Reading) else s for s in statements
    )
    return _with(state, statements, doubted), doubted


def _weight(statements: Sequence[Statement]) -> float:
    weight = 1.0
    for statement in statements:
        if isinstance(statement, Reading):
            kinds = {f.kind for f in statement.flags}
            if kinds & {FlagKind.OUTSIDE_PLAUSIBLE, FlagKind.UNIT_MISMATCH}:
                weight *= _IMPLAUSIBLE_WEIGHT
            elif kinds & {FlagKind.NUMBER_ODD, FlagKind.HOMOPHONE, FlagKind.SECOND_NUMBER}:
                weight *= _ODD_WEIGHT
    return weight


def _value_key(reading: Reading) -> _Key:
    return (
        reading.component,
        reading.which,
        reading.characteristic,
        parse_value(reading.value),
        reading.unit,
    )


def _meaning(statements: Sequence[Statement]) -> _Key:
    return tuple(sorted(map(repr, (_value_key(s) for s in statements if isinstance(s, Reading)))))


def _doubt(reading: Reading, share: float) -> Reading:
    probability = min(1.0, round(share, 4))
    if probability >= TAKEN_FROM or any(f.kind == FlagKind.HEARINGS_DISAGREE for f in reading.flags):
        return reading.model_copy(update={"probability": probability})
    asked = flag(FlagKind.HEARINGS_DISAGREE, f"{reading.value} in {round(100 * probability)} % of them")
    return reading.model_copy(update={"probability": probability, "flags": (*reading.flags, asked)})


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
