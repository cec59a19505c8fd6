""" "Two point nine and two point seven in the same order", "fourteen on both carbs": which sides. Pure."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Final

from saywright.understanding.numbers.words import CLASSES, OH
from saywright.understanding.statements import Reading
from saywright.understanding.steps import called_by
from saywright.understanding.tokens import BREAK, Token

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_TAILS: Final = (
    ("in", "the", "same", "order"),
    ("in", "that", "order"),
    ("same", "order"),
    ("the", "same", "order"),
)
_BETWEEN: Final = frozenset({"and", BREAK, "then"})
_PLACED: Final = frozenset({"on", "in", "for", "at"})
_SAID_OF: Final = frozenset({"both", "each"})


@called_by({"order"})
def in_same_order(tokens: tuple[Token, ...], state: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """*tokens* with the sides of the values told just before, each before its value here."""
    texts = tuple([token.text for token in tokens])
    tail = next((t for t in _TAILS if texts[-len(t) :] == t), None) if texts[-1:] == ("order",) else None
    if tail is None:
        return tokens
    told = _sides_told(state)
    begins = _values(texts[: len(texts) - len(tail)])
    if len(told) < len(_BETWEEN) - 1 or len(begins) != len(told) or not lexicon.positions.isdisjoint(texts):
        return tokens
    out: list[Token] = []
    sides = dict(zip(begins, told, strict=True))
    for at, token in enumerate(tokens[: len(tokens) - len(tail)]):
        out += [Token(word, token.word) for word in sides.get(at, "").split()]
        out.append(token)
    return tuple(out)


def _sides_told(state: Discourse) -> list[str]:
    """The sides of the values that the last utterance told in a row, of one part."""
    read = [s for s in state.recent[-1] if isinstance(s, Reading)] if state.recent else []
    sides = [s.which for s in read if s.which is not None]
    alike = len({(s.component, s.characteristic) for s in read}) == 1 and len(sides) == len(read)
    return sides if alike and len(set(sides)) == len(sides) else []


def _values(texts: Sequence[str]) -> list[int]:
    """Where each number of the row begins that ends *texts*."""
    begins: list[int] = []
    at = len(texts)
    while at and (texts[at - 1] in CLASSES or texts[at - 1] in OH | _BETWEEN):
        at -= 1
    for i in range(at, len(texts)):
        if texts[i] not in _BETWEEN and (i == at or texts[i - 1] in _BETWEEN):
            begins.append(i)
    return begins


@called_by(_SAID_OF)
def on_both_of_them(tokens: tuple[Token, ...], _: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """ "Floats set to fourteen on both carbs": on both sides, where those are the carburetors' too."""
    texts = tuple([token.text for token in tokens])
    at = next((i for i in range(1, len(texts) - 1) if texts[i] in _SAID_OF and texts[i - 1] in _PLACED), 0)
    if not at:
        return tokens
    owners = lexicon.match(texts, at + 1)
    if owners is None or at + 1 + owners[0] < len(texts):
        return tokens
    sides = {c.positions for c in map(lexicon.sheet.get, owners[1].parts) if c is not None}
    named = [(i, lexicon.names(texts, i)) for i in range(at - 1)]
    parts = {c for _, m in named for c in (*m.parts, *m.aliases, *(key[0] for key in m.characteristics))}
    parts -= set(owners[1].parts)
    first = [c.positions for c in map(lexicon.sheet.get, parts) if c is not None]
    if len(sides) != 1 or not first or any(p not in sides or not p for p in first):
        return tokens
    return (*tokens[:at], Token("both", tokens[at].word), Token("sides", tokens[at].word))
