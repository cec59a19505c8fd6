"""How far a state goes, seen or only asked: "look how worn the needle is", "depends how worn it is". Pure."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from saywright.understanding.discourse import Discourse
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.steps import called_by
from saywright.understanding.tokens import BREAK, Token, text_at

_SEEN: Final = frozenset(
    ["look", "feel", "hear", "amazing", "believe", "notice", "surprising", "amazed", "surprised", "shows",
     "incredible", "ridiculous", "shame", "felt", "heard", "saw", "shocking"]
)  # fmt: skip
_SEE: Final = frozenset({"see", "tell"})
_CAN: Final = frozenset({"can", "could", "you", "will"})
_NOT_YET: Final = frozenset({"let", "to", "we", "i", "if", "not", "want"})  # "I'll see how worn it is"
_IS: Final = frozenset({"is", "are", "was", "were"})
_POINTED: Final = frozenset({"that", "this"})  # "that's how worn it was"
_VERY: Final = frozenset({"very", "badly", "really", "bloody", "nice", "well"})
_REACH: Final = 4  # tokens before "how", and of what is so behind the state


@called_by({"how"})
def how_worn(tokens: tuple[Token, ...], _: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """*tokens* with a state that is seen told plainly, and without one that is only asked after."""
    texts = tuple([token.text for token in tokens])
    how = texts.index("how") if "how" in texts else len(texts)
    at = how + 1
    while text_at(texts, at) in _VERY:
        at += 1
    found = lexicon.match(texts, at) if at < len(texts) else None
    state = found is not None and bool(found[1].conditions) and not found[1].parts
    word = lexicon.predicates.get(text_at(texts, at), ()) if not state else ()
    if not state and not word:
        return tokens
    end = at + (found[0] if state and found is not None else 1)
    verb = next((i for i in range(end, min(end + _REACH + 2, len(texts))) if texts[i] in _IS), 0)
    if not verb or text_at(texts, how - 1) in _IS:
        return tokens
    if verb == end or not _is_seen(texts[max(0, how - _REACH) : how]):
        return (*tokens[:at], *tokens[end:])  # "how worn is it", "let's see how worn it is"
    border = replace(tokens[how], text=BREAK)
    return (*tokens[:how], border, *tokens[end : verb + 1], *tokens[at:end], *tokens[verb + 1 :])


def _is_seen(before: tuple[str, ...]) -> bool:
    """ "Look", "you can see", "amazing": it is so; not "let us see", "check", "depends"."""
    if not _SEEN.isdisjoint(before):
        return "if" not in before
    at = next((i for i in range(len(before) - 1, -1, -1) if before[i] in _SEE), -1)
    if at < 0:
        return False
    helps = before[:at]
    return bool(helps) and helps[-1] in _CAN and not ("will" in helps and not _NOT_YET.isdisjoint(helps))
