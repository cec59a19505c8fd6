""" "Left five hundredths, right two", "now it's four": hundredths that go on without their word. Pure."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING, Final

from saywright.understanding.numbers.words import COUNTS, TO_TWELVE
from saywright.understanding.quantities.plausible import is_plausible
from saywright.understanding.steps import called_by
from saywright.understanding.tokens import BREAK, Token, text_at

if TYPE_CHECKING:
    from collections.abc import Sequence

    from saywright.sheets.model import Component
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_SHARES: Final = {"hundredths": 100, "hundredth": 100}
_LEADS: Final = frozenset({"", BREAK, "is", "at", "reads", "and", "was", "now", "then", "only", "just"})
_ENDS: Final = frozenset({"", BREAK, "now", "so", "and", "as", "but", "which", "though", "left", "right"})
_NEAR: Final = 2  # utterances


@called_by(TO_TWELVE)
def hundredths_go_on(tokens: tuple[Token, ...], state: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """*tokens* with "hundredths" behind a small number that would be no value without it."""
    texts = tuple([token.text for token in tokens])
    if "point" in texts:
        return tokens
    if _SHARES.keys().isdisjoint(texts) and not _told_before(state):
        return tokens
    part = lexicon.sheet.get(state.hand.component) if state.hand is not None else None
    named = [lexicon.names(texts, at).parts for at in range(len(texts))]
    parts = {one for some in named for one in some}
    if len(parts) == 1:
        part = lexicon.sheet.get(parts.pop())
    if part is None or parts:
        return tokens
    out: list[Token] = []
    said = _told_before(state)
    for at, token in enumerate(tokens):
        out.append(token)
        said = said or texts[at] in _SHARES
        if said and _is_bare(texts, at, lexicon) and _only_so(part, COUNTS[texts[at]]):
            out.append(Token("hundredths", token.word))
    return tuple(out)


def _told_before(state: Discourse) -> bool:
    heard = (s.heard.lower().split() for group in state.recent[-_NEAR:] for s in group)
    return any(not _SHARES.keys().isdisjoint(words) for words in heard)


def _is_bare(texts: Sequence[str], at: int, lexicon: Lexicon) -> bool:
    if texts[at] not in TO_TWELVE:
        return False
    before, behind = text_at(texts, at - 1), text_at(texts, at + 1)
    return (before in _LEADS or before in lexicon.positions) and behind in _ENDS


def _only_so(part: Component, number: int) -> bool:
    """True where so many hundredths are a value of *part*, and as many whole ones are of none."""
    lengths = [c for c in part.characteristic if c.unit == "mm" and c.plausible]
    whole = any(is_plausible(c, Fraction(number)) for c in part.characteristic)
    return not whole and any(is_plausible(c, Fraction(number, 100)) for c in lengths)
