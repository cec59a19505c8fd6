""" "Sorry, that's the right one I've got in my hand", "hang on, it's the rear carb I'm in". Pure.

Who was on another side than he said tells where he is. In plain words it is "sorry, that is the right one".
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.steps import called_by
from saywright.understanding.tokens import BREAK, Token

if TYPE_CHECKING:
    from collections.abc import Sequence

    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_OPENS: Final = frozenset(
    ["sorry", "no", "hang", "hold", "wait", "oops", "whoops", "actually", "damn", "blast", "bother"]
)
_LEADS: Final = _OPENS | {
    "on",
    "oh",
    "a",
    "minute",
    "sec",
    "second",
    "ah",
    "that",
    "was",
    "wrong",
    "no",
    BREAK,
}
_IS: Final = frozenset({"is", "was"})
_POINTS: Final = frozenset({"that", "it", "this"})
_I: Final = frozenset({"i", "we"})
_AM: Final = frozenset({"am", "was", "are", "were"})
_AT: Final = frozenset({"in", "on", "at", "doing", "into", "reading", "measuring", "holding"})
_HAVE: Final = frozenset(
    ["have", "got", "had", "in", "my", "hand", "hands", "here", "am", "was", "are", "on", "at", "doing",
     "now", "holding", "measuring", "measured", "reading", "working", "looking", "just", "read", "the"]
)  # fmt: skip
_NOUNS: Final = frozenset({"one", "side", "end", "hand", "unit", "half"})
_LONGEST: Final = 18


@called_by(_OPENS)
def side_meant(tokens: tuple[Token, ...], _: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """*tokens* as "sorry that is the right one" where they tell on which side the speaker is after all."""
    if not 4 < len(tokens) <= _LONGEST:
        return tokens
    texts = tuple([token.text for token in tokens])
    if _OPENS.isdisjoint(texts[:3]) or lexicon.positions.isdisjoint(texts) or not _I.intersection(texts):
        return tokens
    if not CLASSES.keys().isdisjoint(text for text in texts if text != "one"):
        return tokens  # "sorry, the right one I've got is two point one": its value is told anew
    at = next((i for i, text in enumerate(texts) if text in _I | _POINTS - {"that"} or _is(texts, i)), 0)
    if not at or not _LEADS.issuperset(texts[:at]):
        return tokens
    if texts[at] in _I:
        begin = at + 3 if texts[at + 1] in _AM and texts[at + 2] in _AT else 0
        place = _place(texts, begin, lexicon) if begin else None
        ended = place is not None and place[1] == len(texts)
    else:
        place = _place(texts, at + 2, lexicon) if texts[at + 1] in _IS else None
        ended = place is not None and _relates(texts[place[1] :])
    if place is None or not ended:
        return tokens
    where, word = tokens[place[0]], tokens[at].word
    said = ("sorry", "that", "is", "the")
    return (*(Token(text, word) for text in said), where, Token("one", where.word))


def _is(texts: Sequence[str], at: int) -> bool:
    return texts[at] == "that" and texts[at + 1 : at + 2] == ("is",)


def _place(texts: tuple[str, ...], begin: int, lexicon: Lexicon) -> tuple[int, int] | None:
    """The token of the one position at *begin*, and the token behind its noun; None without one."""
    at = begin + (texts[begin : begin + 1] == ("the",))
    if at >= len(texts) or texts[at] not in lexicon.positions or at == begin:
        return None
    end = at + 1
    while end < len(texts) and texts[end] in _NOUNS:
        end += 1
    found = lexicon.match(texts, end) if end < len(texts) else None
    if found is not None and (found[1].parts or found[1].aliases):
        end += found[0]
    return at, end


def _relates(behind: Sequence[str]) -> bool:
    """ "(that) I've got in my hand", "I'm in": where the speaker is, and no more."""
    behind = behind[1:] if behind[:1] == ("that",) else behind
    return bool(behind) and behind[0] in _I and len(behind) > 1 and _HAVE.issuperset(behind[1:])
