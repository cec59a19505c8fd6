"""Number → the words people say for it at a bench, and Hypothesis strategies over them.

Every function here goes from digits to words, so that tests can go there and back. They are
written from the way the trade speaks and share no code with the reader.
"""

from __future__ import annotations

import random

from hypothesis import strategies as st
from num2words import num2words

ONES = [num2words(number) for number in range(20)]
TENS = ["_", "_", *(num2words(10 * number) for number in range(2, 10))]
ZEROS = ("oh", "zero", "nought", "naught")
ALPHABET_DIGITS = {"3": "tree", "4": "fower", "5": "fife", "9": "niner"}


def below_hundred(number: int) -> list[str]:
    """Words of 0 to 99."""
    if number < 20:
        return [ONES[number]]
    return [TENS[number // 10], *([ONES[number % 10]] if number % 10 else [])]


def cardinal(number: int, *, with_and: bool = True, article: bool = False) -> list[str]:
    """Words of 0 to 999,999, with or without "and", with "a" for the first "one"."""
    words: list[str] = []
    thousands, rest = divmod(number, 1000)
    if thousands:
        words += [*cardinal(thousands, with_and=with_and), "thousand"]
    hundreds, small = divmod(rest, 100)
    if hundreds:
        words += [ONES[hundreds], "hundred"]
    if small or not words:
        words += (["and"] if with_and and words else []) + below_hundred(small)
    if article and words[0] == "one" and len(words) > 1 and words[1] in ("hundred", "thousand"):
        words[0] = "a"
    return words


def spelled(digits: str, rng: random.Random, *, alphabet: bool = False) -> list[str]:
    """Digits one by one, zeros under any of their names, repeats as double and triple at times."""
    words: list[str] = []
    at = 0
    while at < len(digits):
        digit = digits[at]
        run = len(digits[at:]) - len(digits[at:].lstrip(digit))
        name = rng.choice(ZEROS) if digit == "0" else ONES[int(digit)]
        if alphabet:
            name = ALPHABET_DIGITS.get(digit, "zero" if digit == "0" else name)
        if run >= 2 and not alphabet and rng.random() < 0.3:
            times = min(run, 3)
            words += ["double" if times == 2 else "triple", name]
            at += times
            continue
        words.append(name)
        at += 1
    return words


def grouped(number: int) -> list[str] | None:
    """The group form of 101 to 9999: "one twenty eight", "eleven oh five"; None where there is none."""
    lead, last = divmod(number, 100)
    if not 1 <= lead <= 99 or last == 0:
        return None
    return below_hundred(lead) + (["oh", ONES[last]] if last < 10 else below_hundred(last))


def decimal(digits: str, rng: random.Random) -> list[str]:
    """A decimal string with its point said; digits behind it one by one."""
    whole, _, places = digits.partition(".")
    point = rng.choice(("point", "point", "decimal"))
    if whole == "0":
        lead = [] if rng.random() < 0.5 else [rng.choice(("zero", "nought", "oh"))]
    else:
        lead = cardinal(int(whole), with_and=rng.random() < 0.5)
    return [*lead, point, *spelled(places, rng)]


def mixed(whole: int, top: int, bottom: int) -> list[str]:
    """A whole number and a share of halves to sixty fourths."""
    names = {2: "half", 4: "quarter", 8: "eighth", 16: "sixteenth", 32: "thirty second"}
    name = names.get(bottom, "sixty fourth") + ("s" if top > 1 else "")
    first = ["a"] if top == 1 and bottom < 32 else below_hundred(top)
    return ([*cardinal(whole), "and"] if whole else []) + [*first, *name.split()]


randoms = st.integers(0, 2**32 - 1).map(random.Random)
whole_numbers = st.integers(0, 999_999)
decimals = st.builds(
    lambda whole, places, digits: f"{whole}.{digits:0{places}d}"[: len(str(whole)) + 1 + places],
    st.integers(0, 999),
    st.integers(1, 3),
    st.integers(0, 9),
) | st.from_regex(r"(0|[1-9][0-9]{0,2})\.[0-9]{1,3}", fullmatch=True)

_NEAR_NUMBERS = [
    "hundred",
    "thousand",
    "point",
    "and",
    "a",
    "half",
    "quarter",
    "quarters",
    "third",
    "thirds",
    "eighths",
    "tenth",
    "second",
    "seconds",
    "fourths",
    "double",
    "triple",
    "minus",
    "plus",
    "between",
    "to",
    "for",
    "or",
    "too",
    "tree",
    "dozen",
    "couple",
    "of",
    "o",
    "one",
    "this",
    "the",
    "thou",
    "turn",
    "turns",
    "mm",
    "about",
    "over",
    "18.42",
    "128",
    "1/4",
    "#60",
    "4.3.64.",
    "5mm",
    "0/0",
    "twentyish",
    "million",
    "dot",
    "²",
    "٣",
    "",
    ".",
    "#",
]
number_words = st.sampled_from([*ONES, *TENS[2:], *ZEROS, *_NEAR_NUMBERS])
utterances = st.lists(number_words | st.text(max_size=6), max_size=24)
