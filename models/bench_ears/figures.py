"""Figures of the report list: base beside trained models, clip by clip. Pure but for reading the JSON.

Usage: python figures.py LIST FOLDER base NAME…   (what report.py put into FOLDER)
"""

from __future__ import annotations

import json
import sys
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import comb, sqrt
from pathlib import Path

import text
from accuracy.edits import edits
from accuracy.outcomes import Outcome, outcome
from accuracy.talk import lexicon
from report_list import CONDITIONS, Entry, entries
from said import plain_words

from saywright.hearing.words import Utterance


@dataclass(frozen=True, slots=True)
class Heard:
    """What one model heard of one clip, and what came of it."""

    entry: Entry
    words: tuple[str, ...]
    outcome: Outcome | None  # where the clip has a sheet

    @property
    def exact(self) -> bool:
        """Every number word, in order, and no other."""
        return numbers(self.entry, self.words) == numbers(self.entry, self.entry.words.split())

    @property
    def has_numbers(self) -> bool:
        """True where a number was said."""
        return bool(numbers(self.entry, self.entry.words.split()))


def numbers(entry: Entry, words: Sequence[str]) -> tuple[str, ...]:
    """Number words; where the recorded speaker says "dot" it is a point."""
    dots = entry.part == "human"
    return text.numbers_in(" ".join(plain_words(" ".join(words), dot_is_point=dots)))


def read(folder: Path, list_name: str, name: str, listener: str) -> list[Heard | None]:
    """A model's hearing, None where it has not heard a clip; doubted by the figures of *listener*."""
    found: list[Heard | None] = []
    for entry, items in zip(
        entries(list_name), json.loads((folder / f"{name}.json").read_text()), strict=True
    ):
        if items is None:
            found.append(None)
            continue
        utterances = [Utterance.model_validate(item | {"listener": listener}) for item in items]
        said = tuple(plain_words(" ".join(one.best.text for one in utterances)))
        judged = None
        if entry.sheet:
            judged = outcome(
                utterances, lexicon(entry.sheet), lead=entry.lead, words=entry.words, truth=entry.truth
            )
        found.append(Heard(entry, said, judged))
    return found


GROUPS: tuple[tuple[str, Callable[[Entry], bool]], ...] = (
    ("synthetic, all", lambda e: e.part in ("bench", "corpus")),
    ("natural voice (rms)", lambda e: e.part in ("bench", "corpus") and e.voice in "01"),
    ("robots (ked, espeak-ng)", lambda e: e.part in ("bench", "corpus") and e.voice in "23"),
    ("trades of the list", lambda e: e.part == "bench"),
    ("sheets of tools/corpus", lambda e: e.part == "corpus"),
    ("human", lambda e: e.part == "human"),
)


def exact_table(base: Sequence[Heard], others: Sequence[Sequence[Heard]]) -> list[str]:
    """Exact numbers by group and surroundings; gained and lost clips of each model, and of their majority."""
    heads = " | ".join(f"seed {n + 1} (gained, lost, p)" for n in range(len(others)))
    lines = [f"| speech | clips | base | {heads} | majority |", "|---" * (4 + len(others)) + "|"]
    for name, inside in GROUPS:
        for condition in CONDITIONS:
            kept = [
                i
                for i, one in enumerate(base)
                if inside(one.entry) and one.entry.condition == condition and one.has_numbers
            ]
            before = [base[i].exact for i in kept]
            after = [[other[i].exact for i in kept] for other in others]
            most = [2 * sum(votes) > len(others) for votes in zip(*after, strict=True)]
            cells = [_paired(before, row) for row in (*after, most)]
            lines.append(
                f"| {name}, {condition} | {len(kept)} | {interval(before)} | " + " | ".join(cells) + " |"
            )
    return lines


def doubt_table(models: Sequence[tuple[str, Sequence[Heard]]]) -> list[str]:
    """Silent errors and asks, through understanding, for speech with a sheet."""
    lines = ["| speech | model | clips | silent errors | asks | lost |", "|---|---|---|---|---|---|"]
    for part in ("corpus", "human"):
        for condition in (*CONDITIONS, "all"):
            for name, found in models:
                rows = [
                    one.outcome
                    for one in found
                    if one.entry.part == part
                    and condition in (one.entry.condition, "all")
                    and one.outcome is not None
                    and one.outcome.has_reading
                ]
                cells = [
                    interval([bool(getattr(row, what)) for row in rows])
                    for what in ("silent", "asks", "lost")
                ]
                lines.append(f"| {part}, {condition} | {name} | {len(rows)} | {' | '.join(cells)} |")
    return lines


