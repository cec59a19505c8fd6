"""A shop's own words as TOML text. Pure; `saywright.sheets.load` reads it back."""

from __future__ import annotations

import json
from collections.abc import Iterable

from saywright.sheets.model import ShopWord

_HEAD = "# The shop's own words. 'saywright words' changes this file; so may you.\n"


def words_text(words: Iterable[ShopWord]) -> str:
    """A file of [[word]] tables."""
    tables = [
        "\n[[word]]\n"
        + "".join(f"{key} = {_quoted(value)}\n" for key, value in word.model_dump(exclude_none=True).items())
        for word in words
    ]
    return _HEAD + "".join(tables)


def _quoted(text: str) -> str:
    """A basic string: what JSON escapes, TOML escapes alike, but for DEL."""
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007F")
