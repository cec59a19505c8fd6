"""Write the corpus: sentences of the trade with the truth known, 84 for each of four benches.

The truth is made first and the words from it; no parser has a hand in it. Seeded: the same
text each time. The files it wrote are committed; they may be added to by hand below its lines.

Usage: python tools/corpus/make_corpus.py
"""

from __future__ import annotations

import random
from decimal import Decimal
from pathlib import Path

from vocabulary import BENCHES, CONDITIONS, TALK, TALK_FOUND, TALK_ONLY, TALK_SAYS_TOO, TERSE, Bench, Thing

from saywright.hearing.spoken import ONES, TENS

HERE = Path(__file__).parent
TERSE_EACH = 42
TALK_READINGS = 27
TALK_FOUND_EACH = 8
TALK_ONLY_EACH = 7
SEED = 20_260

QUARTERS = {0: "", 25: "a quarter", 50: "a half", 75: "three quarters"}


def say_small(number: int) -> str:
    """0 … 99 in words."""
    if number < 20:
        return ONES[number]
    return TENS[number // 10] + (f" {ONES[number % 10]}" if number % 10 else "")


def draw(thing: Thing, rng: random.Random) -> tuple[str, str]:
    """A value in digits, and as it is said."""
    if thing.style in ("turn", "thou"):
        return _draw_share(thing, rng)
    scale = 10**thing.places
    number = rng.randint(round(thing.low * scale), round(thing.high * scale))
    value = Decimal(number).scaleb(-thing.places)
    if thing.style == "dec":
        return f"{value}", _say_decimal(f"{value}", rng)
    whole = int(value)
    if whole < 100:
        return f"{whole}", say_small(whole)
    rest = whole % 100
    forms = [f"{ONES[whole // 100]} {'oh ' if rest < 10 else ''}{say_small(rest)}"]
    if rest >= 10:
        forms.append(f"{ONES[whole // 100]} hundred and {say_small(rest)}")
        forms.append(" ".join(ONES[int(digit)] for digit in f"{whole}"))
    return f"{whole}", rng.choices(forms, weights=(6, 1, 2)[: len(forms)])[0]


def _draw_share(thing: Thing, rng: random.Random) -> tuple[str, str]:
    step = 25 if thing.style == "turn" else 50
    hundredths = rng.randrange(
        max(100, round(thing.low * 100) // step * step), round(thing.high * 100) + 1, step
    )
    whole, part = divmod(hundredths, 100)
    digits = f"{Decimal(hundredths) / 100}"
    said = say_small(whole) + (f" and {QUARTERS[part]}" if part else "")
    if thing.style == "thou" and part and rng.random() < 0.5:
        said = f"{say_small(whole)} point five"
    return digits, said


def _say_decimal(digits: str, rng: random.Random) -> str:
    whole, _, decimals = digits.partition(".")
    zero = rng.choice(("oh", "zero"))
    after = " ".join(zero if digit == "0" else ONES[int(digit)] for digit in decimals)
    if whole == "0":
        return rng.choice(("", "zero ")) + f"point {after}"
    return f"{say_small(int(whole))} point {after}"


def reading(thing: Thing, rng: random.Random) -> tuple[str, str, str]:
    """Name, value with unit as said, and the case line of the truth."""
    digits, said = draw(thing, rng)
    unit = rng.choice(thing.spoken)
    return rng.choice(thing.names), f"{said} {unit}".strip(), f"reading {thing.target} {digits} {thing.unit}"


def lines_of(bench: Bench, rng: random.Random) -> list[tuple[str, str, list[str]]]:
    """(style, words, case lines), every thing in turn."""
    found: list[tuple[str, str, list[str]]] = []
    seen: set[str] = set()

    def add(style: str, words: str, truth: list[str]) -> bool:
        if words in seen:
            return False
        seen.add(words)
        found.append((style, words, truth))
        return True

    def next_thing() -> Thing:
        return bench.things[len(found) % len(bench.things)]

    while len(found) < TERSE_EACH:
        name, value, truth = reading(next_thing(), rng)
        add("terse", rng.choice(TERSE).format(n=name, v=value), [truth])
    while len(found) < TERSE_EACH + TALK_READINGS:
        name, value, truth = reading(next_thing(), rng)
        frame = TALK[len(found) % len(TALK)]
        add("talk", frame.format(n=name, v=value), [truth, *TALK_SAYS_TOO.get(frame, ())])
    while len(found) < TERSE_EACH + TALK_READINGS + TALK_FOUND_EACH:
        thing = next_thing()
        name, value, truth = reading(thing, rng)
        part = thing.target.partition(".")[0].partition("/")[0]
        component, label = rng.choice([one for one in bench.parts if one[0] != part])
        said, code = rng.choice(CONDITIONS)
        words = rng.choice(TALK_FOUND).format(n=name, v=value, p=label, c=said)
        add("talk", words, [truth, f"condition {component} {code}"])
    while len(found) < TERSE_EACH + TALK_READINGS + TALK_FOUND_EACH + TALK_ONLY_EACH:
        frame, truth = TALK_ONLY[len(found) % len(TALK_ONLY)]
        component, label = rng.choice(bench.parts)
        said, code = rng.choice(CONDITIONS)
        add("talk", frame.format(p=label, c=said), [truth.format(i=component, k=code)])
    return found


def main() -> None:
    """Write a file for each bench."""
    for number, bench in enumerate(BENCHES):
        rng = random.Random(SEED + number)
        out = [
            f"sheet: {bench.sheet}",
            "# Made by make_corpus.py: the truth first, then the words. Format: tests/cases/README.md;",
            "# 'why' holds the style of speech.",
        ]
        for style, words, truth in lines_of(bench, rng):
            out += ["", f"why: {style}", f"> {words}", *(f"  {line}" for line in truth)]
        name = bench.sheet.removesuffix(".toml")
        (HERE / f"{name}.txt").write_text("\n".join(out) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