def silent_pairs(base: Sequence[Heard], other: Sequence[Heard]) -> str:
    """Silent errors cleared and made, over all clips with a sheet."""
    pairs = [
        (not a.outcome.silent, not b.outcome.silent)
        for a, b in zip(base, other, strict=True)
        if a.outcome is not None and b.outcome is not None and a.outcome.has_reading
    ]
    return _paired([a for a, _ in pairs], [b for _, b in pairs])


def words_table(models: Sequence[tuple[str, Sequence[Heard]]]) -> list[str]:
    """Word errors of speech that is no reading, and what came out of sounds that are no speech for it."""
    lines = [
        "| model | human prompts, word errors | sentences read | spelling alphabet | noise, music, "
        "languages: clips with words | with number words | with a reading taken | asked about |",
        "|---|---|---|---|---|---|---|---|",
    ]
    for name, found in models:
        cells = []
        for part in ("prompts", "read", "spelled"):
            rows = [one for one in found if one.entry.part == part]
            wrong = sum(edits(plain_words(one.entry.words), one.words) for one in rows)
            said = sum(len(one.entry.words.split()) for one in rows)
            cells.append(f"{100 * wrong / said:.1f} % ({wrong} of {said})")
        traps = [one for one in found if one.entry.part in ("trap", "engine")]
        given = [one.outcome.givens if one.outcome else () for one in traps]
        taken = sum(any(not g.asks for g in each) for each in given)
        asked = sum(bool(one.outcome and one.outcome.asks) for one in traps)
        counted = sum(bool(numbers(one.entry, one.words)) for one in traps)
        heard = sum(bool(one.words) for one in traps)
        lines.append(
            f"| {name} | {' | '.join(cells)} | {heard} of {len(traps)} | {counted} | {taken} | {asked} |"
        )
    return lines


def interval(found: Sequence[bool]) -> str:
    """A share in percent with its 95 % interval (Wilson, 1927)."""
    if not found:
        return "–"
    n, share, z = len(found), sum(found) / len(found), 1.96
    middle = (share + z * z / (2 * n)) / (1 + z * z / n)
    half = z / (1 + z * z / n) * sqrt(share * (1 - share) / n + z * z / (4 * n * n))
    return f"{100 * share:.0f} % ({100 * max(0.0, middle - half):.0f}–{100 * min(1.0, middle + half):.0f})"


def sign_p(gained: int, lost: int) -> float:
    """Two-sided exact sign test."""
    n = gained + lost
    tail = sum(comb(n, k) for k in range(min(gained, lost) + 1)) / 2**n
    return min(1.0, 2 * tail)


def _paired(before: Sequence[bool], after: Sequence[bool]) -> str:
    gained = sum(b and not a for a, b in zip(before, after, strict=True))
    lost = sum(a and not b for a, b in zip(before, after, strict=True))
    share = 100 * sum(after) / max(1, len(after))
    return f"{share:.0f} % (+{gained} −{lost}, {sign_p(gained, lost):.2g})"


def main() -> None:
    """Print all of it."""
    list_name, folder, names = sys.argv[1], Path(sys.argv[2]), sys.argv[3:]
    hearings = [read(folder, list_name, name, _listener(name)) for name in names]
    common = [row for row in zip(*hearings, strict=True) if None not in row]
    print(f"{len(common)} of {len(hearings[0])} clips heard by all\n")
    models = [(name, [row[n] for row in common if row[n]]) for n, name in enumerate(names)]
    (_, base), *others = models
    print("\n".join(exact_table(base, [found for _, found in others])), "\n")
    print("\n".join(doubt_table(models)), "\n")
    print("\n".join(words_table(models)), "\n")
    for name, found in others:
        print(f"{name}: clips without a silent error, beside base: {silent_pairs(base, found)}")


def _listener(name: str) -> str:
    return "whisper tiny.en" if name == "base" else "whisper tiny.en, bench ears"


if __name__ == "__main__":
    main()
