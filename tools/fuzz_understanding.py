"""Random and mutated talk through understanding: no exception, no hang, the same again the same.

Talks of fifty utterances are drawn from the lines of the cases, with words dropped, doubled, shuffled, glued,
cut and replaced by other words of bench, sheet and numbers, and from bare words and odd characters. Number n
of a seed is always the same talk, so a run can be cut off and gone on with, or shared out over machines.

Usage: python tools/fuzz_understanding.py [--first 0] [--count 1000000] [--seed 1] [--limit-ms 2000]

Exit 1 where anything failed; each failure is told with the number of its utterance.
"""

from __future__ import annotations

import argparse
import random
import signal
import time
import traceback
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from types import FrameType

from saywright.hearing.words import typed
from saywright.sheets.load import load_sheet
from saywright.understanding.discourse import Discourse
from saywright.understanding.grammar_text import talk_phrases
from saywright.understanding.lexicon import Lexicon, build_lexicon
from saywright.understanding.parse import understand

CASES = Path(__file__).parent.parent / "tests" / "cases"
SHEETS = (
    "outboard-float-carburetor",
    "disc-brake-caliper",
    "hand-pump",
    "gear-pump.toml",
    "suspension-fork.toml",
)
TALK = 50  # utterances that share a state
_NUMBER_TALK = """
zero oh one two three four five six seven eight nine niner ten eleven fifteen twenty thirty forty fifty ninety
hundred thousand point half quarter quarters eighths thou thousandths tenth double triple and a to for won ate
minus plus 18.42 128 1/4 #60 , ? . … uh um no not undo
"""
_ODD_TALK = "\0 ١٨ 十八 𝟙 º ½ — -- ''' % & ° \u200b é ß 1.2.3 0x1f 1e9 +-3 ⅞ 🔧"
NUMBERS, ODD = tuple(_NUMBER_TALK.split()), tuple(_ODD_TALK.split(" "))


class TooSlowError(Exception):
    """An utterance that took longer than allowed."""


@dataclass
class Found:
    """What a run came to."""

    utterances: int = 0
    seconds: float = 0.0
    slowest: list[tuple[float, int, str]] = field(default_factory=list)  # seconds, number, words
    failures: list[tuple[int, str, str]] = field(default_factory=list)  # number, words, what happened


@dataclass(frozen=True)
class Bench:
    """A sheet to talk about."""

    lexicon: Lexicon
    words: tuple[str, ...]
    phrases: tuple[str, ...]


def benches() -> list[Bench]:
    """Every sheet with its words."""
    talk = sorted({phrase for phrases in talk_phrases().values() for phrase in phrases})
    made = []
    for name in SHEETS:
        path = CASES / "sheets" / name
        lexicon = build_lexicon(load_sheet(str(path) if path.exists() else name))
        names = sorted(" ".join(name) for name in lexicon.table)
        words = sorted({word for name in names for word in name.split()})
        made.append(Bench(lexicon, tuple(words), (*names, *talk)))
    return made


def case_lines() -> tuple[str, ...]:
    """What is said in the cases."""
    files = sorted((CASES / "speech").glob("*.txt"))
    lines = [line for path in files for line in path.read_text(encoding="utf-8").splitlines()]
    return tuple(line[1:].strip() for line in lines if line.startswith(">"))


def utterance(draw: random.Random, bench: Bench, lines: Sequence[str]) -> str:
    """One utterance: mutated talk, phrases in a row, or words without sense."""
    kind = draw.random()
    if kind < 0.6:
        words = draw.choice(lines).split()
        for _ in range(draw.randint(0, 4)):
            _mutate(words, draw, bench)
        return " ".join(words)
    if kind < 0.8:
        return " ".join(draw.choice(bench.phrases) for _ in range(draw.randint(1, 6)))
    pool = (bench.words, NUMBERS, NUMBERS, ODD if draw.random() < 0.2 else NUMBERS)
    return " ".join(draw.choice(draw.choice(pool)) for _ in range(draw.randint(0, 25)))


