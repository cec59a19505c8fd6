"""A list of what to buy: "to order then, two seals a boot", and on the next line "oh and one top screw".

Its items are names, one behind the other, with or without "and". What opens it is an order word, or the list
told before. The list is taken out of the utterance: nothing else is said of its items.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from saywright.understanding.bench_words import NEUTRAL, PLAIN
from saywright.understanding.counting.counts import small_count
from saywright.understanding.doings.buying import (
    OWNER_WANTS,
    BuyList,
    at_place,
    by_alias,
    for_number,
    goes_on_buying,
    list_owner,
    on_it,
    on_side_of,
    past_size,
    past_tail,
)
from saywright.understanding.phrases import Phrase
from saywright.understanding.subjects.holders import of_holder
from saywright.understanding.subjects.noun_phrases import (
    Subject,
    subject_of_lead,
    subject_of_phrase,
)
from saywright.understanding.subjects.part_picks import all_have
from saywright.understanding.tokens import BREAK
from saywright.understanding.working import Working


def _words(text: str) -> frozenset[str]:
    return frozenset(text.split(" "))


_ORDER = _words("order ordering list buy needed required")
_WANT = _words("need want better") | OWNER_WANTS
_PUT = _words("stick put add chuck whack bung pop get have")
_SIGNS = _ORDER | _WANT
_BEGINS = _words("so right and then also oh i we to order buy")
_OPENERS = (
    _BEGINS
    | _SIGNS
    | _PUT
    | _words(
        "okay well now yes yeah uh um plus that it this is are was the a an my will would has got must "
        "should going gonna go for of on be let me write you us up just please parts shopping far here "
        "there with by in all things bits make actually no sorry shall had"
    )
) | {BREAK}
_FIRST_PERSON = _words(
    "so right okay well then now also and oh plus what is i we you will would shall had to just a an"
) | {BREAK}
_GOES_ON = _words("and also plus oh yes yeah then too uh um well right so i a an the") | {BREAK}
_JOINS = _words("and also plus oh")
_AMOUNTS = _words(
    "set sets pair pairs length lengths full whole kit box bag foot meter metre of some few couple more "
    "extra won to for too as well also please and all plus then uh um er oh new spare"
) | {BREAK}
_TAIL = _words("too well also please")
_CHANGES = frozenset({("make", "it"), ("make", "that")})
_DENIED = _words("not no without never nothing")
_NOT_SO = _words("if unless shall should whether")
_SUPPOSED = _words("QUESTION WHATIF HYPO OTHER_JOB PRICE LIMIT")
_TELLS = _words("finding off on measure char")
_SPEAKS = _words("i we he she it that because cos when if while for but or what who no")
_FOR = frozenset({("for", "the"), ("four", "the"), ("for", "a"), ("on", "the")})
_IN_KIT = _words("so that is with which it has got") | {BREAK}
_KIT_REACH = 8  # phrases from what a kit is for to the first thing in it
_ONE_OF = frozenset((word, "one") for word in _OPENERS)
_OF_THOSE = frozenset({("one", "of", "those"), ("one", "of", "these")})


def told_list(found: tuple[Phrase, ...], work: Working) -> tuple[tuple[Phrase, ...], BuyList | None]:
    """The phrases without the list in them, and the list; None where no such list is told."""
    on = work.stage != "as_left" and goes_on_buying(work)
    if not on and _SIGNS.isdisjoint(work.texts):
        return found, None
    for at, phrase in enumerate(found):
        if phrase.kind != "subject" or not (phrase.meaning.parts or phrase.meaning.aliases):
            continue
        begin = _begin(found, at, work.texts)
        opener = work.texts[begin : phrase.start]
        if (begin != 0 and _SIGNS.isdisjoint(opener)) or _is_thought(found, begin, work.texts):
            continue
        row = _Row(found, work)
        row.read(at)
        owner = list_owner(found, begin, opener) if len(row.items) > 1 else None
        if not row.items or not (owner or _opens(opener, begin, row.items, work, on=on)):
            continue
        row.items = [on_side_of(owner, item, work) for item in row.items] if owner else row.items
        rest = row.ends[-1]
        end = past_tail(work.texts, found[rest - 1].end)
        if on and _SIGNS.isdisjoint(opener) and not _closed(found[rest:], end, work.texts):
            continue
        made = BuyList(row.items, begin, end, row.strangers, changed=opener[-2:] in _CHANGES)
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
        begin = next((i for i in range(begin, end) if texts[i] in _BEGINS | OWNER_WANTS), end)
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


class _Row:
    """The items of a list, read phrase by phrase."""

    def __init__(self, found: Sequence[Phrase], work: Working) -> None:
        self.found = found
        self.work = work
        self.items: list[Subject] = []
        self.ends: list[int] = []  # indices of the phrase behind each item
        self.strangers: list[tuple[int, int]] = []  # tokens of nouns that the sheet does not know

    def read(self, at: int) -> None:
        """Read the items from phrase *at* on."""
        index = at + self._kit(at)
        while index < len(self.found) and self._takes(index, self.found[index]):
            index += 1
        end = self.found[self.ends[-1] - 1].end if self.items else 0
        sized = self.items and past_size(self.work.texts, end) != end
        if self.items and not sized and _tells_of_last(self.found, self.ends[-1]):
            self.items.pop()
            self.ends.pop()

    def _kit(self, at: int) -> int:
        """Phrases of "a carb kit, so that's": what it is for is not bought, what is in it follows."""
        named, *rest = self.found[at : at + _KIT_REACH]
        if not rest or self.work.texts[named.end : rest[0].end] not in {("kit",), ("kits",)}:
            return 0
        words = [set(self.work.texts[p.start : p.end]) for p in rest[1:]]
        told = next((n for n, some in enumerate(words) if not some <= _IN_KIT), len(words))
        first = rest[1 + told].meaning if told and told < len(words) else None
        if first is None or not (first.parts or first.aliases):
            return 0
        self.strangers.append((named.start, rest[told].end))
        return 2 + told

    def _takes(self, index: int, phrase: Phrase) -> bool:
        texts = self.work.texts
        behind_for = texts[phrase.start - 2 : phrase.start] in _FOR and bool(self.items)
        if phrase.kind == "subject" and (phrase.meaning.parts or phrase.meaning.aliases):
            self._put(index, phrase, holder=behind_for)
        elif self._is_stranger(index, phrase):
            self.strangers.append((phrase.start, phrase.end))
        elif phrase.kind == "lead" and self.items and (said := subject_of_lead(phrase)) is not None:
            self._place(index, said.which, said)
        elif for_number(self.items, texts, phrase.start) and (number := small_count(phrase.measure)):
            self._number(index, number, phrase.end)
        elif phrase.kind == "word" and behind_for:
            self._place(index, texts[phrase.start : phrase.end], None)
        elif (short := by_alias(phrase, self.work)) is not None:
            self.items.append(short)
            self.ends.append(index + 1)
        else:
            return _between(phrase, texts) or on_it(phrase, texts)
        return True

    def _put(self, index: int, phrase: Phrase, *, holder: bool) -> None:
        placed, named = _cut_place(phrase, self.work.texts)
        if placed is not None and self.items:
            self._place(index, placed.which, placed)
        said = subject_of_phrase(named)
        if holder:  # "both o-rings for the piston"
            self.items[-1] = of_holder(self.work.sheet, self.items[-1], said) or self.items[-1]
            self.ends[-1] = index + 1
        else:
            self.items.append(_so_placed_too(self.items, said, named, self.work))
            self.ends.append(index + 1)

    def _place(self, index: int, which: tuple[str, ...], said: Subject | None) -> None:
        held = self.items[-1]
        self.items[-1] = at_place(held, which, said, self.work)
        self.ends[-1] = index + 1
        before, first = self.items[-2] if len(self.items) > 1 else None, self.work.texts[held.start]
        bare = not held.count and first not in {"a", "an", "the", "both"}
        if before is not None and bare and self.work.texts[before.end : held.start] == ("and",):
            self.items[-2] = at_place(before, which, None, self.work)  # "a seal and boot for the left"

    def _number(self, index: int, number: int, end: int) -> None:
        """ "centre bolt for three as well", "for one and two"."""
        parts = [p for p in map(self.work.sheet.get, self.items[-1].components) if p is not None]
        counted = any(not p.positions and p.count >= number for p in parts)
        if self.work.texts[end - 2] == "and":
            self.items.append(self.items[-1])
            self.ends.append(index + 1)
        which = (str(number),) if counted else self.items[-1].which
        self.items[-1] = replace(self.items[-1], which=which, end=end)
        self.ends[-1] = index + 1

    def _is_stranger(self, index: int, phrase: Phrase) -> bool:
        """ "a left table", "pad pin clip": a noun that the sheet does not know, among those that it knows."""
        if not self.items:
            return False
        texts, after = self.work.texts, self.found[index + 1 : index + 2]
        if phrase.kind == "lead":
            noun = after and after[0].start == phrase.end and _is_noun(after[0], texts)
            return bool(noun) and texts[phrase.start] in {"a", "an", "two", "three", "four"}
        goes_on = not after or after[0].kind in {"subject", "lead", "break"} or "AND" in after[0].tags
        return _is_noun(phrase, texts) and goes_on and by_alias(phrase, self.work) is None


def _is_noun(phrase: Phrase, texts: Sequence[str]) -> bool:
    word = texts[phrase.start]
    known = phrase.kind != "word" or phrase.tags or phrase.end - phrase.start > 1 or not word.isalpha()
    return not (known or word in _AMOUNTS | _SPEAKS or word in NEUTRAL | PLAIN)


def _so_placed_too(items: Sequence[Subject], said: Subject, phrase: Phrase, work: Working) -> Subject:
    """ "a rear plunger and barrel", "piston three and its sleeve": one place for both, where it has it."""
    plain = not phrase.lead or work.texts[phrase.lead[0].start] in {"its", "their"}
    held = items[-1] if items and plain and not said.many else None
    if held is None or len(held.which) != 1 or work.texts[held.end : phrase.start] != ("and",):
        return said
    has_it = all_have(work.sheet, said.components, held.which)
    return replace(said, which=held.which) if has_it else said


def _between(phrase: Phrase, texts: Sequence[str]) -> bool:
    """True for what stands between the items: links, amounts, "to order" at the end."""
    words = texts[phrase.start : phrase.end]
    if words in _OF_THOSE:
        return True
    if phrase.kind in {"break", "lead"} or set(words) <= _AMOUNTS or words in {("to", "order"), ("one",)}:
        return True
    return words in _FOR or (phrase.kind in {"link", "measure"} and "but" not in words)


def _tells_of_last(found: Sequence[Phrase], at: int) -> bool:
    """ "order a seal, the hose is torn": something else is said of the last one named."""
    after = found[at] if at < len(found) else None
    return after is not None and (after.kind in _TELLS or "COP" in after.aux_tags)


def _cut_place(phrase: Phrase, texts: Sequence[str]) -> tuple[Subject | None, Phrase]:
    """ "a float for the right a slide": the place of the item before, and the next item."""
    for at, tag in enumerate(phrase.lead[1:], 1):
        if texts[tag.start] in {"a", "an", "both", "the"} and texts[tag.start - 1] != "all":
            first, rest = phrase.lead[:at], phrase.lead[at:]
            place = subject_of_lead(Phrase("lead", phrase.start, first[-1].end, None, first))
            return place, replace(phrase, start=rest[0].start, lead=rest)
    return None, phrase


def _closed(rest: Sequence[Phrase], end: int, texts: Sequence[str]) -> bool:
    """True where nothing more is said of the items: the end, or a clause of its own."""
    behind = next((p for p in rest if p.start >= end), None)
    return behind is None or behind.kind == "break" or texts[behind.start] in _SPEAKS
