"""One of several turned to by its number: "now two so head off", "number three next".

Only where the sheet numbers them, at the head, and with a word that turns to it or leads on from it.
"""

from __future__ import annotations

from dataclasses import replace

from saywright.understanding.number_words import CARDINALS
from saywright.understanding.tokens import BREAK, Token
from saywright.understanding.working import Working

_LEADS = frozenset(["now", "next", "then", "on", "to", "onto", "over", "move", "moving", "going", "back",
                    "start", "starting", "begin", "with", "number"])  # fmt: skip
_BEFORE = _LEADS | {"right", "okay", "so", "and", "well", BREAK}
_BEHIND = frozenset({"so", "next", "first", "now", "then", BREAK})
_SMALL = frozenset({"on", "to", "with", "back", "then"})  # "back to two" is told of a setting too


def number_turned_to(tokens: tuple[Token, ...], work: Working) -> tuple[tuple[Token, ...], str | None]:
    """*tokens* without the words that turn to one of several, and its number; None where they do not."""
    called = work.lexicon.called
    if not called or work.before.awaited is not None:
        return tokens, None
    at = 0
    while at < len(tokens) and tokens[at].text in _BEFORE:
        at += 1
    if at >= len(tokens) or tokens[at].text not in CARDINALS:
        return tokens, None
    number = str(CARDINALS.index(tokens[at].text) + 1)
    end = at + 1
    while end < len(tokens) and tokens[end].text in _BEHIND:
        end += 1
    led = {token.text for token in tokens[:at]} & (_LEADS - _SMALL)
    told = end > at + 1 or (end == len(tokens) and (bool(led) or _is_next(work, number)))
    if not told or _goes_on(work, led=bool(led)) or all(which != number for _, which in called):
        return tokens, None
    return tuple(replace(t, text=BREAK) if i < end else t for i, t in enumerate(tokens)), number


def _is_next(work: Working, number: str) -> bool:
    """ "three" alone, while number two is worked on and nothing waits for a value."""
    held = work.hand
    side = held.side if held is not None and held.turned else None
    return side is not None and side.isdigit() and int(side) + 1 == int(number)


def _goes_on(work: Working, *, led: bool) -> bool:
    """True where the number may go on with one that was left open, or is being counted aloud."""
    counting, number = work.before.counting, None if led else work.before.open_number
    last = work.before.utterances
    return any(one is not None and one.utterance == last for one in (counting, number))
