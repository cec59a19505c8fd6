"""Where one of a part went, by an everyday word: "new spring in the top", "spring bottom old one"."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import TYPE_CHECKING, Final

from saywright.understanding.tokens import BREAK

if TYPE_CHECKING:
    from saywright.understanding.lexicon import Lexicon
    from saywright.understanding.meanings import Meaning

_IN: Final = frozenset({"in", "into", "on", "onto", "out", "off", "of", "from"})
_WAYS: Final = frozenset(
    {"back", "goes", "went", "going", "go", "fitted", "pressed", "tapped", "pushed", "put"}
)
_ANOTHER: Final = (("another",), ("one",))
_AGES: Final = (("new",), ("old",))
_OPENS: Final = ((), (BREAK,), ("and",), ("then",))
_PUT: Final = frozenset({"in", "on"})
_ENDS: Final = frozenset({"", BREAK, "and", "then", "new", "old"})
_NAME: Final = 4  # words


def went_in_there(
    texts: tuple[str, ...], at: int, lexicon: Lexicon, has_place: Callable[[Meaning], bool]
) -> bool:
    """ "Old spring back in the top", "new spring bottom": of one that was named right before, and no more."""
    after = texts[at + 1] if at + 1 < len(texts) else ""
    moved = after in _PUT and (texts[at + 2] if at + 2 < len(texts) else "") in _ENDS  # "new spring top in"
    if texts[at] in lexicon.heads or not (moved or after in _ENDS):
        return False
    led = texts[at - 1 : at] == ("the",) and not _IN.isdisjoint(texts[max(0, at - 2) : at])
    if texts[at] == "back" and not led:
        return False  # "old bearing back in"
    end = at - led
    if led:
        while end and texts[end - 1] in _IN | _WAYS:
            end -= 1
    if led and texts[max(0, end - 1) : end] in _ANOTHER:  # "… and another in the bottom"
        return any(
            n is not None and has_place(n[1]) for n in map(partial(lexicon.match, texts), range(end - 1))
        )
    for begin in range(max(0, end - _NAME), end):
        found = lexicon.match(texts[:end], begin) if texts[begin] not in {"", BREAK} else None
        if found is not None and begin + found[0] == end:
            before = texts[max(0, begin - 1) : begin]
            aged = before in _AGES or (before in _OPENS and (after,) in _AGES)  # "spring top new one in"
            return has_place(found[1]) and (led or aged)
    return False
