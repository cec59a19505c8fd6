"""Positions by another everyday word: "the back one" on a sheet that says rear, "top pin" for the upper one.

Only where the sheet has one word of such a group, and only before what is so placed: a part that has the
position, or "one" where no part is called so; where it is turned to, "now the back"; and at the head of what
is told of the part in hand, "top's scored bottom's the same". "Put it back", "off the top", "top cap" stay.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING

from saywright.understanding.naming.placed_in import went_in_there
from saywright.understanding.naming.rear_ends import is_rear_end
from saywright.understanding.naming.same_there import is_the_same
from saywright.understanding.naming.told_behind_value import places_facing, told_behind_value
from saywright.understanding.numbers.tokens import is_number_word
from saywright.understanding.steps import called_by_places
from saywright.understanding.tags import MOVES
from saywright.understanding.tokens import BREAK, Token
from saywright.understanding.values.named_places import places_of

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse, Hand
    from saywright.understanding.lexicon import Lexicon
    from saywright.understanding.meanings import Meaning

_ALIKE = (
    ("rear", "back"),
    ("front", "fore"),
    ("upper", "top"),
    ("lower", "bottom"),
    ("inner", "inside", "inboard"),
    ("outer", "outside", "outboard"),
    ("middle", "center", "centre"),
)
_FACES = frozenset({"inside", "outside"})  # "outer pad's worn, the inside is fine": its inside
_NO_OTHER = (("back",), ("at",), ("of",))
_TOLD_OF_ONE = frozenset({"is", "has", "was", "are", "were", "had", "got", "mikes", "measures", "reads"})
_SAID_OF_ONE = frozenset((word,) for word in _TOLD_OF_ONE | {"off", "out", "in", "on"})
_LED = frozenset({"the", "that", "this", "left", "right", "new", "old", "a", "other", "both", "two"})
_HEADS = frozenset({"", BREAK, "and", "now", "then", "next"})
_TURNS = frozenset({"now", "then", "next", "to", "onto", "with", "round", "around"})
# Begins what is so placed: "at the back they've got three left".
_BEGINS = frozenset(["the", "they", "it", "its", "this", "that", "these", "those", "we", "i", "where"])
_ONES = frozenset({"one", "ones"})
_HANDS = frozenset({"left", "right"})
_AT, _EACH = frozenset({"at", "on"}), frozenset({"each", "both"})
_FITTING = frozenset({"on", "in"})
_NOTHING_MORE = ((), (BREAK,), ("and",), ("then",))
_IN_IT = (("it",), ("that",), ("there",), ("this",))
_COMES = frozenset({"now", "next", "first"})
_END, _WANTS = frozenset({"end"}), frozenset({"wants", "needs", "gets", "want", "need"})
_WHERE = frozenset({"on", "at", "off", "from", "for"})
_LONGEST_NAME = 4  # words
_MOVED = _FITTING | {"off", "out", "sides"}
_SIDES = frozenset({("both", "sides"), ("each", "side"), ("either", "side")})


def other_words(positions: Collection[str]) -> Mapping[str, str]:
    """Words that no position of the sheet has → the word of *positions* that they mean."""
    found: dict[str, str] = {}
    for group in _ALIKE:
        here = [word for word in group if word in positions]
        if len(here) == 1:
            found.update((word, here[0]) for word in group if word not in here)
    return found


@called_by_places
def as_on_sheet(tokens: tuple[Token, ...], state: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """*tokens* with the sheet's own words for positions."""
    others, held = lexicon.other_places, state.hand
    if not others:
        return tokens
    texts = tuple([token.text for token in tokens])
    if others.keys().isdisjoint(texts):
        return tokens
    out: list[Token] = []
    # What a value is read at in this utterance, and all words so far.
    told = {
        others.get(text, text)
        for at, text in enumerate(texts)
        if _has_decimal(texts, at) or is_the_same(texts, at)
    }
    for at, token in enumerate(tokens):
        place = others.get(token.text)
        if place is None:
            told.add(token.text)
        elif (
            (at == 0 and _is_next(texts, lexicon, place, held))
            or (not told.isdisjoint(places_facing(place)) and _is_called_there(texts, at, lexicon, place))
            or (_is_place(texts, at, lexicon, place) and not _on_the_part(texts, at, lexicon, held))
            or (
                _is_the_other(texts, at, lexicon, told & places_facing(place))
                and _may_be_there(texts[:at], lexicon, place)
            )
            or texts[at - 2 : at + 1] == ("front", "and", "back")
            or is_rear_end(texts, at)
            or told_behind_value(texts, at, lexicon, held)
            or went_in_there(texts, at, lexicon, partial(_has_place, lexicon=lexicon, place=place))
            or (
                (is_the_same(texts, at) or _begins(texts, at, told & places_facing(place)))
                and _is_of(held, texts, at, lexicon)
            )
        ):
            told.add(place)
            out.append(replace(token, text=place))
            continue
        out.append(token)
    return tuple(out)


