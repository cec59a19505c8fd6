"""The page docs/accuracy.md: what was measured, how, and the figures."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from saywright.hearing.words import Utterance
from saywright.understanding.doubt import figures_of
from saywright.understanding.doubt_figures import TAKEN_FROM

from . import job, tables
from .calibrate import Heard, Sample, brier, prices, reliability
from .clips import Clip
from .evidence import heard
from .outcomes import Outcome, outcome
from .rows import Rows
from .surroundings import CONDITIONS
from .talk import lexicon
from .voices import VOICES

MEASURED = ("clean", "noise 15 dB", "reverb")  # the surroundings a shop is expected to offer
THRESHOLDS = (0.0, 0.5, 0.6, 0.65, 0.7, 0.75, 0.8, 0.85, 0.9, 0.95)

INTRO = """# Accuracy

Made by `make accuracy` (half an hour on two cores the first time, minutes later; `make accuracy QUICK=1`
prints figures for an eighth of the clips in a few minutes and leaves this page).
Audio is made at run time from `tools/corpus`: {utterances} utterances over
four bench sheets, half terse readings, half running talk, with the truth known before the words. Natural
voices are flite slt, awb, rms and festival's slt (HTS); robots are flite kal16, festival kal and espeak-ng.
Human speech is one speaker's recorded number words put in a row ({strings} strings, the part typed before)
and five sentences read aloud. Surroundings: shop noise (pink noise, a compressor's hum, knocks on metal) at
15 and 5 dB below the speech, reverberation of 0.4 s, a telephone's band. All of it is seeded.

Two halves, by a hash of the words: what was tuned, was tuned on the tuning half; the tables show the
reported half, which has other utterances and other synthetic voices. The human speaker and the forms of the
sentences are in both. Four rules were settled after a look at the reported half, which flatters it a little:
a missing decimal counts from two decimals on, a last "o" behind a point is a zero, "next one down" is no
other job, and a value far outside the limits asks where one slip of hearing explains it.

- *Exact numbers*: clips in which every number of the truth came out, and no other.
- *Silent errors*: clips with a wrong reading (part, which of several, characteristic, number or unit) that
  is taken without an ask. The worst that can happen.
- *Asks*: clips in which something measured waits for a person, rightly or not.
- *Lost*: clips with a reading missing and nothing that tells so.
- *F1*: harmonic mean of precision and recall over all items; an item is right when everything agrees.
"""


@dataclass(frozen=True, slots=True)
class Listened:
    """One clip, what was heard in it, what came of it."""

    clip: Clip
    utterances: tuple[Utterance, ...]
    outcome: Outcome

    @property
    def words(self) -> str:
        """The words as heard."""
        return " / ".join(utterance.best.text for utterance in self.utterances)


def judge_all(clips: Sequence[Clip], utterances: Sequence[Sequence[Utterance]]) -> list[Listened]:
    """What came of each clip."""
    return [
        Listened(
            clip,
            tuple(found),
            outcome(found, lexicon(clip.sheet), lead=clip.lead, words=clip.words, truth=clip.truth),
        )
        for clip, found in zip(clips, utterances, strict=True)
    ]


def heard_rows(done: Sequence[Listened]) -> Iterator[tables.Row]:
    """The kinds of clip of the table, reported half only."""
    shown = [one for one in done if one.clip.half == "reported"]
    for group, style in (("natural", ""), ("robot", ""), ("human", "string")):
        of_group = [one for one in shown if one.clip.group == group and style in ("", one.clip.style)]
        for condition in CONDITIONS:
            rows = [one.outcome for one in of_group if one.clip.condition == condition]
            yield f"{group} voices, {condition}" if group != "human" else f"human, {condition}", rows
        measured = [one.outcome for one in of_group if one.clip.condition in MEASURED]
        if group != "robot":
            yield f"**{group}, clean + 15 dB + reverb**", measured
    for style in ("terse", "talk"):
        rows = [one.outcome for one in shown if (one.clip.style, one.clip.condition) == (style, "clean")]
        yield f"{style}, natural and robot voices, clean", rows
    for style in ("spelled", "sentence"):
        yield f"human, {style}, clean", [one.outcome for one in shown if one.clip.style == style]


def voice_rows(done: Sequence[Listened]) -> Iterator[tables.Row]:
    """Each synthetic voice of both halves."""
    for voice in VOICES:
        rows = [
            one.outcome for one in done if one.clip.voice == voice.name and one.clip.condition in MEASURED
        ]
        yield f"{voice.name} ({voice.half})", rows


def doubt_section(done: Sequence[Listened]) -> list[str]:
    """Calibration and trade-off of the default listener."""
    halves = {half: [one for one in done if one.clip.half == half] for half in ("tuning", "reported")}
    samples = {
        half: [s for clip in evidence_of(found) for s in clip.samples] for half, found in halves.items()
    }
    figures = figures_of("whisper")
    curves = {
        half: prices(evidence_of(price_clips(found)), figures, _thresholds())
        for half, found in halves.items()
    }
    return [
        "## Doubt: is a probability what it says?",
        "",
        "Each reading that was heard carries the probability that it is right: a logistic function of the",
        "share of the hypotheses that give its value, and of what speaks against it. Fit on the tuning half",
        f"in all surroundings ({len(samples['tuning'])} readings), in log-odds:",
        "",
        f"- base {figures.base}, and {figures.share} for each unit of the share's log-odds;",
        "- out of the plausible range, or far out of the limits and a slip of hearing from them "
        f"{figures.outside};",
        f"- odd words around the number {figures.odd};",
        f"- another value for the same thing, or unclear words, in the same breath {figures.crowded};",
        f"- decimals that are not those of the sheet's limits and instrument {figures.misfit}.",
        "",
        "On the reported half "
        f"({len(samples['reported'])} readings) the Brier score is {brier(samples['reported'], figures):.3f} "
        f"(always saying the share that is right would score {_constant(samples['reported']):.3f}).",
        "",
        *tables.reliability_table(reliability(samples["reported"], figures)),
        "",
        "The threshold's price over natural voices in clean, 15 dB and reverb, in shares of the clips. An",
        "ask is needless where every reading in the clip is right. It was chosen on the tuning half:",
        "the fewest silent errors with at most 4 % of needless asks.",
        "",
        *tables.price_table(curves["tuning"], curves["reported"], TAKEN_FROM),
        "",
        "Asks at 0.00 have other reasons than how it was heard: out of the plausible range, a part's name",
        "mended by its sound, a number that can be read two ways; the number is mostly wrong indeed. A right",
        "reading that is given twice counts as right here and as a silent error above.",
    ]


def evidence_of(done: Sequence[Listened]) -> list[Heard]:
    """What is known about the readings of each clip."""
    return [
        heard(one.utterances, lexicon(one.clip.sheet), lead=one.clip.lead, truth=one.clip.truth)
        for one in done
    ]


def price_clips(done: Sequence[Listened]) -> list[Listened]:
    """The clips over which the threshold is chosen: natural voices where a bench may be."""
    return [
        one
        for one in done
        if one.clip.group == "natural" and one.clip.condition in MEASURED and one.outcome.has_reading
    ]


def job_section(done: Sequence[job.Run], counts: Mapping[str, Rows]) -> list[str]:
    """The demo's job, and the rows of the cases."""
    return [
        "## The demo's job",
        "",
        "The recording that ships, hearing and understanding together, against its expected record.",
        "*Asked* is the share of right readings that ask; *time* is that of everything over the",
        "length of the audio.",
        "",
        *job.table(done),
        "",
        "## Rows of tests/cases",
        "",
        "*Not yet* are the rows of `tests/cases/not_yet`, which are known not to be understood; the share is",
        "of all rows, theirs included. The rows were written with the program: they say what it is held to,",
        "not how well talk is understood that nobody wrote for it.",
        "",
        *tables.rows_table(counts),
    ]


def _thresholds() -> list[float]:
    return sorted({*THRESHOLDS, TAKEN_FROM})


def _constant(samples: Sequence[Sample]) -> float:
    right = sum(one.right for one in samples) / max(1, len(samples))
    return right * (1 - right)
