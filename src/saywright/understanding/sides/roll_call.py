"""Single ones told off by bare numbers: "plungers, one's fine, two's gritty and three's stuck".

A roll begins with one, goes up by one, and each number behind the first has "is" or "has" right
behind it. Its numbers tell which one, and are no part of the values between them.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from saywright.understanding.lexicon import Lexicon
from saywright.understanding.numbers.words import CARDINALS, CLASSES
from saywright.understanding.tokens import BREAK

_SAID_OF = frozenset({"is", "has", "was"})
_LEADS = frozenset({BREAK, "so", "now", "then"})
_GOES_BEFORE = frozenset({"number", "point", "oh", "the", "a", "that", "this", "other"})
_NO_ROLL: Mapping[int, int] = {}


def roll_of(texts: Sequence[str], lexicon: Lexicon) -> Mapping[int, int]:
    """Tokens of a roll → which of several each one is; empty where nothing is told off."""
    if "one" not in texts:
        return _NO_ROLL
    ones = [at for at, text in enumerate(texts) if text == "one"]
    begin = next((at for at in ones if _begins(texts, at, lexicon)), None)
    if begin is None:
        return _NO_ROLL
    called = {begin: 1}
    for at in range(begin + 1, len(texts)):
        order = len(called) + 1
        if order <= len(CARDINALS) and texts[at] == CARDINALS[order - 1] and _goes_on(texts, at):
            called[at] = order
    if len(called) < 2:
        return _NO_ROLL
    fitted = [c.count for c in lexicon.sheet.component if not c.positions]
    return called if len(called) <= max(fitted, default=0) else _NO_ROLL


def _begins(texts: Sequence[str], at: int, lexicon: Lexicon) -> bool:
    """A bare "one" that opens its clause or stands behind a part's name, with something said of it."""
    if at + 1 >= len(texts):
        return False
    named = at > 0 and texts[at - 1] in lexicon.words
    if texts[at + 1] in _SAID_OF:
        return at == 0 or texts[at - 1] in _LEADS or named
    return named and CLASSES.get(texts[at + 1], ("",))[0] != "POINT"


def _goes_on(texts: Sequence[str], at: int) -> bool:
    before = texts[at - 1]
    within = before in _GOES_BEFORE or CLASSES.get(before, ("",))[0] == "TENS"
    return not within and texts[at + 1 : at + 2] != () and texts[at + 1] in _SAID_OF
