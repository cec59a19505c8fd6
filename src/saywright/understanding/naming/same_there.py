"""A position at which what was told last is the same: "bottom the same", "and the same on the bottom"."""

from __future__ import annotations

from saywright.understanding.tokens import BREAK

_THE_SAME = (("is", "the", "same"), ("is", "same"), ("the", "same"))
_LINKS = frozenset({"again", "on", "at", "for", "with", "the", "thing", "goes"})
_ENDS = frozenset({"one", "ones", BREAK})


def is_the_same(texts: tuple[str, ...], at: int) -> bool:
    """ "bottom the same", "bottom's the same again"; "and the same (again) on the bottom" at the end."""
    behind = texts[at + 1 : at + 5]
    if behind[:3] in _THE_SAME or (behind[-1:] == ("again",) and behind[:-1] in _THE_SAME):
        return True
    if len(texts) > at + 1 and texts[at + 1] not in _ENDS:
        return False
    led = [text for text in texts[max(0, at - 5) : at] if text not in _LINKS]
    return led[-1:] == ["same"] and texts[at - 1] != "same"
