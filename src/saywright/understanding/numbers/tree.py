"""The structure of a number phrase, as `grammar/numbers.lark` gives it.

The structure depends on the token classes alone, not on the digits, and people use few
structures: each is parsed once and then filled with the digits of the phrase at hand.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache
from typing import Any, Final, cast

import lark
from lark.lexer import Lexer

from saywright.understanding.grammar_text import grammar_text

_CUT_BEFORE: Final = frozenset({"HUNDRED", "THOUSAND"})
_DANGLING: Final = frozenset({"POINT", "AND", "AND_FRACTION", "TIMES", "MINUS", "A", "NUMERATOR"})


@dataclass(frozen=True, slots=True)
class Piece:
    """Digits that one group of words gives."""

    digits: str
    kind: str  # digit, zero, oh, pair (10 to 99), cardinal (with hundred or thousand), repeated, figure
    odd: bool = False  # the words do not quite fit together


@dataclass(frozen=True, slots=True)
class Tree:
    """One parsed phrase. Which fields are filled follows from *rule*."""

    rule: str  # whole, decimal, mixed, loose_mixed, odd_mixed, fraction, dozen, ordinal, ratio, figures
    whole: tuple[Piece, ...] = ()
    tail: tuple[Piece, ...] = ()  # behind the point
    share: Fraction = Fraction(0)  # what a fraction adds
    text: str = ""  # digits as written, where the rule has only these
    negative: bool = False


@dataclass(frozen=True, slots=True)
class _Leaf:
    """One token: its class, and its place in the phrase."""

    kind: str
    index: int


@dataclass(frozen=True, slots=True)
class _Node:
    """One rule of the grammar with what it holds."""

    rule: str
    parts: tuple[_Node | _Leaf, ...]


class _ClassLexer(Lexer):
    """Hands token classes through; the words were classed before."""

    def __init__(self, lexer_conf: object) -> None:
        del lexer_conf

    def lex(self, data: Any) -> Iterator[lark.Token]:  # type: ignore[override]
        """One token a class; start_pos is its index."""
        for index, kind in enumerate(data):
            yield lark.Token(kind, "", start_pos=index)


@lru_cache(maxsize=1)
def _parser() -> lark.Lark:
    return lark.Lark(grammar_text("numbers"), parser="lalr", lexer=_ClassLexer)


def parse(kinds: tuple[str, ...], values: Sequence[str]) -> tuple[Tree | None, int]:
    """The longest number at the head of the token classes *kinds*, and how many of them it takes.

    *values* are the digits of each token.
    """
    node, taken = _structure(kinds)
    if node is None:
        return None, 0
    found = _fill(node.parts[-1], values)
    if isinstance(found, Fraction):
        found = Tree("fraction", share=found)
    elif isinstance(found, tuple):
        found = Tree("whole", whole=found)
    tree = cast(Tree, found)
    return (replace(tree, negative=True) if len(node.parts) > 1 else tree), taken


@lru_cache(maxsize=4096)
def _structure(kinds: tuple[str, ...]) -> tuple[_Node | None, int]:
    """The parse of the longest head of *kinds* that is a number, and its length.

    LALR sees one token ahead, so "one hundred two hundred" is first read as 102 and fails at
    the last token; it is then cut before the word that this token belongs to.
    """
    length = len(kinds)
    while length > 0:
        if kinds[length - 1] in _DANGLING:
            length -= 1
            continue
        try:
            tree = _parser().parse(kinds[:length])
        except lark.UnexpectedToken as failure:
            at = length - 1 if failure.token.type == "$END" else failure.token.start_pos or 0
            length = min(length - 1, _cut(kinds, at))
        else:
            return cast(_Node, _plain(tree)), length
    return None, 0


def _cut(kinds: Sequence[str], at: int) -> int:
    """Where to cut a run whose token *at* does not fit."""
    if kinds[at] not in _CUT_BEFORE or at == 0:
        return at
    return at - 2 if at > 1 and kinds[at - 1] == "DIGIT" and kinds[at - 2] == "TENS" else at - 1


def _plain(tree: lark.Tree[lark.Token] | lark.Token) -> _Node | _Leaf:
    if isinstance(tree, lark.Token):
        return _Leaf(tree.type, tree.start_pos or 0)
    return _Node(str(tree.data), tuple(_plain(child) for child in tree.children))


def _fill(part: _Node | _Leaf, values: Sequence[str]) -> Any:
    """What *part* says: a piece, pieces, a fraction or a `Tree`, by its rule."""
    if isinstance(part, _Leaf):
        value = values[part.index]
        if part.kind == "FIGURE":
            return Piece(value, "figure")
        return "0" if value == "oh" else value
    if part.rule == "small":
        return _small(part, values)
    return _RULES[part.rule]([_fill(child, values) for child in part.parts])


def _small(node: _Node, values: Sequence[str]) -> Piece:
    first = cast(_Leaf, node.parts[0])
    digits = values[first.index]
    if len(node.parts) == 2:
        return Piece(str(int(digits) + int(values[cast(_Leaf, node.parts[1]).index])), "pair")
    if digits == "oh":
        return Piece("0", "oh")
    return Piece(digits, {"DIGIT": "digit", "ZERO": "zero"}.get(first.kind, "pair"))


def _hundred(parts: list[Any]) -> Piece:
    """Parts are [small,] "100" [, and] [, small]."""
    lead = int(parts[0].digits) if isinstance(parts[0], Piece) else 1
    rest = int(parts[-1].digits) if isinstance(parts[-1], Piece) else 0
    return Piece(str(lead * 100 + rest), "cardinal", odd=lead == 0)


def _thousands(parts: list[Any]) -> tuple[Piece, ...]:
    """Parts are pieces, "1000" [, and] [, pieces]; only the whole of a thousand is read."""
    lead_pieces, rest_pieces = parts[0], parts[-1] if isinstance(parts[-1], tuple) else ()
    lead = "".join(piece.digits for piece in lead_pieces)
    rest = "".join(piece.digits for piece in rest_pieces) or "0"
    odd = len(lead) > 3 or int(rest) > 999 or any(piece.odd for piece in (*lead_pieces, *rest_pieces))
    return (Piece(str(int(lead) * 1000 + int(rest)), "cardinal", odd),)


def _decimal(parts: list[Any]) -> Tree:
    return Tree("decimal", whole=parts[0] if len(parts) == 3 else (Piece("0", "zero"),), tail=parts[-1])


def _point_figures(parts: list[Any]) -> Tree:
    return Tree("figures", text=f"0{parts[0]}" if parts[0].startswith(".") else parts[0])


_RULES: Final[dict[str, Callable[[list[Any]], Any]]] = {
    "hundred": _hundred,
    "repeated": lambda parts: Piece(parts[1] * int(parts[0]), "repeated"),
    "padded": lambda parts: Piece(parts[1], "digit"),
    "pieces": tuple,
    "whole": lambda parts: parts[0],
    "thousands": _thousands,
    "fraction": lambda parts: Fraction(int(parts[0]) if len(parts) == 2 else 1, int(parts[-1])),
    "decimal": _decimal,
    "mixed": lambda parts: Tree("mixed", whole=parts[0], share=parts[-1]),
    "loose_mixed": lambda parts: Tree("loose_mixed", whole=parts[0], share=parts[-1]),
    "figure_mixed": lambda parts: Tree("mixed", whole=parts[0], share=Fraction(parts[-1])),
    "odd_mixed": lambda parts: replace(parts[0], rule="odd_mixed", share=parts[-1]),
    "dozen": lambda parts: Tree("dozen", text=parts[0]),
    "ordinal": lambda parts: Tree("ordinal", text=parts[0]),
    "ratio": lambda parts: Tree("ratio", share=Fraction(parts[0])),
    "point_figures": _point_figures,
}
