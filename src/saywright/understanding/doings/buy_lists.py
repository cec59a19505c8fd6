"""A list of what to buy: "to order then, two seals a boot", and on the next line "oh and one top screw".

Its items are names, one behind the other, with or without "and". What opens it is an order word, or the list
told before. The list is taken out of the utterance: nothing else is said of its items.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from saywright.understanding.doings.buying import (
    OWNER_WANTS,
    BuyList,
    goes_on_buying,
    list_owner,
    on_side_of,
    past_tail,
)
from saywright.understanding.doings.list_counts import counts_behind
from saywright.understanding.doings.list_heads import (
    side_before,
    side_for,
    told_before,
)
from saywright.understanding.doings.list_items import SPEAKS, Row
from saywright.understanding.phrases import Phrase
from saywright.understanding.subjects.ages_apart import sides_apart
from saywright.understanding.subjects.noun_phrases import (
    Subject,
)
from saywright.understanding.tokens import BREAK, words_of
from saywright.understanding.working import Working

_ORDER = words_of("order ordering list buy needed required")
_WANT = words_of("need want better") | OWNER_WANTS
_WRITES = words_of("pencil pen paper write jot")  # "get your pencil", "write this down"
_PUT = words_of("stick put add chuck whack bung pop get have")
_SIGNS = _ORDER | _WANT
_BEGINS = words_of("what parts spares shopping things bits so right and then also oh i we to order buy")
_OPENERS = (
    _BEGINS
    | _SIGNS
    | _PUT
    | _WRITES
    | words_of(
        "okay your grab fetch down out well now yes yeah uh um plus that it this is are was the a an my will "
        "would has got must should going gonna go for of on be let me write you us up just please far here "
        "there with by in all things bits what make actually no sorry shall had full fresh whole complete"
    )
) | {BREAK}
_WRITTEN = words_of(
    "so right okay now then well get grab fetch got have your a the this these that it down on and out"
)
_FIRST_PERSON = words_of(
    "so right okay well then now also and oh plus what is i we you will would shall had to just a an"
) | {BREAK}
_HEADS = words_of("parts spares shopping get")
_MAY_OPEN = _SIGNS | _HEADS | _WRITES
_ROUND_HEADS = (
    _HEADS | words_of("so right okay well now then oh um uh is are to far the my us things bits") | {BREAK}
)
_GOES_ON = words_of(
    "and also plus oh yes yeah then too uh um well right so i a an the just only for full fresh whole "
    "complete"
) | {BREAK}
_JOINS = words_of("and also plus oh")
_TAIL = words_of("too well also please")
_CLOSING = frozenset({("that", "is", "the", "order"), ("that", "is", "the", "list")})
_CHANGES = frozenset({("make", "it"), ("make", "that")})
_DENIED = words_of("not no without never nothing")
_NOT_SO = words_of("if unless shall should whether")
_SUPPOSED = words_of("QUESTION WHATIF HYPO OTHER_JOB PRICE LIMIT")
_ON_LIST = ("on", "the", "list")  # "so Danny, on the list two seals …"
_NEXT = ("next", *_ON_LIST)
_ONE_OF = frozenset((word, "one") for word in _OPENERS)


def told_list(found: tuple[Phrase, ...], work: Working) -> tuple[tuple[Phrase, ...], BuyList | None]:
    """The phrases without the list in them, and the list; None where no such list is told."""
    on = work.stage != "as_left" and (goes_on_buying(work) or told_before(work.before.recent[-1:]))
    if not on and _MAY_OPEN.isdisjoint(work.texts):
        return found, None
    found = counts_behind(tuple(sides_apart(found, work.texts)))
    side = side_before(found) if on else None
    for at, phrase in enumerate(found):
        if phrase.kind != "subject" or not (phrase.meaning.parts or phrase.meaning.aliases):
            continue
        begin = _begin(found, at, work.texts)
        opener = work.texts[begin : phrase.start]
        if side is not None and _GOES_ON.issuperset(work.texts[side.end : phrase.start]):
            begin, opener = 0, work.texts[side.end : phrase.start]
        called = work.texts[phrase.end : phrase.end + 2] == ("to", "order")
        if (begin != 0 and _SIGNS.isdisjoint(opener) and not called) or _is_thought(found, begin, work.texts):
            continue
        there, first = side_for(phrase, opener, work.texts)
        opener = opener[: opener.index("for")] if there is not None else opener
        row = Row([*found[:at], first, *found[at + 1 :]], work)
        row.read(at)
        if row.items and opener[:1] == ("so",) and work.texts[row.items[0].end :][:2] == ("to", "order"):
            opener = (*opener, "order")  # "so that's four shoes to order and one upper spring"
        several = len(row.items) > 1 or any((i.count or 0) > 1 or i.many for i in row.items)
        owner = list_owner(found, begin, opener) if several else None
        told = owner or _is_closed(row.items, begin, opener, work)
        if not row.items or not (told or _opens(opener, begin, row.items, work, on=on)):
            continue
        wants_there = owner is not None and not owner.components  # "the back wants pads and a hose"
        owner = owner or there or side
        row.items = [on_side_of(owner, item, work) for item in row.items] if owner else row.items
        rest = row.ends[-1]
        end = past_tail(work.texts, found[rest - 1].end)
        if _SIGNS.isdisjoint(opener) and not row.closed and not _closed(found[rest:], end, work.texts):
            continue
        made = BuyList(row.items, begin, end, row.strangers, changed=opener[-2:] in _CHANGES)
        made.renews = wants_there
        return tuple(p for p in found if p.end <= begin or p.start >= end), made
    return found, None


def _is_thought(found: Sequence[Phrase], begin: int, texts: Sequence[str]) -> bool:
    """ "if it's torn order a seal and a key", "put them in order", "shall I order …"."""
    asks = not _NOT_SO.isdisjoint(texts[max(0, begin - 2) : begin + 1])
    before = (p.tags for p in found if p.end <= begin and p.kind == "mark")
    return asks or any(tags & _SUPPOSED for tags in before) or ("in", "order") in pairwise(texts)


def _begin(found: Sequence[Phrase], at: int, texts: Sequence[str]) -> int:
    """The token where the words that may open a list before phrase *at* begin."""
    end = begin = found[at].start
    begin -= texts[max(0, begin - 2) : begin] in _ONE_OF  # "order one capsule, one diaphragm and …"
    while begin and texts[begin - 1] in _OPENERS:
        begin -= 1
    if begin > 2 and texts[begin - 3] == "for" and texts[begin - 2] in {"the", "my"}:
        begin -= 3  # "shopping list for the boss is"
        while begin and texts[begin - 1] in _OPENERS:
            begin -= 1
    if begin and texts[begin] != BREAK:
        on_list = (
            i for i in range(begin, end) if texts[i - 1 : i + 3] != _NEXT and texts[i : i + 3] == _ON_LIST
        )
        begins = (i for i in range(begin, end) if texts[i] in _BEGINS | OWNER_WANTS)
        begin = next(begins, next(on_list, end))
    return begin


def _opens(opener: Sequence[str], begin: int, items: Sequence[Subject], work: Working, *, on: bool) -> bool:
    """True where the words before the first item open a list, or go on with one."""
    before = work.texts[max(0, begin - 1) : begin]
    if before and before[0] in _DENIED:
        return False
    if not _ORDER.isdisjoint(opener):
        return len(items) > 1 or "list" in opener or "an" in opener
    if opener[-2:] in _CHANGES:
        return on and begin == 0
    if begin == 0 and not _WRITES.isdisjoint(opener) and set(opener) <= _WRITES | _WRITTEN:
        return work.stage != "as_left" and _is_told_of_any(items[0], work.texts)
    if begin == 0 and _is_head(opener):
        return len(items) > 1 and work.stage != "as_left"
    opener = opener[:-1] if opener[-2:] == ("the", "one") else opener  # "plus the one pin and its boot"
    put = opener[:1] and opener[0] in _PUT
    if on and begin == 0 and (set(opener) <= _GOES_ON or put):
        joined = not _JOINS.isdisjoint(opener) or _TAIL & set(work.texts[items[-1].end :][:2])
        first, last = items[0], items[-1]
        alone = work.texts[first.start] in {"a", "an"} or first.count is not None
        alone = alone or "for" in work.texts[first.start : last.end]
        return bool(put or joined or alone or (len(items) > 1 and work.texts[first.start] != "the"))
    asks = _FIRST_PERSON | _PUT if "better" in opener else _FIRST_PERSON
    if work.stage == "as_left" or not set(opener) - _WANT <= asks or _WANT.isdisjoint(opener):
        return False
    alone = len(items) == 1 and (items[0].age == "new" or work.texts[items[0].start] == "the")
    return (begin == 0 or before == (BREAK,)) and not alone


def _is_told_of_any(item: Subject, texts: Sequence[str]) -> bool:
    """ "a piston", "two seals", "a set of pads": none that was spoken of before."""
    return texts[item.start] in {"a", "an", "new"} or item.count is not None


def _is_head(opener: Sequence[str]) -> bool:
    """ "parts then", "shopping", "things to get": what a list is called, and no more."""
    said = _HEADS.intersection(opener)
    return (
        bool(said)
        and _ROUND_HEADS.issuperset(opener)
        and ("get" not in said or ("to", "get") in pairwise(opener))
    )


def _is_closed(items: Sequence[Subject], begin: int, opener: Sequence[str], work: Working) -> bool:
    """ "two shims, a key and a lip seal, that's the list": the words behind it say what it is."""
    if len(items) < 2 or begin or work.stage == "as_left":
        return False
    return tuple(work.texts[items[-1].end :]) in _CLOSING and _GOES_ON.issuperset(opener)


def _closed(rest: Sequence[Phrase], end: int, texts: Sequence[str]) -> bool:
    """True where nothing more is said of the items: the end, or a clause of its own."""
    behind = next((p for p in rest if p.start >= end), None)
    return behind is None or behind.kind == "break" or texts[behind.start] in SPEAKS
