""" "Get your pencil", "write this down", "shopping list": words that only say that a list follows.

They stand alone in the line before it. What the list is for may stand before its items:
"for the left a hose and a seal".
"""

from __future__ import annotations

from collections.abc import Sequence

from saywright.understanding.phrases import Phrase
from saywright.understanding.statements import Remark, Statement
from saywright.understanding.subjects.noun_phrases import Subject, subject_of_lead

_PENS = frozenset({"pencil", "pen", "biro", "notebook", "notepad", "clipboard", "paper"})
_FETCH = frozenset({"get", "grab", "fetch", "find", "got", "take"})
_WRITE = frozenset({"write", "note", "jot", "scribble", "take"})
_WHAT = frozenset({"this", "these", "it", "them"})
_LISTS = frozenset({"list", "order", "shopping", "spares"})
_ROUND = frozenset(
    ["so", "right", "okay", "well", "now", "then", "oh", "um", "uh", "and", "your", "my", "a", "an",
     "the", "out", "us", "me", "you", "ready", "for", "here", "is", "parts", "of", "up", "time", "let",
     "we", "i", "have", "piece", "down", "go"]
)  # fmt: skip
_HEAD_WORDS = _PENS | _FETCH | _WRITE | _WHAT | {"your", "out", "down"}

_REMARKS = frozenset({Remark})


def _dictates(words: Sequence[str]) -> bool:
    """ "get your pencil out", "write this down"."""
    said = set(words)
    writes = "down" in said and bool(said & _WRITE) and bool(said & _WHAT)
    return writes or bool(said & _PENS and said & _FETCH)


def told_before(groups: Sequence[Sequence[Statement]]) -> bool:
    """True where the line before, the last of *groups*, said that a list follows, and no more."""
    group = groups[-1] if groups else ()
    if not _REMARKS.issuperset(map(type, group)) or not group:
        return False
    words = [word for s in group for word in s.heard.lower().replace(",", " ").split()]
    rest = set(words) - _ROUND
    heads = rest <= _LISTS and bool(rest - {"order"} or {"the", "an"} & set(words)) and bool(rest)
    return heads or (rest <= _HEAD_WORDS and _dictates(words))


def side_before(found: Sequence[Phrase]) -> Subject | None:
    """ "offside just cups and a seal", in a list that goes on: for which side they are."""
    first = found[0] if found else None
    if first is None or first.kind != "lead" or not all(tag.meaning.positions for tag in first.lead):
        return None
    return subject_of_lead(first)


def side_for(phrase: Phrase, opener: Sequence[str], texts: Sequence[str]) -> tuple[Subject | None, Phrase]:
    """ "for the left a hose and a seal": for which side they are, and the first of them without it."""
    led = tuple(opener[-1:]) == ("for",) or tuple(opener[-2:]) == ("for", "the")
    places = next((i for i, tag in enumerate(phrase.lead) if not tag.meaning.positions), 0) if led else 0
    if not places:
        return None, phrase
    first, rest = phrase.lead[:places], phrase.lead[places:]
    if not (
        texts[rest[0].start] in {"a", "an", "both"}
        or rest[0].count is not None
        or rest[0].tags & {"ALL", "NEW"}
    ):
        return None, phrase
    place = subject_of_lead(Phrase("lead", phrase.start, first[-1].end, None, first))
    return place, Phrase(phrase.kind, rest[0].start, phrase.end, phrase.head, rest, phrase.aux)
