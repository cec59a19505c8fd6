"""The order in which a row of named places is gone over: "first one", "the last one" tell which. Pure.

"We go clutch side then the middle then the mag side" tells it aloud; else it is the order in which they were
worked on before in this talk. With no more than one place to come, that is the last.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from itertools import chain
from typing import TYPE_CHECKING, Final

from saywright.sheets.model import Component, Sheet
from saywright.understanding.numbers.tokens import is_number_word
from saywright.understanding.sides.turning import FEW_PARTS
from saywright.understanding.statements import Remark
from saywright.understanding.steps import called_by
from saywright.understanding.tokens import BREAK, Token

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse, Hand
    from saywright.understanding.lexicon import Lexicon
    from saywright.understanding.statements import Statement
    from saywright.understanding.tags import Tag
    from saywright.understanding.working import Working

_TELLS: Final = frozenset({"OFF", "ON", "COND", "MEASURE", "CHAR"})
_FEWEST: Final = 3  # places in a row; of two there is one and the other one
_RANKS: Final = {"first": 0, "second": 1, "third": 2, "fourth": 3}
_LAST, _NEXT, _OTHER = "last", "next", "other"
_SAID: Final = frozenset({*_RANKS, _LAST, _NEXT, _OTHER, "outer", "outside", "end", "either", "ends"})
_MIDDLES: Final = frozenset({"middle", "center", "centre"})
_ENDS: Final = frozenset({"outer", "outside", "end"})
_LIKE: Final = frozenset({"as", "like", "than", "to"})
_CLOSES: Final = ("", BREAK, "and", "but", "then")
_GOING: Final = frozenset({"and", "now", "then", "so", "okay", "right", "on", "to", "onto", BREAK})
_STARTS: Final = frozenset({"start", "starting", "begin", "beginning"})
_FINISHES: Final = frozenset({"finish", "finishing", "end", "ending", "last"})
# "First one I tried", "last one of them", "next one to go": no place of the row.
_TOLD_BY: Final = frozenset(
    ["i", "we", "you", "he", "she", "they", "that", "who", "which", "of", "to", "ever", "left", "since",
     "in", "for", "like", "two", "or", "bought", "ordered"]
)  # fmt: skip
_THEN: Final = frozenset({"was", "had", "did", "were"})
_TELLS_ORDER: Final = frozenset({"then", "order", "first", "last", "go", "way"}) | _STARTS


def row_of(sheet: Sheet) -> tuple[str, ...]:
    """The places that most parts of *sheet* are told by, three or more in a row; else empty."""
    rows = Counter(c.positions for c in sheet.component if len(c.positions) >= _FEWEST)
    row, parts = rows.most_common(1)[0] if rows else ((), 0)
    return row if parts >= FEW_PARTS else ()


def gone_over(
    order: tuple[str, ...],
    row: tuple[str, ...],
    texts: Sequence[str],
    out: Sequence[Statement],
    hand: Hand | None,
) -> tuple[str, ...]:
    """*order* behind an utterance: told aloud in it, or with the place that it worked on."""
    if not row:
        return order
    if not _TELLS_ORDER.isdisjoint(texts) and all(type(one) is Remark for one in out):
        told = _told(row, texts)
        if told:
            return told
    if len(order) == len(row):
        return order
    here = [getattr(one, "which", None) for one in out if type(one) is not Remark]
    here += [hand.side] if hand is not None and hand.turned else []
    return tuple(dict.fromkeys((*order, *(place for place in here if place in row))))


def plans_order(tags: Sequence[Tag], work: Working) -> bool:
    """ "We go clutch side, then the middle, then the mag side" turns to none of them."""
    row = work.lexicon.row
    if not row or _TELLS_ORDER.isdisjoint(work.texts) or not _told(row, work.texts):
        return False
    return all(tag.kind not in _TELLS for tag in tags)


def _told(row: tuple[str, ...], texts: Sequence[str]) -> tuple[str, ...]:
    """All places of *row* in the order in which they were said; empty where one was not, or twice.

    Of three the first and the last do: "we start on the left and finish on the right".
    """
    said = f" {' '.join(texts)} "
    counts = [said.count(f" {place} ") for place in row]
    told = sorted(
        (place for place in row if f" {place} " in said), key=lambda place: said.index(f" {place} ")
    )
    if len(told) == len(row) and max(counts) == 1:
        return tuple(told)
    both = not (_STARTS.isdisjoint(texts) or _FINISHES.isdisjoint(texts))
    if not both or len(row) != _FEWEST or sum(counts) != _FEWEST - 1 or len(told) != _FEWEST - 1:
        return ()
    return told[0], next(place for place in row if place not in told), told[1]


@called_by(_SAID)
def by_rank(tokens: tuple[Token, ...], state: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """*tokens* with the place in place of "first one", "the last one", "the outer two", "the other one"."""
    if not lexicon.row:
        return tokens
    texts = tuple([token.text for token in tokens])
    if not _may_be_placed(texts, state, lexicon):
        return tokens
    out: list[Token] = []
    at = 0
    while at < len(texts):
        end, places = _place_at(texts, at, state, lexicon) if texts[at] in _SAID else (0, ())
        if not places:
            out.append(tokens[at])
            at += 1
            continue
        said = " and ".join(places).split()
        if out and out[-1].text == "this" and _told_anew(texts, at):  # "… and this last one I've bent"
            out[-1] = replace(out[-1], text="now")
            said = ["the", *said]
        out += [Token(word, tokens[at].word) for word in said]
        at = end
    return tuple(out)


def _told_anew(texts: Sequence[str], at: int) -> bool:
    """True where what was done with the one at *at* is told behind it, and something else before it."""
    return at > 1 and texts[at + 2 : at + 3] in (("i",), ("we",))


def _may_be_placed(texts: Sequence[str], state: Discourse, lexicon: Lexicon) -> bool:
    """False where other parts of several are named, or in hand: "bolts, first one's tight"."""
    named: list[Component | None] = []
    for at in range(len(texts)):
        meaning = lexicon.names(tuple(texts), at)
        named += [lexicon.sheet.get(c) for c in (*meaning.parts, *meaning.aliases)]
    if not named and state.hand is not None:
        named = [lexicon.sheet.get(state.hand.component)]
    return all(c is None or c.count == 1 or c.positions == lexicon.row for c in named)


def _place_at(
    texts: tuple[str, ...], at: int, state: Discourse, lexicon: Lexicon
) -> tuple[int, tuple[str, ...]]:
    """Index behind the words at *at* that tell places of the row without their names, and those places."""
    word, row = texts[at], lexicon.row
    behind = texts[at + 1] if at + 1 < len(texts) else ""
    middle = next((place for place in row if place in _MIDDLES), None)
    outer = tuple(place for place in row if place != middle)
    if word in _ENDS:
        return (at + 2, outer) if middle and behind in {"two", "ones"} else (0, ())
    if word == "either":
        told = middle is not None and behind == "side" and middle in texts[:at]
        return (at + 2, outer) if told else (0, ())
    place = _ranked(word, state, row)
    if place is None or not _is_one(texts, at, lexicon):
        return 0, ()
    bare = texts[at + 1 : at + 2] == ("one",) and is_number_word(texts, at + 2)  # "first one twenty seven"
    return at + 1 + bare, (place,)


def _is_one(texts: tuple[str, ...], at: int, lexicon: Lexicon) -> bool:
    """True where "one", or a part of the row, stands behind the rank at *at*."""
    behind = texts[at + 1] if at + 1 < len(texts) else ""
    before = texts[at - 1] if at else ""
    if behind == "one":
        following = texts[at + 2] if at + 2 < len(texts) else ""
        if texts[at] == _LAST and following in _THEN:
            return False
        return before == "this" or following not in _TOLD_BY
    if texts[at] in {_LAST, _NEXT} and before == "the" and behind in _CLOSES[:2]:
        return _GOING.issuperset(texts[: at - 1])  # "and the last"
    if texts[at] in _RANKS and before == "the" and behind in _CLOSES:
        return at > 1 and texts[at - 2] in _LIKE
    if texts[at] == _OTHER:
        return False
    meaning = lexicon.names(texts, at + 1)
    parts = [lexicon.sheet.get(c) for c in (*meaning.parts, *meaning.aliases)]
    return bool(parts) and all(part is not None and part.positions == lexicon.row for part in parts)


def _ranked(word: str, state: Discourse, row: tuple[str, ...]) -> str | None:
    """The place that *word* tells; None where the order does not tell it."""
    order = state.order
    if len(order) == len(row) - 1:
        order = (*order, *(place for place in row if place not in order))
    whole = len(order) == len(row)
    if word in _RANKS:
        return order[_RANKS[word]] if _RANKS[word] < len(order) else None
    if word == _LAST:
        return order[-1] if whole else None
    if word == _NEXT:
        hand = state.hand
        here = (hand.side or hand.which or hand.side_left) if hand is not None else None
        at = order.index(here) + 1 if here in order and whole else len(order)
        return order[at] if at < len(order) else None
    return _left_over(state, row)


def _left_over(state: Discourse, row: tuple[str, ...]) -> str | None:
    """The one place that the last two utterances told nothing of, while they told of each other one."""
    if state.hand is None:
        return None
    said = {
        getattr(one, "which", None)
        for one in chain(*state.recent[-2:])
        if getattr(one, "component", None) == state.hand.component
    }
    over = [place for place in row if place not in said]
    return over[0] if len(over) == 1 else None
