"""Names heard as two words ("sir clips", "gas kit"): put together by their sound, and they ask."""

from __future__ import annotations

from collections.abc import Set as AbstractSet
from dataclasses import replace
from typing import Final

from saywright.sheets.model import Sheet
from saywright.understanding.sheet_names import component_names
from saywright.understanding.sounds import sound_key
from saywright.understanding.tokens import Token

_SHORTEST: Final = 4  # consonants of a name; a shorter one sounds like too much else
_LONGEST_PIECE: Final = 7  # letters; longer words are heard whole


def sounds_of_names(sheet: Sheet) -> dict[str, str]:
    """Sound key → the one word of the parts' names that sounds so."""
    words = {word for c in sheet.component for name, _ in component_names(c) for word in name}
    found: dict[str, str] = {}
    twice: set[str] = set()
    for word in sorted(words):
        key = sound_key(word)
        if len(key) < _SHORTEST:
            continue
        twice.update({key} if key in found else ())
        found[key] = word
    return {key: word for key, word in found.items() if key not in twice}


def put_together(
    tokens: tuple[Token, ...], sounds: dict[str, str], unknown: AbstractSet[str]
) -> tuple[tuple[Token, ...], frozenset[int]]:
    """The tokens with such names in one, and the indices of those; *unknown*: words that mean nothing."""
    if not unknown:
        return tokens, frozenset()
    out: list[Token] = []
    changed: set[int] = set()
    for token in tokens:
        before = out[-1] if out else None
        name = _name(before.text, token.text, sounds, unknown) if before is not None else None
        if before is None or name is None or len(out) - 1 in changed:
            out.append(token)
            continue
        out[-1] = replace(before, text=name)
        changed.add(len(out) - 1)
    return (tuple(out), frozenset(changed)) if changed else (tokens, frozenset())


def _name(first: str, second: str, sounds: dict[str, str], unknown: AbstractSet[str]) -> str | None:
    """The name that the two words sound like together."""
    if first not in unknown or second not in unknown or max(len(first), len(second)) > _LONGEST_PIECE:
        return None
    name = sounds.get(sound_key(first + second))
    if name is None or name in {first, second} or abs(len(name) - len(first + second)) > 2:
        return None
    return name
