""" "Topped it up, no leak", "no longer leaking": so since something was done; nothing is taken back."""

from __future__ import annotations

from saywright.understanding.facts import Fact
from saywright.understanding.tokens import words_of
from saywright.understanding.working import Working

_SINCE = frozenset({"longer", "anymore", "since"})
_DID = frozenset({"gave", "took", "left", "got", "put", "did", "tap", "drop", "bit"})
_LOOKED = words_of(
    "turned checked looked tried reckoned assumed expected believed measured need"
)  # and nothing done to it


def did_something(work: Working, fact: Fact) -> bool:
    """ "Topped it up, no leak", "heated it, it's free after all", "no longer leaking": so since then."""
    texts = work.texts[: fact.phrase.end]
    if not _SINCE.isdisjoint(texts):
        return True
    begin = min([fact.phrase.start, *(s.start for s in fact.subjects)])
    past = [
        at
        for at, text in enumerate(texts[:begin])
        if (text.endswith("ed") and text not in _LOOKED) or text in _DID
    ]
    return any(not work.lexicon.names(tuple(work.texts), at).conditions for at in past)
