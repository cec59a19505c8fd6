"""TOML text → the line of each key. Pure.

The standard library's parser gives values without places. This scanner walks text that the
parser has already accepted, so it follows the grammar only as far as keys and brackets need.

A place is a dotted path as in `saywright.sheets.model.Fault`: entries of arrays are counted
from 1, e.g. "component[2].characteristic[1].lower".
"""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Mapping

_BLANK = re.compile(r"(?:[ \t\r\n]|#[^\n]*)*")
_SPACE = re.compile(r"[ \t]*")
_BARE_KEY = re.compile(r"[A-Za-z0-9_-]+")
_SCALAR = re.compile(r"[^,\]}\n#]*")
_STRINGS = (
    re.compile(r'"""(?:\\.|[^\\])*?"{3,5}', re.DOTALL),
    re.compile(r"'''.*?'{3,5}", re.DOTALL),
    re.compile(r'"(?:\\.|[^"\\])*"'),
    re.compile(r"'[^']*'"),
)


class Lines:
    """Where each key of a TOML text stands."""

    def __init__(self, found: Mapping[str, int]) -> None:
        self._found = dict(found)

    def of(self, path: str) -> int | None:
        """The line, from 1, of *path* or of the nearest table around it; None where neither is there."""
        while path:
            if path in self._found:
                return self._found[path]
            path = _parent(path)
        return None


def locate(text: str) -> Lines:
    """The lines of all keys and tables in *text*, which must be valid TOML."""
    scanner = _Scanner(text)
    scanner.document()
    return Lines(scanner.found)


def join(path: str, key: str) -> str:
    """*key* below *path*."""
    return f"{path}.{key}" if path else key


def _parent(path: str) -> str:
    if path.endswith("]"):
        return path[: path.rindex("[")]
    return path.rpartition(".")[0]


class _Scanner:
    def __init__(self, text: str) -> None:
        self.text = text
        self.at = 0
        self.found: dict[str, int] = {}
        self._entries: dict[str, int] = {}  # path of an array of tables → entries so far
        self._newlines = [match.start() for match in re.finditer("\n", text)]

    def document(self) -> None:
        table = ""
        self._skip(_BLANK)
        while self.at < len(self.text):
            if self.text.startswith("[", self.at):
                table = self._header()
            else:
                self._pair(table)
            self._skip(_BLANK)

    def _header(self) -> str:
        line = self._line()
        several = self.text.startswith("[[", self.at)
        self.at += 2 if several else 1
        *above, last = self._keys()
        self.at += 2 if several else 1
        path = ""
        for key in above:
            path = self._entered(join(path, key))
        path = join(path, last)
        if several:
            self.found.setdefault(path, line)
            self._entries[path] = self._entries.get(path, 0) + 1
        path = self._entered(path)
        self.found[path] = line
        return path

    def _entered(self, path: str) -> str:
        """*path*, or its last entry where it is an array of tables."""
        return f"{path}[{self._entries[path]}]" if path in self._entries else path

    def _pair(self, table: str) -> None:
        line = self._line()
        path = table
        for key in self._keys():
            path = join(path, key)
            self.found.setdefault(path, line)
        self.at += 1  # the equals sign
        self._value(path)

    def _keys(self) -> list[str]:
        keys = []
        while True:
            self._skip(_SPACE)
            bare = _BARE_KEY.match(self.text, self.at)
            keys.append(bare.group() if bare else self._string()[1:-1])
            if bare:
                self.at = bare.end()
            self._skip(_SPACE)
            if not self.text.startswith(".", self.at):
                return keys
            self.at += 1

    def _value(self, path: str) -> None:
        self._skip(_SPACE)
        start = self.text[self.at : self.at + 1]
        if start == "[":
            self._array(path)
        elif start == "{":
            self._inline_table(path)
        elif start in ('"', "'"):
            self._string()
        else:
            self._skip(_SCALAR)

    def _array(self, path: str) -> None:
        self.at += 1
        entry = 0
        self._skip(_BLANK)
        while not self._ends("]"):
            entry += 1
            self.found[f"{path}[{entry}]"] = self._line()
            self._value(f"{path}[{entry}]")
            self._comma()

    def _inline_table(self, path: str) -> None:
        self.at += 1
        self._skip(_BLANK)
        while not self._ends("}"):
            self._pair(path)
            self._comma()

    def _ends(self, bracket: str) -> bool:
        if self.at < len(self.text) and self.text[self.at] != bracket:
            return False
        self.at += 1
        return True

    def _comma(self) -> None:
        self._skip(_BLANK)
        if self.text.startswith(",", self.at):
            self.at += 1
            self._skip(_BLANK)

    def _string(self) -> str:
        for pattern in _STRINGS:
            match = pattern.match(self.text, self.at)
            if match:
                self.at = match.end()
                return match.group()
        self.at += 1  # not valid TOML; go on so that the scan ends
        return ""

    def _skip(self, pattern: re.Pattern[str]) -> None:
        match = pattern.match(self.text, self.at)
        if match:
            self.at = match.end()

    def _line(self) -> int:
        return bisect_right(self._newlines, self.at - 1) + 1 if self.at else 1
