"""The size of a fastener, said before it: "two m eight bolts" are two, "four half inch nuts" four. Pure."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from saywright.understanding.bench_words import FASTENERS
from saywright.understanding.discourse import Discourse
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.numbers.words import CLASSES, DENOMINATORS
from saywright.understanding.steps import called_by
from saywright.understanding.tokens import BREAK, Token

_NOUNS: Final = (FASTENERS - {"clip", "clips"}) | {
    "heads", "capscrews", "setscrew", "setscrews", "stud", "caphead", "capheads", "allens",
}  # fmt: skip
_KINDS: Final = frozenset(
    ["hex", "allen", "cap", "socket", "head", "flange", "flanged", "torx", "set", "grub", "countersunk",
     "coarse", "fine", "coach", "high", "tensile", "stainless", "af", "unf", "unc", "whitworth", "metric"]
)  # fmt: skip
_MILLIMETRES: Final = frozenset(
    {"mil", "mill", "mm", "millimetre", "millimeter", "millimetres", "millimeters"}
)
_METRIC: Final = re.compile(r"m\d{1,2}")
_SHARES: Final = frozenset({"half", "quarter", "quarters", "eighth", "eighths", "sixteenth", "sixteenths"})


@called_by(_NOUNS)
def sizes_aside(tokens: tuple[Token, ...], _: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """*tokens* without the sizes that stand before "bolts", "nuts", "head bolts" of the sheet."""
    texts = [token.text for token in tokens]
    aside: set[int] = set()
    for at, text in enumerate(texts):
        if text in _NOUNS:
            end = next(
                (at - n for n in (2, 1) if at >= n and tuple(texts[at - n : at + 1]) in lexicon.table), at
            )
            while end > 0 and texts[end - 1] in _KINDS:
                end -= 1
            aside |= set(range(_begin(texts, end), end))
    if not aside:
        return tokens
    head = next(at for at in range(len(tokens)) if at not in aside)  # what begins the line stays on record
    kept = [replace(token, text=BREAK) for token in tokens[:head]]
    return (*kept, *(token for at, token in enumerate(tokens) if at >= head and at not in aside))


def _begin(texts: Sequence[str], end: int) -> int:
    """Where the size that ends before *end* begins; *end* where there is none."""
    if end <= 0:
        return end
    last = texts[end - 1]
    if _METRIC.fullmatch(last):
        return end - 1
    if last in _MILLIMETRES:
        return _number(texts, end - 1)
    if last == "inch" or last in _SHARES:
        begin = _share(texts, end - (last == "inch"))
        return end if _is_mixed(texts, begin) else begin
    start = _number(texts, end)
    if 1 < start < end and texts[start - 1] == "by":  # "m eight by twenty five bolts"
        return _begin(texts, start - 1)
    return start - 1 if 0 < start < end and texts[start - 1] == "m" else end


def _is_mixed(texts: Sequence[str], begin: int) -> bool:
    """ "one and a quarter screws out", "two and three quarter": what was counted, and no size."""
    before = texts[max(0, begin - 3) : begin]
    before = before[:-1] if before[-1:] == ["a"] else before
    return before[-1:] == ["and"] and before[-2:-1] != [] and before[-2] in CLASSES


def _number(texts: Sequence[str], end: int) -> int:
    """Where the whole number below a hundred that ends before *end* begins: of "two ten" that is "ten"."""
    if not end or texts[end - 1] not in CLASSES:
        return end
    kind = CLASSES[texts[end - 1]][0]
    if kind not in {"DIGIT", "TEEN", "TENS"}:
        return end
    tens = kind == "DIGIT" and end > 1 and CLASSES.get(texts[end - 2], ("",))[0] == "TENS"
    return end - 1 - tens


def _share(texts: Sequence[str], end: int) -> int:
    """Where "half", "three eighths", "seven sixteenths" that ends before *end* begins."""
    if not end or texts[end - 1] not in _SHARES or texts[end - 1] not in DENOMINATORS:
        return end
    return end - 1 if texts[end - 1] in {"half", "quarter"} else _number(texts, end - 1)
