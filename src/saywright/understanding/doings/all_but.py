""" "Vanes are out bar one", "all but two of the screws came out": as many as that leaves. Pure."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Final

from saywright.understanding.numbers.words import COUNTS, TO_TWELVE
from saywright.understanding.steps import Tokens, called_by
from saywright.understanding.tokens import BREAK, Token, text_at

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_SIGNS: Final = frozenset({"bar", "except", "but", "apart"})
_LEADS: Final = frozenset({"for", "from"})
_WAYS: Final = frozenset({"off", "out", "in", "on", "back", "away"})
_DET: Final = frozenset({"the", "every", "all", "its", "of", "his"})
_ENDS: Final = frozenset({"", BREAK, "and", "that", "which", "so", "of", "who", "now", "then"})


@called_by(_SIGNS)
def moved_all_but(tokens: Tokens, _: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* with how many moved where some of all did not."""
    texts = tuple([token.text for token in tokens])
    for at in range(1, len(texts) - 1):
        if texts[at] not in _SIGNS:
            continue
        number = at + 1 + (texts[at + 1] in _LEADS)
        left = COUNTS.get(texts[number], 0) if number < len(texts) else 0
        if not left:
            continue
        if (
            texts[at - 1] == "all"
            and texts[at] == "but"
            and (put := _all_but(tokens, texts, at, left, lexicon))
        ):
            return put
        way = at - 1 if texts[at - 1] != BREAK else at - 2
        way -= texts[way] == "all"
        if text_at(texts, number + 1) in _ENDS and way > 0 and texts[way] in _WAYS:
            put = _before_way(tokens, texts, (way, number + 1), left, lexicon)
            if put:
                return put
    return tokens


def _all_but(tokens: Tokens, texts: tuple[str, ...], at: int, left: int, lexicon: Lexicon) -> Tokens:
    """ "All but one of the vanes are out": seven vanes; () where it is none."""
    begin = at + 2
    while text_at(texts, begin) in {"of", "the", "them", "its"}:
        begin += 1
    found = lexicon.match(texts, begin) if begin < len(texts) and texts[begin] else None
    end = begin + found[0] if found is not None else 0
    moves = end and not _WAYS.isdisjoint(texts[end : end + 3])
    count = _count(found[1].parts or found[1].aliases, lexicon) - left if found is not None else 0
    if not moves or not 0 < count <= len(TO_TWELVE):
        return ()
    return (*tokens[: at - 1], Token(TO_TWELVE[count - 1], tokens[at].word), *tokens[begin:])


def _before_way(
    tokens: Tokens, texts: tuple[str, ...], span: tuple[int, int], left: int, lexicon: Lexicon
) -> Tokens:
    """ "Vanes have slid out bar one": seven vanes; () where what moved is not named in its clause."""
    way, end = span
    begin = way
    while begin and texts[begin - 1] not in {BREAK, "and"}:
        begin -= 1
    for at in range(begin, way):
        found = lexicon.match(texts[:way], at) if texts[at] else None
        parts = found[1].parts or found[1].aliases if found is not None else ()
        count = _count(parts, lexicon) - left
        if not parts or not 0 < count <= len(TO_TWELVE):
            continue
        lead = at
        while lead > begin and texts[lead - 1] in _DET:
            lead -= 1
        number = Token(TO_TWELVE[count - 1], tokens[at].word)
        return (*tokens[:lead], number, *tokens[at : way + 1], *tokens[end:])
    return ()


def _count(parts: Sequence[str], lexicon: Lexicon) -> int:
    counts = {part.count for part in map(lexicon.sheet.get, parts) if part is not None}
    return next(iter(counts)) if len(counts) == 1 else 0
