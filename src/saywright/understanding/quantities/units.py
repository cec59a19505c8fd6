"""Which unit a spoken name means, and where it stands behind a number."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Final

from saywright.understanding.quantities.words import MORE_UNITS

Units = Mapping[str, tuple[str, ...]]  # spoken name, one to four words → codes

_LONGEST_UNIT: Final = 4
_TURNED: Final = frozenset({"it", "that", "them", "him", "her"})  # "three point four one turn it …": a verb


def unit_at(words: Sequence[str], at: int, units: Units) -> tuple[str, tuple[str, ...], int] | None:
    """(spoken name, codes, index after it) of the longest unit name at word *at*."""
    for length in range(min(_LONGEST_UNIT, len(words) - at), 0, -1):
        name = " ".join(words[at : at + length])
        codes = unit_codes(name, units)
        if codes and not (name == "turn" and _TURNED.issuperset(words[at + 1 : at + 2]) and words[at + 1 :]):
            return name, codes, at + length
    return None


def unit_codes(name: str, units: Units) -> tuple[str, ...]:
    """Codes that a spoken unit name may mean; () where it names none."""
    codes = units.get(name, ())
    return tuple(dict.fromkeys((*codes, *MORE_UNITS[name]))) if codes and name in MORE_UNITS else codes


def share_unit(words: Sequence[str], at: int, units: Units) -> tuple[str, tuple[str, ...], int] | None:
    """The unit behind a share: "half a turn", "three quarters of a turn", "half inch"."""
    direct = unit_at(words, at, units)
    if direct is not None:
        return direct
    skip = at + 1 if at < len(words) and words[at] == "of" else at
    if skip < len(words) and words[skip] in ("a", "an", "one", "the"):
        return unit_at(words, skip + 1, units)
    return None
