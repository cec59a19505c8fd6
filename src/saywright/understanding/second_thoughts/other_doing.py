""" "Hone it, no, replace it", "bin it, no, keep it": what is to be done in the place of the first. Pure."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from saywright.understanding.meanings import NOTHING
from saywright.understanding.steps import Tokens, called_by
from saywright.understanding.tokens import BREAK, Token, text_at

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_OBJECTS: Final = frozenset({"it", "that", "them", "these", "those", "this"})
_WAITS: Final = frozenset({"no", "sorry", "wait", "actually", "hang", "hold", "on", "well", "rather", BREAK})
_WHO: Final = frozenset({"i", "we", "you"})
_HELPS: Final = frozenset({"will", "would", "better", "just", "can", "should"})
_KEEPS: Final = frozenset({"keep", "leave"})


@called_by({"no"})
def other_doing(tokens: Tokens, _: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* without the doing that another one takes the place of behind "no"."""
    texts = [token.text for token in tokens]
    for at in range(2, len(texts) - 1):
        if texts[at] != "no" or texts[at - 1] not in _OBJECTS or not _is_base(texts[at - 2], lexicon):
            continue
        first = texts[at - 2]
        begin = _skip(texts, _skip_denied(texts, at, first), _WHO | _HELPS)
        verb = text_at(texts, begin)
        instead = verb in _KEEPS or (_is_base(verb, lexicon) and verb != first)
        if not instead or text_at(texts, begin + 1) not in _OBJECTS:
            continue
        end = at - 2
        while end and texts[end - 1] in _WHO | _HELPS:
            end -= 1
        if end and texts[end - 1] in {"not", "to"}:
            continue
        pause = (Token(BREAK, tokens[end - 1].word),) if end else ()
        return (*tokens[:end], *pause, *tokens[begin:])
    return tokens


def _skip(texts: list[str], at: int, words: frozenset[str]) -> int:
    while text_at(texts, at) in words:
        at += 1
    return at


def _skip_denied(texts: list[str], no: int, first: str) -> int:
    """The token behind "no sorry you do not hone these", or behind "no sorry"."""
    at = _skip(texts, no, _WAITS)
    denied = text_at(texts, at) in _WHO and texts[at + 1 : at + 4] == ["do", "not", first]
    return at + 5 if denied and text_at(texts, at + 4) in _OBJECTS else at


def _is_base(word: str, lexicon: Lexicon) -> bool:
    return any(act.form == "base" for act in lexicon.table.get((word,), NOTHING).acts)
