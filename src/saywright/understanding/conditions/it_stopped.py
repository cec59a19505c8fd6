"""A leak that stopped: "nipped the gland up and it's stopped", "that's stopped it". Pure."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from saywright.understanding.meanings import NOTHING
from saywright.understanding.statements import ConditionNote
from saywright.understanding.steps import Tokens, called_by
from saywright.understanding.tokens import BREAK, text_at, words_of

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_STOPPED: Final = frozenset({"stopped", "stops"})
_IT: Final = frozenset({"it", "that", "they", "drip", "leak", "trickle", "weep", "dripping"})
_IS: Final = frozenset({"is", "has", "have"})
_ENDS: Final = frozenset({"", BREAK, "and", "now", "but", "altogether", "completely", "dead", "straight"})
_WET: Final = words_of("leak leaks leaking drip drips dripping weep weeps weeping trickle dribble")
_WHEN: Final = frozenset(
    {"when", "once", "if", "until", "till", "after", "before", "as", "whenever", "where"}
)
_RECENT: Final = 3  # utterances


@called_by(_STOPPED)
def it_stopped(tokens: Tokens, state: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* with "it is not leaking" for a leak that stopped."""
    texts = [token.text for token in tokens]
    at = next(i for i, text in enumerate(texts) if text in _STOPPED)
    ends = text_at(texts, at + 1) in _ENDS or (texts[at + 1] == "it" and text_at(texts, at + 2) in _ENDS)
    who = at - 1 - (text_at(texts, at - 1) in _IS)
    if not ends or text_at(texts, who) not in _IT or text_at(texts, at - 1) == "not":
        return tokens
    if text_at(texts, who - 1) in _WHEN:
        return tokens  # "it leaks when it stops"
    if not lexicon.table.get(("leaking",), NOTHING).conditions or not _leaked(texts, state):
        return tokens
    begin = who - (text_at(texts, who - 1) in {"the", "that"})
    words = [replace(tokens[who], text=word) for word in ("it", "is", "not", "leaking")]
    return (*tokens[:begin], *words, *tokens[at + 1 + (text_at(texts, at + 1) == "it") :])


def _leaked(texts: list[str], state: Discourse) -> bool:
    """True where a leak was told of a moment ago."""
    told = (one for group in state.recent[-_RECENT:] for one in group)
    found = any(isinstance(one, ConditionNote) and one.condition == "leaking" and one.present for one in told)
    return found or not _WET.isdisjoint(texts)
