"""A unit heard as another word: "forty one leaders a minute", "ten towns out", "nine newton meats".

Right behind a number, or behind the first word of such a unit, a word that nothing here knows is the one unit
of the sheet that sounds like it. What is read so asks.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from saywright.understanding.lexicon import Lexicon
from saywright.understanding.numbers.words import CLASSES, DENOMINATORS
from saywright.understanding.sounds.phones import alike, syllables
from saywright.understanding.wordforms import is_past
from saywright.units import get_unit

_ALIKE: Final = 0.8
_APART: Final = 0.05  # the next best is less alike by this at least
_NUMBERS: Final = frozenset(CLASSES) | frozenset(DENOMINATORS)
_OTHER_UNITS: Final = frozenset(
    ["ton", "tons", "tonne", "tonnes", "quid", "euros", "dollars", "pence", "days", "weeks", "months",
     "years", "hours", "miles", "grand", "times", "people", "lots"]
)  # fmt: skip
_TWO: Final = frozenset({"newton", "newtons", "foot", "inch", "pound", "pounds"})


def unit_heard(texts: Sequence[str], at: int, lexicon: Lexicon) -> dict[int, str]:
    """The word of a unit that the unknown word at *at* was, at *at*; {} for none."""
    text, before = texts[at], texts[at - 1] if at else ""
    if text in _OTHER_UNITS or is_past(text) or not (before in _NUMBERS or before in _TWO):
        return {}
    key = f"{text} {before if before in _TWO else ''} unit"
    if key not in lexicon.heard:
        lexicon.heard[key] = _nearest(text, before if before in _TWO else "", lexicon)
    word = lexicon.heard[key]
    return {at: word} if word else {}


def _nearest(text: str, before: str, lexicon: Lexicon) -> str:
    """The word of a unit of the sheet, behind *before* where that begins one, that sounds like *text*."""
    kinds = {get_unit(spec.unit).kind for _, spec in lexicon.sheet.characteristics()}
    able = [
        name.split()
        for name, codes in lexicon.units.items()
        if any(get_unit(code).kind in kinds for code in codes)
    ]
    words = {name[1] for name in able if before and name[0] == before and len(name) > 1}
    words |= {name[0] for name in able} if not before else set()
    beats = syllables(text)
    near = ((alike(text, word, _ALIKE), word) for word in words if syllables(word) == beats)
    ranked = sorted(near, key=lambda one: (-one[0], one[1]))
    if not ranked or ranked[0][0] < _ALIKE:
        return ""
    best = ranked[0]
    rivals = [far for far, word in ranked[1:] if lexicon.units.get(word) != lexicon.units.get(best[1])]
    return best[1] if before or best[0] - next(iter(rivals), 0.0) >= _APART else ""
