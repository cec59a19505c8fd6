""" "Back to the suction ones": the suction valves, while others of their noun are in hand.

Of parts at stations alone: what stands behind tells them by number, "the suction ones, eleven on one".
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from saywright.understanding.discourse import Discourse, Hand
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.naming.sheet_names import component_names
from saywright.understanding.steps import called_by
from saywright.understanding.tokens import Token


@called_by({"ones"})
def ones_named(tokens: tuple[Token, ...], state: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """The same tokens, the noun in place of "ones" behind words that only parts of the noun in hand bear."""
    hand = state.hand
    if not lexicon.stations or hand is None:
        return tokens
    texts = tuple([token.text for token in tokens])
    nouns = _nouns(lexicon, hand)
    out = list(tokens)
    for at, text in enumerate(texts):
        if text == "ones":
            said = next((n for n in range(min(at, 3), 0, -1) if texts[at - n : at] in nouns), 0)
            out[at] = replace(tokens[at], text=nouns[texts[at - said : at]]) if said else tokens[at]
    return tuple(out)


def _nouns(lexicon: Lexicon, hand: Hand) -> Mapping[tuple[str, ...], str]:
    """The words before the noun of each part at the stations that shares its noun with the part in hand."""
    held = lexicon.sheet.get(hand.component)
    if held is None or held.positions or not held.stations:
        return {}
    kinds = {name[-1] for name, _ in component_names(held)}
    return {
        name[:-1]: name[-1]
        for part in lexicon.sheet.component
        if part.stations and not part.positions
        for name, many in component_names(part)
        if many and len(name) > 1 and name[-1] in kinds
    }
