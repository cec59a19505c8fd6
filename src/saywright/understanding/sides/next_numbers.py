"""The next of a row told by its bare number: "plunger one strokes nine point nine" … "two's a bit less, nine
point eight", "three, ten point one".

The word becomes "number two", where what was read last is of a part so numbered, and as its value the number
makes no sense.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import Final

from saywright.quantity import parse_value
from saywright.sheets.model import Characteristic
from saywright.understanding.discourse import Discourse
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.numbers.ranked import read_number
from saywright.understanding.numbers.tokens import is_number_word
from saywright.understanding.numbers.words import CARDINALS
from saywright.understanding.quantities.plausible import is_far_out, is_inside, is_plausible
from saywright.understanding.statements import Reading
from saywright.understanding.steps import called_by
from saywright.understanding.tokens import BREAK, Token
from saywright.units import get_unit

_LEADS: Final = frozenset({"and", "then", "so", "right", "okay", "now", BREAK})
_IS: Final = frozenset({"is", "has"})
_BEHIND: Final = frozenset({"it", "that", "is", "at"})  # between a pause and the value
_BREATHS: Final = 2  # utterances back in which the last value stands


@called_by(CARDINALS)
def with_next_number(tokens: tuple[Token, ...], state: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """*tokens* with "number" before the number of the next one; the same tuple where there is none."""
    at = next((i for i, token in enumerate(tokens[:4]) if token.text not in _LEADS), len(tokens))
    if at + 1 >= len(tokens) or tokens[at].text not in CARDINALS:
        return tokens
    last = _last(state)
    spec = lexicon.sheet.find(last.component, last.characteristic) if last is not None else None
    part = lexicon.sheet.get(last.component) if last is not None else None
    if last is None or spec is None or part is None or get_unit(spec.unit).kind in {"turn", "number"}:
        return tokens
    number = str(CARDINALS.index(tokens[at].text) + 1)
    if number not in part.whiches or number == last.which or last.which not in part.whiches:
        return tokens
    texts = tuple([token.text for token in tokens])
    following = last.which.isdigit() and int(number) == int(last.which) + 1
    if not _is_told(texts, at, (spec, *part.characteristic), following=following):
        return tokens
    return (*tokens[:at], replace(tokens[at], text="number"), *tokens[at:])


def _last(state: Discourse) -> Reading | None:
    """What was read in the last breaths, of one told by number."""
    for group in reversed(state.recent[-_BREATHS:]):
        read = [s for s in group if isinstance(s, Reading) and s.id not in state.gone]
        if read:
            return read[-1] if read[-1].which is not None else None
    return None


def _is_told(texts: tuple[str, ...], at: int, specs: tuple[Characteristic, ...], *, following: bool) -> bool:
    """True where the number tells which one, and another behind it is the value.

    *specs* is what was read last, and all that is read on the part: "two one point oh six" may be a width.
    """
    after, spec = at + 1, specs[0]
    if texts[after] in _IS:  # "two's a bit less, nine point eight"; "two's ten" is read so already
        begin = next((i for i in range(after + 1, len(texts)) if is_number_word(texts, i)), len(texts))
        return begin > after + 1 and _expected(texts, begin, spec)
    if texts[after] == BREAK:
        begin = next((i for i in range(after + 1, len(texts)) if texts[i] not in _BEHIND), len(texts))
        alone = _can_not_be(spec, Fraction(CARDINALS.index(texts[at]) + 1))
        return (following or alone) and _expected(texts, begin, spec)
    if not following or not _expected(texts, after, spec):
        return False
    whole = [r for r in read_number(texts, at) if r.words > 1]
    return all(_can_not_be(one, parse_value(r.value)) for r in whole for one in specs)


def _can_not_be(spec: Characteristic, value: Fraction) -> bool:
    """True where *value* makes no sense as one of *spec*."""
    return is_far_out(spec, value) or not is_plausible(spec, value)


def _expected(texts: tuple[str, ...], begin: int, spec: Characteristic) -> bool:
    """True where the number at *begin* is within the limits, or not far out of them."""
    readings = read_number(texts, begin) if begin < len(texts) else ()
    if not readings:
        return False
    value = parse_value(readings[0].value)
    return is_inside(spec, value) or not is_far_out(spec, value)
