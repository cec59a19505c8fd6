"""Somebody else works at a place: "Dave's doing the right", "you do the left one". Pure.

Who talks may go on with either, so no side is turned to, and what is told without one asks.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from saywright.understanding.sides.turn_idioms import place_end
from saywright.understanding.tags import Tag
from saywright.understanding.tokens import BREAK, words_of
from saywright.understanding.working import Working

_LEADS: Final = words_of("right okay so now then well and while")
_WHO: Final = words_of("he she they you")
_PEOPLE: Final = words_of("lad lads boy apprentice trainee son mate boss gaffer kid junior youngster helper")
_ARTICLES: Final = words_of("the my our")
_NOBODY: Final = words_of("i we this that it what here there next now which who one then")
_IS: Final = words_of("is are")
_DOING: Final = words_of("doing taking starting tackling stripping working having getting")
_DO: Final = words_of("does takes do take have starts start has gets tackles")
_CAN: Final = words_of("can will could")
_WITH: Final = words_of("on with up apart")
_TAIL: Final = words_of("now then please mate while today again") | {BREAK}


def is_done_by_another(tags: Sequence[Tag], work: Working) -> bool:
    """True where the utterance tells that somebody else works at a place, and nothing more."""
    texts = work.texts
    at = next((i for i, text in enumerate(texts) if text not in _LEADS), len(texts))
    verb = _subject_end(tags, texts, at)
    end = _verb_end(texts, verb, person=texts[verb - 1] in _WHO | _PEOPLE) if verb else 0
    if not end:
        return False
    end += texts[end : end + 1] != () and texts[end] in _WITH
    end = place_end(texts, end, work.lexicon)
    return bool(end) and _TAIL.issuperset(texts[end:])


def _subject_end(tags: Sequence[Tag], texts: Sequence[str], at: int) -> int:
    """Index behind who does it, at *at*: "he", "the lad", "Dave"; 0 where nobody is."""
    at += at < len(texts) and texts[at] in _ARTICLES
    word = texts[at] if at < len(texts) else ""
    if word in _WHO | _PEOPLE:
        return at + 1
    tag = next((tag for tag in tags if tag.start == at), None)
    name = tag is not None and tag.kind == "WORD" and not tag.tags and tag.end == at + 1
    return at + 1 if name and word not in _NOBODY and (not at or texts[at - 1] not in _ARTICLES) else 0


def _verb_end(texts: Sequence[str], at: int, *, person: bool) -> int:
    """Index behind "is doing", "can do", "does" at *at*; the last of one known to be a *person*."""
    one, two = (*texts[at : at + 2], "", "")[:2]
    if one in _IS and (two in _DOING or (person and two == "on")):
        return at + 2
    if one in _CAN and two in _DO:
        return at + 2
    return at + 1 if person and one in _DO else 0
