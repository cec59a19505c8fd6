""" "Clock on, spin it slowly, it's not a roundabout, six hundredths": what is said while it is turned. Pure.

Between the instrument that was put on and the number that it shows only hands and onlookers are told of;
those words fall away.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Final

from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.steps import Tokens, called_by
from saywright.understanding.tokens import BREAK, text_at

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_INSTRUMENTS: Final = frozenset({"clock", "dial", "indicator", "dti", "needle", "gauge", "mike", "mic"})
_LAID: Final = frozenset({"gauge", "indicator", "is", "on", "it", "her", "him", "that", "them", "there"})
_TURNED: Final = frozenset(
    ["spin", "spinning", "spun", "turn", "turning", "rotate", "rotating", "roll", "rolling", "swing", "rock"]
)  # fmt: skip
_IT: Final = frozenset({"it", "her", "him", "that"})
_TELLS_MORE: Final = frozenset(
    ["no", "not", "never", "if", "book", "should", "must", "may", "limit", "max", "min", "maximum", "minimum",
     "last", "would", "could", "was", "were", "had", "other", "same", "until", "before", "after", "than"]
)  # fmt: skip
_JESTS: Final = frozenset({("it", "is", "not", "a"), ("you", "are", "not", "a"), ("this", "is", "not", "a")})
_AT_ONCE: Final = 5  # tokens at the head among which the instrument is named
_NUMBERS: Final = frozenset(CLASSES) - {"and"}
_LONGEST: Final = 14  # tokens of talk


@called_by(_INSTRUMENTS, beside=_TURNED)
def spun_and_read(tokens: Tokens, _: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* without the talk from the turning on to the number."""
    texts = tuple([token.text for token in tokens])
    at = next((i for i, text in enumerate(texts[:_AT_ONCE]) if text in _INSTRUMENTS), None)
    if at is None or "on" not in texts[at + 1 : at + 4]:
        return tokens
    begin = at + 1
    while text_at(texts, begin) in _LAID:
        begin += 1
    end = next((i for i in range(begin, len(texts)) if texts[i] in _NUMBERS), 0)
    if not end or end - begin > _LONGEST or not _is_turned(texts[begin:end]):
        return tokens
    if not _only_talk(texts, begin, end, lexicon):
        return tokens
    return (*tokens[:begin], *tokens[end:])


def _is_turned(said: Sequence[str]) -> bool:
    """ "spin it", "and you turn the disc"."""
    verb = next((i for i, text in enumerate(said) if text in _TURNED), None)
    return verb is not None and verb <= 2 and text_at(said, verb + 1) in _IT | {"the", "slow", "slowly"}


def _only_talk(texts: tuple[str, ...], begin: int, end: int, lexicon: Lexicon) -> bool:
    """True where the words name nothing of the sheet, no limit, and deny nothing but what they speak of."""
    at = begin
    while at < end:
        if texts[at : at + 4] in _JESTS:
            at += 4
            continue
        if texts[at] in _TELLS_MORE:
            return False
        found = lexicon.match(texts, at) if texts[at] != BREAK else None
        if found is not None:
            told = found[1]
            if told.parts or told.aliases or told.characteristics or told.positions or told.conditions:
                return False
        at += 1
    return True
