"""Words → every reading of the number they may be, ranked.

`tokens` cuts the run, `tree` gives its structure, and here each structure is
read in every way that people mean it: "two fifty" is 250, and 2.50 where the point was left
out. The caller picks with what it knows and asks where two survive.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from functools import lru_cache
from operator import attrgetter
from typing import Final, Literal

from saywright.quantity import decimal_text
from saywright.understanding.fixed import fixed
from saywright.understanding.numbers.runs import Run
from saywright.understanding.numbers.tokens import scan
from saywright.understanding.numbers.tree import Piece, Tree, parse
from saywright.understanding.numbers.words import DENOMINATORS

How = Literal[
    "cardinal",  # "one hundred and five", "seven"
    "group",  # "one twenty eight"
    "digits",  # "two six seven"
    "decimal",
    "decimal_without_point",  # "eighteen forty two" as 18.42
    "mixed",  # "one and a half"
    "fraction",
    "figures",  # came as figures
    "ordinal",
    "article",  # "a turn"
]

_SINGLE: Final = frozenset({"digit", "zero", "oh", "repeated"})
_TOO_LARGE: Final = frozenset({"million", "millions", "billion"})
_MOST_PIECES: Final = 8  # nobody leaves the point out of a longer string


@fixed
class NumberReading:
    """One way to read a number phrase."""

    value: str  # digits as said: "18.40", "005"; shares that end as exact decimals, thirds as "1/3"
    how: How
    cost: int  # 0 = plainly this; equal lowest costs = truly ambiguous
    words: int  # number of words consumed from the start
    flags: tuple[str, ...] = ()  # "homophone", "figures", "odd"


Readings = tuple[NumberReading, ...]


@fixed
class _Option:
    """A reading whose span is not counted yet."""

    value: str
    how: How
    cost: int
    odd: bool = False


def read_number(
    words: Sequence[str], start: int = 0, *, homophones: bool = False
) -> tuple[NumberReading, ...]:
    """Every reading of the longest number phrase that begins exactly at word *start*, best first.

    *words* are lower case without punctuation, hyphens split; figures ("18.42", "1/4", "#60")
    may stand among them. () where no number begins there. All readings consume the same words,
    except that "five thirty seconds" is read as 5/32 and, without its last word, as 530. With
    *homophones*, to, for, won, ate, free count as digits where only a digit can stand.
    """
    run = scan(words, start, homophones=homophones)
    if not run.types:
        return ()
    readings = _readings(words, start, run)
    if "DENOMINATOR" in run.types and words[run.ends[-1] - 1] in ("second", "seconds"):
        readings += _readings(words, start, scan(words, start, homophones=homophones, shares=False))
    return tuple(sorted(readings, key=attrgetter("cost"))) if len(readings) > 1 else readings


def _readings(words: Sequence[str], start: int, run: Run) -> tuple[NumberReading, ...]:
    options, taken = _options(tuple(run.types), tuple(run.values))
    if not options:
        return ()
    end = run.ends[taken - 1]
    following = words[end] if end < len(words) else ""
    flags = run.flags
    turned = following in ("half", "quarter") and words[end + 1 : end + 2] in (["turn"], ("turn",))
    torn = following in DENOMINATORS and not (turned and "POINT" in run.types)  # "4.44, quarter turn on"
    if following in _TOO_LARGE or torn or following == "point":
        flags = flags | {"odd"}
    plain, odd = tuple(sorted(flags)), tuple(sorted({*flags, "odd"}))
    return tuple(
        [
            NumberReading(one.value, one.how, one.cost, end - start, odd if one.odd else plain)
            for one in options
        ]
    )


@lru_cache(maxsize=8192)
def _options(kinds: tuple[str, ...], values: tuple[str, ...]) -> tuple[tuple[_Option, ...], int]:
    """Every reading of the number at the head of these tokens, and how many of them it takes."""
    tree, taken = parse(kinds, values)
    if tree is None:
        return (), 0
    best: dict[str, _Option] = {}
    for option in _read(tree):
        value = f"-{option.value}" if tree.negative else option.value
        if value not in best or option.cost < best[value].cost:
            best[value] = _Option(value, option.how, option.cost, option.odd)
    return tuple(sorted(best.values(), key=lambda option: option.cost)), taken


def _read(tree: Tree) -> Iterator[_Option]:
    match tree.rule:
        case "whole":
            yield from _whole(tree.whole)
            yield from _without_point(tree.whole)
        case "decimal":
            yield _decimal(tree)
        case "mixed" | "loose_mixed":
            loose = tree.rule == "loose_mixed"
            for option in _whole(tree.whole):
                value = exact_text(int(option.value) + tree.share)
                odd = option.odd or loose or option.cost > 0 or tree.share >= 1 or option.how == "digits"
                yield _Option(value, "mixed", option.cost + loose, odd)
        case "odd_mixed":
            said = _decimal(tree)
            step = Fraction(1, 10 ** len(said.value.partition(".")[2]))
            yield _Option(exact_text(Fraction(said.value) + tree.share * step), "mixed", 2, odd=True)
        case "fraction" | "ratio":
            how: How = "fraction" if tree.rule == "fraction" else "figures"
            yield _Option(exact_text(tree.share), how, 0, odd=tree.share >= 1)
        case "ordinal":
            yield _Option(tree.text, "ordinal", 0)
        case "figures":
            yield _Option(tree.text, "figures", 0)
        case _:
            yield _Option(tree.text, "cardinal", 0)


def exact_text(value: Fraction) -> str:
    """A decimal where it ends, else the ratio."""
    rest = value.denominator
    for prime in (2, 5):
        while rest % prime == 0:
            rest //= prime
    return decimal_text(value, 20) if rest == 1 else f"{value.numerator}/{value.denominator}"


def _join(pieces: Sequence[Piece]) -> str:
    return "".join(piece.digits for piece in pieces)


def _plain(digits: str) -> str:
    """Digits without the zeros that lead them."""
    return digits.lstrip("0") or "0"


def _whole(pieces: tuple[Piece, ...]) -> Iterator[_Option]:
    """Readings as a whole number: one cardinal, digits in a row, or groups in a row."""
    odd = any(piece.odd for piece in pieces)
    if len(pieces) == 1:
        piece = pieces[0]
        how: How = {"repeated": "digits", "figure": "figures"}.get(piece.kind, "cardinal")  # type: ignore[assignment]
        yield _Option(piece.digits, how, 0, odd)
        return
    kinds = [piece.kind for piece in pieces]
    digits = _join(pieces)
    if all(kind in _SINGLE for kind in kinds):
        yield _Option(digits, "digits", 0, odd)
        return
    if kinds[0] == "oh" and len(set(kinds)) > 1 and not set(kinds[1:]) <= _SINGLE:
        # "oh, one twenty eight" is mostly an exclamation before the number.
        yield from _whole(pieces[1:])
        yield _Option(digits, "group", 1, odd)
        return
    if "cardinal" in kinds:
        yield _Option(digits, "group", 3, odd=True)
    elif "figure" in kinds:
        yield _Option(digits, "digits", 1, odd)
    else:
        many = len(kinds) > 2 and kinds.count("pair") > 1  # perhaps two numbers
        yield _Option(digits, "group", _group_cost(kinds), odd or many)


def _group_cost(kinds: list[str]) -> int:
    """0 for the group forms people use: "one twenty eight", "twelve fifty", "eleven oh five"."""
    shape = ["single" if kind in _SINGLE else "pair" for kind in kinds]
    if shape in (["single", "pair"], ["pair", "pair"]):
        return 0
    if shape == ["pair", "single", "single"] and kinds[1] in ("oh", "zero"):
        return 0
    return 1


def _without_point(pieces: tuple[Piece, ...]) -> Iterator[_Option]:
    """Readings with a point that was not said: "eighteen forty two" as 18.42."""
    kinds = [piece.kind for piece in pieces]
    if not 2 <= len(pieces) <= _MOST_PIECES or "cardinal" in kinds[1:] or "figure" in kinds:
        return
    if kinds[0] == "oh" and not set(kinds[1:]) <= _SINGLE:
        yield from _without_point(pieces[1:])
        return
    most = 1 if kinds[0] in ("oh", "zero", "cardinal") else 3
    for split in range(1, min(len(pieces) - 1, most) + 1):
        value = f"{_plain(_join(pieces[:split]))}.{_join(pieces[split:])}"
        yield _Option(value, "decimal_without_point", _split_cost(kinds, split))
    digits = _join(pieces)
    if kinds[0] == "digit" and 3 <= len(digits) <= 5:
        # Machinists leave out the nought as well: "eight seventy four" is 0.874 in.
        yield _Option(f"0.{digits}", "decimal_without_point", 4)


def _split_cost(kinds: list[str], split: int) -> int:
    if split > 1:
        return 3 if kinds[0] in _SINGLE else 2
    if kinds[0] == "repeated":
        return 3
    if kinds[0] not in _SINGLE or (len(kinds) == 2 and kinds[1] == "pair" and kinds[0] == "digit"):
        return 1
    return 2


def _decimal(tree: Tree) -> _Option:
    """A number with its point said; the digits behind it are kept as said."""
    whole = min(_whole(tree.whole), key=lambda option: option.cost)
    kinds = [piece.kind for piece in tree.tail]
    odd = whole.odd or whole.cost > 0 or any(piece.odd for piece in tree.tail)
    cost = whole.cost
    if "cardinal" in kinds:
        cost, odd = cost + 2, True
    elif "pair" in kinds:
        cost += 1 if kinds.index("pair") == len(kinds) - 1 else 2
        odd = odd or len(kinds) > 2
    elif "figure" in kinds and len(kinds) > 1:
        odd = True
    return _Option(f"{_plain(whole.value)}.{_join(tree.tail)}", "decimal", cost, odd)
