"""Serial numbers, part numbers, stamps and tags, spelled with letters, alphabet words and digits."""

from __future__ import annotations

from collections.abc import Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass

from saywright.understanding.numbers.words import CLASSES, HOMOPHONES
from saywright.understanding.tokens import BREAK

# ICAO Annex 10, volume II; FAA AIM table 4-2-2; with the spellings recognisers write.
ALPHABET = {
    "alfa": "A", "alpha": "A", "bravo": "B", "charlie": "C", "delta": "D", "echo": "E", "foxtrot": "F",
    "golf": "G", "hotel": "H", "india": "I", "juliett": "J", "juliet": "J", "kilo": "K", "lima": "L",
    "mike": "M", "november": "N", "oscar": "O", "papa": "P", "quebec": "Q", "romeo": "R", "sierra": "S",
    "tango": "T", "uniform": "U", "victor": "V", "whiskey": "W", "whisky": "W", "xray": "X",
    "yankee": "Y", "zulu": "Z", "zed": "Z", "zee": "Z", "bee": "B", "cee": "C", "dee": "D", "gee": "G",
    "jay": "J", "kay": "K", "tee": "T", "vee": "V", "ex": "X",
}  # fmt: skip
_DIGITS = {
    **{word: digits for word, (kind, digits) in CLASSES.items() if kind in {"DIGIT", "ZERO"}},
    "oh": "0",
    "tree": "3",
}
_TEENS = {word: digits for word, (kind, digits) in CLASSES.items() if kind == "TEEN"}
_TENS = {word: digits for word, (kind, digits) in CLASSES.items() if kind == "TENS"}
READS = frozenset({"says", "reads"})
_LEADS_IN = READS | {"is"}
_JOINERS = {
    "dash": "-", "hyphen": "-", "minus": "-", "slash": "/", "stroke": "/",
    "dot": ".", "point": ".", "space": " ",
}  # fmt: skip
_JOINS = frozenset("-/")
_REPEAT = {"double": 2, "triple": 3, "treble": 3}
_SKIPPED = frozenset(
    [BREAK, "uh", "um", "er", "then", "and", "is", "as", "number", "reads", "says", "in", "with",
     "no", "letter", "letters", "it"]
)  # fmt: skip
_PHONETIC_X = ("x", "ray")
_DIGITS_OF_MARK = 3
_DIGITS_OF_LONG = 5
_ALSO_OTHERWISE = frozenset({"mike", "kilo", "tee", "vee"})  # an instrument, a unit, shapes
_SAID_TWICE = 4  # characters
_REACH = 8  # words between "part number" and the number


@dataclass(frozen=True, slots=True)
class Spelled:
    """What was spelled out."""

    value: str  # upper case
    start: int  # tokens [start, end)
    end: int
    letters: bool  # has a letter, or is joined by a dash or a stroke
    sounds: str = ""  # the first word that only sounds like a digit of it


def spelled(texts: Sequence[str], start: int) -> Spelled | None:
    """The mark spelled from *start* on; None where nothing of the kind follows."""
    at = start
    while at < len(texts) and texts[at] in _SKIPPED:
        at += 1
    first, end, value, sounds = at, at, "", ""
    while at < len(texts):
        piece, length = _piece(texts, at)
        if not length and _sounds_like_digit(texts, at, begun=bool(value)):
            piece, length, sounds = HOMOPHONES[texts[at]], 1, sounds or texts[at]
        if length:
            value += piece
            at += length
            end = at
        elif texts[at] == "hundred" and value[-1:].isdigit() and not _piece(texts, at + 1)[1]:
            value, at = value + "00", at + 1
            end = at
        elif texts[at] in {BREAK, "uh", "um", "er", "then"} and value:
            at += 1
        else:
            break
    value = _once(value.strip("-/. "))
    if not value:
        return None
    is_mark = any(c.isalpha() for c in value) or not _JOINS.isdisjoint(value)
    return Spelled(value.upper(), first, end, is_mark, sounds)


def _sounds_like_digit(texts: Sequence[str], at: int, *, begun: bool) -> bool:
    """ "kilo lima for four one": between the pieces of a mark, or its last."""
    if texts[at] not in HOMOPHONES:
        return False
    after = _piece(texts, at + 1)[1] or (texts[at + 1] in HOMOPHONES if at + 1 < len(texts) else begun)
    led = begun or texts[at] not in {"to", "too"} or texts[at - 1 : at] in (("is",), ("number",), ("reads",))
    return bool(after) and led


