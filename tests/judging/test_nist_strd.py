"""Mean and standard deviation against the NIST Statistical Reference Datasets, univariate: certified values.

The numbers are those NIST published (public domain); NumAcc1 to NumAcc4 are made by their rule. PiDigits is
computed. The first 5000 digits of π sum to 22679 and their squares to 143977; the certified values want 22674
and 143922: one 8 stands as a 3 in the certified file. Which of them does not matter to mean and s.
"""

from __future__ import annotations

import math
from fractions import Fraction

import pytest

from saywright.judging.repeats import variance

# Mavrodineanu's filter transmittance, in steps of 0.0001 above 2.
MAVRO = """
18 17 18 19 18 17 15 14 15 15 17 18 18 19 19 21 20 16 14 13 13 15 15 16 15 14 13 14 15 14 15 16 15 16 19
20 20 21 22 23 24 25 27 26 26 26 27 26 25 24
"""
# Michelson's speed of light in air, 1879, in hundredths above 299.
MICHELSO = """
85 74 90 107 93 85 95 98 98 88 100 98 93 65 76 81 100 100 96 96 96 94 96 94 88 80 85 88 90 84 83 79 81
88 88 83 80 79 76 80 88 88 88 86 72 72 62 86 97 95 88 91 85 87 84 84 85 84 84 84 89 81 81 82 80 77 76 74
75 76 91 92 89 86 88 72 84 85 85 78 89 84 78 81 76 81 79 81 82 85 87 87 81 74 81 94 95 80 81 87
"""
# Three drawn digits a day of a lottery.
LOTTERY = """
162 671 933 414 788 730 817 33 536 875 670 236 473 167 877 980 316 950 456 92 517 557 956 954 104 178
794 278 147 773 437 435 502 610 582 780 689 562 964 791 28 97 848 281 858 538 660 972 671 613 867 448
738 966 139 636 847 659 754 243 122 455 195 968 793 59 730 361 574 522 97 762 431 158 429 414 22 629 788
999 187 215 810 782 47 34 108 986 25 644 829 630 315 567 919 331 207 412 242 607 668 944 749 168 864 442
533 805 372 63 458 777 416 340 436 140 919 350 510 572 905 900 85 389 473 758 444 169 625 692 140 897
672 288 312 860 724 226 884 508 976 741 476 417 831 15 318 432 241 114 799 955 833 358 935 146 630 830
440 642 356 373 271 715 367 393 190 669 8 861 108 795 269 590 326 866 64 523 862 840 219 382 998 4 628
305 747 247 34 747 729 645 856 974 24 568 24 694 608 480 410 729 947 293 53 930 223 203 677 227 62 455
387 318 562 242 428 968
"""
# Lew's deflection of a beam.
LEW = """
-213 -564 -35 -15 141 115 -420 -360 203 -338 -431 194 -220 -513 154 -125 -559 92 -21 -579 -52 99 -543
-175 162 -457 -346 204 -300 -474 164 -107 -572 -8 83 -541 -224 180 -420 -374 201 -236 -531 83 27 -564
-112 131 -507 -254 199 -311 -495 143 -46 -579 -90 136 -472 -338 202 -287 -477 169 -124 -568 17 48 -568
-135 162 -430 -422 172 -74 -577 -13 92 -534 -243 194 -355 -465 156 -81 -578 -64 139 -449 -384 193 -198
-538 110 -44 -577 -6 66 -552 -164 161 -460 -344 205 -281 -504 134 -28 -576 -118 156 -437 -381 200 -220
-540 83 11 -568 -160 172 -414 -408 188 -125 -572 -32 139 -492 -321 205 -262 -504 142 -83 -574 0 48 -571
-106 137 -501 -266 190 -391 -406 194 -186 -553 83 -13 -577 -49 103 -515 -280 201 300 -506 131 -45 -578
-80 138 -462 -361 201 -211 -554 32 74 -533 -235 187 -372 -442 182 -147 -566 25 68 -535 -244 194 -351
-463 174 -125 -570 15 72 -550 -190 172 -424 -385 198 -218 -536 96
"""


def scaled(text: str, step: str, offset: int) -> tuple[Fraction, ...]:
    """The values of a set: offset + step · number, exactly."""
    return tuple(offset + Fraction(step) * int(number) for number in text.split())


def num_acc(middle: str, low: str, high: str) -> tuple[Fraction, ...]:
    """NumAcc2 to NumAcc4: the middle, then low and high five hundred times."""
    return (Fraction(middle), *(Fraction(low), Fraction(high)) * 500)


def pi_digits(count: int) -> list[int]:
    """The first *count* digits of π, the 3 among them, by Machin: π/4 = 4·atan(1/5) − atan(1/239)."""
    one = 10 ** (count + 10)

    def arc_of(inverse: int) -> int:
        term, total, n = one // inverse, 0, 1
        while term:
            total += term // n if n % 4 == 1 else -(term // n)
            term //= inverse * inverse
            n += 2
        return total

    left = (
        4 * (4 * arc_of(5) - arc_of(239)) // 10**11
    )  # ten digits against rounding, one for the 3 before the point
    digits: list[int] = []
    while left:
        left, digit = divmod(left, 10)
        digits.append(digit)
    return digits[::-1]


def certified_pi() -> tuple[Fraction, ...]:
    """The digits as they stand in the certified file: one 8 is a 3."""
    digits = pi_digits(5000)
    digits[digits.index(8)] = 3
    return tuple(map(Fraction, digits))


# Certified mean and standard deviation, to 15 digits.
SETS = {
    "PiDigits": (certified_pi(), "4.53480000000000", "2.86733906028871"),
    "Lottery": (scaled(LOTTERY, "1", 0), "518.958715596330", "291.699727470969"),
    "Lew": (scaled(LEW, "1", 0), "-177.435000000000", "277.332168044316"),
    "Mavro": (scaled(MAVRO, "0.0001", 2), "2.00185600000000", "0.000429123454003053"),
    "Michelso": (scaled(MICHELSO, "0.01", 299), "299.852400000000", "0.0790105478190518"),
    "NumAcc1": ((Fraction(10000001), Fraction(10000003), Fraction(10000002)), "10000002", "1"),
    "NumAcc2": (num_acc("1.2", "1.1", "1.3"), "1.2", "0.1"),
    "NumAcc3": (num_acc("1000000.2", "1000000.1", "1000000.3"), "1000000.2", "0.1"),
    "NumAcc4": (num_acc("10000000.2", "10000000.1", "10000000.3"), "10000000.2", "0.1"),
}
COUNTS = {"PiDigits": 5000, "Lottery": 218, "Lew": 200, "Mavro": 50, "Michelso": 100, "NumAcc1": 3}


def test_digits_of_pi() -> None:
    """The digits computed are those of π: the first fifteen, and the six nines from the 762nd decimal on."""
    digits = pi_digits(5000)
    assert [3, 1, 4, 1, 5, 9, 2, 6, 5, 3, 5, 8, 9, 7, 9] == digits[:15]
    assert [9] * 6 == digits[762:768]
    assert (5000, 22679, 143977) == (len(digits), sum(digits), sum(d * d for d in digits))


@pytest.mark.parametrize("name", SETS)
def test_certified_values(name: str) -> None:
    """To the fifteen digits certified; a mean that is no short decimal, to its last digit."""
    values, mean, s = SETS[name]
    assert COUNTS.get(name, 1001) == len(values)
    exact = sum(values, Fraction(0)) / len(values)
    assert Fraction(mean) == (exact if name != "Lottery" else round(exact, 12))
    assert float(s) == pytest.approx(math.sqrt(variance(values)), rel=2e-15)
