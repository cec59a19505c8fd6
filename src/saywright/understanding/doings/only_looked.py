""" "Springs off and measure them", "bucket test, eight litres": its value tells what was read. Pure."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from saywright.understanding.facts import Fact, Told
from saywright.understanding.meanings import Act

_OBJECTS: Final = frozenset(
    ["it", "them", "the", "this", "that", "these", "those", "both", "all", "a", "for", "each", "with", "on"]
)  # fmt: skip


def is_only_looked(texts: Sequence[str], told: Told, fact: Fact, act: Act) -> bool:
    """True where *fact* only says that something is measured or tested now, of which nothing is planned."""
    if act.form != "base" or fact.aux or act.id not in {"measure", "test"}:
        return False
    behind = fact.phrase.end
    named = [s for s in fact.subjects if (s.components or s.which) and not s.pronoun and s.start >= behind]
    if act.id == "measure":
        read = any(f.kind == "value" for f in told.facts)
        return not (
            read and (named or texts[behind : behind + 1] == ("the",))
        )  # "measure the springs then", "measure once more, forty five"
    return (
        texts[behind - 1] == "test"
        and texts[behind : behind + 1] != ()
        and (texts[behind] not in _OBJECTS and not any(s.start == behind for s in named))
    )