def _once(value: str) -> str:
    """A mark of four characters or more that was read out twice, as it is."""
    half = value[: len(value) // 2]
    return half if len(half) >= _SAID_TWICE and half + half == value and not half.isdigit() else value


def spelled_after(texts: Sequence[str], start: int) -> Spelled | None:
    """The mark spelled from *start* on, after "on the body is" and the like."""
    for at in range(start, min(start + _REACH, len(texts))):
        found = spelled(texts, at)
        if (
            found is not None
            and (found.letters or found.start == at)
            and (at == start or len(found.value) > 1)
        ):
            return found
    return None


def spelled_out(texts: Sequence[str], called: AbstractSet[str]) -> Spelled | None:
    """A mark spelled with two words of the alphabet or more and digits, whatever is around it.

    One such word will do behind a word of *called*: "number on the flange, golf seven two …".
    """
    if ALPHABET.keys().isdisjoint(texts):
        return _joined(texts, called)
    for at in range(len(texts)):
        if texts[at] not in ALPHABET:
            continue
        found = spelled(texts, _digits_before(texts, at, called))
        if found is None:
            continue
        words = [text for text in texts[found.start : found.end] if len(text) > 2 and text in ALPHABET]
        digits = sum(c.isdigit() for c in found.value)
        if (len(words) > 1 and digits) or (words and _is_mark(found, words[0], digits, texts, called)):
            return found
    return None


def _joined(texts: Sequence[str], called: AbstractSet[str]) -> Spelled | None:
    """ "number on the side is four two seven dash three one": digits that are said to be a mark.

    A dash joins them, or there are more than a value has: "number on the body reads seven nine five …".
    """
    if called.isdisjoint(texts):
        return None
    begin = min(at for at, text in enumerate(texts) if text in called)
    for at in range(begin + 1, len(texts)):
        found = spelled(texts, at) if _piece(texts, at)[1] else None
        if found is None:
            continue
        digits = sum(c.isdigit() for c in found.value)
        if (found.letters and digits >= _DIGITS_OF_MARK) or _is_long(texts, begin, found):
            return found
    return None


def _is_long(texts: Sequence[str], begin: int, found: Spelled) -> bool:
    """True for digits one by one, more than a value has, behind "number … reads" or "number … is"."""
    one_by_one = all(text in _DIGITS or text == BREAK for text in texts[found.start : found.end])
    led = texts[begin] in {"number", "numbers"} and not _LEADS_IN.isdisjoint(texts[begin : found.start])
    return one_by_one and led and len(found.value) >= _DIGITS_OF_LONG and found.value.isdigit()


def _digits_before(texts: Sequence[str], at: int, called: AbstractSet[str]) -> int:
    """ "number on the body two seven six slash golf romeo": where the mark begins, before its letters."""
    start = at
    while start and _piece(texts, start - 1)[1] == 1 and texts[start - 1] not in called | _SKIPPED:
        start -= 1
    return at if called.isdisjoint(texts[:start]) else start


def _is_mark(found: Spelled, word: str, digits: int, texts: Sequence[str], called: AbstractSet[str]) -> bool:
    """ "number … golf seven two dash one one four": long enough for a mark, and said to be one."""
    near = texts[max(0, found.start - _REACH) : found.start]
    return (
        digits >= _DIGITS_OF_MARK
        and "." not in found.value
        and word not in _ALSO_OTHERWISE
        and not (called | READS).isdisjoint(near[-1:] if called.isdisjoint(near) else near)
    )


def _piece(texts: Sequence[str], at: int) -> tuple[str, int]:
    """The characters that the token at *at* spells, and how many tokens it takes; ("", 0) for none."""
    word = texts[at] if at < len(texts) else ""
    after = texts[at + 1] if at + 1 < len(texts) else ""
    if (word, after) == _PHONETIC_X:
        return "X", 2
    if word in _REPEAT and after:
        piece, length = _piece(texts, at + 1)
        return (piece * _REPEAT[word], length + 1) if len(piece) == 1 else ("", 0)
    if word in _TENS and after in _DIGITS and _DIGITS[after] != "0":
        return str(int(_TENS[word]) + int(_DIGITS[after])), 2
    for spoken in (ALPHABET, _DIGITS, _TEENS, _TENS, _JOINERS):
        if word in spoken:
            return spoken[word], 1
    return _written(texts, at, word)


def _written(texts: Sequence[str], at: int, word: str) -> tuple[str, int]:
    """A single letter, or figures as a listener writes them."""
    article = word in {"a", "i"} and not _piece(texts, at + 1)[1]
    if len(word) == 1 and word.isalpha() and not article:
        return word.upper(), 1
    figures = any(c.isdigit() for c in word) and word.isalnum()
    return (word, 1) if figures else ("", 0)
