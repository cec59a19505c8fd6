"""Serial numbers, part numbers, stamps and tags, spelled with letters, alphabet words and digits."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from saywright.understanding.tokens import BREAK

# ICAO Annex 10, volume II; FAA AIM table 4-2-2; with the spellings recognisers write.
_ALPHABET = {
    "alfa": "A", "alpha": "A", "bravo": "B", "charlie": "C", "delta": "D", "echo": "E", "foxtrot": "F",
    "golf": "G", "hotel": "H", "india": "I", "juliett": "J", "juliet": "J", "kilo": "K", "lima": "L",
    "mike": "M", "november": "N", "oscar": "O", "papa": "P", "quebec": "Q", "romeo": "R", "sierra": "S",
    "tango": "T", "uniform": "U", "victor": "V", "whiskey": "W", "whisky": "W", "xray": "X",
    "yankee": "Y", "zulu": "Z", "zed": "Z", "zee": "Z", "bee": "B", "cee": "C", "dee": "D", "gee": "G",
    "jay": "J", "kay": "K", "tee": "T", "vee": "V", "ex": "X",
}  # fmt: skip
_DIGITS = {
    "zero": "0", "oh": "0", "nought": "0", "naught": "0", "one": "1", "two": "2", "three": "3",
    "tree": "3", "four": "4", "fower": "4", "five": "5", "fife": "5", "six": "6", "seven": "7",
    "eight": "8", "nine": "9", "niner": "9",
}  # fmt: skip
_TEENS = {
    word: str(10 + i)
    for i, word in enumerate(
        [
            "ten",
            "eleven",
            "twelve",
            "thirteen",
            "fourteen",
            "fifteen",
            "sixteen",
            "seventeen",
            "eighteen",
            "nineteen",
        ]
    )
}
_TENS = {
    word: str(20 + 10 * i)
    for i, word in enumerate(["twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"])
}
_JOINERS = {
    "dash": "-",
    "hyphen": "-",
    "minus": "-",
    "slash": "/",
    "stroke": "/",
    "dot": ".",
    "point": ".",
    "space": " ",
}
_REPEAT = {"double": 2, "triple": 3, "treble": 3}
_SKIPPED = frozenset(
    {
        BREAK,
        "uh",
        "um",
        "er",
        "then",
        "and",
        "is",
        "as",
        "number",
        "reads",
        "says",
        "in",
        "with",
        "no",
        "letter",
        "letters",
        "it",
    }
)
_PHONETIC_X = ("x", "ray")
_REACH = 8  # words between "part number" and the number


@dataclass(frozen=True, slots=True)
class Spelled:
    """What was spelled out."""

    value: str  # upper case
    start: int  # tokens [start, end)
    end: int
    letters: bool  # has a letter


def spelled(texts: Sequence[str], start: int) -> Spelled | None:
    """The mark spelled from *start* on; None where nothing of the kind follows."""
    at = start
    while at < len(texts) and texts[at] in _SKIPPED:
        at += 1
    first, end, value = at, at, ""
    while at < len(texts):
        piece, length = _piece(texts, at)
        if length:
            value += piece
            at += length
            end = at
        elif texts[at] in {BREAK, "uh", "um", "er", "then"} and value:
            at += 1
        else:
            break
    value = value.strip("-/. ")
    if not value:
        return None
    return Spelled(value.upper(), first, end, any(c.isalpha() for c in value))


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


def _piece(texts: Sequence[str], at: int) -> tuple[str, int]:
    word = texts[at] if at < len(texts) else ""
    after = texts[at + 1] if at + 1 < len(texts) else ""
    if tuple(texts[at : at + 2]) == _PHONETIC_X:
        return "X", 2
    if word in _REPEAT and after:
        piece, length = _piece(texts, at + 1)
        return (piece * _REPEAT[word], length + 1) if len(piece) == 1 else ("", 0)
    if word in _ALPHABET:
        return _ALPHABET[word], 1
    if word in _DIGITS:
        return _DIGITS[word], 1
    if word in _TEENS:
        return _TEENS[word], 1
    if word in _TENS:
        if after in _DIGITS and after not in {"oh", "zero"}:
            return str(int(_TENS[word]) + int(_DIGITS[after])), 2
        return _TENS[word], 1
    if word in _JOINERS:
        return _JOINERS[word], 1
    if len(word) == 1 and word.isalpha() and not (word in {"a", "i"} and not _piece(texts, at + 1)[1]):
        return word.upper(), 1
    if word and (word.isdigit() or (any(c.isdigit() for c in word) and word.isalnum())):
        return word, 1
    return "", 0
