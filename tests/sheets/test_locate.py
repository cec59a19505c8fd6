"""Lines of keys in TOML text."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest

from saywright.sheets.locate import locate

TEXT = '''# a comment with [brackets] and = signs
[sheet]
id = "x"  # id = "y"
title = """
[not.a.table]
id = 1
"""
"odd key".inner = 'a # b'

[[component]]
id = "first"
names = [
    "one",   # ] not the end
    "two",
]

[[component]]
id = "second"

[[component.characteristic]]
id = "a"
[[component.characteristic]]
id = "b"
lower = 1.5

[one]
table = {x = 1, y = {z = [1, 2]}}
'''


@pytest.mark.parametrize(
    ("path", "line"),
    [
        ("sheet", 2),
        ("sheet.id", 3),
        ("sheet.title", 4),
        ("sheet.odd key.inner", 8),
        ("component", 10),
        ("component[1]", 10),
        ("component[1].names", 12),
        ("component[1].names[2]", 14),
        ("component[2].id", 18),
        ("component[2].characteristic[1].id", 21),
        ("component[2].characteristic[2].lower", 24),
        ("one.table.y.z[2]", 27),
    ],
)
def test_line_of_a_key(path: str, line: int) -> None:
    """Each key is found on the line where it stands."""
    tomllib.loads(TEXT)
    assert line == locate(TEXT).of(path)


def test_a_key_that_is_not_there_has_the_line_of_its_table() -> None:
    """A missing id is reported at the head of the entry that lacks it."""
    assert 16 + 1 == locate(TEXT).of("component[2].names")


def test_nothing_around_it() -> None:
    """A key of no table at all has no line."""
    assert locate(TEXT).of("caution[1].text") is None


def test_empty_text() -> None:
    """An empty file has no keys."""
    assert locate("").of("sheet") is None


def _paths(value: object, path: str = "") -> list[str]:
    if isinstance(value, dict):
        return [p for k, v in value.items() for p in _paths(v, f"{path}.{k}" if path else k)]
    if isinstance(value, list):
        return [p for n, v in enumerate(value, start=1) for p in _paths(v, f"{path}[{n}]")]
    return [path]


@pytest.mark.parametrize("name", ["base", "outboard-float-carburetor"])
def test_every_value_of_a_shipped_sheet_is_found(name: str) -> None:
    """The scanner and the parser see the same keys, and the line holds the key."""
    import saywright.sheets

    text = (Path(saywright.sheets.__file__).parent / "data" / f"{name}.toml").read_text(encoding="utf-8")
    found = locate(text)
    for path in _paths(tomllib.loads(text)):
        line = found.of(path)
        assert line is not None
        key = path.rpartition(".")[2].partition("[")[0]
        assert text.splitlines()[line - 1].startswith(key)
