"""How the time of understanding and folding grows with the length of a job.

Prints the time an utterance takes at each length, as a ratio to that at the shortest: 1.0 throughout
means that the last utterance of a long day costs what the first one did.

Usage: python tools/bench_understanding.py
"""

from __future__ import annotations

import itertools
import time
from datetime import UTC, datetime

from saywright.hearing.words import typed
from saywright.record.chain import link
from saywright.record.events import Event, Heard, JobOpened, Payload, Understood
from saywright.record.fold import Folder
from saywright.sheets.load import load_sheet
from saywright.understanding.discourse import Discourse
from saywright.understanding.lexicon import build_lexicon
from saywright.understanding.parse import understand

LENGTHS = (10, 100, 1_000, 10_000)
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
    """Seconds that understanding and folding *count* utterances take."""
    sheet = load_sheet("outboard-float-carburetor")
    lexicon, state, folder = build_lexicon(sheet), Discourse(), Folder()
    last: Event | None = None
    understanding_s = folding_s = 0.0

    def keep(payload: Payload) -> Event:
        nonlocal folding_s
        event = link(payload, at=AT, actor="bench", after=last)
        started = time.perf_counter()
        folder.apply(event)
        folding_s += time.perf_counter() - started
        return event

    last = keep(JobOpened(job="bench", title="bench", sheet=sheet))
    for line in itertools.islice(itertools.cycle(LINES), count):
        utterance = typed(line)
        last = keep(Heard(utterance=utterance))
        started = time.perf_counter()
        state, statements = understand(utterance, state, lexicon, heard=last.seq)
        understanding_s += time.perf_counter() - started
        last = keep(Understood(heard=last.seq, statements=statements))
    return understanding_s, folding_s


def main() -> None:
    """Print a line for each length."""
    take(LENGTHS[0])  # the first call loads the grammars
    first: float | None = None
    print("utterances   utterances a second   time an utterance, as a ratio to the first   of it folding")
    for count in LENGTHS:
        understanding_s, folding_s = take(count)
        each_s = (understanding_s + folding_s) / count
        first = first or each_s
        share = folding_s / (understanding_s + folding_s)
        print(f"{count:10,}   {1 / each_s:19,.0f}   {each_s / first:44.2f}   {100 * share:9.0f} %")


if __name__ == "__main__":
    main()
