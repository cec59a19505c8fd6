"""Words of talk written for their twins, told by the clause around them: "a bit off rust".

More is looked at than the words beside: what compares, what a clause begins with, what something is of.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Final

from saywright.understanding.lexicon import Lexicon
from saywright.understanding.meanings import NOTHING
from saywright.understanding.numbers.words import CARDINALS, CLASSES
from saywright.understanding.sounds.twins_around import Is
from saywright.understanding.tokens import BREAK, Token, text_at, words_of
from saywright.understanding.wordforms import is_past

_ENDS: Final = frozenset({"", BREAK, "and", "then", "but", "so", "now", "too", "with", "all", "both", "at"})
_BE: Final = words_of("is are was were")
_WORN_BEFORE: Final = words_of(
    "no some any a of bit little slight heavy bad much more less without the signs is are has shows and "
    "uneven normal even such this that"
)
_WHO: Final = words_of("it they i we you he she was were")
_RUNS: Final = words_of(
    "sits runs goes rides seats rubs bears touches fits lives enters meets passes sit run go"
)
_BITS: Final = words_of(
    "bit touch dab drop smear kind sort film couple lack signs plenty blob splash spot tin number"
)
_OUT_OF: Final = words_of("way shape round true line there it square sight reach")
_ALL: Final = words_of("both all most none some each half two three four five six eight")
_THEM: Final = words_of("them these those it")
_COMPARED: Final = words_of(
    "greater thinner thicker bigger smaller larger longer shorter higher lower wider tighter deeper heavier "
    "fewer more less better worse looser closer"
)
_DENIED: Final = words_of("no not be any bit much far")
_LAST: Final = words_of("last next this every per each")
_OF_WOOD: Final = words_of("of the a on with in some soft hard into from")
_BEHIND_WOULD: Final = words_of("be have you not i he she they it we")
_SPEAKERS: Final = words_of("i it you that he we they she this those who what")
_DONE_SO: Final = words_of("not all both going off out in fine good scrap just still only quite about being")
_BEFORE_ITS: Final = words_of(
    "in on off from with under to behind of into onto out gets get got has had lost missing need needs "
    "wants by"
)
_ITS: Final = words_of(
    "packet place hook seat bore groove own way hole home box pocket mate spring clip side"
)
_AGES: Final = words_of("old new own")


def _is_where(texts: Sequence[str], at: int, lexicon: Lexicon) -> bool:
    """ "leave them wear they are", "shaft wear the seal sits", "wear was i"; not "no wear it's fine"."""
    before, behind = text_at(texts, at - 1), text_at(texts, at + 1)
    if before in _WORN_BEFORE:
        return False
    if behind in _WHO:
        return behind not in {"was", "were"} or text_at(texts, at + 2) in _WHO
    if behind != "the":
        return False
    found = lexicon.match(tuple(texts), at + 2) if text_at(texts, at + 2) else None
    return found is not None and text_at(texts, at + 2 + found[0]) in _RUNS


def _is_of(texts: Sequence[str], at: int, _: Lexicon) -> bool:
    """ "a bit off rust", "out off the way", "six off them"; not "the lot off", "two off the back"."""
    before, behind = text_at(texts, at - 1), text_at(texts, at + 1)
    if before in _BITS:
        return behind not in _ENDS and text_at(texts, at - 2) not in {"come", "came", "comes"}
    if before == "out":
        return behind in _OUT_OF or (behind == "the" and text_at(texts, at + 2) in _OUT_OF - {"it"})
    return before in _ALL and behind in _THEM and text_at(texts, at + 2) in _ENDS | _BE


def _is_than(texts: Sequence[str], at: int, _: Lexicon) -> bool:
    """ "no greater then four thou", "no better then the other", "other then that"."""
    before, behind = text_at(texts, at - 1), text_at(texts, at + 1)
    if before == "other":
        return behind in {"that", "this"}
    return before in _COMPARED and (text_at(texts, at - 2) in _DENIED or behind in CLASSES)


def _is_week(texts: Sequence[str], at: int, _: Lexicon) -> bool:
    return text_at(texts, at - 1) in _LAST or text_at(texts, at + 1) == "ago"


def _is_would(texts: Sequence[str], at: int, _: Lexicon) -> bool:
    """ "it wood have been fine", "wood you say"; not "a bit of wood"."""
    before, behind = text_at(texts, at - 1), text_at(texts, at + 1)
    return before not in _OF_WOOD and (
        behind in _BEHIND_WOULD or (before in _SPEAKERS and behind not in _ENDS)
    )


def _is_by(texts: Sequence[str], at: int, _: Lexicon) -> bool:
    """ "two point five buy the feeler"."""
    return text_at(texts, at - 1) in CLASSES and text_at(texts, at + 1) in {"the", "a"}


def _is_been(texts: Sequence[str], at: int, _: Lexicon) -> bool:
    """ "has bin through the wash", "both bin cleaned", "it's bin apart"."""
    before, behind = text_at(texts, at - 1), text_at(texts, at + 1)
    if before in {"has", "have", "had", "is", "never"}:
        return behind in {"through", "apart", "over", "under", "here", "there", "off", "out", "down"}
    return before == "both" and (behind == "in" or (is_past(behind) and behind != "them"))


def _is_two(texts: Sequence[str], at: int, lexicon: Lexicon) -> bool:
    """ "front too are fine", "the other too are"."""
    before, behind = text_at(texts, at - 1), text_at(texts, at + 1)
    return behind in {"are", "were"} and (
        before in {"these", "those", "other"} or before in lexicon.positions
    )


def _is_do(texts: Sequence[str], at: int, _: Lexicon) -> bool:
    before, behind = text_at(texts, at - 1), text_at(texts, at + 1)
    return before in {"i", "you", "we", "they"} or behind in {"i", "you", "we", "they"}


def _is_fine(texts: Sequence[str], at: int, _: Lexicon) -> bool:
    """ "key's find", "they look find"."""
    before, behind = text_at(texts, at - 1), text_at(texts, at + 1)
    return before in _BE | {"looks", "look", "feels"} and behind in _ENDS


def _is_hour(texts: Sequence[str], at: int, _: Lexicon) -> bool:
    """ "half an our", "a half our job"."""
    before, behind = text_at(texts, at - 1), text_at(texts, at + 1)
    return before == "an" or (
        before in {*CARDINALS, "half", "quarter"} and behind in _ENDS | {"job", "later", "on"}
    )


def _is_high(texts: Sequence[str], at: int, lexicon: Lexicon) -> bool:
    """ "hi speed screw"."""
    found = lexicon.match(("high", *texts[at + 1 : at + 4]), 0)
    return found is not None and found[0] > 1


IN_CLAUSE: Final[Mapping[str, tuple[str, Is]]] = {
    "wear": ("where", _is_where),
    "ware": ("where", _is_where),
    "off": ("of", _is_of),
    "then": ("than", _is_than),
    "weak": ("week", _is_week),
    "wood": ("would", _is_would),
    "buy": ("by", _is_by),
    "bin": ("been", _is_been),
    "too": ("two", _is_two),
    "due": ("do", _is_do),
    "find": ("fine", _is_fine),
    "our": ("hour", _is_hour),
    "hi": ("high", _is_high),
}


def told_in_clause(texts: Sequence[str], at: int, lexicon: Lexicon) -> str:
    """The word that was said for the one at *at* of `IN_CLAUSE`; "" where it is itself."""
    said, is_said = IN_CLAUSE[texts[at]]
    return said if is_said(texts, at, lexicon) else ""


def with_their_verbs(tokens: tuple[Token, ...], lexicon: Lexicon) -> tuple[Token, ...]:
    """ "Their scrap" is "they are", "on it's hook" is "its": two tokens of one word, or one of two."""
    texts = [token.text for token in tokens]
    out: list[Token] = []
    for at, token in enumerate(tokens):
        if token.text == "their" and _is_they_are(texts, at, lexicon):
            out += [replace(token, text="they"), replace(token, text="are")]
        elif token.text == "is" and _is_its(tokens, texts, at, lexicon):
            out[-1] = replace(token, text="its")
        else:
            out.append(token)
    return tuple(out) if len(out) != len(tokens) else tokens


def _is_they_are(texts: Sequence[str], at: int, lexicon: Lexicon) -> bool:
    before, behind = text_at(texts, at - 1), text_at(texts, at + 1)
    if before in _BEFORE_ITS:
        return False
    told = lexicon.table.get((behind,), NOTHING)
    ends = text_at(texts, at + 2) in _ENDS
    return behind in _DONE_SO or (bool(told.conditions) and ends and not (told.parts or told.aliases))


def _is_its(tokens: Sequence[Token], texts: Sequence[str], at: int, lexicon: Lexicon) -> bool:
    """ "in it's packet", "gets it's old valve back"; not "on it's worn"."""
    if text_at(texts, at - 1) != "it" or tokens[at - 1].word != tokens[at].word:
        return False
    if text_at(texts, at - 2) not in _BEFORE_ITS:
        return False
    begin = at + 1 + (text_at(texts, at + 1) in _AGES)
    if text_at(texts, begin) in _ITS and text_at(texts, begin + 1) in _ENDS | {"back"}:
        return True
    named = lexicon.names(tuple(texts), begin)
    return bool(named.parts or named.aliases) and not (named.conditions or named.acts)
