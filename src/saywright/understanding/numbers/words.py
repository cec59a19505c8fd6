"""The words that numbers are made of, each with its token class and its digits.

Digits of the spelling alphabet (tree, fower, fife, niner) after FAA AIM table 4-2-2. The
classes are the terminals of `grammar/numbers.lark`.
"""

from __future__ import annotations

from typing import Final

from saywright.hearing.spoken import ONES, TENS

_DIGITS, _TEENS, _TENS = ONES[1:10], ONES[10:], TENS[2:]

# word → (token class, digits)
CLASSES: Final[dict[str, tuple[str, str]]] = {
    **{word: ("DIGIT", str(n)) for n, word in enumerate(_DIGITS, 1)},
    **{word: ("TEEN", str(n)) for n, word in enumerate(_TEENS, 10)},
    **{word: ("TENS", str(n * 10)) for n, word in enumerate(_TENS, 2)},
    "niner": ("DIGIT", "9"), "fife": ("DIGIT", "5"), "fower": ("DIGIT", "4"), "fourty": ("TENS", "40"),
    "zero": ("ZERO", "0"), "nought": ("ZERO", "0"), "naught": ("ZERO", "0"), "aught": ("ZERO", "0"),
    "hundred": ("HUNDRED", "100"), "thousand": ("THOUSAND", "1000"),
    "point": ("POINT", "."), "decimal": ("POINT", "."), "dot": ("POINT", "."),
    "double": ("TIMES", "2"), "triple": ("TIMES", "3"), "treble": ("TIMES", "3"),
    "minus": ("MINUS", "-"), "negative": ("MINUS", "-"),
}  # fmt: skip
# Several alike: "a pair of forty fives". "ones" is a pronoun and stays out.
CLASSES.update(
    {
        "twos": CLASSES["two"],
        "threes": CLASSES["three"],
        "fours": CLASSES["four"],
        "fives": CLASSES["five"],
        "sixes": CLASSES["six"],
        "sevens": CLASSES["seven"],
        "eights": CLASSES["eight"],
        "nines": CLASSES["nine"],
        "tens": CLASSES["ten"],
        "twenties": CLASSES["twenty"],
        "thirties": CLASSES["thirty"],
        "forties": CLASSES["forty"],
        "fifties": CLASSES["fifty"],
        "sixties": CLASSES["sixty"],
        "seventies": CLASSES["seventy"],
        "eighties": CLASSES["eighty"],
        "nineties": CLASSES["ninety"],
    }
)

CARDINALS: Final[tuple[str, ...]] = ONES[1:9]  # as they count and number parts
TO_TWELVE: Final[tuple[str, ...]] = (*CARDINALS, "nine", "ten", "eleven", "twelve")
COUNTS: Final[dict[str, int]] = {word: at for at, word in enumerate(TO_TWELVE, start=1)}

SMALL: Final = frozenset({"DIGIT", "ZERO", "TEEN", "TENS"})

# "oh" is a zero only beside other digits; "o" only before one ("two o rings" is no 20).
OH: Final = frozenset({"oh", "o"})

# Heard for a digit; taken as one only where a number is expected, and never without an ask.
HOMOPHONES: Final[dict[str, str]] = {
    "to": "2", "too": "2", "for": "4", "won": "1", "ate": "8", "free": "3", "tree": "3",
    "sick": "6", "sex": "6",
}  # fmt: skip

# Denominators that are one word; half and quarter need no numerator.
DENOMINATORS: Final[dict[str, int]] = {
    "half": 2, "halves": 2, "third": 3, "thirds": 3, "quarter": 4, "quarters": 4, "fourth": 4,
    "fourths": 4,
    "fifth": 5, "fifths": 5, "sixth": 6, "sixths": 6, "seventh": 7, "sevenths": 7, "eighth": 8, "eighths": 8,
    "ninth": 9, "ninths": 9, "tenth": 10, "tenths": 10, "twelfth": 12, "twelfths": 12, "sixteenth": 16,
    "sixteenths": 16, "sixteens": 16, "twentieth": 20, "twentieths": 20, "hundredth": 100, "hundredths": 100,
}  # fmt: skip
BARE_DENOMINATORS: Final = frozenset({"half", "quarter"})
# Denominators of two words; a ruler knows no others.
DENOMINATOR_PAIRS: Final[dict[tuple[str, str], int]] = {
    ("thirty", "second"): 32, ("thirty", "seconds"): 32, ("sixty", "fourth"): 64, ("sixty", "fourths"): 64,
}  # fmt: skip
LOWER_PARTS: Final = frozenset({*DENOMINATORS, *(pair[-1] for pair in DENOMINATOR_PAIRS)})  # end each share

_ORDINALS = (
    "first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth", "eleventh",
    "twelfth", "thirteenth", "fourteenth", "fifteenth", "sixteenth", "seventeenth", "eighteenth",
    "nineteenth", "twentieth",
)  # fmt: skip
ORDINALS: Final[dict[str, int]] = {word: n for n, word in enumerate(_ORDINALS, 1)}
