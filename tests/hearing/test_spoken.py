"""Numbers as words."""

import pytest
from num2words import num2words

from saywright.hearing.spoken import number_words, say_decimal, say_digits, say_grouped, say_integer


def test_integers_agree_with_num2words() -> None:
    """Whole numbers are said as num2words 0.5.14 says them; commas, hyphens and "and" apart."""
    for number in (*range(1000), 1256, 2500, 9999, 17900):
        wanted = num2words(number).replace(",", "").replace("-", " ").split()
        assert [word for word in wanted if word != "and"] == [
            w for w in say_integer(number).split() if w != "and"
        ]


@pytest.mark.parametrize(
    ("number", "said"),
    [
        (128, "one twenty eight"),  # group form: FAA Aeronautical Information Manual, 4-2-8
        (105, "one oh five"),
        (250, "two fifty"),
        (1250, "twelve fifty"),
        (200, "two hundred"),
        (45, "forty five"),
    ],
)
def test_stamped_sizes_are_grouped(number: int, said: str) -> None:
    """Stamped sizes are read in groups."""
    assert said == say_grouped(number)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("21.73", "twenty one point seven three"),
        ("0.05", "zero point zero five"),
        ("18.40", "eighteen point four zero"),
        ("7", "seven"),
    ],
)
def test_decimals_keep_their_digits(text: str, said: str) -> None:
    """Decimals are said digit by digit, the last zero too."""
    assert said == say_decimal(text)


def test_digits_one_by_one() -> None:
    """A point is said where it stands."""
    assert "four three point six" == say_digits("43.6")


def test_number_words_hold_no_digit() -> None:
    """No number word has a digit in it, and none is listed twice."""
    words = number_words()
    assert len(set(words)) == len(words)
    assert not any(mark.isdigit() for word in words for mark in word)
