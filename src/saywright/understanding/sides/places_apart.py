""" "Positive fourteen, negative nine" of two brushes, "the outer, hm, three", "inner one, outer one": places.

Where a place is told by a word that could be a sign, by a thought behind it, or by one word each. Pure.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.steps import Tokens, called_by
from saywright.understanding.tokens import BREAK, HESITATIONS, Token, text_at

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_SIGNS: Final = frozenset({"negative", "minus"})
_THINKS: Final = HESITATIONS - {BREAK} | {"hm", "hmm", "mmm"}
_MOVED: Final = frozenset({"out", "off", "in", "on"})
_ONES: Final = 4  # "inner one outer one"
_BETWEEN: Final = frozenset({BREAK, "and", "the", "then"})


@called_by(_SIGNS | _THINKS | {"one"})
def places_apart(tokens: Tokens, state: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* with each place told by itself, for a sign, a thought or a "one" beside it."""
    tokens = _signs_as_places(tokens, state, lexicon)
    return _one_by_one(_thought_between(tokens, lexicon), lexicon)


def _signs_as_places(tokens: Tokens, state: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* with a break behind a sign that is a position of the only part that is talked of."""
    texts = tuple([token.text for token in tokens])
    here = [i for i in range(len(texts) - 1) if texts[i] in _SIGNS & lexicon.positions]
    here = [i for i in here if texts[i + 1] in CLASSES and texts[i - 1 : i] != ("or",)]
    if not here or not _told_of_such(texts, here[0], state, lexicon):
        return tokens
    out = list(tokens)
    for at in reversed(here):
        out.insert(at + 1, Token(BREAK, tokens[at].word))
    return tuple(out)


def _told_of_such(texts: tuple[str, ...], at: int, state: Discourse, lexicon: Lexicon) -> bool:
    """True where every part named, else the one in hand, has the sign at *at* for a position."""
    such = {c.id for c in lexicon.sheet.component if any(texts[at] in p.split() for p in c.positions)}
    named, read = set[str](), list[set[str]]()
    for i, text in enumerate(texts):
        found = lexicon.names(texts, i) if text != BREAK else None
        if found is not None:
            named |= {*found.parts, *found.aliases}
            read += [{c for c, _ in found.characteristics}] if found.characteristics else []
    held = state.hand.component if state.hand is not None else None
    if not named and held not in such:
        return bool(read) and all(of <= such for of in read)
    return named <= such and all(of & such for of in read)


def _thought_between(tokens: Tokens, lexicon: Lexicon) -> Tokens:
    """*tokens* without what is no word between a position, or "one" behind it, and a number."""
    texts = [token.text for token in tokens]
    for at, text in enumerate(texts):
        if text not in _THINKS or text_at(texts, at + 1) not in CLASSES:
            continue
        place = at - 1 - (text_at(texts, at - 1) == "one")
        if place >= 0 and texts[place] in lexicon.positions:
            return (*tokens[:at], *tokens[at + 1 :])
    return tokens


def _one_by_one(tokens: Tokens, lexicon: Lexicon) -> Tokens:
    """*tokens* with "inner and outer" for the two named one by one at their end, behind a movement."""
    said = [at for at, token in enumerate(tokens) if token.text not in _BETWEEN]
    if len(said) <= _ONES:
        return tokens
    moved, *last = said[-_ONES - 1 :]
    words = [tokens[at].text for at in last]
    places = words[0::2]
    alike = words[1::2] == ["one", "one"] and lexicon.positions.issuperset(places) and places[0] != places[1]
    if not alike or tokens[moved].text not in _MOVED:
        return tokens
    link = replace(tokens[last[1]], text="and")
    return (*tokens[: moved + 1], tokens[last[0]], link, tokens[last[2]])
