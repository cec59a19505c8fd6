"""What each word of an utterance is that may only say where one goes: a place, its noun, a kind of word.

A place is named, "the rear", or told as another one, "the other side", "next cylinder".
"""

from __future__ import annotations

from collections.abc import Sequence

from saywright.understanding.bench_words import AWAY, HOLDERS, NO_NAME, NO_OTHER_THING, PLAIN
from saywright.understanding.fixed import fixed
from saywright.understanding.numbers.words import CARDINALS, ORDINALS
from saywright.understanding.sides.going_words import KIND_OF
from saywright.understanding.sides.turning import the_side
from saywright.understanding.tags import Tag
from saywright.understanding.working import Working

_ASKED = frozenset({"shall", "can", "could", "would", "should"})  # "shall we do the left one then"
_WHOSE = frozenset({"its", "his", "her", "their"})
_KIN = frozenset({"brother", "sister", "mate", "twin", "pal", "partner", "neighbour", "neighbor", "fellow"})
_NO_HEAD = frozenset({"PART", "CHAR", "COND"})
_HINTS = (
    frozenset({"other", "opposite", "far", "next", "last", "sides", "ends", "side", "one", "number", "right"})
    | _KIN
    | frozenset(CARDINALS)
)
_LAMPS = frozenset({"light", "lights", "lamp", "torch"})
_SAID_OF_SIDES = frozenset({"side", "end", "half", "corner"})
_NO_NOUN = NO_NAME | NO_OTHER_THING - _SAID_OF_SIDES | PLAIN | AWAY | _LAMPS | {"job", "thing"}
_LEADS_TO_RIGHT = frozenset({"the", "to", "on", "onto", "over", "round", "right"})


@fixed
class Sign:
    """A tag, or a word of one, by its kind."""

    kind: str
    at: int  # index of the tag
    word: str = ""
    side: str = ""  # of a place


def may_turn(tags: Sequence[Tag], texts: Sequence[str], *, placed: bool) -> bool:
    """True where a place is said (*placed*), another one, or that one is done, and no part is named first."""
    if not tags or tags[0].kind in _NO_HEAD:
        return False
    return placed or not _HINTS.isdisjoint(texts)


def signs_of(tags: Sequence[Tag], work: Working) -> list[Sign] | None:
    """Every word by its kind; None where one tells something else."""
    out: list[Sign] = []
    for at, tag in enumerate(tags):
        words = work.texts[tag.start : tag.end]
        one = _sign(tag, at, tags, out, work)
        if one is not None:
            out.append(one)
            continue
        if not _is_plain(tag, words):
            return None
        known = [Sign(KIND_OF.get(word, ""), at, word) for word in words]
        if "FILLER" in tag.tags or "STAGE" in tag.tags:
            out += [sign for sign in known if sign.kind in {"G", "L", "I"} and "FILLER" in tag.tags]
        elif all(sign.kind for sign in known):
            out += known
        else:
            return None
    return out


def _is_plain(tag: Tag, words: Sequence[str]) -> bool:
    """True for what is no mark of a question, a supposition or a denial, and no finding."""
    if tag.kind == "MARK":
        return words[0] in _ASKED or not tag.tags.isdisjoint(
            {"SAME", "BUT", "FUTURE", "STAGE", "AFTER", "ENDS"}
        )
    return tag.kind not in {"COND", "CHAR", "PART"} and "NEG" not in tag.tags


