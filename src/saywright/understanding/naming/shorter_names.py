"""The next shorter name where the longest one is two: "pulled the left axle, seal's out"."""

from __future__ import annotations

from saywright.understanding.around import Around
from saywright.understanding.bench_words import TRANSITIVE
from saywright.understanding.meanings import Meaning
from saywright.understanding.tags import MOVES
from saywright.understanding.tokens import BREAK

_ENDS = frozenset({"", BREAK, "and", "then"})
_BEFORE_NOUN = frozenset({"a", "an", "the", "new", "old", "fresh", "its"})
_ROW, _NOUN_AND_WORD = 3, 2  # tags before, tokens
MOVES_ON_OR_OFF = frozenset({"MOVE_ON", "MOVE_OFF"})


def two_moved(around: Around, at: int, match: tuple[int, Meaning]) -> bool:
    """ "pulled the left axle, seal's out" without the comma: what was pulled, and what came with it."""
    end = at + match[0]
    if (
        not match[1].parts
        or around.text(end) not in {"is", "are"}
        or around.text(end + 1) not in {"out", "off"}
    ):
        return False
    before = [tag for tag in around.out if tag.kind != "MOD"]
    pulled = bool(before) and before[-1].kind == "OFF" and around.texts[before[-1].start] in TRANSITIVE
    shorter = shorter_name(around, at, match[0]) if pulled else None
    return shorter is not None and bool(shorter[1].parts or shorter[1].aliases) and around.names_part(end - 1)


def part_not_verb(around: Around, at: int, match: tuple[int, Meaning]) -> bool:
    """ "slides back in", "cap off and slide out": the parts so called, not how something moved."""
    if match[0] == 1 or not match[1].tags & MOVES_ON_OR_OFF:
        return False
    word, before = around.texts[at], around.out[-1] if around.out else None
    named = around.lexicon.table.get((word,))
    heads = before is None or before.kind == "BREAK" or bool(before.tags & {"FILLER", "AND"})
    many = named is not None and (named.many or _goes_like(around, at, match))
    return heads and named is not None and many and bool(named.parts)


def noun_not_verb(around: Around, at: int, match: tuple[int, Meaning]) -> bool:
    """ "A new seal up against it": the part so called, behind an article or its age, and not what is done."""
    if not match[1].acts or around.text(at - 1) not in _BEFORE_NOUN:
        return False
    named = around.lexicon.table.get((around.texts[at],))
    return named is not None and bool(named.parts or named.aliases)


def _goes_like(around: Around, at: int, match: tuple[int, Meaning]) -> bool:
    """ "cap off and slide out", "bowl and slide off": a word behind the noun, as behind the other."""
    before = around.out[-3:]
    if match[0] != _NOUN_AND_WORD or around.texts[at - 1 : at] != ("and",) or len(before) == 1:
        return False
    if before[-2].kind == "PART":
        return around.text(at + match[0]) in _ENDS
    if len(before) < _ROW:
        return False
    part, moved, _ = before
    return part.kind == "PART" and moved.kind in {"OFF", "ON"} and moved.end - moved.start == 1


def shorter_name(around: Around, at: int, length: int) -> tuple[int, Meaning] | None:
    """The next shorter name at *at*."""
    for shorter in range(length - 1, 0, -1):
        meaning = around.lexicon.table.get(around.texts[at : at + shorter])
        if meaning is not None:
            return shorter, meaning
    return None


def value_begins(around: Around, at: int, match: tuple[int, Meaning]) -> bool:
    """ "tester on pop off" is no movement where the sheet has a pop off: what is read begins in it."""
    if match[1].tags.isdisjoint(MOVES):
        return False
    last = at + match[0] - 1
    begun = around.lexicon.match(around.texts, last) if around.texts[last] in around.lexicon.words else None
    return begun is not None and begun[0] > 1 and bool(begun[1].characteristics)
