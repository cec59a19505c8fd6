"""Spoken marks and pictures matched over seeded random jobs: how many are right, wrong, asked.

In each job the camera's clock is off by up to two days and drifts by up to a second in an hour, 30 % of the
marks have no picture, 30 % as many pictures have no mark and are taken at any moment, and the shutter comes
about three seconds after the word, one picture after the other.

A stray picture that is taken just when a mark without one expects its own looks like its picture. What is
placed wrong without asking is therefore told in two columns. *Likelier* is what is at least as likely as the
truth to one who knows clock, hand, and how often pictures are missing and strays taken: no reckoning by times
gets it right. *Wrong* is all else.

A pair is *clear* where six or more marks of the job have their picture, at uneven intervals, and no other
picture and no other mark lies within 25 s of it.

Usage: python tools/fuzz_matching.py [JOBS of each kind, 1500 [FIRST SEED, 0]]
"""

from __future__ import annotations

import sys
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, fields
from datetime import datetime, timedelta

import numpy as np

from saywright.photos.match import Match, Picture, SpokenMark, match_photos

START = datetime(2026, 9, 14, 9, 12)
KINDS = ("uneven", "in groups", "nearly even", "even")
MISSING, EXTRA = 0.3, 0.3
OFFSET_S, DRIFT = 172_000.0, 1 / 3600  # either way
DELAY_S = 3.0  # from the word to the shutter
CLEAR_S = 25.0
CLEAR_PAIRS = 6


@dataclass(frozen=True, slots=True)
class Job:
    """Marks and pictures with the truth about them."""

    marks: tuple[SpokenMark, ...]
    pictures: tuple[Picture, ...]
    truth: dict[str, str]  # picture → mark, strays left out
    shutter_s: dict[str, float]  # picture → when it was taken, by the clock of the marks
    spread_s: float  # of the time from word to shutter, normal about DELAY_S
    strays_per_s: float
    uneven: bool


@dataclass(slots=True)
class Score:
    """Counts over jobs."""

    jobs: int = 0
    pairs: int = 0  # marks that have their picture
    clear: int = 0
    clear_right: int = 0  # placed or proposed at its mark
    sure: int = 0  # placed without an ask
    wrong: int = 0  # of these, less likely than the truth
    likelier: int = 0  # of these, not right and no less likely than the truth
    asked: int = 0  # proposed, with an ask

    def add(self, other: Score) -> None:
        """Add the counts of *other*."""
        for field in fields(self):
            setattr(self, field.name, getattr(self, field.name) + getattr(other, field.name))


def job(seed: int, kind: str) -> Job:
    """The random job of this seed."""
    rng = np.random.default_rng(seed)
    count = int(rng.integers(1, 30))
    times_s = np.cumsum(_gaps_s(rng, count, kind))
    offset_s, drift = rng.uniform(-OFFSET_S, OFFSET_S), rng.uniform(-DRIFT, DRIFT)
    spread_s = rng.uniform(0.5, 3.0)
    shutter_s = np.maximum.accumulate(
        times_s + DELAY_S + rng.normal(0, spread_s, count)
    )  # one after the other
    shots = [(t, f"m{number}") for number, t in enumerate(shutter_s) if rng.random() >= MISSING]
    shots += [(t, "") for t in rng.uniform(-120, times_s[-1] + 120, int(rng.binomial(count, EXTRA)))]
    mixed = [shots[place] for place in rng.permutation(len(shots))]
    pictures = [
        Picture(f"p{number}", _by_camera(t * (1 + drift) + offset_s), f"{number}.jpg")
        for number, (t, _) in enumerate(mixed)
    ]
    return Job(
        tuple(SpokenMark(f"m{number}", float(t)) for number, t in enumerate(times_s)),
        tuple(pictures),
        {f"p{number}": mark for number, (_, mark) in enumerate(mixed) if mark},
        {f"p{number}": float(t) for number, (t, _) in enumerate(mixed)},
        spread_s,
        EXTRA * count / (times_s[-1] + 240),
        kind in KINDS[:2],
    )


def _by_camera(t_s: float) -> datetime:
    return START + timedelta(seconds=round(float(t_s)))  # EXIF tells whole seconds


