"""Words that pick: behind a position ("the right hand one", "outer again four"), "either" and "left"."""

from __future__ import annotations

from saywright.understanding.around import Around
from saywright.understanding.tags import AGES
from saywright.understanding.tokens import BREAK

_OWNS = frozenset({"has", "have", "had", "got"})
_CHOICE = 5  # tokens: "either badly worn or pitted"


def stands_for_noun(around: Around, at: int) -> bool:
    """True where the word at *at* is no number and no talk: the part whose position is named before it."""
    word = around.texts[at]
    if word not in {"one", "again"}:
        return False
    last = around.last
    if word == "one" and last is not None and last.kind == "MOD" and _is_aged_one(around, at):
        return True
    if last is None or last.kind != "MOD" or not last.meaning.positions:
        return False
    if word == "again":
        return at + 1 in around.measures
    measure = around.measures.get(at)
    if measure is None or measure.end != at + 1:
        return False
    before = around.out[-2] if len(around.out) > 1 else None  # "new low one", "the left one"
    named = around.names(at + 1).characteristics and around.measures.keys() & {*range(at + 2, around.size)}
    if named:
        return True  # "leading one lining at the thin end two point one"
    led = before is not None and before.kind == "MOD" and bool(before.tags & {"NEW", "OLD", "DET"})
    return last.end - last.start > 1 or led


def _is_aged_one(around: Around, at: int) -> bool:
    """ "body seal in, new one, four body bolts", "new low one": the number behind it is another one."""
    last, ends = around.out[-1], around.text(at + 1) in {"", BREAK}
    if not any(t.kind == "MOD" and t.tags & AGES for t in around.out[-2:]):
        return False
    if last.meaning.positions and ends:
        return True
    measure, part = around.measures.get(at), at + 2
    number = measure is not None and measure.end == part and last.tags & AGES
    return bool(number) and around.names_part(part) and around.names(part).many


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


def is_left_over(around: Around, at: int) -> bool:
    """ "the outer one has six left", "three left on the inner": what is still there, no side."""
    last = around.last
    if around.texts[at] != "left" or last is None or last.kind != "MEASURE":
        return False
    before = around.texts[max(0, last.start - 2) : last.start]
    return before[-1:] != () and (before[-1] in _OWNS or before == ("there", "is"))
