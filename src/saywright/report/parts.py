"""Parts to order, as a table of the report and as CSV. What is to be ordered is judging's to say."""

from __future__ import annotations

from saywright.judging.orders import Order, orders
from saywright.judging.wording import capital
from saywright.record.types import Item, Record
from saywright.report.csvtext import to_csv
from saywright.report.trace import items
from saywright.report.tree import Cell, Column, Prose, Row, Section, Span, Table, cell, line
from saywright.report.wording import evidence, ref
from saywright.sheets.model import Sheet

_COLUMNS = ("component", "which", "quantity", "part_number", "reason", "evidence", "provisional")


def parts_section(record: Record, sheet: Sheet) -> Section:
    """What to order, how many, and why."""
    wanted = orders(record, sheet)
    if not wanted:
        return Section("parts", "Parts to order", (Prose((line("Nothing is to be ordered."),)),))
    known = {item.id: item for item in items(record)}
    columns = (
        Column("Part", 3),
        Column("Quantity", 1.5, right=True),
        Column("Part number", 2.2),
        Column("Reason", 4.4),
        Column("Said in", 2),
    )
    rows = tuple(_row(order, known, sheet) for order in wanted)
    return Section("parts", "Parts to order", (Table(columns, rows),))


def _row(order: Order, known: dict[str, Item], sheet: Sheet) -> Row:
    behind = [known[name] for name in order.evidence if name in known]
    first = evidence(behind[0]) if behind else None
    positions = _positions(order, known, sheet)
    quantity = "not said" if order.quantity is None else str(order.quantity)
    return Row(
        (
            cell(
                Span(capital(order.label), provisional=order.provisional),
                Span(positions, tone="small") if positions else "",
            ),
            cell(Span(quantity, tone="figure", evidence=first, provisional=order.provisional)),
            cell(Span(order.part_number, tone="figure") if order.part_number else Span("–", tone="small")),
            cell(order.reason or Span("none was said", tone="small")),
            Cell((tuple(ref(item) for item in behind),)),
        ),
        asks=order.provisional,
    )


def _positions(order: Order, known: dict[str, Item], sheet: Sheet) -> str:
    """Which of several, as the proposals name them; in the sheet's order."""
    component = sheet.get(order.component)
    named = {
        item.which
        for name in order.evidence
        if (item := known.get(name)) is not None and item.kind == "action" and item.which is not None
    }
    places = component.whiches if component else ()
    return ", ".join([p for p in places if p in named] + sorted(named - set(places)))


def parts_csv(record: Record, sheet: Sheet) -> str:
    """One row a part to order; evidence is the ids of the items it rests on, with their events."""
    known = {item.id: item for item in items(record)}
    return to_csv(_COLUMNS, [_csv_row(order, known, sheet) for order in orders(record, sheet)])


def _csv_row(order: Order, known: dict[str, Item], sheet: Sheet) -> tuple[str | int | None, ...]:
    behind = []
    for name in order.evidence:
        item = known.get(name)
        behind.append(f"{name}@{item.event}" if item is not None and item.event is not None else name)
    return (
        order.label,
        _positions(order, known, sheet),
        order.quantity,
        order.part_number,
        order.reason,
        " ".join(behind),
        "yes" if order.provisional else "no",
    )
