"""The structure of a number phrase, as `grammar/numbers.lark` gives it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import Any, Final

from lark import Lark, Token, Transformer, UnexpectedToken
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
    fraction: Fraction = Fraction(0)
    text: str = ""  # digits as written, where the rule has only these
    negative: bool = False


class _TokenLexer(Lexer):
    """Hands tokens through; the words were classed before."""

    def __init__(self, lexer_conf: object) -> None:
        del lexer_conf

    def lex(self, data: Any) -> Iterator[Token]:  # type: ignore[override]
        """Tokens from (class, digits) pairs; start_pos is the index of the pair."""
        for index, (kind, digits) in enumerate(data):
            yield Token(kind, digits, start_pos=index)


class _Build(Transformer[Token, Tree]):
    """Makes a `Tree`; called by the parser at each reduction, so no parse tree is kept."""

    def small(self, parts: list[Token]) -> Piece:
        if len(parts) == 2:
            return Piece(str(int(parts[0]) + int(parts[1])), "pair")
        kind = {"DIGIT": "digit", "ZERO": "zero"}.get(parts[0].type, "pair")
        return Piece("0", "oh") if parts[0] == "oh" else Piece(str(parts[0]), kind)

    def hundred(self, parts: list[Any]) -> Piece:
        rest = int(parts[-1].digits) if isinstance(parts[-1], Piece) else 0
        lead = int(parts[0].digits)
        return Piece(str(lead * 100 + rest), "cardinal", odd=lead == 0)

    def bare_hundred(self, parts: list[Any]) -> Piece:
        rest = int(parts[-1].digits) if isinstance(parts[-1], Piece) else 0
        return Piece(str(100 + rest), "cardinal")

    def repeated(self, parts: list[Token]) -> Piece:
        digit = "0" if parts[1] == "oh" else str(parts[1])
        return Piece(digit * int(parts[0]), "repeated")

    def pieces(self, parts: list[Any]) -> tuple[Piece, ...]:
        return tuple(part if isinstance(part, Piece) else Piece(str(part), "figure") for part in parts)

    def whole(self, parts: list[Any]) -> tuple[Piece, ...]:
        pieces: tuple[Piece, ...] = parts[0]
        return pieces

    def thousands(self, parts: list[Any]) -> tuple[Piece, ...]:
        lead = "".join(piece.digits for piece in parts[0])
        rest_pieces = parts[-1] if isinstance(parts[-1], tuple) and len(parts) > 2 else ()
        rest = "".join(piece.digits for piece in rest_pieces) or "0"
        odd = len(lead) > 3 or int(rest) > 999 or any(piece.odd for piece in (*parts[0], *rest_pieces))
        return (Piece(str(int(lead) * 1000 + int(rest)), "cardinal", odd),)

    def fraction(self, parts: list[Token]) -> Fraction:
        top = int(parts[0]) if len(parts) == 2 else 1
        return Fraction(top, int(parts[-1]))

    def decimal(self, parts: list[Any]) -> Tree:
        whole = parts[0] if len(parts) == 3 else (Piece("0", "zero"),)
        return Tree("decimal", whole=whole, tail=parts[-1])

    def mixed(self, parts: list[Any]) -> Tree:
        return Tree("mixed", whole=parts[0], fraction=parts[-1])

    def loose_mixed(self, parts: list[Any]) -> Tree:
        return Tree("loose_mixed", whole=parts[0], fraction=parts[-1])

    def figure_mixed(self, parts: list[Any]) -> Tree:
        return Tree("mixed", whole=parts[0], fraction=Fraction(parts[-1]))

    def odd_mixed(self, parts: list[Any]) -> Tree:
        return Tree("odd_mixed", whole=parts[0].whole, tail=parts[0].tail, fraction=parts[-1])

    def dozen(self, parts: list[Token]) -> Tree:
        return Tree("dozen", text=str(parts[0]))

    def ordinal(self, parts: list[Token]) -> Tree:
        return Tree("ordinal", text=str(parts[0]))

    def ratio(self, parts: list[Token]) -> Tree:
        return Tree("ratio", fraction=Fraction(str(parts[0])))

    def point_figures(self, parts: list[Token]) -> Tree:
        text = str(parts[0])
        return Tree("figures", text=f"0{text}" if text.startswith(".") else text)

    def start(self, parts: list[Any]) -> Tree:
        found = parts[-1]
        if isinstance(found, Fraction):
            found = Tree("fraction", fraction=found)
        elif isinstance(found, tuple):
            found = Tree("whole", whole=found)
        negative = len(parts) > 1
        return Tree(found.rule, found.whole, found.tail, found.fraction, found.text, negative) if negative else found


@lru_cache(maxsize=1)
def _parser() -> Lark:
    return Lark(grammar_text("numbers"), parser="lalr", lexer=_TokenLexer, transformer=_Build())


def parse(pairs: Sequence[tuple[str, str]]) -> tuple[Tree | None, int]:
    """The longest number at the head of the (class, digits) *pairs*, and how many of them it takes.

    LALR sees one token ahead, so "one hundred two hundred" is first read as 102 and fails at
    the last token; it is then cut before the word that this token belongs to.
    """
    length = len(pairs)
    while length > 0:
        if pairs[length - 1][0] in _DANGLING:
            length -= 1
            continue
        try:
            return _parser().parse(pairs[:length]), length  # type: ignore[return-value]
        except UnexpectedToken as failure:
            at = failure.token.start_pos if failure.token.type != "$END" else length - 1
            length = min(length - 1, _cut(pairs, at if at is not None else length - 1))
    return None, 0


def _cut(pairs: Sequence[tuple[str, str]], at: int) -> int:
    """Where to cut a run whose token *at* does not fit."""
    if pairs[at][0] not in _CUT_BEFORE or at == 0:
        return at
    return at - 2 if at > 1 and pairs[at - 1][0] == "DIGIT" and pairs[at - 2][0] == "TENS" else at - 1
