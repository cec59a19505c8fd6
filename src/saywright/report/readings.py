"""Readings by component: as found and as left side by side, against limits, with the source of the limits."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from saywright.judging.wording import capital
from saywright.record.types import Reading, Record
from saywright.report.tree import Cell, Column, Line, Prose, Row, Section, Span, Table, cell, line
from saywright.report.wording import (
    DECISION_WORDS,
    asks_line,
    current,
    evidence,
    limits_text,
    part_text,
    ref,
    sentence,
    value_text,
)
from saywright.sheets.model import Characteristic, Sheet, Stage


@dataclass(frozen=True, slots=True)
class Judged:
    """What judging says of one reading, or of several of the same thing together."""

    sentence: str  # the figures in words
    uncertainty: str = ""  # expanded uncertainty with its unit, as text; "" for exact values
    together: str = ""  # the mean the decision was made on, with unit and range; "" for a single reading
    basis: str = ""  # what the uncertainty is made of; "" for exact values


_Key = tuple[str, str | None, str]  # component, which, characteristic


def readings_section(record: Record, sheet: Sheet, judged: Mapping[str, Judged]) -> Section:
    """The table of readings. *judged*: id of a reading → what judging says of it."""
    held = current(record.readings)
    if not held:
        return Section("readings", "Readings", (Prose((line("No readings were recorded."),)),))
    sources = _Sources(sheet)
    rows: list[Row] = []
    before: str | None = None
    for key in _keys(held, sheet):
        component = key[0]
        if component != before:
            rows.append(Row((cell(Span(capital(part_text(sheet, component)), tone="strong")),), heading=True))
            before = component
        rows.append(_reading_row(key, held, sheet, judged, sources))
    columns = (
        Column("Characteristic", 2.6),
        Column("Limits", 2.5),
        Column("As found", 3.6),
        Column("As left", 3.6),
    )
    blocks = (Table(columns, tuple(rows)), Prose((*_legend(), *sources.lines())))
    return Section("readings", "Readings", blocks)


class _Sources:
    """Letters for the sources of limits, given in the order they are met."""

    def __init__(self, sheet: Sheet) -> None:
        self._fallback = sheet.source or f"the bench sheet {sheet.id}, revision {sheet.revision}"
        self._letters: dict[str, str] = {}

    def letter(self, characteristic: Characteristic) -> str:
        source = characteristic.source or self._fallback
        return self._letters.setdefault(source, _letter(len(self._letters)))

    def lines(self) -> tuple[Line, ...]:
        return tuple(
            line(Span(f"({letter}) Limits from: {source}", tone="small"))
            for source, letter in self._letters.items()
        )


def _letter(number: int) -> str:
    """a … z, then aa, ab, …"""
    head, tail = divmod(number, 26)
    return (_letter(head - 1) if head else "") + chr(ord("a") + tail)


def _legend() -> tuple[Line, ...]:
    spans: list[Span] = []
    for decision, words in DECISION_WORDS.items():
        spans += [Span(words, tone="small", mark=decision), Span(" · ", tone="small")]
    spans += [
        Span("value?", tone="small", provisional=True),
        Span(" provisional: a question about it is open", tone="small"),
    ]
    return (tuple(spans),)


def _keys(readings: Sequence[Reading], sheet: Sheet) -> list[_Key]:
    """What was read, in the sheet's order; what the sheet does not know comes last."""
    parts = [component.id for component in sheet.component]
    known = [(component.id, characteristic.id) for component, characteristic in sheet.characteristics()]
    found: dict[_Key, None] = {}
    for reading in readings:
        found[(reading.component, reading.which, reading.characteristic)] = None

    def place(key: _Key) -> tuple[int, str, int, int, str]:
        component, which, characteristic = key
        part = sheet.get(component)
        positions = part.whiches if part else ()
        return (
            parts.index(component) if component in parts else len(parts),
            component,
            known.index((component, characteristic)) if (component, characteristic) in known else len(known),
            positions.index(which) if which in positions else -1 if which is None else len(positions),
            which or "",
        )

    return sorted(found, key=place)


