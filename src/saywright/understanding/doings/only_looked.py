""" "Springs off and measure them", "bucket test, eight litres": its value tells what was read. Pure."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from saywright.understanding.facts import Fact, Told
from saywright.understanding.meanings import Act

_OBJECTS: Final = frozenset(
    ["it", "them", "the", "this", "that", "these", "those", "both", "all", "a", "for", "each", "with", "on"]
)  # fmt: skip
_READS: Final = frozenset({"do", "read", "measure", "mike", "check", "try", "go", "take"})
_READ_NEXT: Final = 6  # tokens from "wipe" to what is done then


def is_only_looked(texts: Sequence[str], told: Told, fact: Fact, act: Act) -> bool:
    """True where *fact* only says that something is measured or tested now, of which nothing is planned."""
    if act.id == "clean" and act.form == "base":
        return _is_wiped_to_read(texts[fact.phrase.start :], told)
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


def _is_wiped_to_read(texts: Sequence[str], told: Told) -> bool:
    """ "let me wipe that and do it again, 3.62": so that it is read anew."""
    verbs = [
        at for at in range(1, min(len(texts), _READ_NEXT)) if texts[at - 1] == "and" and texts[at] in _READS
    ]
    anew = bool(verbs) and "again" in texts[verbs[0] + 1 : verbs[0] + 3]
    return anew and any(f.kind == "value" for f in told.facts)
