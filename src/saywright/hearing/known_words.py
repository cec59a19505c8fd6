"""How a listener with a pronouncing dictionary would say a word of the shop's."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import Literal

from saywright.hearing.adapters.sphinx import read_dictionary
from saywright.hearing.pronounce import pronounce
from saywright.sheets.model import ShopWord


@dataclass(frozen=True)
class Knowledge:
    """What PocketSphinx makes of a word."""

    sphinx: Literal["own", "dictionary", "guessed"]
    phones: str  # of all its words; "" where the dictionary is not here


def known_to(word: ShopWord) -> Knowledge:
    """From where PocketSphinx has the sound of *word*, and the sound."""
    if word.sounds:
        return Knowledge("own", word.sounds)
    known = _dictionary()
    parts = word.spoken.split()
    phones = " ".join(pronounce(part, known)[0] for part in parts)
    return Knowledge("dictionary" if all(part in known for part in parts) else "guessed", phones)


@lru_cache(maxsize=1)
def _dictionary() -> dict[str, tuple[str, ...]]:
    try:
        import pocketsphinx  # noqa: PLC0415  only when asked
    except ImportError:
        return {}
    path = Path(pocketsphinx.get_model_path("en-us")) / "cmudict-en-us.dict"
    return read_dictionary(path.read_text(encoding="utf-8")) if path.is_file() else {}
