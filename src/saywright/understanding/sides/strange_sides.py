"""A side in words that the sheet does not have: "offside", "driver's side" where it has left and right. Pure.

Which of its sides that is depends on the country, or on who looks from where: none goes on, and what is told
of a part there asks, instead of being put down for the side worked on so far.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from saywright.understanding.discourse import Hand
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.tokens import words_of

# Words for the two sides of what is sat in or steered.
_SPEECHES: Final = (
    frozenset({"left", "right"}),
    frozenset({"nearside", "offside"}),
    frozenset({"driver", "passenger"}),
    frozenset({"port", "starboard"}),
)
_ALONE: Final = frozenset({"nearside", "offside", "kerbside", "curbside", "starboard"})
_BESIDE: Final = frozenset(
    ["driver", "drivers", "passenger", "passengers", "port", "kerb", "curb", "gutter", "near"]
)  # before "side"
_SIDES: Final = frozenset({"side", "sides"})
_HANDS: Final = frozenset({"left", "right"})
_HAND_NOUNS: Final = frozenset({"hand", "side"})
_BY_THE_WAY: Final = frozenset({"kerb", "curb", "passenger", "passengers"})
_THERE: Final = (("to", "the"), ("onto", "the"))
_TOLD_BY: Final = words_of(
    "customer owner he she they pulls pulling pulled pull drove drive parked"
)  # "it pulls to the nearside"


def without_strange_side(texts: Sequence[str], lexicon: Lexicon, hand: Hand | None) -> Hand | None:
    """*hand* with no side, where *texts* tell one in words that the sheet does not have."""
    side = (hand.side or hand.which or hand.side_left) if hand is not None else None
    if hand is None or side is None or not _TOLD_BY.isdisjoint(texts):
        return hand
    own = next((words for words in _SPEECHES if not words.isdisjoint(side.split())), None)
    if own is None or not any(_is_strange(texts, at, lexicon) for at in range(len(texts))):
        return hand
    return replace(hand, which=None, side=None, turned_to=None, side_left=None)


def _is_strange(texts: Sequence[str], at: int, lexicon: Lexicon) -> bool:
    """True for a side at *at* that no position of the sheet has a word of."""
    word = texts[at]
    if word in _ALONE:
        meant = lexicon.names(tuple(texts), at)
        own = word in lexicon.positions or word in lexicon.other_places
        return not (own or meant.parts or meant.positions)
    behind = texts[at + 1] if at + 1 < len(texts) else ""
    if word in _BY_THE_WAY and texts[max(0, at - 2) : at] in _THERE:
        return False  # "over to the kerb side": who goes there leaves this one for the other
    if word in _BESIDE:
        owned = behind == "is" and texts[at + 2 : at + 3] != () and texts[at + 2] in _SIDES
        return (behind in _SIDES or owned) and word not in lexicon.positions
    if word not in _HANDS or word in lexicon.positions:
        return False
    if behind in _HAND_NOUNS or (word == "left" and bool(lexicon.names(tuple(texts), at + 1).parts)):
        return True
    return texts[max(0, at - 1) : at] == ("the",) and (behind == "" or word == "left")
