"""Where things are."""

from __future__ import annotations

from pathlib import Path

ROOT = Path(__file__).parents[2]
CORPUS = ROOT / "tools" / "corpus"
CASES = ROOT / "tests" / "cases"
CACHE = ROOT / ".cache" / "accuracy"
PAGE = ROOT / "docs" / "accuracy.md"


def sheet_name(name: str) -> str:
    """What `load_sheet` takes: a file of the cases, or a sheet that ships."""
    path = CASES / "sheets" / name
    return str(path) if path.exists() else name
