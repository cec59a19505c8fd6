"""Denials that stand apart from what they deny, and how far they reach: "good and no pitting"."""

from __future__ import annotations

from collections.abc import Sequence

from saywright.understanding.conditions.degrees import is_good
from saywright.understanding.conditions.what_is_left import is_amount
from saywright.understanding.facts import Fact
from saywright.understanding.subjects.noun_phrases import Selector
from saywright.understanding.walk import Walk

# A denial reaches over these to the state behind them; over any other word it does not.
_BETWEEN = frozenset(
    ["a", "an", "any", "single", "even", "got", "have", "has", "had", "been", "be", "seen", "see", "find",
     "found", "feel", "felt", "show", "showing", "sign", "signs", "trace", "traces", "hint", "speck", "of"]
)  # fmt: skip
_OF_NO = frozenset(
    ["real", "proper", "actual", "deep", "serious", "major", "obvious", "visible", "noticeable", "sign",
     "signs", "trace", "of", "more"]
)  # fmt: skip
_FAR = frozenset({"not", "never", "nor", "without"})
_TURNED_ROUND = frozenset({"is", "are", "was", "were", "it", "they", "that"})  # "nor is it worn"
_NEAR = frozenset({"no", "nor"})  # "no" before an article only interrupts: "no, a crack"
_ENDED = frozenset({"quit", "quits", "stopped"})
_HARDLY = frozenset({"barely", "hardly", "scarcely", "little", "no", "not", "much", "nothing"})
_HARDLY_REACH = 4  # tokens of "barely more than a"


def is_denied_before(texts: Sequence[str], start: int) -> bool:
    """True where the state whose words begin at token *start* is denied by a word before it."""
    if start and texts[start - 1] in _ENDED and texts[start].endswith("ing"):
        return True  # "till it quit dragging", "stopped leaking"
    at = start - 1
    while at >= 0 and texts[at] in _OF_NO:
        at -= 1
    if at >= 0 and texts[at] in _NEAR:
        return True
    at = start - 1
    while at >= 0 and texts[at] in _TURNED_ROUND:
        at -= 1
    if at >= 0 and texts[at] == "nor":
        return True
    at = start - 1
    while at >= 0 and texts[at] in _BETWEEN:
        at -= 1
    return at >= 0 and texts[at] in _FAR


_FEW = frozenset({"neither", "none"})


def denied_few(texts: Sequence[str], start: int) -> Selector:
    """ "neither brush", "neither of them", "none of the bolts": how many are spoken of; "" where none is."""
    words = list(texts[max(0, start - 3) : start])
    if _FEW.isdisjoint(words):
        return ""
    few: tuple[tuple[str, Selector], ...] = (("neither", "both"), ("none", "all"))
    for word, selector in few:
        if word in words and {"of", "the", "these", "those"}.issuperset(words[words.index(word) + 1 :]):
            return selector
    return ""


def few_are(walk: Walk) -> bool:
    """ "Neither of the valves is sealing", "none of them good": of a good state too."""
    return walk.denied is not None and bool(denied_few(walk.texts, walk.denied.start))


def is_compared(texts: Sequence[str], start: int) -> bool:
    """ "more dirty than worn": what it is not; the state begins at *start*."""
    return texts[max(0, start - 1) : start] == ("than",) and not hardly_more(texts, start)


def hardly_more(texts: Sequence[str], start: int) -> bool:
    """ "it was barely more than finger tight": so it was, and no better."""
    before = texts[max(0, start - _HARDLY_REACH) : start]
    at = before.index("than") if "than" in before else 0
    return at > 1 and before[at - 1] in {"more", "better"} and before[at - 2] in _HARDLY


def goes_on_negated(walk: Walk, fact: Fact) -> bool:
    """ "no scoring, pitting or corrosion": the negation reaches over a bare list."""
    last = walk.last
    if last is None or last.kind != "finding" or not last.negated:
        return False
    if fact.degree or fact.phrase.aux:
        return False
    head = fact.phrase.head
    if head is not None and is_amount(walk.texts[head.start : head.end]):
        return False  # "not worn, plenty left on it"
    if fact.participle and not last.participle and "OR" not in walk.glue:
        return False  # "no dents and cracked"
    if "OR" not in walk.glue and is_good(walk, fact.phrase) and not is_good(walk, last.phrase):
        return False  # "not scored and nice and smooth"
    return bool(walk.glue & {"OR", "AND", "BREAK"}) and not walk.glue & {"AUX", "MARK", "BUT", "WORD"}


def denies_it(walk: Walk, index: int) -> bool:
    """True for "no screws" and "neither wiper"; a "no" before an article only interrupts."""
    before, phrase = walk.before(index), walk.phrases[index]
    if denied_few(walk.texts, walk.phrases[index].start):
        return True
    if before is None or before.kind != "aux" or "NEG" not in before.aux_tags or before.end != phrase.start:
        return False
    if phrase.head is not None and phrase.head.kind == "PRON":
        return False  # "trailing piston doesn't, it's seized"
    return not any("DET" in tag.tags for tag in phrase.lead)
