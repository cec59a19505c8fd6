"""The other side of a part is on that part: "the other side of the disc is scored", "other side of it is".

"The other side of the pump", of which there is one, and "over to the other side of the car" lead elsewhere.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from saywright.understanding.steps import called_by
from saywright.understanding.tokens import BREAK, Token

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_OTHER: Final = (("other", "side", "of"), ("other", "face", "of"), ("far", "side", "of"))
_LEADS: Final = frozenset({"the", "and", "but", "on", "so", "then", BREAK})
_THE: Final = frozenset({"the", "this", "that", "same"})
_TOLD: Final = frozenset({"is", "has", "was", "looks", "feels", "reads", "measures"})


@called_by({"other", "far"})
def on_the_part(tokens: tuple[Token, ...], state: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """*tokens* without "the other side of", before one of several parts of the sheet, or before "it"."""
    texts = tuple([token.text for token in tokens])
    at = next((i for i in range(len(texts) - 3) if texts[i : i + 3] in _OTHER), -1)
    if at < 0 or not _LEADS.issuperset(texts[:at]):
        return tokens
    begin = at - (at > 0 and texts[at - 1] == "the")
    behind = at + 3
    if texts[behind] == "it":
        held = lexicon.sheet.get(state.hand.component) if state.hand is not None else None
        told = texts[behind + 1 : behind + 2] != () and texts[behind + 1] in _TOLD
        return (*tokens[:begin], *tokens[behind:]) if held is not None and held.stations and told else tokens
    named = lexicon.names(texts, behind + (texts[behind] in _THE))
    parts = [lexicon.sheet.get(c) for c in (*named.parts, *named.aliases)]
    if not parts or not all(part is not None and part.stations for part in parts):
        return tokens
    return (*tokens[:begin], *tokens[behind:])