def _is_called_there(texts: tuple[str, ...], at: int, lexicon: Lexicon, place: str) -> bool:
    """ "bottom pin's stuck top pin's fine": a part that has the place right behind it, facing one told of."""
    if texts[at] in _FACES or (texts[at] in lexicon.heads and (lexicon.match(texts, at) or (0,))[0] > 1):
        return False
    named = lexicon.match(texts, at + 1) if at + 1 < len(texts) else None
    return named is not None and _has_place(named[1], lexicon, place)


def _begins(texts: tuple[str, ...], at: int, facing: Collection[str]) -> bool:
    """ "top's scored bottom's the same": at the head of what is told there."""
    before = texts[at - 1] if at else ""
    return before in _HEADS or bool(facing) or (before == "the" and texts[at - 2 : at - 1] in _NOTHING_MORE)


def _is_of(held: Hand | None, texts: tuple[str, ...], at: int, lexicon: Lexicon) -> bool:
    """True where the part in hand is told by that place, and what stands behind is told of it."""
    place = lexicon.other_places[texts[at]]
    part = lexicon.sheet.get(held.component) if held is not None else None
    if is_the_same(texts, at):
        named = [lexicon.match(texts, i) for i in range(at)]
        parts = [c for found in named if found is not None for c in found[1].parts]
        part = lexicon.sheet.get(parts[-1]) if parts else part
    if part is None or texts[at] in _FACES or texts[at] in lexicon.heads:
        return False
    if is_the_same(texts, at):
        return part.has_places((place,))
    if place not in part.place_words or any(texts[at] in places_of(part, c) for c in part.characteristic):
        return False
    told = texts[at + 1 : at + 2] == ("is",) and bool(lexicon.names(texts, at + 2).conditions)
    return told or _has_decimal(texts, at)


def _is_the_other(texts: tuple[str, ...], at: int, lexicon: Lexicon, facing: Collection[str]) -> bool:
    """ "top one seven point nine and the bottom seven point eight": the one facing it, and what is told."""
    if (
        not facing
        or texts[at] in lexicon.heads
        or (texts[at] in lexicon.places.heads and texts[:at].count("one") == 0)
        or at + 1 >= len(texts)
        or texts[at - 1 : at] in _NO_OTHER
    ):
        return False
    if texts[at + 1] in _ONES or _has_decimal(texts, at):
        return True
    if is_number_word(texts, at + 1):
        return bool(at) and texts[at - 1] in {"the", "and"}
    told = at + 2 < len(texts) and bool(lexicon.names(texts, at + 2).conditions)
    return texts[at + 1] == "is" and told and texts[at] not in _FACES


def _is_next(texts: tuple[str, ...], lexicon: Lexicon, place: str, hand: Hand | None) -> bool:
    """ "bottom ninety one" behind "top spring eighty six": the one facing the one in hand, at the head."""
    spec = lexicon.sheet.get(hand.component) if hand is not None else None
    heads = texts[0] in lexicon.heads or texts[0] == "back" or len(texts) == 1
    if hand is None or hand.which is None or spec is None or heads:
        return False
    facing = places_facing(place) & {*hand.which.split()}
    there = {*hand.which.split()} - facing | {place}
    if not facing or spec.has_places((texts[0],)) or all(there != {*p.split()} for p in spec.positions):
        return False
    said = lexicon.names(texts, 1)
    told = bool(said.conditions or said.tags & MOVES) and texts[0] not in _FACES
    return told or is_number_word(texts, 1) or is_the_same(texts, 0)


def _may_be_there(said: tuple[str, ...], lexicon: Lexicon, place: str) -> bool:
    """ "left piston top thirty one point nine": a place on it, where no part named is told so."""
    meant = [lexicon.table[word,] for word in said if (word,) in lexicon.table]
    parts = [lexicon.sheet.get(c) for one in meant for c in (*one.parts, *one.aliases)]
    return not parts or any(p is not None and p.has_places((place,)) for p in parts)


def _has_decimal(texts: tuple[str, ...], at: int) -> bool:
    """ "top seven point nine six": what was read there stands right behind."""
    begins = texts[at + 1 : at + 2] == ("point",) or is_number_word(texts, at + 1)
    return begins and "point" in texts[at + 1 : at + 4]


def _read_there(texts: tuple[str, ...], at: int) -> bool:
    """ "five at the front and four at the back": a value stands right before."""
    if at < 1 or texts[at] not in _AT:
        return False
    said = at - 2 if texts[at - 1] in _EACH else at - 1
    return said >= 0 and is_number_word(texts, said)


