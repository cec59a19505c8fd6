"""Something new is needed, or not: "needs a new gasket", "no need for a new seal"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from saywright.understanding.doings.new_alone import new_alone
from saywright.understanding.facts import Fact
from saywright.understanding.numbers.words import CARDINALS
from saywright.understanding.subjects.attach_facts import add_fact
from saywright.understanding.subjects.noun_phrases import Subject
from saywright.understanding.tokens import BREAK
from saywright.understanding.walk import Walk

# "so that's a new sprocket": a decision, where the old one was found bad.
_THAT_IS = frozenset({("that", "is"), ("it", "is")})
_SO_THEY_ARE = frozenset({("so", "those", "are"), ("so", "they", "are"), ("so", "these", "are")})
_WANTING = frozenset({"need", "needs", "want", "wants", "with", "use"})  # "could do with a", "could use a"
_GOING = frozenset(
    {("going", "on"), ("going", "in"), ("in",), ("on",), ("in", "now"), ("on", "now"), ("fitted",)}
)
_SPEAKERS = frozenset({"i", "we"})
_SPEAKER_REACH = 4  # tokens from who decides to what is fitted
_BOTHERS = frozenset({("bother", "with"), ("bothering", "with")})
_NO_NEED = frozenset(
    {("no", "need", "for"), ("no", "need", "of"), ("do", "not", "need"), ("does", "not", "need")}
)


def add_need(walk: Walk, index: int, subject: Subject) -> None:
    """The need of the new *subject* at phrase *index*, or that there is none."""
    phrase = walk.phrases[index]
    need = Fact("need_new", phrase, walk.segment, start=phrase.start, end=phrase.end)
    need.aux = frozenset(walk.glue & {"DECLINE"}) if not _wanted_apart(walk, index) else frozenset()
    need.if_bad = new_alone(walk, index)
    if _not_bothered(walk, phrase.start):
        need.aux = frozenset({"DECLINE"})
    add_fact(walk, need, index, prefer_right=False)
    if need.aux:  # "no need for a new seal, it's dry": the one that is there
        walk.hold([replace(subject, age=None)], used=True)


def _wanted_apart(walk: Walk, index: int) -> bool:
    """ "No we cannot, we want a new one": what is denied ended before the need."""
    before, start = walk.before(index), walk.phrases[index].start
    if (
        before is None
        or before.kind != "aux"
        or "NEED" not in before.aux_tags
        or BREAK not in walk.texts[:start]
    ):
        return False
    apart = max(at for at in range(start) if walk.texts[at] == BREAK)
    return apart < before.start and {"no", "not", "never"}.isdisjoint(walk.texts[apart:start])


def put_need(walk: Walk, index: int) -> bool:
    """ "a new feed dog's needed": the need comes last; False where it is no need of something new."""
    phrase, after = walk.phrases[index], walk.after(index)
    wanted = walk.texts[phrase.end - 1] in {"needed", "required", "wanted"}
    if not wanted or not walk.current or walk.used or walk.current[-1].age != "new":
        return False
    if after is not None and after.kind not in {"break", "link", "mark", "word"}:
        return False
    need = Fact("need_new", phrase, walk.segment, start=phrase.start, end=phrase.end)
    if "not" in walk.texts[phrase.start : phrase.end]:  # "new one not needed"
        need.aux = frozenset({"DECLINE"})
    add_fact(walk, need, index, prefer_right=False)
    return True


def wish_for_new(walk: Walk) -> None:
    """ "It's cracked, I'd fit a new one": what is needed, not what was fitted."""
    for fact in walk.out.facts:
        would = fact.kind == "on" and "would" in walk.texts[fact.phrase.start : fact.phrase.end]
        if would and fact.subjects and all(s.age == "new" for s in fact.subjects):
            fact.kind, fact.aux = "need_new", frozenset()


def wants_one(walk: Walk, index: int) -> bool:
    """ "that'll want a float": a part that is wanted is a new one."""
    before, start = walk.before(index), walk.phrases[index].start
    if _decided(walk, index):
        return True
    if (
        before is None
        or before.kind != "aux"
        or before.end < start - 1
        or before.aux_tags & {"DECLINE", "NEG"}
    ):
        return False
    words = walk.texts[before.start : start + 1]
    ours = not {"i", "we", "you"}.isdisjoint(words)  # "I need a needle to clear the jet"
    ends = walk.after(index) is None or walk.phrases[index + 1].kind in {"break", "link", "mark"}
    some = not {"a", "an", *CARDINALS}.isdisjoint(words)  # "bottom end wants two springs"
    return ends and not ours and some and not _WANTING.isdisjoint(words)


def _decided(walk: Walk, index: int) -> bool:
    """ "so a piston for this one as well": what has a fault is renewed; settled where it has one."""
    start, after = walk.phrases[index].start, walk.after(index)
    ends = (
        after is None or after.kind == "break" or "FILLER" in after.tags or walk.texts[after.start] == "for"
    )
    return ends and walk.texts[start - 1 : start + 1] in {("so", "a"), ("so", "an")} and start > 0


def _not_bothered(walk: Walk, start: int) -> bool:
    """ "I wouldn't bother with a new regulator"."""
    return walk.texts[start - 2 : start] in _BOTHERS and not {"not", "never"}.isdisjoint(walk.texts[:start])


def needed(walk: Walk, index: int) -> bool:
    """ "needs a new gasket": what is wanted is named behind the need."""
    before = walk.before(index)
    start = walk.phrases[index].start
    if new_alone(walk, index) or _not_bothered(walk, start):
        return True
    if before is not None and before.kind == "word" and walk.texts[start - 1] == "so":
        return not _went_on(
            walk.texts[walk.phrases[index].end :]
        )  # "three of them pitted so all eighteen new"
    words = walk.texts[max(0, start - 3) : start]
    words = words[:-1] if words[-1:] in {("me",), ("us",)} else words  # "get me another one"
    if words[-1:] == ("get",) and "could" not in words and not walk.glue & {"NEG", "DECLINE"}:
        return True  # "we'll get a new one"
    if before is None or before.kind != "aux":
        return False
    if walk.texts[max(0, start - 3) : start] in _SO_THEY_ARE:
        return True
    helping = walk.texts[before.start : before.end]
    helping = helping[:-1] if helping[-1:] in {("a",), ("an",)} else helping  # "we do not need a new one"
    if walk.texts[max(0, start - 2) : start] in _THAT_IS or helping in _NO_NEED:
        return True
    return bool(before.aux_tags & {"NEED"}) and not before.aux_tags & {"DECLINE", "NEG"}


def _went_on(behind: Sequence[str]) -> bool:
    """ "So a pair of new ones is in", "so a new hose has gone on", "so new ones going on": it was done."""
    if tuple(behind[:1]) in {("has",), ("have",), ("went",)} or tuple(behind[:2]) in _GOING:
        return True
    return (
        tuple(behind[:1]) in {("is",), ("are",)}
        and not {"in", "fitted"}.isdisjoint(behind[1:2])
        and tuple(behind[2:3]) not in {("order",), ("stock",), ("hand",)}
    )


def is_to_be_fitted(fact: Fact, texts: Sequence[str]) -> bool:
    """ "I'd rather fit a new one", "we'll put a new seal in": a new one is decided on, and not there yet."""
    said = fact.subjects[-1] if fact.subjects else None
    behind = texts[fact.phrase.end : fact.phrase.end + 1]
    if fact.kind != "on" or said is None or said.age != "new" or not behind:
        return False
    if not fact.aux & {"NEED", "FUTURE"} or fact.aux & {"NEG", "DECLINE"}:
        return False
    speaks = not _SPEAKERS.isdisjoint(texts[max(0, fact.phrase.start - _SPEAKER_REACH) : fact.phrase.end])
    return speaks and (behind[0] in {"a", "an", "new"} or behind[0] in CARDINALS)
