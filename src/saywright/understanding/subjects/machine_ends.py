"""An end of a machine that is talked of by what its parts are called after: "pump end", "metering side".

Where two parts or more are called so, and each has a fellow of the same noun called after something else, a
bare "cover", "gasket" or "diaphragm" is the one of that end, until another end is named.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from saywright.sheets.model import Component, Sheet
from saywright.understanding.discourse import Hand
from saywright.understanding.naming.sheet_names import component_names

ENDS = frozenset({"end", "side"})
_FEWEST = 2  # parts called after an end, each with a fellow


def machine_ends(sheet: Sheet) -> frozenset[str]:
    """The words that parts of an end are called after: "pump" and "metering"."""
    called: dict[tuple[str, ...], dict[str, str]] = defaultdict(dict)  # noun → first word → component
    for part in sheet.component:
        for name, _ in component_names(part):
            if len(name) > 1:
                called[name[1:]][name[0]] = part.id
    shared = [words for words in called.values() if len(set(words.values())) > 1]
    every = {word for words in shared for word in words}
    own = {word: {words[word] for words in shared if word in words} for word in every}
    placed = {word for c in sheet.component for word in c.place_words}
    nouns = {name[-1] for c in sheet.component for name, _ in component_names(c)}
    ends = frozenset(word for word, parts in own.items() if len(parts) >= _FEWEST) - placed - nouns
    return ends if len(ends) > 1 else frozenset()


def turn_to_end(texts: Sequence[str], ends: frozenset[str], hand: Hand | None, sheet: Sheet) -> Hand | None:
    """*hand* with the end that *texts* name, "over to the pump end"."""
    if ends.isdisjoint(texts) or ENDS.isdisjoint(texts):
        return hand
    said = [a for a, b in pairwise(texts) if a in ends and b in ENDS]
    if len(said) != 1:
        return hand
    first = next((c.id for c in sheet.component if is_called(c, said[0])), None)
    if hand is None:
        return Hand(first, None, 0, row=said[0]) if first is not None else None
    return replace(hand, row=said[0])


def at_its_end(hand: Hand, ends: frozenset[str], sheet: Sheet) -> Hand:
    """*hand* without its end, where what is in hand now is called after another, or at the one it is told by.

    "Metering cover's off" where there are two covers, metering and pump: the metering end.
    """
    if hand.which in ends:
        return replace(hand, row=hand.which) if hand.row != hand.which else hand
    part = sheet.get(hand.component) if hand.row in ends else None
    if part is None or hand.row is None or is_called(part, hand.row):
        return hand
    return replace(hand, row=None) if any(is_called(part, end) for end in ends) else hand


def at_the_end(candidates: list[Component], hand: Hand | None) -> list[Component]:
    """Those of *candidates* that are called after the end talked of; all of them where none is."""
    if hand is None or hand.row is None or len(candidates) < 2:
        return candidates
    return [c for c in candidates if is_called(c, hand.row)] or candidates


def is_called(component: Component, word: str) -> bool:
    """True where a name of *component* begins with *word*."""
    return any(len(name) > 1 and name[0] == word for name, _ in component_names(component))
