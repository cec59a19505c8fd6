"""How fast understanding is, how its time grows with the length of a job, and how a general library compares.

Prints, in processor time (what others do on the machine does not count), but for single utterances, which are
too short for it:

- utterances a second of understanding and folding together at each length, and the time of one as a ratio to
  that at the shortest: 1.0 throughout means that the last utterance of a long day costs what the first did;
- the time of one utterance at the median and the 99th percentile, over all that is said in the cases, and how
  many of them are understood in a second: no two are alike there, so nothing that is remembered helps;
- the rows of numbers in the cases, read by this program and by the PyPI package text2num: how many come out
  as the row says, and how fast. It is made for running text, not for a bench, and gives one reading, no rank.

Usage: python tools/bench_understanding.py
"""

from __future__ import annotations

import itertools
import time
from collections.abc import Callable, Iterator
from datetime import UTC, datetime
from fractions import Fraction
from pathlib import Path

from text_to_num import alpha2digit

from saywright.cli.memory import search_seldom
from saywright.errors import InputError
from saywright.hearing.words import typed
from saywright.quantity import parse_value
from saywright.record.chain import link
from saywright.record.events import Event, Heard, JobOpened, Payload, Understood
from saywright.record.fold import Folder
from saywright.sheets.load import load_sheet
from saywright.understanding.discourse import Discourse
from saywright.understanding.lexicon import build_lexicon
from saywright.understanding.numbers.ranked import read_number
from saywright.understanding.parse import understand

CASES = Path(__file__).parent.parent / "tests" / "cases"
LENGTHS = (10, 100, 1_000, 10_000)
AIM_PER_S, AIM_P99_S = 2_000, 0.005
REPEATS = 20  # times that the rows of numbers are read for the speed
LINES = (
    "now the float",
    "height is eighteen point four two",
    "main jet is a one twenty eight",
    "the strainer is out it's full of grit",
    "photo of the strainer",
    "air screw is one and a half turns out",
    "watch the cat",
    "no cracks in the body",
    "bowl gasket is split order a new one",
    "throttle shaft diameter seven point nine six",
)
AT = datetime(2026, 3, 14, tzinfo=UTC)


def take(count: int) -> tuple[float, float]:
    """Processor seconds that understanding and folding *count* utterances take."""
    sheet = load_sheet("outboard-float-carburetor")
    lexicon, state = build_lexicon(sheet), Discourse()
    payloads: list[Payload] = [JobOpened(job="bench", title="bench", sheet=sheet)]
    said = [typed(line) for line in itertools.islice(itertools.cycle(LINES), count)]
    started = time.process_time()
    for number, utterance in enumerate(said):
        heard = 2 * number + 2
        state, statements = understand(utterance, state, lexicon, heard=heard)
        payloads += (Heard(utterance=utterance), Understood(heard=heard, statements=statements))
    understanding_s = time.process_time() - started
    events: list[Event] = []
    for payload in payloads:
        events.append(link(payload, at=AT, actor="bench", after=events[-1] if events else None))
    folder = Folder()
    started = time.process_time()
    for event in events:
        folder.apply(event)
    return understanding_s, time.process_time() - started


def growth() -> None:
    """Print a line for each length."""
    take(LENGTHS[0])  # the first call loads the grammars
    first: float | None = None
    print("utterances   utterances a second   time an utterance, as a ratio to the first   of it folding")
    for count in LENGTHS:
        tries = 5 if count <= LENGTHS[1] else 1  # a short run is over before the clock has ticked twice
        understanding_s, folding_s = min((take(count) for _ in range(tries)), key=sum)
        each_s = (understanding_s + folding_s) / count
        first = first or each_s
        share = folding_s / (understanding_s + folding_s)
        print(f"{count:10,}   {1 / each_s:19,.0f}   {each_s / first:44.2f}   {100 * share:9.0f} %")
    print(f"{1 / each_s:,.0f} a second; aim {AIM_PER_S:,}: {'met' if 1 / each_s >= AIM_PER_S else 'NOT MET'}")


def said_in_cases() -> Iterator[tuple[str, str | None]]:
    """Sheet and words of each line of the cases; None where a new talk begins."""
    for path in sorted((CASES / "speech").glob("*.txt")):
        sheet = ""
        for line in path.read_text(encoding="utf-8").splitlines():
            if line.startswith("sheet:"):
                sheet = line.partition(":")[2].strip()
            elif line.startswith("why:"):
                yield sheet, None
            elif line.startswith(">"):
                yield sheet, line[1:].strip()


def one_utterance() -> None:
    """Print the time of one utterance of the cases: median, 99th percentile, longest."""
    lexicons = {}
    state, times, spent_s = Discourse(), [], 0.0
    for name, words in said_in_cases():
        if words is None:
            state = Discourse()
            continue
        if name not in lexicons:
            path = CASES / "sheets" / name
            lexicons[name] = build_lexicon(load_sheet(str(path) if path.exists() else name))
        utterance, lexicon, taken = typed(words), lexicons[name], []
        at_once = time.process_time()
        understand(utterance, state, lexicon)
        spent_s += time.process_time() - at_once
        for _ in range(3):  # the best counts: others share the machine
            started = time.perf_counter()
            after, _ = understand(utterance, state, lexicon)
            taken.append(time.perf_counter() - started)
        state = after
        times.append(min(taken))
    times.sort()
    p99 = times[int(0.99 * len(times))]
    print(
        f"one utterance of {len(times):,} in the cases: median {1000 * times[len(times) // 2]:.2f} ms, "
        f"99 % below {1000 * p99:.1f} ms, longest {1000 * times[-1]:.1f} ms; "
        f"aim {1000 * AIM_P99_S:.0f} ms at 99 %: {'met' if p99 < AIM_P99_S else 'NOT MET'}; "
        f"{len(times) / spent_s:,.0f} a second, each for the first time"
    )


def ours(said: str) -> Fraction | None:
    """The likeliest reading."""
    readings = read_number(said.split())
    return parse_value(readings[0].value) if readings else None


def theirs(said: str) -> Fraction | None:
    """The one number that the package makes of the words."""
    try:
        return parse_value(alpha2digit(said, "en", threshold=0))
    except InputError:
        return None


def numbers() -> None:
    """Print right answers and speed of both on the rows of numbers that have one value."""
    rows = [
        line.split("\t")
        for line in (CASES / "numbers.tsv").read_text(encoding="utf-8").splitlines()
        if line and not line.startswith("#")
    ]
    wanted = {row[0]: row[1].replace("=", "|").split("|")[0].strip() for row in rows}
    asked = {
        said: parse_value(value) for said, value in wanted.items() if value[:1].isdigit() and " " not in value
    }
    print(f"{len(asked)} rows of numbers        as the row says   numbers a second")
    for name, read in (("this program", ours), ("text2num", theirs)):
        right = sum(read(said) == value for said, value in asked.items())
        print(f"  {name:<24}{right:10} {100 * right / len(asked):4.0f} %   {speed(read, list(asked)):16,.0f}")


def speed(read: Callable[[str], object], said: list[str]) -> float:
    """Numbers read in a processor second."""
    started = time.process_time()
    for _ in range(REPEATS):
        for words in said:
            read(words)
    return REPEATS * len(said) / (time.process_time() - started)


def main() -> None:
    """Print all three, with the garbage collector as the command line sets it."""
    search_seldom()
    growth()
    one_utterance()
    numbers()


if __name__ == "__main__":
    main()
