"""Whether the job goes back together, where nobody said so: by what was fitted just before."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from itertools import islice, takewhile

from saywright.understanding.statements import ActionNote, Correction, Movement, Reading, Statement
from saywright.understanding.tokens import BREAK
from saywright.understanding.working import Working

_PARCELS = frozenset(
    ["parts", "bits", "box", "parcel", "package", "kit", "order", "delivery", "post", "courier", "spares",
     "goods", "stuff"]
)  # fmt: skip
_CAME = frozenset(
    {("come",), ("came",), ("arrived",), ("landed",), ("here",), ("been",), ("turned", "up"),
     ("showed", "up"), ("in",), ("through",)}
)  # fmt: skip
_ALONE = frozenset({("came",), ("arrived",), ("landed",)})
_ONLY_LAST = frozenset({("in",), ("through",), ("been",)})
_BEHIND = frozenset(
    {"so", "and", "then", "now", "today", "this", "at", "already", "with", "from", "for", BREAK}
)
_WANTED = frozenset({"order", "replace"})
_HELPS = frozenset({"is", "are", "has", "have", "just", "all", "finally", "at", "last"})
_BY_POST = frozenset(
    (verb, prep, "the", noun)
    for verb in ("came", "come", "arrived")
    for prep in ("with", "in", "by")
    for noun in ("post", "parcel", "box", "delivery", "courier", "mail")
)
_NOT_COME = frozenset(
    ["not", "no", "never", "when", "until", "till", "if", "once", "should", "will", "would", "before",
     "waiting", "wait", "hope", "hopefully", "tomorrow", "unless", "while", "yesterday", "he", "she",
     "said", "says", "might", "could"]
)  # fmt: skip
_MAY_TURN = frozenset({Movement, Correction})
_ROW_OF_FITTED = 3  # movements; one or two parts are also put back to try them


def _parts_came(work: Working) -> bool:
    """ "box has come", "right, parts are here": with what was ordered there, what is off goes on again."""
    texts = work.texts
    if _PARCELS.isdisjoint(texts) or not any(work.off.values()) or not _NOT_COME.isdisjoint(texts):
        return False
    if not any(what in _WANTED for _, _, what in work.planned):
        return False  # "the box has arrived for the wife"
    if any(texts[at : at + 4] in _BY_POST for at in range(len(texts))):
        return True
    return any(_comes(texts, at + 1) for at, word in enumerate(texts) if word in _PARCELS)


def _comes(texts: Sequence[str], at: int) -> bool:
    """ "… has come", "… are here", "… came": behind the noun, nothing between, and no more said of it.

    "Bits came off the shoe" and "stuff came out" are no delivery.
    """
    helped = texts[at : at + 1] != () and texts[at] in _HELPS
    while at < len(texts) and texts[at] in _HELPS:
        at += 1
    one = tuple(texts[at : at + 1])
    if one in _CAME and one not in _ALONE and not helped:
        return False
    if one in _ONLY_LAST and texts[at + 1 :] != ():
        return False  # "the bits are in the washer"
    length = 1 if one in _CAME else 2
    ended = at + length >= len(texts) or texts[at + length] in _BEHIND
    return ended and tuple(texts[at : at + length]) in _CAME


def going_back(work: Working) -> bool:
    """True where one part after the other was fitted, or what was ordered has come: it goes back together."""
    if _parts_came(work):
        return True
    if _MAY_TURN.isdisjoint(map(type, work.out)):
        return False
    moves = islice((s for s in work.newest() if type(s) is Movement), _ROW_OF_FITTED)
    fitted = takewhile(lambda move: move.movement == "fitted", moves)
    return sum(1 for _ in fitted) == _ROW_OF_FITTED


def begins_back(work: Working, components: Collection[str]) -> bool:
    """True where parts were going on when this was said, and of each of *components* some are off.

    "new spring in" / "new seals both sides": the job goes back together, though nobody said so.
    """
    if work.stage == "as_left":
        return True
    off = [work.off.get(component, 0) for component in components]
    return bool(off) and all(off) and were_going_on(work)


def were_going_on(work: Working) -> bool:
    """True where what was told last, but for values and what was done, is that something went on."""
    told = islice((s for s in work.newest() if not _is_beside(s, work)), 1)
    return any(type(s) is Movement and s.movement == "fitted" for s in told)


def _is_beside(statement: Statement, work: Working) -> bool:
    """A value, what was done, an old one that came off for the new one; and all that is told here."""
    if type(statement) is Reading or statement in work.out:
        return True
    if isinstance(statement, Movement):
        return (statement.movement, statement.part) == ("removed", "old")
    return isinstance(statement, ActionNote) and statement.status == "done"