def _reading_row(
    key: _Key, readings: Iterable[Reading], sheet: Sheet, judged: Mapping[str, Judged], sources: _Sources
) -> Row:
    component, which, characteristic_id = key
    characteristic = sheet.find(component, characteristic_id)
    same = [r for r in readings if (r.component, r.which, r.characteristic) == key]
    name = characteristic.label if characteristic else characteristic_id.replace("_", " ")
    several = sheet.get(component)
    position = which or ("which one not said" if several and several.whiches else "")
    limits = limits_text(characteristic)
    limit_cell = (
        cell(limits, Span(f"source ({sources.letter(characteristic)})", tone="small"))
        if limits and characteristic
        else cell(Span("none", tone="small"))
    )
    cells = (
        cell(capital(name), Span(position, tone="small") if position else ""),
        limit_cell,
        _stage_cell(same, "as_found", characteristic, judged),
        _stage_cell(same, "as_left", characteristic, judged),
    )
    return Row(cells, asks=any(reading.provisional for reading in same))


def _stage_cell(
    readings: Iterable[Reading],
    stage: Stage,
    characteristic: Characteristic | None,
    judged: Mapping[str, Judged],
) -> Cell:
    here = [reading for reading in readings if reading.stage == stage]
    if not here:
        return cell(Span("–", tone="small"))
    lines: list[Line] = []
    for number, reading in enumerate(here):
        lines.append(_value_line(reading, characteristic))
        lines.append(asks_line(reading) if reading.provisional else ())
        after = here[number + 1] if number + 1 < len(here) else None
        if after is None or _verdict(after, judged) != _verdict(reading, judged):
            lines.append(line(Span(_verdict(reading, judged), tone="small")))
    return Cell(tuple(lines))


def _value_line(reading: Reading, characteristic: Characteristic | None) -> Line:
    value = Span(
        value_text(reading, characteristic),
        tone="figure",
        evidence=evidence(reading),
        mark=reading.decision,
        provisional=reading.provisional,
    )
    if reading.place:
        return (value, Span(f" at {reading.place}", tone="small"), ref(reading))
    return (value, ref(reading))


def _verdict(reading: Reading, judged: Mapping[str, Judged]) -> str:
    """Like "mean 18.41 mm, U ± 0.03 mm: conforms"."""
    said = judged.get(reading.id)
    parts = []
    if said and said.together:
        parts.append(f"mean {said.together}")
    if said and said.uncertainty:
        parts.append(f"U ± {said.uncertainty}")
    words = DECISION_WORDS[reading.decision] + (", provisional" if reading.provisional else "")
    return f"{', '.join(parts)}: {words}" if parts else words


def judged_section(
    record: Record, sheet: Sheet, judged: Mapping[str, Judged], rule: Sequence[str]
) -> Section:
    """How the figures were judged: the rule, then one sentence a reading."""
    lines = [line(sentence(text)) for text in rule]
    told: dict[str, list[Reading]] = {}
    for reading in current(record.readings):
        if reading.id in judged:
            told.setdefault(judged[reading.id].sentence, []).append(reading)
    rows = tuple(
        Row(
            (
                Cell(
                    tuple(line(Span(reading.id, tone="tag", evidence=evidence(reading))) for reading in same)
                ),
                cell(capital(part_text(sheet, same[0].component, same[0].which))),
                cell(sentence(words), _basis_line(judged[same[0].id])),
            )
        )
        for words, same in told.items()
    )
    columns = (Column("Reading", 1), Column("Part", 2.4), Column("Judged", 8))
    blocks = (Prose(tuple(lines)), *((Table(columns, rows),) if rows else ()))
    return Section("judged", "How the figures were judged", blocks)


def _basis_line(of: Judged) -> Line:
    text = f"U ± {of.uncertainty} from: {of.basis}." if of.uncertainty else ""
    return (Span(text, tone="small"),) if text else ()
