"""Phrases of talk beside what is told: "eighteen point four, one sec", "there you go, bowl's off"."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from saywright.understanding.numbers.words import CARDINALS, CLASSES
from saywright.understanding.steps import called_by
from saywright.understanding.tokens import BREAK, Token

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_LIKE_DIGITS: Final = frozenset(  # begin "one sec", "to start with", "third go"
    {"one", "to", "too", "for", "second", "third"}
)
_GO_ON: Final = frozenset({BREAK, "and", "but", "got"})
_HALF_HOURS: Final = (
    ("half", "hour"), ("half", "an", "hour"), ("quarter", "of", "an", "hour"), ("couple", "of", "hours"),
)  # fmt: skip
_AT_IT: Final = tuple(
    ("while", *who, *at)
    for who in (("i", "am"), ("we", "are"), ("you", "are"))
    for at in (("about", "it"), ("at", "it"), ("on",), ("there",), ("in", "there"))
)
_SOME: Final = frozenset({"a", "an", *CARDINALS})
_OPENS: Final = frozenset({"there", "to", "one", "at", "in", "a"})


@called_by(_LIKE_DIGITS | _OPENS | {"of"})
def talk_apart(tokens: tuple[Token, ...], _: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """*tokens* with a pause behind talk at the head, and before what begins like a digit behind a number."""
    texts = tuple([token.text for token in tokens])
    end = _talk(texts, 0, lexicon) if texts[0] in _OPENS else 0
    if end and end < len(texts) and texts[end] not in _GO_ON:
        tokens = (*tokens[:end], Token(BREAK, tokens[end - 1].word), *tokens[end:])
        texts = tuple([token.text for token in tokens])
    for at in range(1, len(texts)):
        digit = texts[at] in _LIKE_DIGITS and texts[at - 1] in CLASSES and texts[at - 1] != "one"
        if (digit or texts[at : at + 2] == ("of", "course")) and _talk(texts, at, lexicon):
            return (*tokens[:at], Token(BREAK, tokens[at - 1].word), *tokens[at:])
    return tokens


def _talk(texts: tuple[str, ...], at: int, lexicon: Lexicon) -> int:
    """The token behind the phrase of several words at *at* that only is talk; 0 where none stands there."""
    found = lexicon.match(texts, at)
    if found is None or found[0] < 2 or "FILLER" not in found[1].tags:
        return 0
    told = found[1]
    tells = told.conditions or told.acts or told.parts or told.aliases or told.positions
    return 0 if tells else at + found[0]


@called_by({"while"})
def while_at_it_apart(tokens: tuple[Token, ...], _: Discourse, __: Lexicon) -> tuple[Token, ...]:
    """*tokens* without "while we're about it": what is told behind it goes on with what stands before it."""
    texts = tuple([token.text for token in tokens])
    at = texts.index("while")
    end = next((at + len(one) for one in _AT_IT if texts[at : at + len(one)] == one), 0)
    return (*tokens[:at], *tokens[end:]) if end and end < len(texts) else tokens


@called_by({"though"})
def though_apart(tokens: tuple[Token, ...], _: Discourse, __: Lexicon) -> tuple[Token, ...]:
    """*tokens* without the "though" of "order two bearings though and a spider"."""
    texts = [token.text for token in tokens]
    at = texts.index("though")
    more = texts[at + 1 : at + 2] == ["and"] and not _SOME.isdisjoint(texts[at + 2 : at + 3])
    return (*tokens[:at], *tokens[at + 1 :]) if more and "order" in texts[:at] else tokens


@called_by({"hour", "hours"})
def half_hours_apart(tokens: tuple[Token, ...], _: Discourse, __: Lexicon) -> tuple[Token, ...]:
    """*tokens* without "half an hour": how long something took, and no half of anything."""
    texts = tuple([token.text for token in tokens])
    for end in range(len(texts), 1, -1):
        said = next((one for one in _HALF_HOURS if texts[max(0, end - len(one)) : end] == one), ())
        if said:
            return (*tokens[: end - len(said)], *tokens[end - 1 :])
    return tokens