def _mutate(words: list[str], draw: random.Random, bench: Bench) -> None:
    at = draw.randrange(len(words) + 1)
    match draw.randrange(8):
        case 0:
            del words[at : at + draw.randint(1, 3)]
        case 1:
            words[at:at] = words[at : at + draw.randint(1, 4)]
        case 2:
            draw.shuffle(words)
        case 3:
            words.insert(at, draw.choice(NUMBERS))
        case 4:
            words.insert(at, draw.choice(bench.words))
        case 5:
            words[at : at + 1] = [draw.choice(bench.words)]
        case 6:
            words[at : at + 2] = ["".join(words[at : at + 2])]
        case _:
            word = words[at] if at < len(words) else ""
            cut = draw.randrange(len(word) + 1)
            words[at : at + 1] = [word[:cut], word[cut:]]


def talks(seed: int, first: int, count: int, made: Sequence[Bench]) -> Iterator[tuple[int, Bench, list[str]]]:
    """The talks that hold utterances *first* to *first* + *count*, each with the number of its first one."""
    lines = case_lines()
    for start in range(first // TALK * TALK, first + count, TALK):
        draw = random.Random(f"{seed}:{start}")
        bench = made[draw.randrange(len(made))]
        yield start, bench, [utterance(draw, bench, lines) for _ in range(TALK)]


def _alarm(_signal: int, _frame: FrameType | None) -> None:
    raise TooSlowError


def run(seed: int, first: int, count: int, limit_s: float) -> Found:
    """Understand so many utterances; what fails is kept and the talk goes on without it."""
    found = Found()
    made = benches()
    signal.signal(signal.SIGALRM, _alarm)
    for start, bench, said in talks(seed, first, count, made):
        state, ids = Discourse(), set[str]()
        for number, words in enumerate(said, start=start):
            signal.setitimer(signal.ITIMER_REAL, limit_s)
            began = time.process_time()
            try:
                after, statements = understand(typed(words, line=number), state, bench.lexicon)
                if (
                    number % 10 == 0
                    and understand(typed(words, line=number), state, bench.lexicon)[1] != statements
                ):
                    found.failures.append((number, words, "not the same again"))
                twice = ids & {s.id for s in statements}
                if twice:
                    found.failures.append((number, words, f"ids given twice: {', '.join(sorted(twice))}"))
                ids |= {s.id for s in statements}
                state = after
            except TooSlowError:
                found.failures.append((number, words, f"longer than {limit_s:.1f} s"))
            except Exception:
                found.failures.append((number, words, traceback.format_exc(limit=-2)))
            finally:
                signal.setitimer(signal.ITIMER_REAL, 0)
            took = time.process_time() - began
            found.utterances += 1
            found.seconds += took
            found.slowest = sorted([*found.slowest, (took, number, words)], reverse=True)[:5]
    return found


def main() -> int:
    """Run, print, 1 where anything failed."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--first", type=int, default=0, help="number of the first utterance")
    parser.add_argument("--count", type=int, default=1_000_000)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--limit-ms", type=float, default=2000.0, help="longer is a hang")
    given = parser.parse_args()
    failed = 0
    step = 50_000
    for first in range(given.first, given.first + given.count, step):
        count = min(step, given.first + given.count - first)
        found = run(given.seed, first, count, given.limit_ms / 1000)
        failed += len(found.failures)
        rate = found.utterances / max(found.seconds, 1e-9)
        took, number, words = found.slowest[0]
        print(
            f"{first:,} to {first + count:,}: {len(found.failures)} failed, {rate:,.0f} a second, "
            f"slowest {1000 * took:.0f} ms (number {number}: {words[:60]!r})",
            flush=True,
        )
        for number, words, what in found.failures[:20]:
            print(f"  number {number}: {words!r}: {what}", flush=True)
    print(f"{given.count:,} utterances of seed {given.seed}: {failed} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    raise SystemExit(main())
