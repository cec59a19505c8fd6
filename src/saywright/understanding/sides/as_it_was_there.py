""" "Hard too, just as it was at the front", "like the ones on the left were": no place worked on. Pure."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from saywright.understanding.steps import Tokens, called_by
from saywright.understanding.tokens import BREAK, text_at

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_LIKE: Final = frozenset({"as", "like"})
_WHO: Final = frozenset({"it", "they", "this", "that", "those", "these", "we", "i", "one", "ones"})
_DID: Final = frozenset({"was", "were", "is", "are", "did", "had", "found", "saw", "got"})
_BEFORE: Final = frozenset({"just", "exactly", "much", "same", "again", "pretty"})
_AT: Final = frozenset({"at", "on", "in", "up"})
_THE: Final = frozenset({"the", "that", "it", "them", "this"})
_NOUNS: Final = frozenset({"one", "ones", "side", "end"})
_LITTLE: Final = _THE | _AT | _NOUNS
_REACH: Final = 8  # tokens of "like the ones that we had on the left"


@called_by(_LIKE)
def as_it_was_there(tokens: Tokens, _: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* without what the other place was like, where something is told before or behind."""
    texts = tuple([token.text for token in tokens])
    if texts[0] in _LIKE and (end := _headed(texts, lexicon)):
        return tokens[end:]
    for at in range(2, len(texts) - 2):
        end = _likened_end(texts, at, lexicon) if texts[at] in _LIKE else 0
        if not end:
            continue
        begin = at
        while begin > 1 and texts[begin - 1] in _BEFORE:
            begin -= 1
        border = (replace(tokens[at], text=BREAK),) if end < len(texts) else ()
        return (*tokens[:begin], *border, *tokens[end:])
    return tokens


def _headed(texts: tuple[str, ...], lexicon: Lexicon) -> int:
    """ "Like the front the needle's worn": index behind the place, where a part is named there; else 0."""
    if texts[1:2] != ("the",) or not _is_place(text_at(texts, 2), lexicon):
        return 0
    end = 3 + (text_at(texts, 3) in _NOUNS)
    end += text_at(texts, end) == BREAK
    named = end + (text_at(texts, end) in _THE)
    return end if named < len(texts) and lexicon.names(texts, named).parts else 0


def _likened_end(texts: tuple[str, ...], at: int, lexicon: Lexicon) -> int:
    """Index behind a likeness that begins at *at*, told by a verb and a place; 0 where none does."""
    did = False
    for here in range(at + 1, min(at + _REACH, len(texts))):
        text = texts[here]
        if _is_place(text, lexicon):
            end = here + 1 + (text_at(texts, here + 1) in _NOUNS)
            behind = text_at(texts, end) in _DID
            return end + behind if did or behind else 0
        if text in _DID:
            did = True
        elif text not in _WHO and text not in _LITTLE:
            return 0
    return 0


def _is_place(text: str, lexicon: Lexicon) -> bool:
    return text in lexicon.positions or text in lexicon.other_places