def _sign(tag: Tag, at: int, tags: Sequence[Tag], before: Sequence[Sign], work: Working) -> Sign | None:
    """A place, what stands behind one, or a number; None for other words."""
    word, last = work.texts[tag.start], before[-1] if before else None
    behind = tags[at + 1] if at + 1 < len(tags) else None
    placed = _place(tag, at, tags, last, work)
    if placed is not None:
        return placed
    if tag.measure is not None or tag.count is not None:
        if word == "one" and last is not None and last.kind in {"P", "X"}:
            return Sign("N", at, word)
        single = tag.end == tag.start + 1 and word in CARDINALS
        return Sign("1" if word == "one" else "#" if single else "?", at, word)
    if last is not None and last.kind in {"P", "X"}:
        if tag.kind == "PART":
            return Sign("K", at, word)
        return Sign("U", at, word) if is_noun(tag, word) else None
    if last is not None and last.word in {"the", "a"} and any(sign.kind in {"G", "H"} for sign in before):
        return Sign("M", at, word) if is_noun(tag, word) or word in _LAMPS else None  # "swing the light over"
    called = not before and behind is not None and KIND_OF.get(work.texts[behind.start]) == "H"
    if called and is_noun(tag, word):
        return Sign(".", at, word)  # "dave bring me the rear one"
    return Sign("H", at, word) if word == "hand" and not _said(before) else None


def _said(before: Sequence[Sign]) -> bool:
    return any(sign.kind != "." for sign in before)


def _place(tag: Tag, at: int, tags: Sequence[Tag], last: Sign | None, work: Working) -> Sign | None:
    """A place by its name, or as another one: "the other side", "the next one"."""
    words = work.texts[tag.start : tag.end]
    word, behind = words[0], tags[at + 1] if at + 1 < len(tags) else None
    if tag.tags & {"TURNED", "LEFT"} or work.texts[tag.end : tag.end + 1] == ("thread",):
        return Sign("?", at)  # "a right hand thread" is no side
    if tag.meaning.positions and (tag.kind == "MOD" or _is_right(word, tags, at, last)):
        left_to_do = word == "left" and last is not None and last.kind in {"P", "N", "K"}
        side = the_side(tag.meaning.positions, work.sheet)
        return Sign("R" if left_to_do else "P" if side else "?", at, word, side or "")
    if words[:2] == ("right", "then") and last is not None and last.word == "the":
        return Sign("P", at, word, "right")
    if "ORD" in tag.tags and words[-1] in CARDINALS and word not in ORDINALS:
        return Sign("P", at, word, str(CARDINALS.index(words[-1]) + 1))  # "number two"
    return _another(tag, at, behind, last, work)


def _another(tag: Tag, at: int, behind: Tag | None, last: Sign | None, work: Working) -> Sign | None:
    """ "the other one", "its mate", "next cylinder", "on to the next"."""
    words = work.texts[tag.start : tag.end]
    word = words[0]
    if "OTHER" in tag.tags and word in _WHOSE:
        return Sign("X", at, "other", "side")
    if tag.tags & {"OTHER", "LAST"} or (tag.kind == "MOD" and "ORD" in tag.tags):
        word = next(one for one in words if one != "the")
        return Sign("X", at, word, words[-1] if words[-1] != word else "")
    if word in _KIN and tag.start and work.texts[tag.start - 1] in _WHOSE:
        return Sign("X", at, "other", "side")
    if word not in {"next", "far", "last"} or len(words) > 1:
        return None
    if behind is None:
        return Sign("X", at, word) if last is not None and last.word == "the" else None
    noun = work.texts[behind.start]
    named = behind.kind in {"PART", "ONE"} or KIND_OF.get(noun) == "N" or is_noun(behind, noun)
    return Sign("X", at, word) if named else None


def _is_right(word: str, tags: Sequence[Tag], at: int, last: Sign | None) -> bool:
    """ "okay right right": the second is the side; "to the right"."""
    ends = at == len(tags) - 1
    return word == "right" and ends and last is not None and last.word in _LEADS_TO_RIGHT


def is_noun(tag: Tag, word: str) -> bool:
    """True for a noun that the sheet does not know: "the other barrel"."""
    if tag.kind != "WORD" or word in KIND_OF:
        return False
    return tag.tags <= {"PLACE"} if word in HOLDERS else not tag.tags and word not in _NO_NOUN
