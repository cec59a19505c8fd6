"""Raw [[word]] tables → what is wrong with them. Pure."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import Any

from saywright.sheets.fault import Fault
from saywright.sheets.form import Data, Findings, check_tables, hint
from saywright.sheets.locate import Lines, join
from saywright.sheets.model import ShopWord


def check_words(data: Data, lines: Lines) -> list[Fault]:
    """All faults of a file of a shop's own words."""
    found = Findings(lines.of)
    for key in data:
        if key != "word":
            found.add(key, "unknown key; a file of words holds [[word]] tables only")
    entries = data.get("word")
    check_tables("word", "word", entries, found)
    if isinstance(entries, list):
        for key, text in word_faults([e if isinstance(e, dict) else {} for e in entries], None):
            found.add(key, text)
    return found.sorted()


def word_faults(entries: Sequence[dict[str, Any]], known: Iterable[str] | None) -> Iterator[tuple[str, str]]:
    """(key, what is wrong) of well-formed entries; *known*: ids that a word can mean, None: not asked."""
    ids = None if known is None else list(known)
    seen: set[str] = set()
    for number, entry in enumerate(entries, start=1):
        path = f"word[{number}]"
        spoken = ShopWord(say=str(entry.get("say", ""))).spoken
        if spoken and spoken in seen:
            yield join(path, "say"), f"'{spoken}' is there already; keep one"
        seen.add(spoken)
        if "sounds" in entry and len(spoken.split()) > 1:
            yield join(path, "sounds"), "stands beside several words; give each a table of its own"
        means = entry.get("means")
        if ids is not None and means is not None and means not in ids:
            yield join(path, "means"), f"nothing here has the id '{means}'; {hint(str(means), ids)}"
