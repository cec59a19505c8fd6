"""Values computed from readings: clearances, tapers, differences between parts alike."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from saywright.judging.derived import Derived
from saywright.judging.uncertainty import budget_text
from saywright.judging.wording import STAGE_WORDS, capital, figure, short
from saywright.record.types import Item, Record
from saywright.report.tree import Cell, Column, Line, Prose, Row, Section, Span, Table, cell, line
from saywright.report.wording import DECISION_WORDS, evidence, limits_text, ref, sentence, with_unit

_COLUMNS = (Column("Computed", 2.8), Column("Limits", 2.2), Column("Value", 3.0), Column("How", 6.0))


def computed_section(record: Record, values: Sequence[Derived]) -> Section | None:
    """Each computed value with its limits, decision, and the readings it came from; None without any."""
    if not values:
        return None
    items = {reading.id: reading for reading in record.readings}
    rows = tuple(_row(of, [items[one] for one in of.inputs if one in items]) for of in values)
    about = (
        "Computed by the formulas of the bench sheet from readings of one stage. The uncertainty of each is"
        " carried on to the result (JCGM 100:2008, 5.1.2); the readings count as independent of each other."
    )
    return Section("computed", "Computed from readings", (Prose((line(about),)), Table(_COLUMNS, rows)))


def _row(of: Derived, inputs: Sequence[Item]) -> Row:
    refs = tuple(ref(item) for item in inputs)
    return Row(
        (
            cell(capital(of.name), Span(STAGE_WORDS[of.stage], tone="small")),
            cell(limits_text(of.limits) or Span("none", tone="small")),
            _value_cell(of, inputs),
            Cell((line(Span(sentence(of.judgement.sentence), tone="small")), _basis(of), refs)),
        ),
        asks=of.provisional,
    )


def _value_cell(of: Derived, inputs: Sequence[Item]) -> Cell:
    if of.value is None:
        return cell(Span("not computed", tone="small"))
    value = Span(
        with_unit(short(of.value), of.limits.unit),
        tone="figure",
        evidence=evidence(inputs[0]) if inputs else None,
        mark=of.judgement.decision,
        provisional=of.provisional,
    )
    words = DECISION_WORDS[of.judgement.decision] + (", provisional" if of.provisional else "")
    if of.judgement.u:
        words = f"U ± {with_unit(figure(of.judgement.expanded), of.limits.unit)}: {words}"
    return Cell((line(value), line(Span(words, tone="small"))))


def _basis(of: Derived) -> Line:
    text = budget_text(of.judgement.budget)
    return (Span(f"{text}.", tone="small"),) if text else ()


def computed_lines(values: Iterable[Derived]) -> tuple[Line, ...]:
    """For the summary: what was computed and does not conform, or is undecided."""
    lines = []
    for decision, verb in (("does_not_conform", "does not conform"), ("undecided", "is undecided")):
        for of in values:
            if of.judgement.decision == decision and of.value is not None and not of.provisional:
                told = f"{of.name} {with_unit(short(of.value), of.limits.unit)}"
                head = Span(f"Computed, {STAGE_WORDS[of.stage]}, {verb}: ", tone="strong")
                lines.append(line(head, f"{told} (limit: {limits_text(of.limits)})."))
    return tuple(lines)
