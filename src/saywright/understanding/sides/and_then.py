""" "the inner pad comes out, and then the outer": what was said goes for the other one too. Pure."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from saywright.understanding.steps import called_by
from saywright.understanding.tokens import BREAK, Token

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_ONES: Final = frozenset({"one", "ones"})
_AWAY: Final = frozenset({"off", "out"})
_THERE_IS: Final = (["and", "there", "is", "the"], ["and", "here", "is", "the"])
_ENDS: Final = frozenset({"", BREAK, "and"})


@called_by({"then"})
def and_the_other(tokens: tuple[Token, ...], _: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """*tokens* with "and" for the "(and) then" of "and then the outer one" where nothing more is said of it.

    So too in "inner then outer". "And then the left side", and "then the outer" at the head, are turned to
    and stay.
    """
    texts = [token.text for token in tokens]
    listed = [at for at in range(1, len(texts) - 1) if texts[at] == "then" and _is_list(texts, at, lexicon)]
    if listed:
        return tuple(replace(one, text="and") if at in listed else one for at, one in enumerate(tokens))
    at = texts.index("then")
    if not at or texts[at + 1 : at + 2] != ["the"] or len(texts) < at + 3:
        return tokens
    behind = [*texts[at + 3 :], "", ""]
    if texts[at + 2] not in lexicon.positions or behind[behind[0] in _ONES] not in _ENDS:
        return tokens
    led = at - (texts[at - 1] == "and")
    return (*tokens[:led], replace(tokens[led], text="and"), *tokens[at + 1 :])


@called_by({"and"}, beside={"off", "out"})
def there_is_the_other(tokens: tuple[Token, ...], _: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """ "Top one's off and there's the bottom one": that, too; "cover off and there's the gasket" is there."""
    texts = [token.text for token in tokens]
    at = next((i for i in range(1, len(texts)) if texts[i] == "and" and texts[i - 1] in _AWAY), 0)
    size = 4 if texts[at : at + 4] in _THERE_IS else 2 if texts[at + 1 : at + 2] == ["the"] else 0
    if not at or not size:
        return tokens
    words, end = lexicon.positions | lexicon.other_places.keys(), at + size
    while end < len(texts) and texts[end] in words:
        end += 1
    noun = texts[end] if end < len(texts) else ""
    again = noun in _ONES or noun in texts[:at]
    if end == at + size or not again or [*texts[end + 1 :], ""][0] not in _ENDS | {"too"}:
        return tokens
    verb = at - 1 - (at > 1 and texts[at - 2] in {"is", "are"})
    if texts[verb - 1] not in _ONES:
        return (*tokens[: at + 1], *tokens[at + size - 1 : end], tokens[verb - 1], *tokens[end + 1 :])
    rest = tokens[end + 1 + (texts[end + 1 : end + 2] == ["too"]) :]
    return (*tokens[:verb], tokens[at], *tokens[at + size - 1 : end + 1], tokens[at - 1], *rest)


def _is_list(texts: list[str], at: int, lexicon: Lexicon) -> bool:
    """ "inner then outer"; not "that's the left then", nor "right then left one off" at the head."""
    two = {texts[at - 1], texts[at + 1]}
    return at > 1 and len(two) > 1 and lexicon.positions.issuperset(two)
