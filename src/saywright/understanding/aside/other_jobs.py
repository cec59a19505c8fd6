"""What was on another bench: "the other carb had a two sixty in it"; whose or which one it is: "bay nine"."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from saywright.understanding.bench_words import ELSEWHERE, NO_OTHER_THING, ON_THE_SPEAKER, READ_AT
from saywright.understanding.facts import Fact
from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.phrases import Phrase
from saywright.understanding.tokens import BREAK
from saywright.understanding.walk import Walk

_DONE: Final = frozenset({"off", "on", "doing"})
_OWNERS: Final = frozenset({"my", "your", "his", "her", "our", "their"})
_THEN: Final = frozenset({"had", "was", "were", "did", "ran", "used", "came", "took"})
_IN: Final = frozenset({"in", "on", "of", "at", "from"})
_ONES: Final = frozenset({("one",), ("ones",)})
_FROM_A: Final = frozenset({"off", "from"})
_YEARS: Final = frozenset(
    {"fifty", "sixty", "seventy", "eighty", "ninety", "nineteen", "twenty", "thirty", "forty"}
)
_TELLS: Final = frozenset({"is", "are", "was", "were", "has", "reads", "and", "with", "at", BREAK})
_SAYS_MORE: Final = _TELLS | CLASSES.keys()  # before "off a": more than what is from it
_ARTICLES: Final = frozenset({"a", "an"})
_IN_THE_BIGGER: Final = (
    frozenset({"in", "on", "for"}),
    frozenset({"the", "their"}),
    frozenset({"bigger", "smaller", "larger", "older", "newer", "earlier", "later", "cheaper", "dearer"}),
)
_FEWEST: Final = 2  # tokens before a number that tells a machine
_OPENS: Final = 4  # tokens of what is from it
_REACH: Final = 12  # tokens from "I had" to "in the last one"


def is_one_called(fact: Fact, texts: tuple[str, ...]) -> bool:
    """ "no, number eleven's", "it's the two tonne one": which one it is, and nothing read."""
    start, end = fact.phrase.start, fact.phrase.end
    pointed = {texts[max(0, start - 1) : start], texts[max(0, start - 3) : start - 2]}
    if not READ_AT.isdisjoint(texts[end : end + 1]):
        return False  # "the inlet valves eleven point oh for one"
    if ("the",) in pointed and (texts[end + 1 : end + 2] in _ONES or texts[start:end] in _ONES):
        return not fact.characteristics
    return texts[max(0, start - 1) : start] == ("number",) and texts[end:] == ("is",)


def is_from_number(fact: Fact, texts: tuple[str, ...]) -> bool:
    """ "the old pump from number nine": a house, a bay, a boat."""
    start = fact.phrase.start
    before = texts[max(0, start - 2) : start]
    return before[1:] == ("number",) and before[0] in _IN and not fact.characteristics


def is_of_machine(fact: Fact, texts: tuple[str, ...]) -> bool:
    """ "front brake off a sixty eight triple, eight inch": from which machine it is, and how big that is.

    Such a number opens what is told; all that follows up to a verb or an "and" describes the machine.
    """
    start = fact.phrase.start
    if fact.characteristics or start < _FEWEST or _FROM_A.isdisjoint(texts[:start]):
        return False
    at = next((i for i in range(1, start) if texts[i] in _FROM_A and texts[i + 1] in {"a", "an"}), 0)
    year = texts[at + 2 : at + 4] if 0 < at <= _OPENS else ()
    if len(year) < 2 or year[0] not in _YEARS or year[1] not in CLASSES:
        return False
    return _SAYS_MORE.isdisjoint(texts[:at]) and _TELLS.isdisjoint(texts[at:start])


def is_in_another(fact: Fact, texts: tuple[str, ...]) -> bool:
    """ "there's a ninety five in the bigger set": what another machine of the kind has."""
    start, end = fact.phrase.start, fact.phrase.end
    article = texts[start] in _ARTICLES or texts[max(0, start - 1) : start] in {("a",), ("an",)}
    behind = texts[end : end + 4]
    if not article or len(behind) <= len(_IN_THE_BIGGER) or behind[3] in {"one", "ones"}:
        return False
    return all(word in said for word, said in zip(behind, _IN_THE_BIGGER, strict=False))


def other_one(walk: Walk, index: int) -> bool:
    """ "the other carb had …": of a part that is fitted once there is no other one here."""
    phrase = walk.phrases[index]
    if "OTHER" not in phrase.lead_tags or len(phrase.meaning.parts) != 1:
        return False
    return _single(walk, phrase.meaning.parts) and not _THEN.isdisjoint(
        walk.texts[phrase.end : phrase.end + 2]
    )


def in_the_last_one(walk: Walk, index: int) -> bool:
    """ "I had a two fifty main in the last one": the last carburetor, where one main jet is fitted."""
    phrase, before, fact = walk.phrases[index], walk.before(index), walk.last
    if not phrase.lead_tags & {"LAST", "OTHER"} or before is None or "PREP" not in before.tags:
        return False
    if fact is None or not fact.subjects:
        return False
    if fact.kind == "doing":
        return _done_to_the_last(walk, phrase, fact)
    earlier = walk.texts[max(0, phrase.start - _REACH) : phrase.start]
    if _THEN.isdisjoint(earlier) or fact.kind != "value":
        return False
    return all(_single(walk, s.components) for s in fact.subjects)


def _done_to_the_last(walk: Walk, phrase: Phrase, fact: Fact) -> bool:
    """ "swapped the washers on the last one": on another bench, where here are no places; else it asks."""
    one = walk.texts[phrase.start : phrase.end]
    done = fact.phrase.meaning.acts[0].form == "past" and not fact.aux & {"NEED", "DECLINE"}
    if one[-2:] != ("last", "one") or not done:
        return False
    parts = [walk.sheet.get(c) for s in fact.subjects for c in s.components]
    if not parts:
        return False
    if not any(p is not None and p.positions for p in parts):
        return True
    fact.subjects = [replace(s, unclear="the last one") for s in fact.subjects]
    return False


def _single(walk: Walk, components: tuple[str, ...]) -> bool:
    """True where each of *components* is fitted once."""
    parts = [walk.sheet.get(c) for c in components]
    return bool(parts) and all(p is not None and p.count == 1 and not p.positions for p in parts)


def is_ordered(fact: Fact, texts: tuple[str, ...]) -> bool:
    """ "I'll order a one twelve": the size of one that is not here yet."""
    start = fact.phrase.start
    return not fact.characteristics and texts[max(0, start - 2) : start] in {("order", "a"), ("order", "an")}


def is_own_thing(walk: Walk, index: int) -> bool:
    """ "my hands": not a part of the job."""
    after, said = walk.after(index), {walk.texts[tag.start] for tag in walk.phrases[index].lead}
    mine = bool(said & (_OWNERS if not walk.current else _OWNERS - {"their"}))  # "tubes out of their wells"
    if walk.last and walk.last.kind in _DONE and "WITH" in walk.glue:
        return False  # "pushed back in with my thumbs"
    told = after is not None and walk.texts[after.end : after.end + 1] in {("is",), ("are",)}
    if after is not None and walk.texts[after.start] in ON_THE_SPEAKER and not told:
        return False  # "got my glasses on, it's a thirty eight"; not "my fingers are wet"
    if walk.texts[max(0, walk.phrases[index].start - 2)] in {"there", "here"}:
        return False  # "there's my puddle, the seal's leaking"
    if after is not None and walk.texts[after.start] in ELSEWHERE:
        mine = mine and all(fact.kind != "value" for fact in walk.out.facts)  # "… with my glasses on"
    return mine and after is not None and after.kind == "word" and not after.tags


def is_other_thing(walk: Walk, index: int) -> bool:
    """ "the last motor", "another engine": not what is on the bench."""
    phrase, after = walk.phrases[index], walk.after(index)
    points_away = phrase.lead_tags & {"LAST", "OTHER"} or any(
        walk.texts[tag.start] in {"another", "previous"} for tag in phrase.lead
    )
    if not points_away or after is None or after.kind != "word" or after.tags:
        return False
    several = walk.texts[phrase.end - 1] in {"others", "ones", "one"}  # "the others can stay"
    return walk.texts[after.start] not in NO_OTHER_THING and not several
