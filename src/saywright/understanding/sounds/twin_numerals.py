"""Numerals written as words where they count or point, and make no value: "the old won", "won gasket".

"Won" is never said of what lies on a bench; and what is written "ate teen" is one word. No value is made of
them but of a teen, of which nothing else is said: what else sounds like a digit asks (`heard_numerals`).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from saywright.understanding.bench_words import HELPER
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.numbers.words import CLASSES, ORDINALS
from saywright.understanding.tokens import BREAK, Token, text_at, words_of

_POINTS: Final = words_of(
    "the other that this new old last next each every another good bad single same spare which only worn "
    "broken bent big small little long short wrong right left inside outside"
)
_DOERS: Final = HELPER | words_of("i we you they who it nobody somebody someone has have had just never")
_COUNTS: Final = words_of("order ordered need needs want wants plus get with only just and then for is") | {
    BREAK
}
_TEENS: Final = {
    "thirteen": "thirst third thir", "fourteen": "four fore", "fifteen": "fife fif", "sixteen": "six sick",
    "seventeen": "seven", "eighteen": "eight ate", "nineteen": "nine",
}  # fmt: skip
_TEEN: Final = {heard: said for said, all_heard in _TEENS.items() for heard in all_heard.split()}


def points_or_counts(texts: Sequence[str], at: int, lexicon: Lexicon) -> bool:
    """True where "won" at *at* is the one that is pointed at, or one of what is named behind it."""
    before, behind = text_at(texts, at - 1), text_at(texts, at + 1)
    if before in _DOERS or behind in CLASSES or behind in lexicon.units:
        return False
    if before in _POINTS or before in ORDINALS or before in lexicon.positions:
        return True
    named = lexicon.names(tuple(texts), at + 1)
    led = not before or before in _COUNTS
    return led and bool(named.parts or named.aliases) and not named.many


def teens_joined(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """ "Ate teen": eighteen."""
    out: list[Token] = []
    for token in tokens:
        if token.text == "teen" and out and out[-1].text in _TEEN:
            out[-1] = replace(out[-1], text=_TEEN[out[-1].text])
        else:
            out.append(token)
    return tuple(out)
