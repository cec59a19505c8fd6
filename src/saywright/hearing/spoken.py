"""Numbers → the words a technician says, for prompts and language models; reading shares the plain words.

Pure. English only; a sheet in another language gets no number words from here.
"""

from __future__ import annotations

ONES = (
    "zero",
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
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
)
TENS = ("", "", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")
FRACTIONS = (
    "half",
    "halves",
    "quarter",
    "quarters",
    "third",
    "thirds",
    "eighth",
    "eighths",
    "sixteenth",
    "sixteenths",
    "thirty",
    "seconds",
    "sixty",
    "fourths",
    "tenths",
    "hundredths",
    "thousandths",
)
GLUE = (
    "point",
    "decimal",
    "oh",
    "hundred",
    "thousand",
    "and",
    "a",
    "minus",
    "plus",
    "niner",
    "double",
    "nothing",
)


def number_words() -> tuple[str, ...]:
    """Every word a number may hold, each once."""
    return tuple(dict.fromkeys((*ONES, *TENS[2:], *GLUE, *FRACTIONS)))


def say_integer(number: int) -> str:
    """0 … 999,999 in full: 128 → "one hundred and twenty eight"."""
    if number < 20:
        return ONES[number]
    if number < 100:
        tens, ones = divmod(number, 10)
        return TENS[tens] + (f" {ONES[ones]}" if ones else "")
    if number < 1000:
        hundreds, rest = divmod(number, 100)
        return f"{ONES[hundreds]} hundred" + (f" and {say_integer(rest)}" if rest else "")
    thousands, rest = divmod(number, 1000)
    return f"{say_integer(thousands)} thousand" + (f" {say_integer(rest)}" if rest else "")


def say_grouped(number: int) -> str:
    """As stamped sizes are read: 128 → "one twenty eight", 105 → "one oh five", 1250 → "twelve fifty"."""
    if number < 100 or number % 100 == 0 or number > 9999:
        return say_integer(number)
    head, rest = divmod(number, 100)
    return f"{say_integer(head)} oh {ONES[rest]}" if rest < 10 else f"{say_integer(head)} {say_integer(rest)}"


def say_digits(text: str) -> str:
    """Digit by digit: "0.43" → "zero point four three"."""
    return " ".join("point" if mark == "." else ONES[int(mark)] for mark in text if mark in ".0123456789")


def say_decimal(text: str) -> str:
    """A decimal string: "21.73" → "twenty one point seven three", "0.05" → "zero point zero five"."""
    whole, _, decimals = text.partition(".")
    head = say_integer(int(whole or "0"))
    return f"{head} point {say_digits(decimals)}" if decimals else head