def _gaps_s(rng: np.random.Generator, count: int, kind: str) -> np.ndarray:
    if kind == "even":
        return np.full(count, 60.0)
    if kind == "nearly even":
        return 60.0 + rng.normal(0, 2.0, count)
    if kind == "in groups":  # three or so in a row, then work
        return np.where(rng.random(count) < 0.6, rng.uniform(6, 15, count), rng.uniform(60, 400, count))
    return rng.uniform(8, 90, count)


def score(one: Job) -> Score:
    """The job matched and counted."""
    result = match_photos(one.marks, one.pictures, started_at=START)
    found = {match.photo: match for match in result.matches}
    sure = [match for match in result.matches if match.sure]
    bad = {match.photo: match.mark for match in sure if one.truth.get(match.photo) != match.mark}
    likelier = sum(gain(one, {photo: mark}) >= 0 or gain(one, bad) >= 0 for photo, mark in bad.items())
    clear = clear_pairs(one)
    return Score(
        jobs=1,
        pairs=len(one.truth),
        clear=len(clear),
        clear_right=sum(_is(found.get(photo), one.truth[photo]) for photo in clear),
        sure=len(sure),
        wrong=len(bad) - likelier,
        likelier=likelier,
        asked=len(result.matches) - len(sure),
    )


def gain(one: Job, bad: Mapping[str, str]) -> float:
    """Log of how much likelier the truth with these pairs put in is than the truth."""
    marks = set(bad.values())
    gone = {photo: mark for photo, mark in one.truth.items() if photo in bad or mark in marks}
    return _worth(one, bad) - _worth(one, gone)


def _worth(one: Job, pairs: Mapping[str, str]) -> float:
    """Log likelihood of the pairs, against their marks without pictures and their pictures without marks."""
    said_s = {mark.id: mark.time_s or 0.0 for mark in one.marks}
    apart = np.array([one.shutter_s[photo] - said_s[mark] - DELAY_S for photo, mark in pairs.items()])
    spread_s = np.sqrt(one.spread_s**2 + 1 / 12)  # EXIF tells whole seconds
    density = -0.5 * (apart / spread_s) ** 2 - np.log(spread_s * np.sqrt(2 * np.pi))
    return float((density + np.log((1 - MISSING) / (MISSING * one.strays_per_s))).sum())


def _is(match: Match | None, mark: str) -> bool:
    return match is not None and match.mark == mark


def clear_pairs(one: Job) -> Sequence[str]:
    """Pictures whose pair is clear."""
    if not one.uneven or len(one.truth) < CLEAR_PAIRS:
        return ()
    said_s = {mark.id: mark.time_s or 0.0 for mark in one.marks}
    taken = {picture.id: picture.taken_at or START for picture in one.pictures}
    return [
        photo
        for photo, mark in one.truth.items()
        if sum(abs(s - said_s[mark]) < CLEAR_S for s in said_s.values()) == 1
        and sum(abs((t - taken[photo]).total_seconds()) < CLEAR_S for t in taken.values()) == 1
    ]


def total(kind: str, jobs: int, first_seed: int = 0) -> Score:
    """The scores of so many jobs together."""
    summed = Score()
    for seed in range(first_seed, first_seed + jobs):
        summed.add(score(job(seed, kind)))
    return summed


def main() -> None:
    """Print a row for each kind of job."""
    jobs = int(sys.argv[1]) if len(sys.argv) > 1 else 1500
    first_seed = int(sys.argv[2]) if len(sys.argv) > 2 else 0
    print("intervals     jobs  pairs  clear  right %   placed  wrong  likelier  asked")
    summed = Score()
    for kind in KINDS:
        found = total(kind, jobs, first_seed)
        _row(kind, found)
        summed.add(found)
    _row("all", summed)


def _row(name: str, s: Score) -> None:
    right = f"{100 * s.clear_right / s.clear:7.2f}" if s.clear else "      -"
    counts = f"{s.sure:7} {s.wrong:6} {s.likelier:9} {s.asked:6}"
    print(f"{name:11} {s.jobs:6} {s.pairs:6} {s.clear:6}  {right}  {counts}", flush=True)


if __name__ == "__main__":
    main()
