"""Why a number was wrong, in short: "three point two, no, held it crooked, three point four". Pure.

The words that tell why fall away, so that the number behind them puts the one before right. So do "no click
yet" of the wrench and "can't read my own jets". What names a side, a place or another number stays.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from saywright.understanding.discourse import Discourse
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.meanings import NOTHING
from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.second_thoughts.words import NO
from saywright.understanding.steps import called_by
from saywright.understanding.tokens import BREAK, HESITATIONS, Token, words_of

_DID: Final = frozenset(
    ["pushed", "pulled", "held", "caught", "slipped", "zeroed", "dropped", "tilted", "knocked", "bumped",
     "pinched", "squeezed", "misread", "jogged", "nudged", "cocked", "skewed", "leaned", "leant", "moved",
     "missed", "forgot", "rocked", "twisted", "jumped", "read"]
)  # fmt: skip
_HELD: Final = words_of(
    "held caught knocked bumped pinched squeezed cocked tilted nudged jogged rocked leaned leant twisted"
)  # what may be said of another part than the one that is measured
_MEASURED: Final = frozenset({"it", "that", "them", "the", "to", "off", "my", "a"})
_WITH: Final = (("that", "is", "with"), ("that", "was", "with"), ("it", "is", "with"), ("with", "the"))
_LEFT_ON: Final = frozenset(
    ["bit", "piece", "gasket", "muck", "dirt", "grit", "swarf", "burr", "rag", "paint"]
)  # fmt: skip
_THERE: Final = (("there", "is"), ("there", "was"), ("got", "a"), ("got", "some"))
_ENDS: Final = frozenset({"and", "but", "left", "right", "other", "so", "now", "then", "not", "same"})
_YET: Final = (
    ("no", "click", "yet"), ("no", "click"), ("nothing", "yet"),
)  # fmt: skip
_OWN: Final = ("can", "not", "read", "my", "own")
_NUMBERS: Final = frozenset(CLASSES) | {"a"}
_LONGEST: Final = 8  # words of an excuse
_MUTTERED: Final = tuple(
    tuple(said.split())
    for said in (
        "what am i saying", "what am i thinking", "what am i doing", "what am i on about", "what is that",
        "what was that", "excuse me", "beg your pardon", "i beg your pardon", "silly me", "daft me",
    )
)  # fmt: skip
_OF_IT: Final = frozenset({"that", "it"})
_MY: Final = frozenset({"my", "the", "your"})
_WAS: Final = frozenset(
    ["is", "was", "are", "were", "has", "had", "slipped", "moved", "caught", "stuck", "jumped", "shifted"]
)  # fmt: skip
_LEADS: Final = frozenset({"at", "to", "is", "of"})
_OF_ANOTHER: Final = frozenset({"are", "was", "were", "has", "had"})  # "the book has fifty"
_WAITS: Final = frozenset({("hang", "on"), ("hold", "on"), ("hold", "up"), ("hang", "about")})


@called_by(NO | {"click", "yet", "own", "hang", "hold", "wait"})
def excused_numbers(tokens: tuple[Token, ...], _: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """*tokens* without the words between two numbers that tell why the first one was wrong."""
    texts = tuple([token.text for token in tokens])
    for at in range(len(texts)):
        if texts[at : at + len(_OWN)] == _OWN and _ends_number(texts, at, lexicon):
            return tokens[:at]  # "a forty, no, forty five, can't read my own jets"
        yet = _yet_at(texts, at)
        if yet and _ends_number(texts, at, lexicon) and _begins_number(texts, at + yet):
            placed = any(
                text in lexicon.positions for text in texts[at + yet :]
            )  # "nothing yet, fifteen right"
            return tokens if placed else _wound_on(tokens, texts, at, yet)
        if texts[at] in NO and _ends_number(texts, at, lexicon):
            end = _excuse(texts, at + 1, lexicon) or _muttered(texts, at + 1, lexicon)
            if end and _begins_number(texts, end) and not _is_of_another(texts, at, end, lexicon):
                return (*tokens[: at + 1], *tokens[end:])
        waits = 2 if texts[at : at + 2] in _WAITS else int(texts[at] == "wait")
        if waits and _ends_number(texts, at, lexicon):
            end = _muttered(texts, at + waits, lexicon)
            if end and not _is_of_another(texts, at, end, lexicon):
                return (*tokens[:at], replace(tokens[at], text="no"), *tokens[end:])
    return tokens


def _muttered(texts: Sequence[str], begin: int, lexicon: Lexicon) -> int:
    """Where "what am I saying, that's the spanner", "the blades were stuck together" ends; 0 for others.

    A number stands behind it, and neither another value nor a place between.
    """
    while texts[begin : begin + 1] and texts[begin] in HESITATIONS | {BREAK}:
        begin += 1
    way = next((way for way in _MUTTERED if tuple(texts[begin : begin + len(way)]) == way), ())
    own = not _MY.isdisjoint(texts[begin : begin + 1]) and not _WAS.isdisjoint(texts[begin + 2 : begin + 4])
    if not way and not own:
        return 0
    leads = _LEADS if way else _LEADS | _OF_ANOTHER
    end = begin + len(way)
    while end < len(texts) and not _is_number(texts, end):
        end += 1
    why = texts[begin + len(way) : end]
    if end == len(texts) or len(why) > _LONGEST or not leads.isdisjoint(why[-1:]):
        return 0
    plain = not why or why[0] in _OF_IT or not _WAS.isdisjoint(why[1:4])
    if way and not plain:
        return 0  # "excuse me, the jaws went walkabout": nobody knows what it tells
    of_that = bool(way) and bool(why) and why[0] in _OF_IT  # "that's the rear": of the value before
    if not _ENDS.isdisjoint(why) or (not of_that and any(text in lexicon.positions for text in why)):
        return 0
    return end if way or _begins_number(texts, end) else 0


def _wound_on(tokens: tuple[Token, ...], texts: Sequence[str], at: int, yet: int) -> tuple[Token, ...]:
    """ "Nut forty three newton metres, no click yet, forty five": the last one alone, in its unit."""
    unit = at
    while unit and texts[unit - 1] not in CLASSES:
        unit -= 1
    start = unit
    while start and texts[start - 1] in CLASSES:
        start -= 1
    end = at + yet
    while end < len(texts) and (texts[end] in CLASSES or texts[end] == "oh"):
        end += 1
    return (*tokens[:start], *tokens[at + yet : end], *tokens[unit:at], *tokens[end:])


def _excuse(texts: Sequence[str], begin: int, lexicon: Lexicon) -> int:
    """Where the excuse that begins at token *begin* ends, in front of a number; 0 for none."""
    while texts[begin : begin + 1] and texts[begin] in HESITATIONS:
        begin += 1
    end = begin
    while end < len(texts) and end - begin <= _LONGEST and not _is_number(texts, end):
        if texts[end] in _ENDS or texts[end] in lexicon.positions:
            return 0
        end += 1
    said = tuple(texts[begin:end])
    if not said or end == len(texts) or end - begin > _LONGEST or said[-1] in {"at", "to", "is", "of"}:
        return 0
    did = said[0] in _DID and (len(said) == 1 or said[1] in _MEASURED)
    there = said[:2] in _THERE and not _LEFT_ON.isdisjoint(said)
    with_it = any(said[: len(way)] == way for way in _WITH)
    return end if did or there or with_it else 0


def _is_of_another(texts: tuple[str, ...], at: int, end: int, lexicon: Lexicon) -> bool:
    """ "Main jet one ten, no, pulled the pilot, forty": the number behind is of the part named there."""
    if any(texts[at + 1 : at + 1 + len(way)] == way for way in _WITH[:3]):
        return False  # "no, that's with the pin"
    if not _HELD.isdisjoint(texts[at + 1 : at + 3]) or not _LEFT_ON.isdisjoint(texts[at + 1 : end]):
        return False
    told, named = set[str](), set[str]()
    i = 0
    while i < end:
        found = lexicon.match(texts, i) if texts[i] != BREAK else None
        length, meant = found if found is not None else (1, NOTHING)
        of = (*meant.parts, *meant.aliases, *(part for part, _ in meant.characteristics))
        (told if i < at else named).update(of)
        i += length
    return not named <= told


def _is_number(texts: Sequence[str], at: int) -> bool:
    """False for "zero" of "forgot to zero it"."""
    sets = texts[at] == "zero" and not _MEASURED.isdisjoint(texts[at + 1 : at + 2])
    return texts[at] in CLASSES and not sets


def _yet_at(texts: Sequence[str], at: int) -> int:
    """How many tokens of "no click yet" stand at *at*, the longest; 0 for none."""
    found = [len(said) for said in _YET if tuple(texts[at : at + len(said)]) == said]
    return max(found, default=0)


def _ends_number(texts: Sequence[str], at: int, lexicon: Lexicon) -> bool:
    """True where a number, its unit or a pause behind it stands right before token *at*."""
    before = at - 1
    while before >= 0 and texts[before] in HESITATIONS | {BREAK}:
        before -= 1
    if before < 0:
        return False
    unit = texts[before] in lexicon.units
    return texts[before] in CLASSES or (unit and not _NUMBERS.isdisjoint(texts[max(0, before - 2) : before]))


def _begins_number(texts: Sequence[str], at: int) -> bool:
    return at < len(texts) and texts[at] in CLASSES and texts[at] != "and"
