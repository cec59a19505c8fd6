"""Whether a numeral put right by its sound leaves its number no other reading: "six point for amps".

"Ate" and "won" beside numerals are nothing else; behind "point" only a digit can stand; and where the number
without the word is not as fine as its limits, or nowhere near them, it was not meant. "Sixty for" asks, and
so does "one eighty point for the record".
"""

from __future__ import annotations

from typing import Final

from saywright.understanding.facts import Fact
from saywright.understanding.numbers.ranked import read_number
from saywright.understanding.numbers.words import CARDINALS, CLASSES, HOMOPHONES, ORDINALS
from saywright.understanding.quantities.plausible import is_as_expected
from saywright.understanding.statements import Reading
from saywright.understanding.tokens import BREAK
from saywright.understanding.working import Working

_NUMERALS_ONLY: Final = frozenset({"won", "ate", "fore", "sick", "sicks"})
_CLOSE: Final = frozenset({BREAK, "and", "but", "so", "on", "at"})
_BEFORE_ONE: Final = frozenset({"other", "this", "that", "last"})


def is_surely_said(reading: Reading, fact: Fact, work: Working) -> bool:
    """True where each numeral of *reading* that was put right is the only word that can stand there."""
    spec = work.sheet.find(reading.component, reading.characteristic)
    if spec is None or reading.unit != spec.unit or not is_as_expected(spec, reading.value):
        return False
    start, end = fact.phrase.start, fact.phrase.end
    if start and work.texts[start] == "point" and work.texts[start - 1] in HOMOPHONES:
        return False  # "for point ate": before it stood a digit as well
    unsure = []
    for at in sorted(work.mended):
        if not fact.start <= at < max(fact.end, end):
            continue
        if work.texts[at] not in CARDINALS:
            return False
        if not start <= at < end:
            if not _is_the_one(work, at):
                return False
        elif not _is_only_a_digit(work, at, start, end):
            unsure.append(at)
    if not unsure:
        return True
    other = _without(work, start, end)
    return other is not None and not is_as_expected(spec, other)


def _heard(work: Working, at: int) -> str:
    return work.words[work.tokens[at].word].text.lower()


def _is_the_one(work: Working, at: int) -> bool:
    """ "the third won three point five", "the rear won": the one that is told by its place."""
    before = work.texts[at - 1] if at else ""
    placed = before in ORDINALS or before in work.lexicon.positions or before in _BEFORE_ONE
    return _heard(work, at) == "won" and placed


def _ends_it(work: Working, behind: int) -> bool:
    """True where nothing stands at *behind* that "for", "to" or "too" may lead to: "point for the record"."""
    if behind >= len(work.texts):
        return True
    text, lexicon = work.texts[behind], work.lexicon
    return text in _CLOSE or text in CLASSES or text in lexicon.units or text in lexicon.positions


def _is_only_a_digit(work: Working, at: int, start: int, end: int) -> bool:
    texts = work.texts
    if at > start and texts[at - 1] == "point":
        return _heard(work, at) in _NUMERALS_ONLY or at + 1 < end or _ends_it(work, at + 1)
    beside = (at > start and texts[at - 1] in CLASSES) or texts[at + 1 : at + 2] == ("point",)
    known = at + 1 < len(texts) and (texts[at + 1] in CLASSES or texts[at + 1] in work.lexicon.units)
    return _heard(work, at) in _NUMERALS_ONLY and (beside or known)


def _without(work: Working, start: int, end: int) -> str | None:
    """The value of the number without the words put right; None where none is left."""
    left = [work.texts[at] for at in range(start, end) if at not in work.mended]
    for at, text in enumerate(left):
        if text in CLASSES:
            found = read_number(left, at)
            return found[0].value if found else None
    return None
