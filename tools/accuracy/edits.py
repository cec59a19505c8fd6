"""How many words are wrong. Pure."""

from __future__ import annotations

import re
from collections.abc import Sequence


def words_of(text: str) -> list[str]:
    """Words in lower case, without punctuation."""
    return re.findall(r"[a-z0-9']+", text.lower())


def edits(wanted: Sequence[str], found: Sequence[str]) -> int:
    """Fewest words put in, left out or changed between the two (Levenshtein distance over words)."""
    row = list(range(len(found) + 1))
    for number, word in enumerate(wanted, start=1):
        before, row[0] = row[0], number
        for place, other in enumerate(found, start=1):
            before, row[place] = row[place], min(row[place] + 1, row[place - 1] + 1, before + (word != other))
    return row[-1]
