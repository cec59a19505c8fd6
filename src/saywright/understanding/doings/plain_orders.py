""" "Put me down for two wipers", "I'll get a pair in": a roundabout order, as a plain one. Pure.

The words around what is wanted go, and "order" stands before it: it is read as in any other order.
"""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import replace
from typing import TYPE_CHECKING, Final

from saywright.understanding.doings.bad_ones import read_beyond
from saywright.understanding.doings.onto_lists import for_this_one, put_on_list
from saywright.understanding.doings.put_down import get_me_one, off_you, put_down, put_down_for
from saywright.understanding.doings.roundabout import (
    LINKS,
    MAY,
    NOT,
    NUMBERS,
    PERSONS,
    POINTS,
    POLITE,
    PUT,
    REACH,
    SOME,
    SPEAKS,
    Form,
    behind_quantity,
    behind_tail,
    ended,
    names_part,
    ordered,
    put_by_words,
)
from saywright.understanding.steps import Calls, Tokens, called_by
from saywright.understanding.tokens import BREAK

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_SIGNS: Final = frozenset(
    ["list", "order", "ordered", "get", "need", "want", "have", "take", "needed", "wanted", "required",
     "down", "wanting", "needing", "then", "please"]
)  # fmt: skip
_BEHIND_THING: Final = frozenset({"for", "off", "from", "to", "so"})  # what is asked for ends there
_NOT_GOT: Final = frozenset(
    ["to", "you", "they", "can", "could", "did", "would", "he", "she", "where", "might"]
)
_ONES: Final = (
    ["one", "of", "those"],
    ["one", "of", "them"],
    ["one", "of", "these"],
    ["one"],
)
_CLOSED_BY: Final = frozenset({"needed", "wanted", "required"})