def _is_place(texts: tuple[str, ...], at: int, lexicon: Lexicon, place: str) -> bool:
    """True where the word at *at* tells which of several."""
    before = texts[at - 1] if at else ""
    after = texts[at + 1] if at + 1 < len(texts) else ""
    called = texts[at] in lexicon.heads  # "top cap": "the top one" may be that
    read_there = before == "the" and texts[at] not in lexicon.places.heads and _read_there(texts, at - 2)
    moved = not called and texts[max(0, at - 2) : at] == ("at", "the") and _is_where_moved(texts, at)
    up = texts[max(0, at - 1) : at + 1] == ("up", "top") and (at < 2 or texts[at - 2] in _HEADS)
    there = moved or (up and not called) or (after == "and" and read_there)
    if there or (before == "the" and _is_told_of(texts, at, lexicon, place)):
        return True  # "new discs on at the back", "six point eight on the inside and …"
    turned = at > 1 and texts[at - 2] in _TURNS  # "now the back"
    if after in {"", BREAK} or (after in lexicon.positions and turned):
        # "The top" may be the top cap, "the back" is no back plate.
        whole_name = called and texts[at] != "back"
        return read_there or (before == "the" and turned and not whole_name)
    if after in _BEGINS:
        return before == "the" and at > 1 and texts[at - 2] in _AT
    again = texts[at] == "back" and _goes_on(texts, at + 1)  # "back cover on": it goes back on
    told = after in _ONES and texts[at + 2 : at + 3] in _SAID_OF_ONE  # "… out top one's fine", "top one off"
    if not told and before not in _LED and (before not in _HEADS or again):
        return False
    if after in _ONES:
        return not called
    whole = lexicon.match(texts, at) if called else None
    if whole is not None and whole[0] > 1:
        return False
    behind = at + 2 if after in _HANDS else at + 1
    named = lexicon.match(texts, behind) if behind < len(texts) else None
    if named is None:
        return False
    return _has_place(named[1], lexicon, place)


def _on_the_part(texts: tuple[str, ...], at: int, lexicon: Lexicon, held: Hand | None) -> bool:
    """ "inner pad is four point two at the top": a place on it, where no part talked of is told by it."""
    if not _read_there(texts, at - 2):
        return False
    place = lexicon.other_places[texts[at]]
    named = [lexicon.table[word,] for word in texts if (word,) in lexicon.table]
    parts = {c for one in named for c in (*one.parts, *one.aliases)} or {held.component if held else ""}
    known = [part for part in map(lexicon.sheet.get, parts) if part is not None and part.positions]
    return bool(known) and not any(part.has_places((place,)) for part in known)


def _is_told_of(texts: tuple[str, ...], at: int, lexicon: Lexicon, place: str) -> bool:
    """ "now the back end", "so the back wants pads", "hose on the back's cracked": behind "the".

    Not "the back end of the pump", nor "a label on the back", which is no part that is told so.
    """
    after, behind = texts[at + 1 : at + 2], texts[at + 2 : at + 3]
    led = texts[at - 2] if at > 1 else ""
    if texts[at] in lexicon.heads and texts[at] != "back":
        return False
    if after and after[0] in _END:
        return behind != ("of",) and (led in _HEADS or led in _TURNS)
    if after and after[0] in _COMES:  # "the back next"
        return led in _HEADS and (behind == () or behind[0] == BREAK)
    if after and after[0] in _WANTS:
        return led in _HEADS or led == "so"
    if led not in _WHERE or after == ("of",):
        return False
    return any(
        found is not None and found[0] == at - 2 - begin and _has_place(found[1], lexicon, place)
        for begin in range(max(0, at - 2 - _LONGEST_NAME), at - 2)
        for found in (lexicon.match(texts, begin),)
    )


def _has_place(named: Meaning, lexicon: Lexicon, place: str) -> bool:
    """True for the name of parts that all have *place* as a word of their positions."""
    parts = [lexicon.sheet.get(c) for c in (*named.parts, *named.aliases)]
    return bool(parts) and all(
        part is not None and any(place in p.split() for p in part.positions) for part in parts
    )


def _goes_on(texts: tuple[str, ...], at: int) -> bool:
    """True where what is called from *at* on goes on or in; not "only had a bit in it"."""
    return any(
        text in _FITTING and texts[place + 1 : place + 2] not in _IN_IT
        for place, text in enumerate(texts[at:], start=at)
    )


def _is_where_moved(texts: tuple[str, ...], at: int) -> bool:
    """A movement, or both sides, right before "at the back"; or both sides behind it."""
    return texts[max(0, at - 3)] in _MOVED or texts[at + 1 : at + 3] in _SIDES
