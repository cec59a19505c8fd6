"""Reads the grammars that ship with the package; the only reader of those files."""

from __future__ import annotations

import tomllib
from functools import lru_cache
from importlib.resources import files


@lru_cache(maxsize=8)
def grammar_text(name: str) -> str:
    """The text of the packaged grammar *name* ("numbers")."""
    return (files("saywright.understanding") / "grammar" / f"{name}.lark").read_text(encoding="utf-8")


@lru_cache(maxsize=1)
def talk_phrases() -> dict[str, list[str]]:
    """Words of bench talk that belong to no sheet: tag → phrases."""
    text = (files("saywright.understanding") / "grammar" / "talk.toml").read_text(encoding="utf-8")
    phrases: dict[str, list[str]] = tomllib.loads(text)["phrases"]
    return phrases
