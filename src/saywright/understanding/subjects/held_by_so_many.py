""" "The cover is held by four screws and I take them out": what "them" is, is what is counted there. Pure."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Final

from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.steps import called_by
from saywright.understanding.tokens import BREAK, Token, text_at

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_HELD: Final = frozenset({"held", "fixed", "fastened", "secured", "clamped", "hangs", "sits", "rides"})
_HOLD: Final = frozenset({"hold", "keep", "secure", "fasten", "clamp"})
_BE: Final = frozenset({"is", "are", "was"})
_WHERE: Final = frozenset({"on", "in", "down", "together", "up", "there", "shut"})
_BY: Final = frozenset({"by", "with", "on"})
_MANY: Final = frozenset({"them", "they", "those", "these", "both", "all"})
_TAKEN: Final = frozenset(
    ["out", "off", "undo", "undid", "undone", "unscrew", "unscrewed", "remove", "removed", "take", "took"]
)
_ARTICLES: Final = frozenset({"the", "its", "this", "that"})
_NAME: Final = 3  # words of a name


@called_by(_HELD | _HOLD)
def held_by_so_many(tokens: tuple[Token, ...], _: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """*tokens* without what is held, where "them" behind it is what holds it."""
    texts = tuple([token.text for token in tokens])
    at = next((i for i, text in enumerate(texts) if text in _HELD or text in _HOLD), 0)
    if at == 0:
        return tokens
    begin, end = (_held if texts[at] in _HELD else _holding)(texts, at, lexicon)
    if not end or not _are_taken(texts, end, lexicon):
        return tokens
    return (*tokens[:begin], *tokens[end:])


def _are_taken(texts: tuple[str, ...], end: int, lexicon: Lexicon) -> bool:
    """ "… and I take them out", of more than one, and no other part is told of there."""
    joined = next((i for i in range(end, len(texts)) if texts[i] == "and" or texts[i] == BREAK), len(texts))
    rest = texts[joined:]
    named = any(lexicon.names(texts, i).parts for i in range(joined, len(texts)) if texts[i] != BREAK)
    return not (named or "one" in texts[end:] or _MANY.isdisjoint(rest) or _TAKEN.isdisjoint(rest))


def _held(texts: tuple[str, ...], at: int, lexicon: Lexicon) -> tuple[int, int]:
    """ "The caliper is held on by two pins …": from "the" to "two"; (0, 0) where it is not told so."""
    verb = at - (texts[at - 1] in _BE)
    begin = next((i for i in range(max(0, verb - _NAME), verb) if _ends(texts, i, lexicon) == verb), verb)
    end = at + 1 + (text_at(texts, at + 1) in _WHERE and text_at(texts, at + 2) in _BY)
    if begin == verb and text_at(texts, verb - 2) in _ARTICLES:
        begin -= 1  # "the lid", which the sheet does not name
    if begin == verb or text_at(texts, end) not in _BY or not _counted(texts, end + 1, lexicon):
        return 0, 0
    begin -= begin > 0 and texts[begin - 1] in _ARTICLES
    return (begin, end + 1) if begin == 0 or texts[begin - 1] in {BREAK, "and", "so"} else (0, 0)


def _holding(texts: tuple[str, ...], at: int, lexicon: Lexicon) -> tuple[int, int]:
    """ "Four screws hold the cover on and …": from "hold" to "and"; (0, 0) where it is not told so."""
    if not any(_counted(texts, i, lexicon) == at for i in range(max(0, at - _NAME - 1), at - 1)):
        return 0, 0
    begin = at + 1 + (text_at(texts, at + 1) in _ARTICLES)
    end = at + 2 if text_at(texts, at + 1) == "it" else _ends(texts, begin, lexicon)
    end += bool(end) and text_at(texts, end) in _WHERE
    return (at, end) if end and text_at(texts, end) in {"and", BREAK} else (0, 0)


def _counted(texts: tuple[str, ...], at: int, lexicon: Lexicon) -> int:
    """Where the part ends that is counted from *at*: "two pins"; 0 where none is."""
    return _ends(texts, at + 1, lexicon) if text_at(texts, at) in CLASSES else 0


def _ends(texts: Sequence[str], at: int, lexicon: Lexicon) -> int:
    """The token behind the part named at *at*; 0 where none is."""
    found = lexicon.match(tuple(texts), at) if text_at(texts, at) not in {"", BREAK} else None
    return at + found[0] if found is not None and (found[1].parts or found[1].aliases) else 0
