"""Stations turned to, left or named by number: "now two so head off", "that's one done", "in number three".

A station is what the parts numbered alike belong to, a cylinder, a stage, an element. Its number is a place
as "left" is. Here it is told from a value and from a count, before the numbers are read: by "number" or a
noun such as "cylinder" before it, by words that lead to it at the head of a clause, by "in", "on" or "for".
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from saywright.understanding.bench_words import FINISHED, NEUTRAL, READ_AT
from saywright.understanding.discourse import Hand
from saywright.understanding.fixed import fixed
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.meanings import Meaning
from saywright.understanding.numbers.tokens import is_number_word
from saywright.understanding.numbers.words import CARDINALS, ORDINALS
from saywright.understanding.sides.one_along import along, goes_on
from saywright.understanding.sides.same_stations import is_same, is_so_too, it_is_there
from saywright.understanding.statements import Movement
from saywright.understanding.tokens import BREAK
from saywright.understanding.wordforms import is_past
from saywright.understanding.working import Working


@fixed
class Station:
    """A station said in tokens [start, end)."""

    start: int
    end: int
    order: int  # from one
    tag: str = (
        ""  # "TURNED": it is turned to, "PASSED": for its part in hand; "LEFT": done with; "": only named
    )
    more: tuple[int, ...] = ()  # those listed with it: "eleven point one for one and two"


_NONE: Mapping[int, Station] = {}
_ORDERS = {word: n for n, word in enumerate(CARDINALS, 1)} | {str(n): n for n in range(1, 9)}
_RANKS = {word: n for word, n in ORDINALS.items() if n <= len(CARDINALS)}
_COUNTED = frozenset(_ORDERS | _RANKS)
_NOUNS = frozenset({"cylinder", "unit", "stage", "element", "station", "pot", "bay", "leg", "section"})
_COMES = frozenset({"now", "next", "then"})
_ONTO = frozenset({"onto", "starting", "start", "begin", "beginning", "moving", "going", "build", "building"})
_LEADS = (
    _COMES
    | _ONTO
    | frozenset(
        ["right", "okay", "so", "and", "well", "on", "to", "over", "back", "up", "with", "at", "we", "will",
         "i", "us", "let", "move", "go", "this", "is", "here", "here's", "do", "take", "for", "the", "last"]
    )
)  # fmt: skip
_TAIL = frozenset({"so", "now", "then", "next", "first", BREAK})
_TOLD = {("that", "is"), ("this", "is")}
_PLACES = frozenset({"in", "on", "for", "of", "at", "to", "from", "off", "into"})
_IN_DECIMAL = frozenset({"point", "oh"})
_READ_ENDS = frozenset({"", BREAK, "and", "too", "now", "but"})
_UP_DOWN = frozenset({"up", "down"})  # "tweak two up": a station, where an act takes it
_BEHIND = frozenset(
    [BREAK, "so", "now", "then", "and", "but", "is", "has", "was", "as", "too", "first", "next", "also",
     "with"]
)  # fmt: skip
_NO_STATION = frozenset(
    {"part", "serial", "frame", "engine", "model", "job", "order", "tag", "size", "drawing"}
)
_ONES = frozenset({"next", "last", "other", "same", "new", "old", "second", "third"})  # "the next one"
_BEFORE_NAME = _TAIL | frozenset({"the", "a", "an", "its", "same", "new", "old", "and"})
_SAID = frozenset({"is", "was", "has", "will", "wants", "needs"})
_LONGEST_LEAD = 6  # tokens


def moved_last(work: Working) -> str | None:
    """What moved in the line before, with or without something else: the head of "head one's on"."""
    if not work.lexicon.stations:
        return None
    moved = (s.component for s in reversed(work.last_group()) if type(s) is Movement and s.which is not None)
    return next(moved, None)


def stations_in(texts: Sequence[str], lexicon: Lexicon, hand: Hand | None) -> Mapping[int, Station]:
    """The stations said in *texts*, by their first token; *hand* is what is in hand before."""
    if lexicon.stations < 2 or _COUNTED.isdisjoint(texts):
        return _NONE
    held = hand.side if hand is not None else None
    reader = _Reader(tuple(texts), lexicon, int(held) if held is not None and held.isdigit() else 0)
    reader.turned = hand is not None and hand.turned
    found = {one.start: one for one in reader.one_along()}
    behind = next(iter(found.values())).end if found else 0
    told = (at for at, text in enumerate(texts) if text in _COUNTED and at >= behind)
    return found | {one.start: one for at in told for one in reader.read(at)}


class _Reader:
    """Looks at the numbers of one utterance, left to right."""

    def __init__(self, texts: tuple[str, ...], lexicon: Lexicon, held: int) -> None:
        self.texts = texts
        self.lexicon = lexicon
        self.held = held  # the station in hand; 0 where there is none
        self.turned = False  # it was turned to, not only its part told of
        self.done = 0  # behind the last that was found

    def read(self, at: int) -> list[Station]:
        """The station whose number stands at *at*; [] where it is none."""
        another = self.texts[at] == "one" and at > 0 and self.texts[at - 1] in _ONES
        found = self._station(at) if not another else None
        if found is not None:
            self.done = found.end
            self.held = found.order if found.tag else self.held
        return [found] if found is not None else []

    def one_along(self) -> list[Station]:
        """ "next one along", "last one bowl off": turned to at the head, by where it stands in the row.

        Of a part told of at one station, the next of that part alone: "move along one and it's the same".
        """
        end, is_last = along(self.texts, self._is_noun)
        order = self.lexicon.stations if is_last else self.held + 1
        if not end or not 1 < order <= self.lexicon.stations:
            return []
        new_part = self._text(end) == "" or self._tells_part(end)
        if not new_part and not (self.held and goes_on(self.texts, end)):
            return []
        self.done, self.held = end, order
        return [Station(0, end, order, "TURNED" if new_part or self.turned else "PASSED")]

    def _station(self, at: int) -> Station | None:
        order = _ORDERS.get(self.texts[at]) or _RANKS[self.texts[at]]
        begin, named = self._begin(at)
        end = at + 1 + self._is_noun(at + 1)
        named = named or end > at + 1
        if (
            self._is_no_number(at, end)
            or order > self.lexicon.stations
            or begin < self.done
            or is_number_word(self.texts, end)
        ):
            return None
        lead = self._lead(begin)
        if self._text(end) == "is" and self._is_owner(end + 1):
            return Station(begin, end + 1, order)  # "three's screw came out": of that one
        if self._is_left(lead, begin, end, named=named):
            told = self.texts[max(0, begin - 2) : begin] in _TOLD
            return Station(begin - 2 * told, end + 1, order, "LEFT")
        if is_so_too(self.texts, begin) or it_is_there(self.texts, begin, end):
            behind, more = self._listed(end, order)
            return Station(begin, behind, order, more=more)
        if lead is not None and self._is_turned_to(lead, begin, end, order, named=named):
            return Station(lead, self._tail_end(end), order, "TURNED")
        raised = self._text(end) in _UP_DOWN and self._text(begin - 1) in self.lexicon.doings
        listed, more = self._listed(end, order) if self._is_read_at(begin) else (end, ())
        if raised or self._is_place(begin, listed, named=named) or is_same(self.texts, lead, begin, end):
            return Station(begin, listed, order, more=more)
        return None

    def _is_no_number(self, at: int, end: int) -> bool:
        """ "second" without its noun; "two point one", "two bar"."""
        alone = self.texts[at] in _RANKS and end == at + 1
        return alone or self._text(end) == "point" or self._text(end) in self.lexicon.units

    def _listed(self, end: int, order: int) -> tuple[int, tuple[int, ...]]:
        """ "… for one and two": behind those listed with the one before *end*, and which they are."""
        more: tuple[int, ...] = ()
        while (
            self._text(end) == "and" and order < _ORDERS.get(self._text(end + 1), 0) <= self.lexicon.stations
        ):
            behind = self._text(end + 2)
            if is_number_word(self.texts, end + 2) or behind == "point" or behind in self.lexicon.units:
                break
            order = _ORDERS[self._text(end + 1)]
            end, more = end + 2, (*more, order)
        return end, more

    def _is_read_at(self, begin: int) -> bool:
        """True where a value with a point stands before "on" or "for" and the number at *begin*."""
        return begin > 1 and self.texts[begin - 1] in READ_AT and self._ends_decimal(begin - 1)

    def _begin(self, at: int) -> tuple[int, bool]:
        """Where "number two" or "cylinder two" begins, and whether such a word stands there."""
        begin = at
        while begin > 0 and (self.texts[begin - 1] == "number" or self._is_noun(begin - 1)):
            begin -= 1
        if begin < at and begin > 0 and self.texts[begin - 1] in _NO_STATION:
            return at, False
        return begin, begin < at

    def _is_noun(self, at: int) -> bool:
        """True for a word that a station is called by and no part is."""
        word = self._text(at)
        return word in self.lexicon.station_words or (word in _NOUNS and word not in self.lexicon.words)

    def _lead(self, begin: int) -> int | None:
        """Index of the first of the words that only lead to the number from the head of their clause."""
        at = begin
        while at > self.done and begin - at < _LONGEST_LEAD and self.texts[at - 1] in _LEADS:
            at -= 1
        if at in (0, self.done) or self.texts[at - 1] in (BREAK, *FINISHED):
            behind = at and self.texts[at - 1] in FINISHED and self.texts[at] in {"with", "on", "at"}
            return None if behind and self.texts[at + 1] != "to" else at  # "done with number one"
        said = self._meaning(at - 1)
        ended = bool(said.conditions or said.acts) or any(t.startswith("MOVE") for t in said.tags)
        return at if ended and at < begin and self.texts[at] not in {"to", "for", "is", "at"} else None

    def _is_left(self, lead: int | None, begin: int, end: int, *, named: bool) -> bool:
        """ "that's number one done", "two finished": nothing more is said of it."""
        if self._text(end) not in FINISHED:
            return False
        told = self.texts[max(0, begin - 2) : begin] in _TOLD
        return told or (lead is not None and (named or lead == begin))

    def _is_turned_to(self, lead: int, begin: int, end: int, order: int, *, named: bool) -> bool:
        """True where its words turn to it, and no value and no count can be meant."""
        words = self.texts[lead:begin]
        onto = not _ONTO.isdisjoint(words) or any(
            words[i : i + 2] in {("on", "to"), ("back", "to"), ("over", "to"), ("up", "to")}
            for i in range(len(words))
        )
        comes = onto or not _COMES.isdisjoint(words)
        tail = self._text(end)
        behind = self._tail_end(end)
        if self._text(behind) == "":
            return named or onto or (comes and order == self.held + 1)
        if tail in _TAIL or tail == "and":
            follows = self._tells_part(behind)
            said = {*self.texts[end:behind]}
            return follows and (named or onto or comes or bool(said & {"so", "then", "next", BREAK}))
        if lead == end - 1 == 0 and order == self.held + 1 > 1 and self._tells_faulty_part(end):
            return True
        return comes and (named or order > 1) and self._tells_part(end, single=not named)

    def _tells_faulty_part(self, at: int) -> bool:
        """ "bent tang back" behind "two": a state and one noun, of which no two can be meant."""
        noun, so = self._text(at + 1), self._meaning(at)
        said = self._meaning(at + 1)
        single = not noun.endswith("s") and noun.isalpha() and noun not in NEUTRAL and not said.many
        return bool(so.conditions or so.acts) and single and said.tags <= {"PLACE"}

    def _is_owner(self, at: int) -> bool:
        """ "three's screw": the part named at *at* is one of those that there is one of at each station."""
        said = self._meaning(at)
        parts = map(self.lexicon.sheet.get, (*said.parts, *said.aliases))
        return not said.many and any(c is not None and c.stations and not c.positions for c in parts)

    def _tail_end(self, at: int) -> int:
        """Index behind "now", "next" and "so"."""
        while self._text(at) in _TAIL:
            at += 1
        return at

    def _tells_part(self, at: int, *, single: bool = False) -> bool:
        """True where a part is named at *at*; a *single* one that is at each station, where that is asked."""
        while self._text(at) in _BEFORE_NAME:
            at += 1
        said = self._meaning(at)
        parts = [c for c in map(self.lexicon.sheet.get, (*said.parts, *said.aliases)) if c is not None]
        if not single:
            return bool(parts)
        return bool(parts) and not said.many and all(c.stations and not c.positions for c in parts)

    def _is_place(self, begin: int, end: int, *, named: bool) -> bool:
        """ "sleeve in number three", "number two's worn", "bolt for three as well"."""
        tail = self._text(end)
        said = self._meaning(end)
        known = bool(said.conditions or said.parts or said.aliases or said.acts)
        known = known or any(t.startswith("MOVE") for t in said.tags)
        if named:
            return tail in _BEHIND or tail == "" or known
        if begin < 2 or self.texts[begin - 1] not in _PLACES:
            return False
        if self._is_read_at(begin):
            return tail in _READ_ENDS  # "five point one on one and four point four on two"
        the_one = self.texts[max(0, begin - 3) : begin - 1] == ("the", "one")  # "so is the one on two"
        several = self.texts[begin - 2] not in self.lexicon.numbered or self._meaning(begin - 2).many
        if several and not the_one:
            return False  # "jaws in four"
        tells = (
            known or tail in _SAID or is_past(tail)
        )  # "pilot jet from one poked through", "slide on three will polish"
        return tells or tail in {"", BREAK, "too", "so"} or self.texts[end : end + 2] == ("as", "well")

    def _ends_decimal(self, end: int) -> bool:
        """True where the words before *end* are a number with a point, which no count has."""
        at = end
        while at > self.done and (is_number_word(self.texts, at - 1) or self.texts[at - 1] in _IN_DECIMAL):
            at -= 1
        return "point" in self.texts[at : end - 1]

    def _text(self, at: int) -> str:
        return self.texts[at] if 0 <= at < len(self.texts) else ""

    def _meaning(self, at: int) -> Meaning:
        return self.lexicon.names(self.texts, at) if 0 <= at < len(self.texts) else Meaning()
