"""What is said of the last ones of a list: "order a seal, the hose is torn", "and the boot can go again"."""

from __future__ import annotations

from collections.abc import Sequence

from saywright.understanding.phrases import Phrase
from saywright.understanding.subjects.noun_phrases import Subject

_TELLS = frozenset({"finding", "off", "on", "measure", "char"})
_FINITE = frozenset(
    ["need", "needs", "want", "wants", "needed", "wanted", "can", "could", "will", "would", "does", "do",
     "did", "has", "have", "had", "is", "are", "was", "were", "gets", "get", "must", "should", "may"]
)  # fmt: skip


def tells_of_last(found: Sequence[Phrase], at: int, texts: Sequence[str]) -> bool:
    """True where the phrase at *at* tells something else of what was named last."""
    after = found[at] if at < len(found) else None
    if after is None:
        return False
    told = after.kind in _TELLS or "COP" in after.aux_tags
    to_be = tuple(texts[after.start : after.start + 2]) == ("to", "be")
    return told or (after.kind == "doing" and (to_be or texts[after.start] in _FINITE))


def drop_told(items: list[Subject], ends: list[int], texts: Sequence[str]) -> None:
    """Take what it is told of out of the list: "order a gasket and the jet and the float need cleaning"."""
    while items:
        last = items.pop()
        ends.pop()
        before = items[-1] if items else None
        joined = before is not None and texts[before.end : last.start] == ("and",)
        if not joined or before is None or {texts[before.start], texts[last.start]} != {"the"}:
            return
