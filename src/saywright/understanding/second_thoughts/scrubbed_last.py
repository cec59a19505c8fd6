"""Taken back behind what is told instead: "it's running true, so scrub what I said about bent". Pure."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from saywright.understanding.statements import ConditionNote, Remark
from saywright.understanding.steps import Tokens, called_by
from saywright.understanding.tokens import BREAK, text_at

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_DROPS: Final = frozenset({"scrub", "scratch", "forget", "ignore", "disregard", "strike", "cancel", "scrap"})
_SAID: Final = frozenset({("what", "i", "said"), ("what", "i", "told"), ("everything", "i", "said")})
_LEADS: Final = frozenset({"so", "and", "you", "can", "please", BREAK, "", "just", "now", "right"})
_SAYS_NO_MORE: Final = frozenset(
    {"about", "it", "that", "the", "being", "you", "a", "before", "there", "earlier", "just", "now", "then"}
)


@called_by(_DROPS)
def scrubbed_last(tokens: Tokens, state: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* with "scratch that" at their head; what they tell besides holds."""
    texts = [token.text for token in tokens]
    at = next((i for i, t in enumerate(texts) if t in _DROPS and tuple(texts[i + 1 : i + 4]) in _SAID), -1)
    if at <= 0 or text_at(texts, at - 1) not in _LEADS:
        return tokens
    end = at + len(("scrub", "what", "i", "said"))
    named, parts = set[str](), set[str]()
    while end < len(texts) and texts[end] != BREAK:
        found = lexicon.names(tuple(texts), end)
        if not (found.conditions or found.parts or texts[end] in _SAYS_NO_MORE | lexicon.words):
            return tokens
        named, parts = named | {*found.conditions}, parts | {*found.parts}
        end += 1
    if (named or parts) and not _was_last(named, parts, state):
        return (*tokens[:at], *tokens[at + 1 :])  # of something that was told before
    begin = at
    while begin and texts[begin - 1] in {"so", "and", BREAK}:
        begin -= 1
    head = [replace(tokens[at], text=word) for word in ("scratch", "that", BREAK)]
    return (*head, *tokens[:begin], *tokens[end:])


def _was_last(named: set[str], parts: set[str], state: Discourse) -> bool:
    """True where the last thing on record is one of the states *named*, of one of the *parts*."""
    told = [one for group in state.recent for one in group if not isinstance(one, Remark)]
    if not told or not isinstance(told[-1], ConditionNote):
        return False
    return (not named or told[-1].condition in named) and (not parts or told[-1].component in parts)
