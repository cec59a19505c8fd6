""" "Front wheel out, drum's scored", "and at the back, same job": where one goes on, told in passing. Pure.

A wheel that is not on the sheet is no part: that it came off, or went on, tells at which end one works.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from saywright.understanding.steps import Tokens, called_by
from saywright.understanding.tokens import BREAK, text_at

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_WHEELS: Final = frozenset({"wheel", "tire", "tyre", "rim", "hubcap"})
_IS: Final = frozenset({"is", "has", "comes", "came", "come", "are", "going", "goes", "now", "back"})
_MOVES: Final = frozenset({"out", "off", "away", "up", "in", "on", "down"})
_BEHIND: Final = frozenset({"now", "too", "again", "then"})
_LEADS: Final = frozenset(
    ["and", "now", "so", "right", "okay", "then", "well", "the", "that", "got", "get", "take", "took",
     "taking", "pull", "pulled", "whip", "whipped", "with", "i", "we", "have"]
)  # fmt: skip
_OPENS: Final = frozenset({"and", "now", "so", "right", "okay", "then", "well"})
_AT: Final = frozenset({"at", "on", "in", "round"})
_JOB: Final = (("same", "job"), ("same", "story"), ("same", "routine"), ("same", "thing", "again"))


@called_by(_WHEELS)
def wheel_there(tokens: Tokens, _: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* with the end alone for a wheel that came off there."""
    texts = tuple([token.text for token in tokens])
    at = next((i for i in range(1, len(texts)) if texts[i] in _WHEELS), 0)
    if not at or not _is_place(texts[at - 1], lexicon) or lexicon.names(texts, at).parts:
        return tokens
    place = at - 1 - (at > 1 and _is_place(texts[at - 2], lexicon))
    begin = place
    while begin and texts[begin - 1] in _LEADS:
        begin -= 1
    if begin and texts[begin - 1] != BREAK:
        return tokens
    end = at + 1
    while text_at(texts, end) in _IS:
        end += 1
    if text_at(texts, end) not in _MOVES:
        return tokens
    end += 1
    while text_at(texts, end) in _BEHIND:
        end += 1
    return _goes_there(tokens, begin, tokens[place:at], end)


@called_by(_AT)
def at_the_other_end(tokens: Tokens, state: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* with the end alone for "at the back" at the head, while another place is worked on."""
    held = state.hand
    if held is None or held.side is None:
        return tokens
    texts = tuple([token.text for token in tokens])
    at = next((i for i, text in enumerate(texts) if text not in _OPENS), len(texts))
    place = text_at(texts, at + 2)
    if text_at(texts, at) not in _AT or text_at(texts, at + 1) != "the" or not _is_place(place, lexicon):
        return tokens
    end = at + 3
    end += text_at(texts, end) == BREAK
    job = next((len(one) for one in _JOB if texts[end : end + len(one)] == one), 0)
    if texts[end - 1] != BREAK and not job:
        return tokens
    return _goes_there(tokens, 0, tokens[at + 2 : at + 3], end + job)


def _goes_there(tokens: Tokens, begin: int, place: Tokens, end: int) -> Tokens:
    """The tokens with "… end," of *place* for those from *begin* to *end*."""
    more = end < len(tokens) and tokens[end].text != BREAK
    border = (replace(place[-1], text=BREAK),) if more else ()
    return (*tokens[:begin], *place, replace(place[-1], text="end"), *border, *tokens[end:])


def _is_place(text: str, lexicon: Lexicon) -> bool:
    return text in lexicon.positions or text in lexicon.other_places
