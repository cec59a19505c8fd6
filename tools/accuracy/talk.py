"""Understanding alone: every talk of the cases as text, plain and misheard."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from saywright.hearing.words import typed
from saywright.sheets.load import load_sheet
from saywright.understanding.discourse import Discourse
from saywright.understanding.lexicon import Lexicon, build_lexicon
from saywright.understanding.parse import understand

from .cases import Talk, read_talks
from .noise import Misheard
from .outcomes import Outcome, judge
from .paths import CASES, sheet_name

RATES = (0.0, 0.05, 0.10)  # share of words that are misheard
_SEED = 7
_lexicons: dict[str, Lexicon] = {}


@dataclass(frozen=True, slots=True)
class Heard:
    """All talks at one rate of mishearing."""

    rate: float
    outcomes: tuple[Outcome, ...]  # one for each utterance


def lexicon(sheet: str) -> Lexicon:
    """The lexicon of a sheet, built once."""
    if sheet not in _lexicons:
        _lexicons[sheet] = build_lexicon(load_sheet(sheet_name(sheet)))
    return _lexicons[sheet]


def all_talks() -> list[Talk]:
    """Every talk of tests/cases/speech."""
    return [talk for path in sorted((CASES / "speech").glob("*.txt")) for talk in read_talks(path)]


def hear_talks(rate: float) -> Heard:
    """Every talk of the cases, a share of *rate* of its words misheard."""
    talks = all_talks()
    vocabulary = [word for talk in talks for words, _ in talk.lines for word in words.split()]
    misheard = Misheard(vocabulary, rate=rate, seed=_SEED)
    return Heard(rate, tuple(one for talk in talks for one in _hear_talk(talk, misheard)))


def _hear_talk(talk: Talk, misheard: Misheard) -> Iterable[Outcome]:
    """The talk's utterances in order; what a later one puts right was right to say when it was said."""
    state = Discourse()
    for words, truth in talk.lines:
        heard = " ".join(misheard.hear(words.split()))
        state, statements = understand(typed(heard), state, lexicon(talk.sheet))
        rows = [row for row in truth if not row.startswith(("corrected", "command"))]
        yield judge(statements, [heard], words=words, truth=rows, all_told=True)
