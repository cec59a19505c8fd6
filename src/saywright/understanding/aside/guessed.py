"""Values that somebody else only thinks: "the lad thinks it's two fifty five", "Dave reckons nine". Pure."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from saywright.sheets.model import Sheet
from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.tokens import spoken_form

THINKS: Final = frozenset(
    {"thinks", "reckons", "guesses", "swears", "bets", "guessed", "figures", "supposes"}
)
_OWN: Final = frozenset({"i", "we", "it", "gauge", "scale", "scales", "tester", "that", "this", "which"})


def is_guessed(before: Sequence[str], sheet: Sheet) -> bool:
    """True where the words *before* a value tell who thinks so: neither the speaker nor an instrument."""
    at = next((i for i in range(len(before) - 1, 0, -1) if before[i] in THINKS), 0)
    if not at or before[at - 1] in _OWN or not CLASSES.keys().isdisjoint(before[at:]):
        return False  # "the lad guessed at thirty, it's thirty two"
    read_by = {spoken_form(name)[-1] for one in sheet.instrument for name in one.names}
    return before[at - 1] not in read_by
