"""A number said twice so that it is heard right: "forty one millimetres, I say again, four one". Pure."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from saywright.quantity import parse_value
from saywright.sheets.model import Sheet
from saywright.understanding.discourse import Hand
from saywright.understanding.numbers.ranked import read_number
from saywright.understanding.numbers.words import CLASSES, DENOMINATORS, OH
from saywright.understanding.quantities.units import Units, unit_at
from saywright.understanding.tokens import BREAK, Token

_AGAIN: Final = (
    ("i", "say", "again"), ("say", "again"), ("i", "repeat"), ("repeat",), ("that", "is"),
    ("again", "that", "is"), ("read", "back"), ("readback",), ("confirmed",), ("i", "make", "that"),
)  # fmt: skip
_SAYS_AGAIN: Final = frozenset({"again", "repeat", "readback", "back", "confirmed"})
_THREE: Final = 3
_SHARES: Final = frozenset(DENOMINATORS)
_LONGEST_SHARE: Final = 6  # words
_FINE: Final = 2  # decimals of a limit
_FEWEST: Final = 3  # number words of a line that says one twice
_LARGE: Final = frozenset({"TENS", "TEEN"})
_SAID: Final = _LARGE | {"DIGIT", "ZERO", "POINT"}
_GOES_ON: Final = frozenset({BREAK, "so", "it", "that", "then", "and", "long", "thick"})
_EACH: Final = frozenset({"both", "each", "pair", "all", "apiece", "and"})  # before two values alike
_SINGULAR: Final = frozenset(
    {"is", "was", "says", "reads", "thickness", "measures", "shows", "across", "makes"}
)
NUMBER_WORDS: Final = {word: CLASSES[word] for word in CLASSES if CLASSES[word][0] in _SAID}
NUMBER_WORDS.update(dict.fromkeys(OH, ("ZERO", "0")))
_HEADS: Final = {word: figures[0] for word, (_, figures) in NUMBER_WORDS.items() if figures[:1].isdigit()}


def said_once(tokens: tuple[Token, ...], units: Units, sheet: Sheet, held: Hand | None) -> tuple[Token, ...]:
    """*tokens* without a number that is said right behind the same one, whole or figure by figure.

    "three point eight four three point eight four", "twenty four millimetres two four". A whole number of two
    figures with two more behind it stays where the sheet has limits so fine about it: "twenty two two two"
    may be 22.22. With several *held*, a number alone at the head and the same again are one for each.
    """
    texts = [token.text for token in tokens]
    heads = [_HEADS[text] for text in texts if text in _HEADS]
    if sum(map(NUMBER_WORDS.__contains__, texts)) < _FEWEST or len(set(heads)) == len(heads):
        return tokens  # no figure is said twice
    several, at = _are_several(held, sheet), 0
    while at < len(texts):
        end = _run(texts, at)
        cut = None if end - at < 2 or (several and not at) else _second(texts, at, end, units, sheet)
        if cut is not None:
            begin, stop = cut
            pause = (Token(BREAK, tokens[begin].word),) if stop < len(tokens) else ()
            return (*tokens[:begin], *pause, *tokens[stop:])
        at = max(end, at + 1)
    return tokens


def _are_several(held: Hand | None, sheet: Sheet) -> bool:
    part = sheet.get(held.component) if held is not None and held.which is None else None
    return part is not None and part.count > 1


def _run(texts: Sequence[str], at: int) -> int:
    """Where the run of number words that begins at *at* ends."""
    while at < len(texts) and (
        texts[at] in NUMBER_WORDS
        or texts[at] == "hundred"
        or (texts[at] == "and" and texts[at - 1] == "hundred" and texts[at + 1 : at + 2] != ["a"])
    ):
        at += 1
    return at


def _second(texts: Sequence[str], at: int, end: int, units: Units, sheet: Sheet) -> tuple[int, int] | None:
    """What of the number at *at* is said again: its first token and the one behind it."""
    if _is_for_each(texts[:at]):
        return None
    shares = "point" in texts[at:end] and not _SHARES.isdisjoint(texts[end - 1 : end + 3])
    for cut in range(at + 1, end):  # "three point eight four | three point eight four"
        if shares and (stop := _in_shares(texts, at, cut)) and _ends(texts, stop, units):
            return cut, stop
        if _begin_alike(texts[at], texts[cut]) and _same(texts[at:cut], texts[cut:end], sheet):
            return cut, end
    unit = unit_at(texts, end, units)
    behind = unit[2] if unit is not None else end
    told = next((a for a in _AGAIN if tuple(texts[behind : behind + len(a)]) == a), ())
    stop = _run(texts, behind + len(told))
    again = _figures(texts[behind + len(told) : stop])
    if behind + len(told) == end or not again or again != _figures(texts[at:end]):
        return None
    sure = not _SAYS_AGAIN.isdisjoint(told) or len(again) > 1
    return (behind, stop) if sure else None


def _in_shares(texts: Sequence[str], at: int, cut: int) -> int:
    """ "five point one | five and a tenth": where the decimal, said again as a share, ends; else 0."""
    if "point" not in texts[at : cut - 1]:
        return 0
    said = ["one" if word == "won" else word for word in texts[cut : cut + _LONGEST_SHARE]]
    one, then = read_number(texts[at:cut]), read_number(said)
    if not one or not then or one[0].words != cut - at or then[0].how not in {"mixed", "fraction"}:
        return 0
    return cut + then[0].words if parse_value(one[0].value) == parse_value(then[0].value) else 0


def _ends(texts: Sequence[str], stop: int, units: Units) -> bool:
    """False where more stands right behind: "eighteen point one eighteen and a tenth rear"."""
    unit = unit_at(texts, stop, units)
    behind = unit[2] if unit is not None else stop
    return behind >= len(texts) or texts[behind] in _GOES_ON


def _is_for_each(before: Sequence[str]) -> bool:
    """ "pads three point one three point one", "both three point one …": one for each of them."""
    if not _EACH.isdisjoint(before):
        return True
    said = [text for text in before[-2:] if text not in {"are", "at", "were"}]
    return bool(said) and said[-1].endswith("s") and said[-1] not in _SINGULAR


def _begin_alike(one: str, two: str) -> bool:
    """False for two words of numbers that begin with another figure each: "twenty … three"."""
    return _HEADS.get(one, "") == _HEADS.get(two, "") or one not in _HEADS or two not in _HEADS


def _same(one: Sequence[str], two: Sequence[str], sheet: Sheet) -> bool:
    """True where *two* is no more than *one* said again."""
    first, second = _figures(one), _figures(two)
    if not first or first.replace(".", "") != second.replace(".", ""):
        return False
    if "." in first:
        return "." in second or len(two) == len(second) > 1
    spelled = len(two) == len(second) == 2 and any(
        CLASSES[word][0] in _LARGE for word in one if word in CLASSES
    )
    return spelled and not _is_fine(int(first), sheet)


def _is_fine(value: int, sheet: Sheet) -> bool:
    """True where *sheet* has a limit with decimals right about *value*."""
    read = [c for part in sheet.component for c in part.characteristic if c.limit_places >= _FINE]
    return any(limit is not None and abs(int(limit) - value) <= 1 for c in read for limit in c.limits)


def _figures(words: Sequence[str]) -> str:
    """The figures of *words*: "three point eight four" is "3.84"; "" where they are none."""
    if "hundred" in words:
        at = words.index("hundred")
        hundreds, rest = (
            _figures(words[:at]),
            _figures(words[at + 1 + (tuple(words[at + 1 : at + 2]) == ("and",)) :]),
        )
        return (
            f"{hundreds}{rest.zfill(2)}"
            if len(hundreds) == 1 and rest.isdigit() and len(rest) < _THREE
            else ""
        )
    if not NUMBER_WORDS.keys() >= set(words):
        return ""
    out = ""
    for at, word in enumerate(words):
        kind, figures = NUMBER_WORDS[word]
        units = at + 1 < len(words) and NUMBER_WORDS[words[at + 1]][0] == "DIGIT"
        out += figures[:1] if kind == "TENS" and units and words[at + 1] not in OH else figures
    return out if out.count(".") < 2 and out.strip(".") == out else ""
