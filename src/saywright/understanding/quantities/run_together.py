""" "Turn it ninety three hundred and eleven point five": how far it was turned, and what is read there.

Also "forty seven point nine six and a quarter turn further forty seven point nine five",
"the other three twenty one point nine six". Pure.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING, Final

from saywright.hearing.spoken import ONES
from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.quantities.plausible import is_far_out, is_plausible
from saywright.understanding.steps import Tokens, called_by
from saywright.understanding.tokens import BREAK, Token, text_at

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_TURNED: Final = frozenset(
    ["turn", "turned", "turning", "rotate", "rotated", "spin", "spun", "roll", "rolled"]
)  # fmt: skip
_OTHERS: Final = frozenset({"other", "last", "remaining"})
_FEW: Final = frozenset({"two", "three", "four", "five", "six", "seven"})
_SHARES: Final = (["and", "a", "quarter", "turn"], ["and", "a", "half", "turn"], ["and", "quarter", "turn"])
_IT: Final = frozenset({"it", "her", "him", "them", "that"})
_ROUND: Final = frozenset({"round", "around", "through", "by", "another"})
_NUMBERS: Final = frozenset(CLASSES) - {"and", "point"}
_FURTHER: Final = frozenset({"further", "on", "round", "along", "around"})
_EACH: Final = (
    ["every", "one", "of", "them"], ["each", "of", "them"], ["all", "of", "them"],
    ["the", "pair", "of", "them"], ["every", "one"], ["each"],
)  # fmt: skip
_WAYS: Final = frozenset({"out", "down"})
_TURNS: Final = frozenset({"turn", "turns", "click", "clicks"})
_HALVES: Final = frozenset({"half", "quarter", "quarters"})
_BEHIND: Final = frozenset({"to", BREAK})  # "… on each to start with"
_GET: Final = frozenset({"get", "took"})
_THEY: Final = frozenset({"they", "these", "those", "both"})
_SOME: Final = frozenset({"two", "pair", "ones", "three", "four"})
_METRES: Final = frozenset({"metres", "meters", "pounds", "mil", "millimetres", "turns", "clicks"})
_DECIMALS: Final = 4  # tokens of "point nine six"
_NINETY: Final = 90
_LONGEST: Final = 4  # tokens from the verb to the angle


@called_by({"ninety"}, beside=_TURNED | {"round", "through"})
def turned_ninety(tokens: Tokens, _: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* without the ninety degrees by which something was turned, where a number goes on there."""
    texts = [token.text for token in tokens]
    for at, text in enumerate(texts):
        if text == "ninety" and text_at(texts, at + 1) in _NUMBERS and _is_turned(texts, at):
            if _is_read_so(texts, at, lexicon):
                return tokens
            begin = at - (texts[at - 1] in _ROUND)
            return (*tokens[:begin], *tokens[at + 1 :])
    return tokens


@called_by({"turn"}, beside={"quarter", "half"})
def and_turned_on(tokens: Tokens, _: Discourse, __: Lexicon) -> Tokens:
    """*tokens* without the "a quarter turn further" that stands between two numbers with decimals."""
    texts = [token.text for token in tokens]
    for at in range(2, len(texts)):
        ends = texts[at - 1] in _NUMBERS and "point" in texts[max(0, at - _DECIMALS) : at]
        share = next((one for one in _SHARES if texts[at : at + len(one)] == one), None) if ends else None
        if share is None:
            continue
        end = at + len(share) + (text_at(texts, at + len(share)) in _FURTHER)
        if text_at(texts, end) in _NUMBERS and "point" in texts[end : end + _DECIMALS]:
            return (*tokens[: at + 1], *tokens[end:])
    return tokens


