"""Words that pick: behind a position ("the right hand one", "outer again four point two"), and "either"."""

from __future__ import annotations

from saywright.understanding.around import Around

_CHOICE = 5  # tokens: "either badly worn or pitted"


def stands_for_noun(around: Around, at: int) -> bool:
    """True where the word at *at* is no number and no talk: the part whose position is named before it."""
    word = around.texts[at]
    if word not in {"one", "again"}:
        return False
    last = around.last
    if last is None or last.kind != "MOD" or not last.meaning.positions:
        return False
    if word == "again":
        return at + 1 in around.measures
    measure = around.measures.get(at)
    return measure is not None and measure.end == at + 1 and last.end - last.start > 1


def leads_choice(around: Around, at: int) -> bool:
    """ "it's either worn or badly pitted": one of two states, not both of two parts."""
    if around.texts[at] != "either":
        return False
    near = around.texts[at : at + _CHOICE]
    match = around.lexicon.match(around.texts, at)
    if "or" not in near or match is None or match[0] > 1:
        return False
    states = (around.names(i).conditions for i in range(at + 1, at + len(near)))
    return any(states) and not around.names_part(at + 1)
