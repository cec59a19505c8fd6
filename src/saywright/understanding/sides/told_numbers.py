"""Numbers that tell which of several, before the numbers are read: "valves one and two", "three to six new".

A number is such a position where the part named last, or the one in hand, is told by number, where it is not
more than are fitted, and where what stands behind it is said of a part and cannot go on from the number.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from saywright.quantity import parse_value
from saywright.sheets.model import Component
from saywright.understanding.around import Around
from saywright.understanding.discourse import Hand
from saywright.understanding.fixed import fixed
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.meanings import NOTHING, Meaning
from saywright.understanding.numbers.tokens import is_number_word
from saywright.understanding.numbers.words import CARDINALS, CLASSES
from saywright.understanding.quantities.plausible import is_plausible
from saywright.understanding.sides.as_another import said_as_another
from saywright.understanding.sides.number_moves import moves_one
from saywright.understanding.sides.roll_call import roll_of
from saywright.understanding.sides.stations import Station, stations_in
from saywright.understanding.tags import AGES, MOVES, Tag
from saywright.understanding.tokens import BREAK


@fixed
class Numbers:
    """Positions said by number, in tokens [start, end)."""

    start: int
    end: int
    orders: tuple[int, ...]  # from one; () for one that is not told which
    component: str = ""  # of which part, where its name does not stand before it; "" for one of a roll
    station: Station | None = None  # where it is a place in hand as a side is


ToldOff = Mapping[int, Numbers]  # by the first token

_NONE: ToldOff = {}
COUNTED = frozenset(CARDINALS)
_JOINS = frozenset({"and", "or", "to", "through"})
_RANGE = frozenset({"to", "through"})
_IS = frozenset({"is", "has", "was"})
_ARE = frozenset({"are", "have", "were"})
_WITHIN = frozenset(
    ["number", "point", "oh", "the", "a", "that", "this", "other", "at", "to", "of", "about", "around", "by",
     "for", "all", "these", "those", "only", "any", "every", "each", "last", "first", "next", "no"]
)  # fmt: skip
_OPENS = frozenset({BREAK, "and", "but", "then", "so", "while", "though", "yeah", "right", "okay"})
_GOES_ON = frozenset(
    {"point", "half", "quarter", "quarters", "thirds", "hundred", "thousand", "double", "oh"}
)
_BETWEEN = frozenset(
    ["not", "no", "a", "bit", "just", "all", "still", "also", "got", "been", "the", "both", "badly", "now",
     "slightly", "quite", "really", "very", "well", "back", "only", "getting", "gone", "my"]
)  # fmt: skip
_SAID_TAGS = frozenset({"NEW", "OLD", "MOVE_OFF", "MOVE_ON", "MOVE_LOOSE_ON", "SAME"})
_AHEAD = 5  # tokens behind the verb in which it is told how a part is


def told_off(texts: Sequence[str], lexicon: Lexicon, hand: Hand | None, moved: str | None = None) -> ToldOff:
    """The positions said by number in *texts*; *hand* is what is in hand before, *moved* what moved last."""
    stations = stations_in(texts, lexicon, hand) if lexicon.stations else {}
    if COUNTED.isdisjoint(texts) and not stations:
        return _NONE
    roll = {at: Numbers(at, at + 1, (order,)) for at, order in roll_of(texts, lexicon).items()}
    for at, one in stations.items():
        roll[at] = Numbers(at, one.end, (one.order, *one.more), station=one)
    held = _numbered(lexicon, (hand.component,)) if hand is not None else None
    if held is not None and hand is not None and not hand.turned:
        for at, end, order in moves_one(texts, lexicon):
            if at in stations and order <= held.count:
                roll[at] = Numbers(at, end, (order,), held.id)
    if held is None and lexicon.numbered.isdisjoint(texts):
        return roll
    used = held is not None and (held.id, "1") in lexicon.called and hand is not None and bool(hand.which)
    last = _numbered(lexicon, (moved,)) if moved is not None else None
    reader = _Reader(tuple(texts), lexicon, held, last, used=used, found=roll)
    reader.read()
    return reader.found


class _Reader:
    """Goes over the tokens of one utterance once."""

    def __init__(
        self,
        texts: tuple[str, ...],
        lexicon: Lexicon,
        held: Component | None,
        moved: Component | None,
        *,
        used: bool,
        found: dict[int, Numbers],
    ) -> None:
        self.texts = texts
        self.lexicon = lexicon
        self.part = held  # the part told by number that was named last
        self.used = used  # single ones of it were told by number already
        self.found = found
        self.moved = moved  # at a station each, the one of the line before that moved
        self.named_end = -1  # behind its name
        self.other_end = -1  # behind a name that several parts share
        self.opens = True  # a clause may begin here
        self.done = False  # something was done before: "order valves five and six"
        self.last = 0  # the one told last in this utterance, where one alone was told

    def read(self) -> None:
        at = 0
        while at < len(self.texts):
            row = self.found.get(at)
            if row is None and self.texts[at] in COUNTED and self.part is not None:
                row = self._row(at)
            if row is None:
                at = self._step(at)
                continue
            self.found[at] = row
            self.opens, at = False, row.end
            if row.orders:
                self.used, self.last = True, row.orders[-1]

    def _step(self, at: int) -> int:
        """Over one name or word."""
        text = self.texts[at]
        match = self.lexicon.match(self.texts, at) if text and text != BREAK else None
        if at == self.named_end and text in COUNTED:
            self.last = CARDINALS.index(text) + 1  # "seal one in two in"
        if match is None:
            self.opens = text in _OPENS
            return at + 1
        length, meaning = match
        part = _numbered(self.lexicon, meaning.parts or meaning.aliases)
        if part is not None:
            self.used = self.used and part == self.part
            self.part, self.named_end = part, at + length
        elif meaning.parts or meaning.aliases:
            self.other_end = at + length
        self.opens = text in _OPENS or bool(meaning.conditions or meaning.acts or meaning.tags & _SAID_TAGS)
        self.opens = self.opens or text in {"one", "ones"}
        self.done = self.done or bool(meaning.acts)
        return at + length

    def _row(self, at: int) -> Numbers | None:
        """The positions that begin at *at*; None where they are none."""
        assert self.part is not None  # the caller looked
        if self.opens and said_as_another(self.texts, at, self.part, self.lexicon):
            return Numbers(at, at + 4, (CARDINALS.index(self.texts[at]) + 1,), self.part.id)
        end, orders, joined = _listed(self.texts, at, self.part.count)
        behind_name = at == self.named_end
        if at == self.other_end:
            return None  # "valve one's in"
        if not behind_name and at and self.texts[at - 1] in self.lexicon.positions:
            return None  # "left plate's bent right one's straight"
        if not behind_name and orders[:1] == (1,) and at and self.texts[at - 1] not in _OPENS:
            return None  # "the old one two and three new": no number
        if len(orders) > 1 and not self._counts_on(end):
            if behind_name and self._ends_row(end, orders, joined=joined):
                return Numbers(at, end, orders)
            if not behind_name and self.opens and joined and self._said_of_several(end):
                return Numbers(at, end, orders, self.part.id)
        if not behind_name and self._is_single(at):
            one = self.texts[at] == "one" and not self.used  # "one's cracked": whichever it is
            orders = () if one else (CARDINALS.index(self.texts[at]) + 1,)
            next_moved = self.moved is not None and self.named_end < 0 and self._is_moved(at + 1)
            part = self.moved if next_moved and self.moved is not None else self.part
            return Numbers(at, at + 1, orders, part.id)
        return None

    def _counts_on(self, end: int) -> bool:
        """True where the number goes on, or the numbers before *end* count what is named there."""
        text = self._text(end)
        return text in _GOES_ON or text in self.lexicon.units or self._names_part(end)

    def _ends_row(self, end: int, orders: tuple[int, ...], *, joined: bool) -> bool:
        """ "bolts one two and three fourteen newton meters": the list is whole where it ends."""
        assert self.part is not None  # the caller looked
        if is_number_word(self.texts, end):
            return bool(self.part.characteristic) and (joined or len(orders) == self.part.count)
        if not joined:
            return False
        values = [parse_value(str(order)) for order in orders]
        read = any(is_plausible(c, value) for c in self.part.characteristic for value in values)
        return not read or self.done or self._said_of_several(end)

    def _said_of_several(self, end: int) -> bool:
        """ "… are the old ones", "… new", "… end float": what is said of several."""
        if self._text(end) in _ARE:
            return self._is_told(end + 1)
        said = self._meaning(end)
        aged = bool(said.tags & AGES) and not self._names_part(end + 1)
        moved = bool(said.tags & MOVES)
        assert self.part is not None  # the caller looked
        read = any(component == self.part.id for component, _ in said.characteristics)
        return aged or moved or read or bool(said.conditions) or self._text(end) == "both"

    def _is_single(self, at: int) -> bool:
        """ "four's one point six": one that begins a clause; "one" only where they are told by number."""
        assert self.part is not None  # the caller looked
        before = self._text(at - 1) if at else BREAK
        order = CARDINALS.index(self.texts[at]) + 1
        next_one = bool(self.last) and order == self.last + 1 <= self.part.count
        if next_one and self.opens and self._meaning(at + 1).tags & MOVES:
            return True  # "seal one in two in and three in"
        number = CLASSES[before][0] if before in CLASSES else ""
        if (
            self._text(at + 1) not in _IS
            or before in _WITHIN
            or (number and not (next_one and number == "DIGIT"))
        ):
            return False
        if order > self.part.count or (order == 1 and not self.opens):
            return False
        return self._is_told(at + 2)

    def _is_moved(self, at: int) -> bool:
        """ "two's on the same": it moved as the one of the line before did."""
        return bool(self._meaning(at).tags & MOVES) or bool(self._meaning(at + 1).tags & MOVES)

    def _is_told(self, at: int) -> bool:
        """True where a state, an age, a movement, a doing or a value is said from *at* on."""
        assert self.part is not None  # the caller looked
        for here in range(at, min(at + _AHEAD, len(self.texts))):
            said = self._meaning(here)
            if said.conditions or said.acts or said.tags & _SAID_TAGS:
                return True
            if is_number_word(self.texts, here) or self.texts[here] == "point":
                return bool(self.part.characteristic)
            if self.texts[here] not in _BETWEEN:
                return False
        return False

    def _text(self, at: int) -> str:
        return self.texts[at] if 0 <= at < len(self.texts) else ""

    def _meaning(self, at: int) -> Meaning:
        return self.lexicon.names(self.texts, at) if at < len(self.texts) else NOTHING

    def _names_part(self, at: int) -> bool:
        said = self._meaning(at)
        return bool(said.parts or said.aliases)


def _numbered(lexicon: Lexicon, components: Sequence[str]) -> Component | None:
    """The one of *components* of which several are fitted, told by number."""
    parts = [part for part in map(lexicon.sheet.get, components) if part is not None and part.count > 1]
    return parts[0] if len(parts) == 1 and not parts[0].positions else None


def _listed(texts: Sequence[str], at: int, most: int) -> tuple[int, tuple[int, ...], bool]:
    """Where the rising numbers that begin at *at* end, which they are, and whether a word joins them."""
    ends: list[tuple[int, int, bool]] = []  # order, behind it, how it is joined to those before
    here, joined, ranged = at, False, False
    while here < len(texts) and texts[here] in COUNTED:
        order = CARDINALS.index(texts[here]) + 1
        if order > most or (ends and order <= ends[-1][0]):
            break
        if ranged:
            ends.extend((n, here + 1, True) for n in range(ends[-1][0] + 1, order))
        ends.append((order, here + 1, joined))
        here += 1
        begin = here
        while here < len(texts) and (texts[here] in _JOINS or texts[here] == BREAK):
            here += 1
        joined = here > begin
        ranged = not _RANGE.isdisjoint(texts[begin:here])
    while ends and texts[ends[-1][1] : ends[-1][1] + 1] == ("point",):
        ends.pop()  # "one and two three point one"
    if not ends:
        return at, (), False
    return ends[-1][1], tuple(order for order, _, _ in ends), any(with_word for _, _, with_word in ends)


def put_numbers(around: Around, told: Numbers) -> None:
    """The tag of positions said by number; behind the name of their part they become one with it."""
    last = around.last
    if told.station is not None:
        tags = frozenset({told.station.tag}) - {""}
        around.out.append(
            Tag("MOD", told.start, told.end, Meaning(positions=tuple(map(str, told.orders)), tags=tags))
        )
        return
    if not told.component:
        alone = len(told.orders) == 1
        if last is not None and last.kind == "PART" and not alone:
            around.out[-1] = Tag(last.kind, last.start, told.end, last.meaning, orders=told.orders)
            return
        order = told.orders[0] if alone else None
        orders = () if alone else told.orders
        around.out.append(Tag("MOD", told.start, told.end, NOTHING, order=order, orders=orders))
        return
    meaning = Meaning(aliases=(told.component,), many=len(told.orders) > 1)
    count = None if told.orders else 1
    around.out.append(Tag("PART", told.start, told.end, meaning, count=count, orders=told.orders))
