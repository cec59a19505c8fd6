""" "Pin float needle all out": all are three and more, so the float came out, and the needle. Pure."""

from __future__ import annotations

from itertools import combinations
from typing import TYPE_CHECKING, Final

from saywright.understanding.meanings import Meaning
from saywright.understanding.steps import Tokens, called_by
from saywright.understanding.tokens import BREAK, Token, text_at

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_WAYS: Final = frozenset({"off", "out", "in", "on", "back"})
_OPENS: Final = frozenset({"and", "so", "then", "now", "right", "okay", "the", "its", "all", "with"})
_TWO: Final = 2
Name = tuple[int, int, Meaning]


@called_by({"all"})
def rows_of_all(tokens: Tokens, _: Discourse, lexicon: Lexicon) -> Tokens:
    """ "Pin and float and float needle all out", where two names run into one and no two are all."""
    texts = tuple([token.text for token in tokens])
    at = next((i for i in range(2, len(texts) - 1) if texts[i] == "all" and texts[i + 1] in _WAYS), 0)
    row = _row(texts, at, lexicon) if at else []
    if len(row) != _TWO or any(name[2].many for name in row) or text_at(texts, row[0][1]) == "and":
        return tokens
    for start, end, _meaning in reversed(row):
        cut = _cut(texts, start, end, lexicon)
        if cut and _are_three(texts, row, start, cut, lexicon):
            second = row[1][0]
            joined = Token("and", tokens[start].word)
            told = (*tokens[start:cut], joined, *tokens[start:end])
            if start == second:
                return (*tokens[:start], joined, *told, *tokens[end:])
            return (*tokens[:start], *told, joined, *tokens[end:])
    return tokens


def _are_three(texts: tuple[str, ...], row: list[Name], start: int, cut: int, lexicon: Lexicon) -> bool:
    """True where the name cut off is another part than both of the row; not "hold down" of its spring."""
    first = lexicon.match(texts[:cut], start)
    said = [name[2] for name in row] + ([first[1]] if first is not None else [])
    parts = [frozenset((*one.parts, *one.aliases)) for one in said]
    return all(one.isdisjoint(other) for one, other in combinations(parts, 2))


def _row(texts: tuple[str, ...], end: int, lexicon: Lexicon) -> list[Name]:
    """The names, one behind the other, that end at *end* and open their clause; none where more is said."""
    begin = end
    while begin and texts[begin - 1] not in _WAYS | {BREAK}:
        begin -= 1
    row: list[Name] = []
    while begin < end:
        if texts[begin] in _OPENS or texts[begin] in lexicon.positions:
            begin += 1
            continue
        found = lexicon.match(texts[:end], begin)
        if found is None or not (found[1].parts or found[1].aliases):
            return []
        row.append((begin, begin + found[0], found[1]))
        begin += found[0]
    return row


def _cut(texts: tuple[str, ...], start: int, end: int, lexicon: Lexicon) -> int:
    """Where a name is cut into the names of two parts; 0 where it is no two."""
    for cut in range(start + 1, end):
        left, right = lexicon.match(texts[:cut], start), lexicon.match(texts[:end], cut)
        if left is None or right is None or start + left[0] != cut or cut + right[0] != end:
            continue
        if left[1].parts and not left[1].many and (right[1].parts or right[1].aliases) and not right[1].many:
            return cut
    return 0
