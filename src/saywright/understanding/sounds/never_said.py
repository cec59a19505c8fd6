"""Words that nobody says over a bench, written for those that sound just the same: "knead", "the gnu seal".

A recogniser spells by the English it has read, which knows more of inns than of what comes off. None of these
needs a look around it but the few that a bench has after all: an awl, a knot in the cord, a mite loose.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Final

from saywright.understanding.tokens import words_of

# Said ← heard.
_SAID: Final = (
    ("in", "inn"), ("new", "gnu nu"), ("need", "knead"), ("needs", "kneads"), ("needed", "kneaded"),
    ("none", "nun"), ("you", "ewe"), ("him", "hymn"), ("which", "witch"), ("time", "thyme"),
    ("times", "thymes"), ("been", "bean"), ("or", "ore oar"), ("all", "awl"), ("turn", "tern"),
    ("turns", "terns"), ("minute", "minuet"), ("straight", "strait"), ("straighten", "straiten"),
    ("straightened", "straitened"), ("foul", "fowl"), ("fouled", "fowled"), ("so", "sow sew"),
    ("right", "rite wright"), ("not", "knot"), ("next", "necks"), ("pair", "pear pare"), ("pairs", "pears"),
    ("way", "whey"), ("ways", "wheys"), ("grease", "greece"), ("mind", "mined"), ("made", "maid"),
    ("might", "mite"), ("more", "moor"), ("some", "sum"), ("groove", "grove"), ("grooves", "groves"),
    ("bell", "belle"), ("through", "thru"), ("wear", "ware"), ("leak", "leek"), ("leaks", "leeks"),
    ("leaking", "leeking"), ("leaked", "leeked"), ("side", "sighed"), ("wrapped", "rapped"),
    ("gauge", "gage"), ("gauges", "gages"), ("seized", "ceased"), ("what", "watt"),
    ("hair", "hare"),
)  # fmt: skip
# Behind these the word is itself.
_OWN: Final[Mapping[str, frozenset[str]]] = {
    "awl": frozenset({"the", "a", "an", "my", "his", "her", "your", "with", "point"}),
    "knot": frozenset({"a", "the", "another", "no"}),
    "mite": frozenset({"a"}),
    "sum": frozenset({"the", "a", "to", "in", "this", "that"}),
    "sighed": frozenset({"i", "he", "she", "and", "just", "we", "it", "they"}),
    "rapped": frozenset({"i", "he", "she", "and", "just", "we", "have", "had"}),
    "bean": frozenset({"coffee", "a", "the"}),
    "nun": frozenset({"a", "like"}),
    "ewe": frozenset({"the", "a"}),
    "maid": frozenset({"the", "a"}),
    "ore": frozenset({"iron"}),
    "oar": frozenset({"the", "an"}),
    "watt": words_of("one two three four five six seven eight nine ten hundred thousand a"),
    "ceased": words_of(
        "have has noise leak leaks drip dripping weep weeping knock knocking rattle squeal hiss flow leaking"
    ),
    "grove": frozenset({"orange", "olive"}),
}
NEVER_SAID: Final[Mapping[str, str]] = {
    heard: said for said, all_heard in _SAID for heard in all_heard.split()
}


def never_said(texts: Sequence[str], at: int) -> str:
    """The word that was said for the one at *at* of `NEVER_SAID`; "" where that may be itself."""
    text = texts[at]
    if text in _OWN and at and texts[at - 1] in _OWN[text]:
        return ""
    return NEVER_SAID[text]
