""" "All the pads are worn", "well, not the rear outer", "only the front ones": what holds of some of them."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from saywright.understanding.bench_words import IS
from saywright.understanding.facts import Told
from saywright.understanding.second_thoughts.corrected_copies import AboutAPart, own_fields
from saywright.understanding.second_thoughts.one_named import one_named
from saywright.understanding.second_thoughts.restated import just_said
from saywright.understanding.second_thoughts.words import read_turn
from saywright.understanding.statements import ConditionNote
from saywright.understanding.tokens import BREAK
from saywright.understanding.working import Working

_ALL: Final = frozenset({"all", "both", "well", "okay"})
_BUT: Final = (
    ("except",),
    ("except", "for"),
    ("apart", "from"),
    ("bar",),
    ("but", "not"),
    ("not",),
    ("but",),
)
_ONLY: Final = frozenset({"just", "only"})
_BEHIND: Final = frozenset({"actually", "though", "mind", "you", "sorry", "then", BREAK})
ALL_BUT: Final = frozenset({"except", "apart", "bar", "not", "just", "only"})


def all_but_that(told: Told, work: Working) -> bool:
    """Withdraw of those just told the ones that are excepted; False where none is."""
    texts = work.texts
    if any(f.kind != "unlike" for f in told.facts):
        return False
    said = [s for s in just_said(work) if isinstance(s, AboutAPart) and s.which is not None]
    if len(said) < 2 or len({s.component for s in said}) > 1:
        return False
    if any(_apart_from_place(s) != _apart_from_place(said[0]) for s in said):
        return False  # "inner six point two, outer five point one", "not the outer": of which is left open
    at, _ = read_turn(texts, 0, len(texts))
    at -= texts[at - 1 : at] == ("but",)
    while at < len(texts) and texts[at] in _ALL:
        at += 1
    end = len(texts)
    while end > at and texts[end - 1] in _BEHIND:
        end -= 1
    only = texts[at : at + 1] != () and texts[at] in _ONLY
    but = next((b for b in sorted(_BUT, key=len, reverse=True) if texts[at : at + len(b)] == b), None)
    denied = texts[end - 1 : end] == ("not",) and texts[end - 2] in IS
    if but is not None or only:
        begin, last = at + (1 if only else len(but or ())), end
    elif denied:
        begin, last = at, end - 2
    else:
        return False
    named = one_named(texts, begin, work.lexicon)
    if named is None or named.end != last or not named.places:
        return False
    meant = [s for s in said if named.tells(s)]
    gone = [s for s in said if (s not in meant) == only]
    if not meant or len(gone) == len(said):
        return False
    _withdraw(gone, work, deny=denied)
    return True


def _apart_from_place(one: AboutAPart) -> tuple[object, ...]:
    """What is told of it, wherever."""
    return (type(one), *(value for name, value in sorted(own_fields(one).items()) if name != "which"))


def _withdraw(gone: Sequence[AboutAPart], work: Working, *, deny: bool) -> None:
    for old in gone:
        if deny and isinstance(old, ConditionNote):
            fields = {**own_fields(old), "present": not old.present, "severity": None}
            known = next(
                (s for s in work.out if isinstance(s, ConditionNote) and own_fields(s) == fields), None
            )
            if known is None:
                known = work.make(
                    ConditionNote, 0, len(work.texts), flags=old.flags, stage=old.stage, **fields
                )
                work.put(known)
            work.supersede([old.id], known.id, 0, len(work.texts))
        else:
            work.supersede([old.id], None, 0, len(work.texts))