@called_by(_SIGNS)
def plain_orders(tokens: Tokens, state: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* with "order" and what is wanted in the place of a roundabout order for it.

    While the job goes back together "I'll get a screw in" fits one.
    """
    if state.stage == "as_left":
        return put_by_words(tokens, _BUILDING, lexicon)
    put = put_by_words(tokens, _STRIPPING, lexicon)
    if put is not tokens or not any(token.text == "of" for token in tokens) or not _is_bad(state, lexicon):
        return put
    return _some_of_those(tokens, [token.text for token in tokens])


def _is_bad(state: Discourse, lexicon: Lexicon) -> bool:
    """True where what is in hand has a fault or was read beyond a limit, or something is to be done to it.

    Else "two of those please" asks for what somebody is to hand over.
    """
    part = lexicon.sheet.get(state.hand.component) if state.hand is not None else None
    if part is None:
        return False
    faults = {c.id for c in lexicon.sheet.condition if not c.good}
    found = any(c == part.id and what in faults and present for c, _, what, present in state.seen)
    return found or any(c == part.id for c, _, _ in state.planned) or read_beyond(part, state.latest)


def _to_get_in(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "Two seals and an axle to get in": to get."""
    at = next((i for i in range(len(texts) - 2) if texts[i : i + 3] == ["to", "get", "in"]), None)
    return (*tokens[: at + 2], *tokens[at + 3 :]) if at and ended(texts, at + 3) else tokens


def _wanting(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "We'll be wanting three shims": will want."""
    at = next((i for i in range(len(texts) - 2) if texts[i : i + 2] == ["will", "be"]), None)
    plain = {"wanting": "want", "needing": "need"}.get(texts[at + 2]) if at is not None else None
    if at is None or plain is None:
        return tokens
    return (*tokens[: at + 1], replace(tokens[at + 2], text=plain), *tokens[at + 3 :])


def _put_down_for(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "Put me down for two wipers", "put it down for a set of pads"."""
    at = next((i for i in range(2, len(texts) - 2) if texts[i : i + 2] == ["down", "for"]), None)
    if at is None or texts[at - 2] not in PUT or texts[at - 1] not in PERSONS | POINTS | {"you"}:
        return tokens
    begin = at + 2
    if texts[begin] not in SOME:
        return tokens
    named = names_part(texts, begin, min(len(texts), begin + REACH), lexicon)
    if named and "new" in texts[begin : begin + 2]:
        return tokens  # "put it down for a new seal" stands for a need
    many = behind_quantity(texts, begin)
    if not named and texts[at - 1] in POINTS and NUMBERS.issuperset(texts[begin:many]):
        return tokens  # "put them down for ten"
    if not named and not (many > begin and ended(texts, many)):
        return tokens
    return ordered(tokens, at - 2, begin, len(tokens), len(tokens))


def _asked_for(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "Could you order two wipers for me"; not "could you get me a torque wrench for the top caps"."""
    at = next((i for i in range(len(texts) - 3) if texts[i] in MAY and texts[i + 1] == "you"), None)
    if at is None or "?" in texts or (at and texts[at - 1] not in {BREAK, *LINKS}):
        return tokens
    verb = at + 2
    while verb < len(texts) - 2 and texts[verb] in POLITE:
        verb += 1
    begin = verb + 1 + (texts[verb + 1] in PERSONS)
    asked = texts[verb] == "order" or (texts[verb] in {"get", "fetch", "grab"} and begin > verb + 1)
    thing = next((i for i in range(begin, len(texts)) if texts[i] in _BEHIND_THING), len(texts))
    if not asked or not names_part(texts, begin, thing, lexicon) or texts[begin] not in SOME:
        return tokens
    end = next((i for i in range(begin, len(texts)) if behind_tail(texts, i) > i), len(texts))
    return ordered(tokens, at, begin, end, behind_tail(texts, end))


def _so_many(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "We'll need two of those", "we shall want a pair": so many of what is in hand."""
    for verb in range(1, len(texts) - 1):
        if texts[verb] not in {"need", "want", "have", "take"}:
            continue
        end = behind_quantity(texts, verb + 1)
        if end == verb + 1 or not (ended(texts, end) or behind_tail(texts, end) > end):
            continue
        of_those = texts[end - 1] in POINTS
        plain = texts[end - 1] in {"pair", "set", "couple", "both"}
        begin = verb - (texts[verb - 1] in {"will", "would", "shall"})
        speaks = begin and texts[begin - 1] in {"i", "we"}
        wants = texts[verb] in {"need", "want"} and (of_those or plain)
        if not speaks or not (wants or (of_those and begin < verb)) or not NOT.isdisjoint(texts[:verb]):
            continue
        return ordered(tokens, begin - 1, verb + 1, end, behind_tail(texts, end))
    return tokens


def _needed(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "Two piston seals needed": they are to be had; "a new seal needed" is a need already."""
    for at in range(1, len(texts)):
        if texts[at] not in _CLOSED_BY or not ended(texts, at + 1):
            continue
        end = at - 1 if texts[at - 1] in {"is", "are"} else at
        first = max((i + 1 for i in range(end) if texts[i] in {BREAK, "so"}), default=0)
        begin = first + 2 * (texts[first : first + 2] == ["that", "is"])
        said = texts[begin:end]
        counted = said[:1] and (said[0] in NUMBERS or said[0] == "both") and said[0] != "one"
        if counted and "new" not in said and names_part(texts, begin, end, lexicon):
            return ordered(tokens, first, begin, end, at + 1)
    return tokens


def _got_in(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "I'd better get some foam rings in", "I'll get a pair in": had from the shop, none fitted."""
    at = next((i for i in range(len(texts) - 2) if texts[i] == "get"), None)
    if at is None or not NOT.isdisjoint(texts[: at + 1]):
        return tokens
    end = next(
        (i for i in range(at + 2, len(texts)) if texts[i] in {"in", "ordered"} and ended(texts, i + 1)), None
    )
    if end is None or BREAK in texts[at:end] or (at and texts[at - 1] not in SPEAKS | LINKS | {BREAK}):
        return tokens
    begin = at + 1 + (texts[at + 1] in PERSONS)
    some = texts[begin] in SOME or texts[end] == "ordered"
    named = names_part(texts, begin, end, lexicon) or texts[begin:end] == ["those"]
    one = texts[begin:end] in (["one"], ["another"], ["another", "one"])
    if not some or not (named or one or behind_quantity(texts, begin) == end):
        return tokens
    cut = at
    while cut and texts[cut - 1] in SPEAKS:
        cut -= 1
    return ordered(tokens, cut, begin, end, end + 1)


def _get_some(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "Get me six while you're at it", "get one of those as well": so many of what is in hand."""
    for at in range(len(texts) - 1):
        if (
            texts[at] not in {"get", "grab"}
            or (at and texts[at - 1] in _NOT_GOT)
            or not NOT.isdisjoint(texts[:at])
        ):
            continue
        begin = at + 1 + (texts[at + 1] in PERSONS)
        end = behind_quantity(texts, begin)
        ones = next((n for n in (3, 2, 1) if texts[begin : begin + n] in _ONES), 0)
        end = max(end, begin + ones)
        few = end == begin + 1 and begin == at + 1 and at and texts[at - 1] not in LINKS | {BREAK}
        if end == begin or few or not (ended(texts, end) or behind_tail(texts, end) > end):
            continue
        rest = behind_tail(texts, end)
        return ordered(tokens, at, begin, end, rest)
    return tokens


def _some_of_those(tokens: Tokens, texts: list[str]) -> Tokens:
    """ "A pair of those then", "so two of them please": so many of what is in hand."""
    begin = int(texts[:1] in (["so"], ["right"], ["okay"]))
    end = behind_quantity(texts, begin)
    if end == begin or texts[end - 1] not in POINTS or texts[end - 2] != "of":
        return tokens
    together = not {"pair", "set"}.isdisjoint(texts[begin:end])  # "two of them then" may be what was counted
    asked = texts[-1:] == ["please"] or (together and texts[end:] == ["then"])
    return ordered(tokens, 0, begin, end, len(tokens)) if asked else tokens


_FORMS: Final[tuple[tuple[Form, Collection[str] | None], ...]] = (
    (off_you, None),
    (get_me_one, None),
    (put_down_for, None),
    (put_down, None),
    (_get_some, {"get", "grab"}),
    (_to_get_in, {"get"}),
    (_wanting, {"wanting", "needing"}),
    (put_on_list, None),
    (_put_down_for, {"down"}),
    (_asked_for, {"you"}),
    (_so_many, {"need", "want", "have", "take"}),
    (_needed, _CLOSED_BY),
    (for_this_one, None),
)
_BUILDING: Final = Calls(*_FORMS)
_STRIPPING: Final = Calls(*_FORMS, (_got_in, {"get"}))
