"""States that were believed, or ought to be: "I thought it was bent", "it needs to be dead flat". Pure.

What is said behind it may tell that it was so: "I thought it was cracked and it is". That it must
be cracked is concluded, as no part ought to be.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from saywright.sheets.model import Sheet
from saywright.understanding.facts import Fact
from saywright.understanding.tokens import BREAK, words_of

_BELIEVED: Final = frozenset(
    ["thought", "think", "thinking", "reckoned", "assumed", "expected", "expecting", "imagined", "sworn",
     "convinced", "figured", "guessed", "supposed", "feared", "worried", "sure", "certain"]
)  # fmt: skip
_ONLY: Final = frozenset({"only", "just", "wiped", "wipes", "came", "comes", "hair", "shadow", "paint"})
_SMALL: Final = frozenset(
    ["small", "little", "short", "tiny", "slight", "hairline", "fine", "minor", "shallow", "faint", "thin",
     "one", "weep", "outside", "inside", "edge", "surface"]
)  # fmt: skip
_CUES: Final = _BELIEVED | {"looked", "looks"}
_TILL_BUT: Final = 6  # tokens from the state to "but", and from there to what it is
_SURE: Final = frozenset({"sure", "certain"})
_WERE: Final = frozenset({"was", "were"})
_NOW: Final = frozenset({"think"})  # "I did think", not "I think"
_WHO: Final = frozenset({"i", "we", "you"})
_WAS: Final = words_of("was were would had must might may be saw felt heard spotted noticed")
_STOPS: Final = frozenset({BREAK, "but", "so", "is", "are", "has", "no"})
_MUST: Final = frozenset({"must", "should", "shall"})
_CONCLUDED: Final = frozenset({"must", "has", "have", "had", "got"})  # "it must be seized, it won't turn"
_TO_BE_DONE: Final = tuple(
    (word,) for word in ("to", "off", "open", "out", "apart", "before", "first", "for", "by", "again")
)  # "it has to be split to get it off"
_OUGHT_TO: Final = frozenset(
    ["want", "wants", "need", "needs", "needed", "has", "have", "had", "ought", "supposed", "meant", "got"]
)  # fmt: skip
_OUGHT_REACH: Final = 6  # tokens: "needs to be nice and"
_WANT: Final = frozenset({"want", "like", "need", "prefer"})
_CHECK: Final = frozenset({"check", "see", "ensure"})  # "I'd check that it isn't worn"
_TO_CHECK: Final = frozenset({"", "would", "should", "to", "will", "must", "always"})
_ANOTHER: Final = frozenset({"new", "another"})
_IS: Final = frozenset({"is", "are", "was", "were", "has"})
_IS_SO: Final = tuple((word,) for word in sorted(_IS))
_OUGHT: Final = _WANT | _CHECK | {"be"}
_BEFORE: Final = 5  # tokens from "I" to the verb: "I would have sworn"
_REACH: Final = 9  # from the verb to the state
_AFTER: Final = 6  # from the state to "and it is"
_RIGHT_SO: Final = (("i", "was", "right"), ("right", "enough"), ("sure", "enough"))
_SO: Final = (
    ("and", "it", "is"), ("and", "they", "are"), ("and", "it", "was"), ("and", "so", "it"),
    ("and", "so", "they"),
    ("and", "i", "was"), ("and", "i", "did"), ("and", "there", "is"), ("as", "i", "thought"),
    ("and", "that", "is"), ("and", "yes"), ("and", "yeah"),
)  # fmt: skip


def was_believed(fact: Fact, texts: Sequence[str]) -> bool:
    """True where *fact* is a state that a part was believed to be in earlier."""
    if fact.kind != "finding" or _CUES.isdisjoint(texts):
        return False
    start = fact.phrase.head.start if fact.phrase.head is not None else fact.phrase.start
    if _looked_like(texts, start, fact.phrase.end):
        return True
    near = range(start - 1, max(-1, start - 1 - _REACH), -1)
    at = next((i for i in near if texts[i] in _BELIEVED or texts[i] in _STOPS), -1)
    if at < 0 or texts[at] in _STOPS or _WAS.isdisjoint(texts[at + 1 : start + 1]):
        return False
    before = tuple(texts[max(0, at - _BEFORE) : at])
    if texts[at] in _SURE and not _WERE.issuperset(before[-1:]):
        return False
    said = not _WHO.isdisjoint(before) or (texts[at] == "thought" and before[-1:] in ((), (BREAK,)))
    if not said or "not" in before or (texts[at] in _NOW and "did" not in before):
        return False
    return not _was_so(texts, start)


def _looked_like(texts: Sequence[str], start: int, end: int) -> bool:
    """ "It looked like a crack but it wiped off", "… but it's only a hair"."""
    article = start - (texts[start - 1 : start] in (("a",), ("an",)))
    if tuple(texts[max(0, article - 2) : article]) not in {("looked", "like"), ("looks", "like")}:
        return False
    near = texts[end : end + _TILL_BUT]
    at = end + near.index("but") if "but" in near else len(texts)
    return any(_is_no_such(texts[i : i + 3]) for i in range(at, min(at + _TILL_BUT, len(texts))))


def _is_no_such(words: Sequence[str]) -> bool:
    """ "… but it's only a hair", "… but it came off"; not "only on one side", "only a small one"."""
    if words[0] in {"only", "just"}:
        return words[1:2] in (("a",), ("an",), ("the",), ("some",)) and _SMALL.isdisjoint(words[2:])
    if words[0] in {"came", "comes"}:
        return words[1:2] in (("off",), ("away",), ("from",), ("out",))
    return words[0] in _ONLY


def ought_to_be(fact: Fact, texts: Sequence[str], sheet: Sheet) -> bool:
    """ "The plate needs to be dead flat", "it must be dry": how it ought to be, not how it is."""
    if fact.kind != "finding" or _OUGHT.isdisjoint(texts):
        return False
    head = fact.phrase.head.start if fact.phrase.head is not None else fact.phrase.start
    fault = not any(_is_good(sheet, one) for one in fact.phrase.meaning.conditions)
    if _is_wished(texts, head, fault=fault):
        return True
    fault = fault and texts[fact.phrase.end : fact.phrase.end + 1] not in _TO_BE_DONE
    at = next((i for i in range(head, max(-1, head - _OUGHT_REACH), -1) if texts[i] == "be"), 0)
    if at and texts[at - 1] == "to":
        return at > 1 and texts[at - 2] in _OUGHT_TO and not (fault and texts[at - 2] in _CONCLUDED)
    return at > 0 and texts[at - 1] in _MUST and not (fault and texts[at - 1] in _CONCLUDED)


def _is_good(sheet: Sheet, condition: str) -> bool:
    spec = sheet.get_condition(condition)
    return spec is not None and spec.good


def _is_wished(texts: Sequence[str], head: int, *, fault: bool) -> bool:
    """ "You want those bushings nice and smooth", "I'd check the bearing isn't rumbling": none was found."""
    for at in range(head - 1, max(-1, head - _REACH), -1):
        if texts[at] in _STOPS - {"is", "are"}:
            return False
        before = texts[at - 1] if at else ""
        if texts[at] in _WANT and (before in _WHO or (before, texts[at]) == ("would", "like")):
            another = fault and not _ANOTHER.isdisjoint(texts[at:head])  # "I need a new cup, torn on the lip"
            return not another and _IS.isdisjoint(texts[at:head])
        if texts[at] == "see" and (before == "to" or texts[at + 1] != "that"):
            return False  # "you need to see this drum, it's scored"
        if texts[at] in _CHECK and before in _TO_CHECK:
            return not _IS.isdisjoint(texts[at:head])
    return False


def _was_so(texts: Sequence[str], start: int) -> bool:
    behind = range(start + 1, len(texts))
    if any(tuple(texts[i : i + len(one)]) == one for i in behind[: _AFTER - 1] for one in _SO):
        return True
    right = any(tuple(texts[i : i + len(one)]) == one for i in behind for one in _RIGHT_SO)
    return right or any(_turned_out_so(texts, i) for i in behind)


def _turned_out_so(texts: Sequence[str], at: int) -> bool:
    """ "… turns out it has", and no more: not "turns out it is fine"."""
    told = tuple(texts[at : at + 2]) == ("turned", "out") and tuple(texts[at + 3 : at + 4]) in _IS_SO
    return told and (at + 4 >= len(texts) or texts[at + 4] in {BREAK, "and"})
