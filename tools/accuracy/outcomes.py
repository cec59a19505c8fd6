"""What came of a clip: which numbers are right, which are wrong and do not say so. Pure."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from saywright.hearing.words import Utterance, typed
from saywright.quantity import parse_value
from saywright.understanding.discourse import Discourse
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.parse import understand
from saywright.understanding.statements import Correction, Reading, Statement, Unclear

from .cases import kind_of, plain, told
from .edits import edits, words_of

KINDS = ("reading", "condition", "action", "movement", "identifier", "photo")


@dataclass(frozen=True, slots=True)
class Given:
    """One reading that was given."""

    right: bool  # part, which, characteristic, number and unit agree with the truth
    asks: bool
    meant_to_ask: bool  # the truth says that it asks, or that it may
    probability: float | None  # that it is right, as the program has it


@dataclass(frozen=True, slots=True)
class Outcome:
    """One clip, heard and understood."""

    wanted: tuple[str, ...]  # case lines of the truth
    found: tuple[str, ...]  # case lines that came out and still hold
    givens: tuple[Given, ...]
    unclear: bool  # measured-looking talk that was not understood waits for a person
    exact: bool  # every number of the truth, and no other
    word_errors: int
    words: int  # that were said

    @property
    def has_reading(self) -> bool:
        """True where a reading was said."""
        return any(kind_of(row) == "reading" for row in self.wanted)

    @property
    def asks(self) -> bool:
        """True where something measured waits for a person."""
        return self.unclear or any(given.asks for given in self.givens)

    @property
    def silent(self) -> bool:
        """True where a wrong reading is taken and does not ask."""
        return any(not given.right and not given.asks for given in self.givens)

    @property
    def lost(self) -> bool:
        """True where a reading is missing and nothing tells so."""
        said = sum(kind_of(row) == "reading" for row in self.wanted)
        return sum(given.right for given in self.givens) < said and not self.asks and not self.silent


def outcome(
    utterances: Sequence[Utterance], lexicon: Lexicon, *, lead: str, words: str, truth: Sequence[str]
) -> Outcome:
    """What *utterances* are understood as, after the typed line *lead*, against the *truth*."""
    state = Discourse()
    if lead:
        state, _ = understand(typed(lead), state, lexicon)
    statements: list[Statement] = []
    for utterance in utterances:
        state, made = understand(utterance, state, lexicon)
        statements += made
    return judge(statements, [u.best.text for u in utterances], words=words, truth=truth)


def judge(
    statements: Sequence[Statement],
    heard: Iterable[str],
    *,
    words: str,
    truth: Sequence[str],
    all_told: bool = False,
) -> Outcome:
    """What the statements are worth. *all_told*: the truth also holds what was put right at once."""
    gone = {one for s in statements if isinstance(s, Correction) for one in s.supersedes}
    live = [s for s in statements if all_told or s.id not in gone]
    readings = [s for s in live if isinstance(s, Reading)]
    wanted = [plain(row) for row in truth]
    said = words_of(words)
    return Outcome(
        wanted=tuple(wanted),
        found=tuple(row for row in map(told, live) if row is not None),
        givens=givens(readings, truth),
        unclear=any(isinstance(s, Unclear) for s in live),
        exact=Counter(parse_value(r.value) for r in readings) == Counter(map(_value, _readings(wanted))),
        word_errors=edits(said, words_of(" ".join(heard))),
        words=len(said),
    )


def givens(readings: Sequence[Reading], wanted: Sequence[str]) -> tuple[Given, ...]:
    """Each reading, right or not; one that asks takes its answer last."""
    rows = [(_meaning(plain(row)), "asks" in row) for row in _readings(wanted)]
    left = Counter(key for key, _ in rows)
    may_ask = {key for key, asks in rows if asks}
    made = []
    for reading in sorted(readings, key=lambda one: one.asks):
        key = _meaning(told(reading) or "")
        right = left[key] > 0
        left[key] -= right
        made.append(Given(right, reading.asks, key in may_ask, reading.probability))
    return tuple(made)


def f1(outcomes: Iterable[Outcome], kind: str | None) -> float | None:
    """Harmonic mean of precision and recall over the rows of a kind (None: all); None where none are."""
    kinds = KINDS if kind is None else (kind,)
    right = total = 0
    for one in outcomes:
        have = Counter(_same(row) for row in one.found if kind_of(row) in kinds)
        want = Counter(_same(row) for row in one.wanted if kind_of(row) in kinds)
        right += (have & want).total()
        total += have.total() + want.total()
    return 2 * right / total if total else None


def meanings(truth: Iterable[str]) -> set[object]:
    """What each reading of the truth means; compare with `meant`."""
    return {_meaning(plain(row)) for row in _readings(truth)}


def meant(reading: Reading) -> object:
    """Part, which, characteristic, number and unit of a reading."""
    return _meaning(told(reading) or "")


def _readings(rows: Iterable[str]) -> list[str]:
    return [row for row in rows if kind_of(row) == "reading"]


def _value(row: str) -> Fraction:
    return parse_value(row.rsplit(" ", 2)[1])


def _meaning(row: str) -> tuple[str, Fraction, str]:
    target, value, unit = row.rsplit(" ", 2)
    return target, parse_value(value), unit


def _same(row: str) -> object:
    return _meaning(row) if kind_of(row) == "reading" else row
