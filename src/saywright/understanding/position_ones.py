"""Words behind a position that stand for its part: "the right hand one", "outer again four point two"."""

from __future__ import annotations

from saywright.understanding.around import Around


def stands_for_noun(around: Around, at: int) -> bool:
    """True where the word at *at* is no number and no talk: the part whose position is named before it."""
    word, last = around.texts[at], around.last
    if word not in {"one", "again"} or last is None or last.kind != "MOD" or not last.meaning.positions:
        return False
    if word == "again":
        return at + 1 in around.measures
    measure = around.measures.get(at)
    return measure is not None and measure.end == at + 1 and last.end - last.start > 1
