"""The rear of a machine by everyday words: "back end", "round the back now", "alright out back"."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from saywright.understanding.steps import called_by
from saywright.understanding.tokens import Token

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_OUTDOORS: Final = frozenset({"back", "front"})
_OPENS: Final = frozenset({"alright", "right", "okay", "so", "now", "then", "and", "well", "next"})
_COMES: Final = frozenset({"now", "next", "first"})
_ENDS: Final = (("end",), ("axle",))
_OF_IT: Final = (("of",), ("play",))  # "back end of the needle"
_ROUND_THE: Final = (("round", "the"), ("around", "the"))


def is_rear_end(texts: tuple[str, ...], at: int) -> bool:
    """ "Back end new discs on", "back axle", "round the back now": the rear of the machine."""
    if texts[at] not in _OUTDOORS:
        return False
    if texts[at + 1 : at + 2] in _ENDS:
        return texts[at + 2 : at + 3] not in _OF_IT
    led = texts[at - 2 : at] in _ROUND_THE and _OPENS.issuperset(texts[: at - 2])
    return led and (_OPENS | _COMES).issuperset(texts[at + 1 :])


@called_by({"out"})
def gone_out(tokens: tuple[Token, ...], _: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """ "alright out back, left drum": at the head it is the rear that is gone to; nothing came out."""
    texts = [token.text for token in tokens]
    at = texts.index("out")
    behind = texts[at + 1] if at + 1 < len(texts) else ""
    place = lexicon.other_places.get(behind, behind)
    if behind not in _OUTDOORS or place not in lexicon.positions or not _OPENS.issuperset(texts[:at]):
        return tokens
    there = (replace(tokens[at], text="over"), replace(tokens[at + 1], text=place))
    return (*tokens[:at], *there, *tokens[at + 2 :])
