"""What judging says of each reading, in the form the report prints; and the rule in words.

Nothing is decided here: figures and sentences are those of `saywright.judging`.
"""

from __future__ import annotations

from saywright.judging.judge import judgements
from saywright.judging.limits import Judgement
from saywright.judging.uncertainty import budget_text
from saywright.judging.wording import figure, mean_text, number
from saywright.record.types import Record
from saywright.report.readings import Judged
from saywright.report.wording import with_unit
from saywright.sheets.model import Sheet

_RULES = {
    "iso14253": (
        "A reading is said to conform, or not to conform, only where that is shown with 95 % probability"
        " (ISO 14253-1:2017): 1.65 u is kept clear at each limit. Between the two it is undecided."
    ),
    "guarded": (
        "A reading is said to conform, or not to conform, only where it lies further from the limit than a"
        " guard band of {ratio} U (JCGM 106:2012; ILAC-G8:09/2019). Between the two it is undecided."
    ),
    "simple": (
        "A reading conforms where it lies within its limits; its uncertainty is told but does not count"
        " (simple acceptance, ILAC-G8:09/2019)."
    ),
}


def judge_readings(record: Record, sheet: Sheet) -> dict[str, Judged]:
    """Reading id → what judging says of it."""
    return {name: _told(judgement) for name, judgement in judgements(record, sheet).items()}


def _told(judgement: Judgement) -> Judged:
    uncertain = judgement.budget.variance > 0
    return Judged(
        sentence=judgement.sentence,
        uncertainty=with_unit(figure(judgement.expanded), judgement.unit) if uncertain else "",
        together=_mean(judgement) if judgement.n > 1 else "",
        basis=budget_text(judgement.budget),
    )


def _mean(of: Judgement) -> str:
    if of.value is None:
        return ""
    mean = with_unit(mean_text(of.value, of.u), of.unit)
    return f"{mean} (range {with_unit(number(of.range), of.unit)})" if of.range is not None else mean


def rule_words(sheet: Sheet) -> tuple[str, ...]:
    """How this sheet's readings are judged, in sentences."""
    return (
        _RULES[sheet.rule].format(ratio=sheet.guard_ratio),
        "The standard uncertainty u is made of the resolution of the instrument or of the digits said,"
        " whichever is coarser, of the instrument's error limit and, where a value was read more than once,"
        " of the spread of the readings (JCGM 100:2008). Printed is U = 2 u, rounded up; where the spread"
        " of few readings counts, Student's t for the effective degrees of freedom replaces 2 and 1.65.",
        "Repeats are judged on their mean. Counted and stamped values are exact and have no uncertainty.",
        "A decision on a value that still asks is provisional.",
    )