@called_by({"point"}, beside={"other", "last", "remaining"})
def the_others_are(tokens: Tokens, _: Discourse, __: Lexicon) -> Tokens:
    """*tokens* with "are" behind "the other three", where a number with decimals stands there."""
    texts = [token.text for token in tokens]
    at = next((i for i in range(2, len(texts)) if texts[i] in _FEW and texts[i - 1] in _OTHERS), 0)
    behind = at + 1
    if not at or texts[at - 2] != "the" or text_at(texts, behind) not in _NUMBERS:
        return tokens
    if "point" not in texts[behind + 1 : behind + _DECIMALS]:
        return tokens  # "the other two thirty main"
    return (*tokens[:behind], Token("are", tokens[at].word), *tokens[behind:])


@called_by({"every", "all", "pair", "each"})
def each_of_them(tokens: Tokens, _: Discourse, __: Lexicon) -> Tokens:
    """*tokens* with "each" for "every one of them", "down on each" and the like behind the last number."""
    texts = [token.text for token in tokens]
    if "other" in texts:
        return tokens  # "the other three are twenty one point nine six every one of them"
    for end in (len(texts), *(i for i, text in enumerate(texts) if text in _BEHIND)):
        said = next((one for one in _EACH if texts[max(0, end - len(one)) : end] == one), None)
        if said is None:
            continue
        begin = end - len(said)
        begin -= text_at(texts, begin - 1) == "on"
        begin -= text_at(texts, begin - 1) in _WAYS
        if begin > 0 and texts[begin - 1] in _NUMBERS | _TURNS | _HALVES:
            return (*tokens[:begin], Token("each", tokens[begin].word), *tokens[end:])
    return tokens


@called_by({"get", "took"}, beside={"they", "these", "those", "both"})
def they_get(tokens: Tokens, state: Discourse, _: Lexicon) -> Tokens:
    """*tokens* with "are" for "get" of "they get three newton metres", while it is put together."""
    if state.stage != "as_left":
        return tokens  # it may be what they ought to get
    texts = [token.text for token in tokens]
    at = next((i for i in range(1, len(texts)) if texts[i] in _GET and texts[i - 1] in _THEY), 0)
    if not at or text_at(texts, at + 1) not in _NUMBERS:
        return tokens
    return (*tokens[:at], Token("are", tokens[at].word), *tokens[at + 1 :])


@called_by({"two", "pair", "ones", "three", "four"}, beside={"on"})
def ones_on_that_side(tokens: Tokens, _: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* with "on the right ones" for "forty for the two on the right"."""
    texts = [token.text for token in tokens]
    for at in range(1, len(texts) - 5):
        told = texts[at] in {"for", "on"} and texts[at + 1] == "the" and texts[at + 2] in _SOME
        if (
            not told
            or texts[at + 3 : at + 5] != ["on", "the"]
            or text_at(texts, at - 1) not in _NUMBERS | _METRES
        ):
            continue
        if texts[at + 5] in lexicon.positions and text_at(texts, at + 6) in {"", BREAK, "and", "side"}:
            end = at + 6 + (text_at(texts, at + 6) == "side")
            on_the = (replace(tokens[at], text="on"), tokens[at + 1], tokens[at + 5])
            return (*tokens[:at], *on_the, replace(tokens[at + 2], text="ones"), *tokens[end:])
    return tokens


def _is_read_so(texts: list[str], at: int, lexicon: Lexicon) -> bool:
    """ "Turn it ninety eight point five", where ninety eight may be read on the sheet."""
    ones = text_at(texts, at + 1)
    if ones not in ONES[1:] or text_at(texts, at + 2) in {"hundred", "thousand"}:
        return False
    value = Fraction(_NINETY + ONES.index(ones))
    specs = (spec for part in lexicon.sheet.component for spec in part.characteristic)
    return any(is_plausible(spec, value) and not is_far_out(spec, value) for spec in specs)


def _is_turned(texts: list[str], at: int) -> bool:
    """True for "turn it ninety", "spin the drum round ninety", "round ninety"."""
    if texts[:at] in (["round"], ["around"], ["and", "round"], ["then", "round"]):
        return True
    if text_at(texts, at - 1) not in _IT | _ROUND:
        return False
    return not _TURNED.isdisjoint(texts[max(0, at - _LONGEST) : at])
