""" "Twenty five on the fronts", "fronts first", "rears inner and outer": a place in the plural. Pure.

"The rears point eight seven" stays: so a recogniser writes "rear's" before a value, and before a finding.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.steps import called_by
from saywright.understanding.tokens import BREAK, Token

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_PLACES: Final = frozenset(
    ["fronts", "rears", "lefts", "rights", "inners", "outers", "uppers", "lowers", "leadings", "trailings",
     "nearsides", "offsides", "primaries", "secondaries"]
)  # fmt: skip
_SINGULAR: Final = {"primaries": "primary", "secondaries": "secondary"}
_GOING: Final = frozenset(
    ["now", "next", "first", "then", "the", "so", "okay", "right", "to", "onto", "on", "over", "and", "do",
     "let", "us", "we", "will", "start", "starting", "with", "round", "around", "go", "going", "back", BREAK]
)  # fmt: skip
_TURNS: Final = frozenset(
    {"now", "next", "first", "then", "to", "onto", "over", "round", "start", "starting"}
)
_SAID_BEHIND: Final = frozenset({"is", "are", "has", "have"})  # of them, or "rear's is": told elsewhere


@called_by(_PLACES)
def places_in_plural(tokens: tuple[Token, ...], _: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """The same tokens, a place in the plural as the place, or with "ones" where something is said of it."""
    out: list[Token] = []
    for at, token in enumerate(tokens):
        place = _SINGULAR.get(token.text, token.text[:-1])
        if token.text not in _PLACES or place not in lexicon.positions or (token.text,) in lexicon.table:
            out.append(token)
        elif _only_turns(tokens, at):
            out.append(replace(token, text=place))
        elif _may_be_is(tokens, at, lexicon):
            out.append(token)
        else:
            out += [replace(token, text=place), replace(token, text="ones")]
    return tuple(out)


def _only_turns(tokens: tuple[Token, ...], at: int) -> bool:
    """ "fronts first", "now the rears"."""
    rest = {token.text for token in (*tokens[:at], *tokens[at + 1 :])}
    return rest <= _GOING and not _TURNS.isdisjoint(rest)


def _may_be_is(tokens: tuple[Token, ...], at: int, lexicon: Lexicon) -> bool:
    """ "rears point eight", "the fronts worn": "rear's", as a recogniser writes it."""
    texts = tuple([token.text for token in tokens])
    if at + 1 >= len(texts) or texts[at + 1] in _SAID_BEHIND:
        return False
    meant = lexicon.names(texts, at + 1)
    return texts[at + 1] in CLASSES or bool(meant.conditions or meant.acts)
