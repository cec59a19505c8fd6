""" "I must correct myself about the rear screw, it was two", "I got the float wrong, it's ten". Pure.

In plain words it is "no, the rear screw is two and a quarter", where a value of that was read before.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Final

from saywright.understanding.quantities.measures import find_measures
from saywright.understanding.second_thoughts.one_named import OneNamed, one_named
from saywright.understanding.steps import Tokens
from saywright.understanding.tokens import BREAK, Token, text_at

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_CORRECTS: Final[tuple[tuple[str, ...], ...]] = (
    ("correct", "myself"),
    ("put", "myself", "right"),
    ("put", "that", "right"),
)
_OF: Final = frozenset({"about", "on", "for", "over", "with"})
_WRONG: Final[tuple[tuple[str, ...], ...]] = (
    ("was", "wrong", "about"), ("made", "a", "mistake", "with"), ("made", "a", "mistake", "on"),
    ("was", "wrong", "on"), ("was", "mistaken", "about"), ("misread",), ("read", "wrong"), ("got", "wrong"),
)  # fmt: skip
_GOT: Final = frozenset({"got", "read", "had"})
_BEFORE: Final = frozenset(
    ["i", "we", "have", "to", "must", "need", "should", "let", "me", "had", "better", "will", "no", "sorry",
     "oh", "just", "and", "but", "wait", "hang", "on", "actually", "think", BREAK]
)  # fmt: skip
_SAID: Final = (
    ("it", "is"), ("it", "was"), ("that", "is"), ("that", "was"), ("it", "should", "be"), ("make", "it"),
    ("make", "that"), ("it", "reads"), ("that", "should", "be"), ("should", "be"), ("is",), ("was",),
    ("it", "is", "really"), ("it", "is", "actually"), ("it", "was", "really"), ("it", "was", "actually"),
    ("it", "needed"), ("it", "came", "to"), ("it", "comes", "to"),
)  # fmt: skip
_NOTED: Final = (("i", "wrote", "down"), ("i", "have", "down"), ("i", "wrote"), ("i", "noted"))
_SO: Final = frozenset({"what", "right", "correct"})  # "… and that is what it was": so it is
_THE: Final = frozenset({"the", "that", "this", "my"})


CALLS: Final = frozenset({"correct", "myself", "wrong", "misread", "mistake", "mistaken"})


def correct_myself(tokens: Tokens, state: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* as "no, the rear screw is two and a quarter", where that is what they put right."""
    if not state.recent:
        return tokens
    said = tuple([one for one in tokens if one.text != BREAK])
    texts = tuple([one.text for one in said])
    begin = _behind_opening(texts)
    if not begin:
        return tokens
    if text_at(texts, begin) == "no" and begin < len(texts):
        return said[begin:]  # "I have to correct myself, no, the rear one is …"
    first = begin + (text_at(texts, begin) in _THE)
    named = one_named(texts, first, lexicon, read=True)
    if named is None or not any(named.tells(one) for one in state.latest.values()):
        return tokens
    end = named.end + (text_at(texts, named.end) == "wrong")
    value = _value(texts, end, lexicon)
    return _put_right(said, named, value) if value is not None else tokens


def _behind_opening(texts: Sequence[str]) -> int:
    """The token behind "I have to correct myself about", "I got"; 0 where none of them opens the line."""
    at = next((i for i, text in enumerate(texts) if text not in _BEFORE), len(texts))
    for phrase in _CORRECTS:
        if tuple(texts[at : at + len(phrase)]) == phrase:
            end = at + len(phrase)
            return end + (text_at(texts, end) in _OF)
    for phrase in _WRONG:
        if at and tuple(texts[at : at + len(phrase)]) == phrase:
            return at + len(phrase)
    got = at > 0 and text_at(texts, at) in _GOT and "wrong" in texts[at + 1 :]
    return at + 1 if got else 0


def _value(texts: tuple[str, ...], at: int, lexicon: Lexicon) -> tuple[int, int] | None:
    """Where the one value is that is told in the place of the other."""
    for phrases, noted in ((_SAID, False), (_NOTED, True)):
        for phrase in sorted(phrases, key=len, reverse=True):
            begin = at + len(phrase)
            if tuple(texts[at:begin]) != phrase or begin >= len(texts):
                continue
            found = find_measures(texts[begin:], lexicon.units)
            if len(found) != 1 or found[0].start:
                return None
            end = begin + found[0].end
            behind = texts[end:]
            told_so = "that" in behind and not _SO.isdisjoint(behind) and "not" not in behind
            return (begin, end) if (told_so if noted else not behind or told_so) else None
    return None


def _put_right(said: Sequence[Token], named: OneNamed, value: tuple[int, int]) -> Tokens:
    of = said[named.begin : named.end]
    word = said[named.begin]
    one = (replace(of[-1], text="one"),) if named.only_places and of[-1].text != "one" else ()
    is_ = replace(said[value[0]], text="is")
    no = (replace(word, text="no"), replace(word, text="the"))
    return (*no, *of, *one, is_, *said[value[0] : value[1]])
