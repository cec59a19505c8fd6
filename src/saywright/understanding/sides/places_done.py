"""How many places are done: "that's three done, last one's the front left", "one down, one to go".

Where the places are no numbered stations. Of two, one to go is the other one.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from saywright.understanding.numbers.words import CARDINALS
from saywright.understanding.sides.place_meant import side_in_hand
from saywright.understanding.steps import called_by
from saywright.understanding.tokens import BREAK, Token

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_DONE: Final = frozenset({"done", "down", "finished", "sorted"})
_HEADS: Final = frozenset({"right", "okay", "so", "and", "now", "then", "well", BREAK})
_NOUNS: Final = frozenset({"corner", "corners", "wheel", "wheels", "side", "sides", "end", "of", "them"})
_MORE: Final = frozenset({"and", BREAK, "just", "only"})
_MOST: Final = 6  # places
_PAIR: Final = 2


@called_by(_DONE)
def places_done(tokens: tuple[Token, ...], state: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """*tokens* with "that is that side done", or "over to the other side", for how many are done."""
    texts = tuple([token.text for token in tokens])
    held = side_in_hand(state.hand, lexicon.sheet)
    if lexicon.stations or held is None:
        return tokens
    at = next((i for i, text in enumerate(texts) if text not in _HEADS), len(texts))
    pointed = texts[at : at + 2] == ("that", "is")
    at += 2 * pointed
    end = _done_end(texts, at)
    if not end:
        return tokens
    to_go = _to_go_end(texts, end)
    if not (pointed or to_go):
        return tokens
    every = {p for c in lexicon.sheet.component if held in c.stations for p in c.stations}
    if to_go and len(every) == _PAIR and texts[at] == "one":
        said = ("over", "to", "the", "other", "side")
    else:
        said = ("that", "is", "that", "side", "done")
    word = tokens[at].word
    behind = (to_go or end) < len(texts) and texts[to_go or end] != BREAK
    tail = [Token(BREAK, word)] if behind else []
    return (*(Token(text, word) for text in said), *tail, *tokens[to_go or end :])


def _done_end(texts: tuple[str, ...], at: int) -> int:
    """Index behind "three done", "two corners finished" at *at*; 0 where it is not said."""
    if texts[at : at + 1] == () or texts[at] not in CARDINALS[:_MOST]:
        return 0
    end = at + 1
    while end < len(texts) and texts[end] in _NOUNS:
        end += 1
    return end + 1 if end < len(texts) and texts[end] in _DONE else 0


def _to_go_end(texts: tuple[str, ...], at: int) -> int:
    """Index behind "and one to go" at *at*; 0 where it is not said."""
    while at < len(texts) and texts[at] in _MORE:
        at += 1
    number = texts[at : at + 1] != () and texts[at] in CARDINALS[:_MOST]
    return at + 3 if number and texts[at + 1 : at + 3] == ("to", "go") else 0
