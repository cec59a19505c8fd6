"""Parts off and on: the ledger of the record as a table."""

from __future__ import annotations

from saywright.judging.wording import capital
from saywright.record.ledger import Ledger, LedgerLine, ledger
from saywright.record.types import Action, Movement, Record
from saywright.report.tree import Cell, Column, Prose, Row, Section, Span, Table, cell, line
from saywright.report.wording import evidence, part_text, plural, ref
from saywright.sheets.model import Sheet


def ledger_section(record: Record, sheet: Sheet) -> Section:
    """What came off, what went on, what was renewed, by component, with the movements behind each line."""
    title = "Parts off and on"
    balance = ledger(record, sheet)
    if not balance.lines:
        return Section("ledger", title, (Prose((line("No parts were said to come off or to go on."),)),))
    items: dict[str, Movement | Action] = {item.id: item for item in record.movements}
    items.update({item.id: item for item in record.actions})
    rows = tuple(_row(of, sheet, items) for of in balance.lines)
    columns = (
        Column("Part", 3),
        Column("In place", 1.1, right=True),
        Column("Off", 0.9, right=True),
        Column("On", 0.9, right=True),
        Column("New of these", 1.3, right=True),
        Column("Balance", 2.6),
        Column("Said in", 2),
    )
    return Section("ledger", title, (Prose((line(_balance_words(balance)),)), Table(columns, rows)))


def _balance_words(balance: Ledger) -> str:
    if balance.balanced:
        return "All that came off is back on, and nothing else was added."
    missing = sum(of.missing for of in balance.lines)
    surplus = sum(of.surplus for of in balance.lines)
    told = [f"{plural(missing, 'part')} off and not back on"] if missing else []
    told += [f"{plural(surplus, 'part')} more on than came off"] if surplus else []
    return f"{' and '.join(told)}."


def _row(of: LedgerLine, sheet: Sheet, items: dict[str, Movement | Action]) -> Row:
    known = [items[name] for name in of.items if name in items]
    first = evidence(known[0]) if known else None
    counts = (of.places, of.removed, of.fitted, of.renewed)
    refs = tuple(ref(item) for item in known)
    short = short_words(of)
    return Row(
        (
            cell(
                capital(part_text(sheet, of.component, of.which)),
                Span("renewed at each job", tone="small") if of.renew else "",
            ),
            *(cell(Span(str(count), tone="figure", evidence=first)) for count in counts),
            Cell(tuple(line(Span(text, tone="strong")) for text in short) or (line("balanced"),)),
            Cell((refs,) if refs else ()),
        ),
        asks=bool(short),
    )


def short_words(of: LedgerLine) -> tuple[str, ...]:
    """What does not balance on this line, like "1 not back on"; empty where all does."""
    counts = (
        (of.missing, "not back on"),
        (of.not_renewed, "not renewed"),
        (of.renewed_twice, "renewed twice"),
        (of.surplus, "more on than came off"),
    )
    return tuple(f"{count} {words}" for count, words in counts if count)
