"""The items of a list of what to buy: names, one behind the other, each with its place and its count."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from saywright.understanding.bench_words import NEUTRAL, PLAIN
from saywright.understanding.counting.counts import small_count
from saywright.understanding.doings.bad_ones import found_on
from saywright.understanding.doings.buying import at_place, by_alias, for_number, on_it, past_size
from saywright.understanding.doings.list_tails import drop_told, tells_of_last
from saywright.understanding.phrases import Phrase
from saywright.understanding.subjects.holders import of_holder
from saywright.understanding.subjects.noun_phrases import (
    Subject,
    subject_of_lead,
    subject_of_phrase,
)
from saywright.understanding.subjects.part_picks import all_have
from saywright.understanding.tokens import BREAK, words_of
from saywright.understanding.working import Working

SPEAKS = words_of(
    "i we he she it that because cos cause when if while for but or what who no"
)  # a clause of its own
_AMOUNTS = words_of(
    "set sets pair pairs length lengths full whole kit box bag foot meter metre of some few couple more "
    "extra won to for too as well also please and all plus then uh um er oh new spare"
) | {BREAK}
_FOR = frozenset({("for", "the"), ("four", "the"), ("for", "a"), ("on", "the")})
_IN_KIT = words_of("so that is with which it has got") | {BREAK}
_KIT_REACH = 8  # phrases from what a kit is for to the first thing in it
_THAT_IS = [("that",), ("is",)]
_THAT_SIDE = ("that", "side")
_HOW_MANY = frozenset({"ALL", "BOTH"})
_ENDS = frozenset({("ends",), ("sides",), ("corners",), ("end",), ("side",)})  # "pads for both ends"
_OF_THOSE = frozenset({("one", "of", "those"), ("one", "of", "these")})


class Row:
    """The items of a list, read phrase by phrase."""

    def __init__(self, found: Sequence[Phrase], work: Working) -> None:
        self.found = found
        self.work = work
        self.items: list[Subject] = []
        self.ends: list[int] = []  # indices of the phrase behind each item
        self.closed = False  # by what is said of its last one, which is not bought
        self.strangers: list[tuple[int, int]] = []  # tokens of nouns that the sheet does not know

    def read(self, at: int) -> None:
        """Read the items from phrase *at* on."""
        index = at + self._kit(at)
        while index < len(self.found) and self._takes(index, self.found[index]):
            index += 1
        end = self.found[self.ends[-1] - 1].end if self.items else 0
        sized = self.items and past_size(self.work.texts, end) != end
        if self.items and not sized and tells_of_last(self.found, self.ends[-1], self.work.texts):
            drop_told(self.items, self.ends, self.work.texts)
        elif self.items and not sized and self._is_object_of_other(self.ends[-1]):
            self._drop_objects()
            self.closed = True

    def _is_object_of_other(self, at: int) -> bool:
        """ "order a spring, the valve I'll polish", "and the seals I've got": the last is not bought."""
        behind = self.found[at : at + 3]
        if not behind or self.work.texts[behind[0].start] not in {"i", "we"}:
            return False
        doing = next((p for p in behind if p.kind == "doing"), None)
        if doing is None:
            got = self.work.texts[behind[0].start + 1 : behind[0].start + 3]
            return got == ("have", "got") and behind[-1].end == len(self.work.texts)
        known = self.work.sheet.get_action(doing.meaning.acts[0].id)
        bare = all(p.kind in {"word", "aux", "doing"} for p in behind[: behind.index(doing)])
        return bare and known is not None and not known.order and doing.end == len(self.work.texts)

    def _drop_objects(self) -> None:
        """Without the last item, and those joined to it as bare as it is: "key and nut we reuse"."""
        while self.items:
            last = self.items.pop()
            self.ends.pop()
            before = self.items[-1] if self.items else None
            joined = before is not None and self.work.texts[before.end : last.start] == ("and",)
            if (
                not joined
                or before is None
                or self.work.texts[before.start] in {"a", "an", "some"}
                or before.count
            ):
                return

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
        elif self.items and texts[phrase.start : phrase.start + 2] == _THAT_SIDE:
            self._place_there(index)
        elif texts[max(0, phrase.start - 1) : phrase.end] == _THAT_SIDE:
            return bool(self.items)
        elif self.items and (which := self._placed_by(index, phrase, behind_for=behind_for)):
            self._place(index, which, None)
        elif self.items and "ONE" in phrase.tags and (other := self._another(phrase)) is not None:
            self.items.append(other)
            self.ends.append(index + 1)
        elif self._is_stranger(index, phrase):
            self.strangers.append((phrase.start, phrase.end))
        elif phrase.kind == "lead" and self.items and (said := subject_of_lead(phrase)) is not None:
            self._place(index, said.which, said)
        elif for_number(self.items, texts, phrase.start) and (number := small_count(phrase.measure)):
            self._number(index, number, phrase.end)
        elif self._counted_behind(phrase):
            self.items[-1] = replace(self.items[-1], count=small_count(phrase.measure), end=phrase.end)
            self.ends[-1] = index + 1
        elif phrase.kind == "word" and behind_for:
            self._place(index, texts[phrase.start : phrase.end], None)
        elif (short := by_alias(phrase, self.work)) is not None:
            self.items.append(short)
            self.ends.append(index + 1)
        else:
            counts = (
                self._ends_place(index, phrase)
                or self._counts_last(index)
                or (index > 0 and self._counts_last(index - 1))
            )
            return counts or _between(phrase, texts) or on_it(phrase, texts)
        return True

    def _put(self, index: int, phrase: Phrase, *, holder: bool) -> None:
        placed, named = _cut_place(phrase, self.work.texts)
        if placed is None and holder and phrase.lead and self._is_own_place(phrase):
            first = Phrase("lead", phrase.start, phrase.lead[-1].end, None, phrase.lead)
            # "a piston for the trailing side, seals and boots for both"
            placed, named = subject_of_lead(first), replace(phrase, start=first.end, lead=())
        if placed is not None and self.items:
            self._place(index, placed.which, placed)
        if index > 1 and self._counts_last(index - 2):
            named = _uncounted(named)
        said = subject_of_phrase(named)
        if holder and placed is None:  # "both o-rings for the piston"
            self.items[-1] = of_holder(self.work.sheet, self.items[-1], said) or self.items[-1]
            self.ends[-1] = index + 1
        else:
            self.items.append(_so_placed_too(self.items, said, named, self.work))
            self.ends.append(index + 1)

    def _counts_last(self, index: int) -> bool:
        """ "a set of pads that's all four, seals and boots": how many pads those are, at phrase *index*."""
        words = [self.work.texts[p.start : p.end] for p in self.found[index : index + 2]]
        behind = self.found[index + 2] if index + 2 < len(self.found) else None
        if words != _THAT_IS or behind is None or not self.items:
            return False
        return any(tag.count is not None or tag.tags & _HOW_MANY for tag in behind.lead)

    def _ends_place(self, index: int, phrase: Phrase) -> bool:
        """ "a plate for the right hand end": the noun of its place."""
        if not self.items or self.work.texts[phrase.start : phrase.end] not in _ENDS:
            return False
        self.ends[-1] = index + 1
        return True

    def _is_own_place(self, phrase: Phrase) -> bool:
        """True where the words before the noun tell a place of the item before, and the noun is several."""
        which = tuple(w for tag in phrase.lead for w in tag.meaning.positions)
        only = all(tag.meaning.positions or tag.tags & {"DET"} for tag in phrase.lead)
        return only and phrase.meaning.many and all_have(self.work.sheet, self.items[-1].components, which)

    def _counted_behind(self, phrase: Phrase) -> bool:
        """ "split pins two, caps one": how many stands right behind the part."""
        last = self.items[-1] if self.items else None
        bare = last is not None and last.count is None and not last.selector and last.end == phrase.start
        plain = bare and phrase.measure is not None and phrase.measure.unit is None
        return plain and last is not None and (last.many or small_count(phrase.measure) == 1)

    def _placed_by(self, index: int, phrase: Phrase, *, behind_for: bool) -> tuple[str, ...]:
        """ "a jet for the front one": where; "one cable passenger one hose driver": one is how many hoses."""
        if behind_for and "ONE" in phrase.tags:
            bad = found_on(self.items[-1], phrase, self.work)
            return (bad,) if bad else subject_of_phrase(phrase).which
        after = self.found[index + 1] if index + 1 < len(self.found) else None
        bare = after is not None and after.kind == "subject" and after.start == phrase.end and not after.lead
        one = phrase.kind == "subject" and phrase.head is not None and phrase.head.kind == "ONE"
        placed = subject_of_phrase(phrase).which if bare and one else ()
        return placed if all_have(self.work.sheet, self.items[-1].components, placed) else ()

    def _another(self, phrase: Phrase) -> Subject | None:
        """ "the upper piston and the rear one": one more of the last, at another place."""
        last, said = self.items[-1], subject_of_phrase(phrase)
        more = said.which != last.which and self.work.texts[last.end : phrase.start] == ("and",)
        if not more or not said.which or not all_have(self.work.sheet, last.components, said.which):
            return None
        return replace(said, components=last.components, pronoun=False)

    def _place(self, index: int, which: tuple[str, ...], said: Subject | None) -> None:
        held = self.items[-1]
        self.items[-1] = at_place(held, which, said, self.work)
        self.ends[-1] = index + 1
        before, first = self.items[-2] if len(self.items) > 1 else None, self.work.texts[held.start]
        bare = not held.count and first not in {"a", "an", "the", "both"}
        if before is not None and bare and self.work.texts[before.end : held.start] == ("and",):
            shared = said if said is not None and said.selector and not which else None
            self.items[-2] = at_place(before, which, shared, self.work)  # "a seal and boot for the left"

    def _place_there(self, index: int) -> None:
        """ "a piston for the rear and a seal and a boot that side": all behind the one with a side."""
        placed = next((n for n in range(len(self.items) - 1, -1, -1) if self.items[n].which), None)
        if placed is None:
            return
        for n in range(placed + 1, len(self.items)):
            self.items[n] = at_place(self.items[n], self.items[placed].which, None, self.work)
        self.ends[-1] = index + 2

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
    return not (known or word in _AMOUNTS | SPEAKS or word in NEUTRAL | PLAIN)


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
    return words in _FOR or words in _ENDS or (phrase.kind in {"link", "measure"} and "but" not in words)


def _cut_place(phrase: Phrase, texts: Sequence[str]) -> tuple[Subject | None, Phrase]:
    """ "a float for the right a slide": the place of the item before, and the next item."""
    for at, tag in enumerate(phrase.lead[1:], 1):
        if texts[tag.start] in {"a", "an", "both", "the"} and texts[tag.start - 1] != "all":
            first, rest = phrase.lead[:at], phrase.lead[at:]
            place = subject_of_lead(Phrase("lead", phrase.start, first[-1].end, None, first))
            return place, replace(phrase, start=rest[0].start, lead=rest)
    return None, phrase


def _uncounted(phrase: Phrase) -> Phrase:
    """The next item without how many there are of the one before."""
    rest = tuple(tag for tag in phrase.lead if tag.count is None and not tag.tags & _HOW_MANY)
    head = phrase.head.start if phrase.head is not None else phrase.start
    return replace(phrase, start=rest[0].start if rest else head, lead=rest)
