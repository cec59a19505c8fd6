"""Measure, print, and write docs/accuracy.md.

Usage: python -m accuracy [--quick] [--fit] [--ears bench]   (with tools/ on the path, by `make accuracy`)
--quick: an eighth of the clips, printed only. --fit: print figures of doubt fit anew, and no more; with
--ears bench those of the ears for bench talk.
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence

import bench_hearing

from saywright.errors import ModelError
from saywright.hearing.adapters.bench_ears import BASE, EARS

from . import commands, commentaries, commentary_gold, job, page, tables, word_times
from .calibrate import cheapest, fit
from .clips import HUMAN_STRINGS, Clip, all_clips, quick
from .listening import BENCH_EARS, listen, listener_for
from .paths import CORPUS, PAGE
from .rows import count_rows
from .talk import RATES, hear_talks

MOST_NEEDLESS = 0.04  # share of the tuning half's clips that may ask though every reading in them is right
_SPHINX = ("natural", "human")  # groups; it is slow, and always asks


def main() -> None:
    """Do what the arguments ask."""
    arguments = argparse.ArgumentParser(prog="accuracy")
    arguments.add_argument("--quick", action="store_true")
    arguments.add_argument("--fit", action="store_true")
    arguments.add_argument("--ears", choices=EARS, default=BASE)
    chosen = arguments.parse_args()
    clips = quick(all_clips()) if chosen.quick else all_clips()
    if chosen.fit:
        return print_fit(clips, "whisper" if chosen.ears == BASE else BENCH_EARS)
    text = "\n".join(sections(clips, is_quick=chosen.quick)) + "\n"
    print(text)
    if not chosen.quick:
        PAGE.write_text(text, encoding="utf-8")
    return None


def print_fit(clips: Sequence[Clip], engine: str) -> None:
    """The figures and the threshold that the tuning half gives."""
    tuning = [clip for clip in clips if clip.half == "tuning"]
    done = page.judge_all(tuning, listen(tuning, engine))
    figures = fit([sample for one in page.evidence_of(done) for sample in one.samples])
    print(figures)
    print(cheapest(page.evidence_of(page.price_clips(done)), figures, MOST_NEEDLESS))


def sections(clips: Sequence[Clip], *, is_quick: bool) -> list[str]:
    """The page, line by line."""
    corpus = sum(path.read_text(encoding="utf-8").count("\n> ") for path in CORPUS.glob("*.txt"))
    lines = page.INTRO.format(utterances=corpus, strings=HUMAN_STRINGS).splitlines()
    whisper = _listened(clips, "whisper")
    if whisper:
        lines += [
            "",
            "## Heard: whisper tiny.en, the default",
            "",
            *tables.heard_table(page.heard_rows(whisper)),
        ]
        lines += ["", *_VOICES, *tables.heard_table(page.voice_rows(whisper))]
        traps = [
            (one.clip.voice.partition(",")[0], one.words, one.outcome)
            for one in whisper
            if one.clip.group == "trap"
        ]
        lines += ["", "What must not be taken for a reading:", "", *tables.trap_table(traps)]
        lines += ["", *page.doubt_section(whisper)]
        lines += ["", "## When each word was said", "", *_TIMES, *word_times.section(clips, "whisper")]
        lines += ["", "## Commands to the bench", "", *_COMMANDS, *commands.section("whisper")]
    few = [c for c in quick(list(clips)) if c.half == "reported" and c.group in _SPHINX]
    sphinx = _listened(few, "sphinx")
    if sphinx:
        lines += ["", "## Heard: sphinx en-us, which always asks; an eighth of the clips", ""]
        lines += tables.heard_table(page.heard_rows(sphinx))
    count = 10 if is_quick else bench_hearing.COUNT
    lines += ["", "## Time and memory", "", *_WAIT, *bench_hearing.table(count)]
    texts = [(rate, hear_talks(rate).outcomes) for rate in RATES]
    lines += ["", "## Understood: the talks of tests/cases as text", "", *_TEXT, *tables.text_table(texts)]
    whole = [commentaries.score(path) for path in commentary_gold.paths_in([commentaries.FOLDER])]
    lines += ["", "## Understood: whole commentaries", "", *_WHOLE, *commentaries.totals(whole)]
    lines += ["", *_FIRST, *commentaries.first_sight()]
    return [*lines, "", *page.job_section(job.runs(), count_rows())]


_VOICES = (
    "Voice by voice, clean, 15 dB and reverb together (robots: clean). Voices of the tuning half are harder:",
    'flite slt says "point" like "boy" and flite awb "oh" like "oo".',
    "",
)
_TIMES = (
    "The times of words, by the attention of the model, against those of the synthesiser that said them: how",
    "far off the start and the end are, and how often a word is lit at the middle of its sound.",
    "",
)
_COMMANDS = (
    "Each in every voice, clean, at 15 dB and in reverb (robots: clean). What a recogniser writes for a",
    "command is one where nobody would say it; those forms were collected from all voices, which flatters",
    "both halves; those of undo came from the tuning voices alone. Known to be missed:",
    '"undo" heard as "and two" or "and you", which somebody may well say.',
    "",
)
_WAIT = (
    "Utterances of about three seconds, fed as a microphone would, on this machine's cores with two threads.",
    "*Wait* is from the end of speech to its text: the pause that ends an utterance (0.8 s) and decoding.",
    "",
)
_TEXT = (
    "Plain, then with a share of the words dropped, swapped or taken for others that sound alike, in equal",
    "parts, seeded. A number word that is dropped cannot be missed by text alone: the silent errors there",
    "are what hearing must prevent.",
    "",
)
_WHOLE = (
    "Strip, measurements and rebuild in one talk, each on a sheet of its own, by people who did not know how",
    "talk is understood; some have about 5 % misheard words. What should stand at the end was fixed before",
    "the first run. Since then the lines of most were used to mend the program, so their figures flatter;",
    "those of motocross-slide-carb, pool-pump, mower-twin-carb and three-plunger-washer were not, and tell,",
    "as the figures at first sight do, what is to be expected of talk that nobody wrote for it.",
    "",
)
_FIRST = (
    "At first sight, at the commit named, before any line was used:",
    "",
)


def _listened(clips: Sequence[Clip], engine: str) -> list[page.Listened]:
    """What came of each clip through *engine*; nothing where its model is not here."""
    if not clips:
        return []
    try:
        listener_for(clips[0].sheet, engine)
    except ModelError as error:
        print(f"{engine}: left out: {error}", file=sys.stderr)
        return []
    return page.judge_all(clips, listen(clips, engine))


if __name__ == "__main__":
    main()
