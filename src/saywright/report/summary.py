"""The head of the report and its summary in plain sentences."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from saywright.judging.orders import NEW_ONE_SINCE
from saywright.judging.proposals import settled
from saywright.judging.wording import STAGE_WORDS, thing
from saywright.record.ledger import ledger
from saywright.record.revisions import Revisions
from saywright.record.types import Condition, Reading, Record, waits
from saywright.report.sections import condition_words
from saywright.report.tree import Count, Fact, Head, Line, Prose, Section, Span, Tally, line
from saywright.report.wording import (
    current,
    day_text,
    evidence,
    limits_text,
    listed,
    moment_text,
    part_text,
    plural,
    ref,
    sentence,
    value_text,
)
from saywright.sheets.model import Sheet

_LISTED = 12  # how many are named in a summary sentence; the tables hold all


def head(record: Record, sheet: Sheet, told: Revisions) -> Head:
    """Job, item, serial, customer, date, sheet and its revision; that of the record; signed or not."""
    job = record.job
    facts = [
        Fact("Job", line(job.id)),
        Fact("Date", line(day_text(job.opened_at))),
        Fact("Item", line(job.item or "not stated")),
        Fact("Serial number", line(Span(job.serial or "not stated", tone="figure"))),
        Fact("Customer", line(job.customer or "not stated")),
        Fact("Bench sheet", line(f"{sheet.title}, revision {job.sheet_revision}")),
    ]
    if told.signatures:
        facts.append(Fact("Revision of this record", line(_revision_words(told))))
    if record.sign_off:
        sign = record.sign_off
        by = f"{sign.by} ({sign.role})" if sign.role else sign.by
        detail = line(f"By {by}, {moment_text(sign.at)}. {sentence(sign.statement)}")
        return Head(line(job.title), tuple(facts), True, "Signed", detail)
    return Head(line(job.title), tuple(facts), False, "NOT SIGNED: draft", line(_draft_words(record)))


def _revision_words(told: Revisions) -> str:
    """Like "2, in place of revision 1, signed by Ada on 14 March 2026"; a first one is only counted."""
    if told.number == 1:
        return "1"
    before = told.signatures[told.number - 2]
    signed = f"signed by {before.actor} on {day_text(before.at)}"
    return f"{told.number}, in place of revision {told.number - 1}, {signed}"


def _draft_words(record: Record) -> str:
    waiting = sum(item.explained is None for item in record.open_items)
    if waiting:
        return f"{plural(waiting, 'open item')} {'waits' if waiting == 1 else 'wait'} for a person."
    return "Nobody stands for this record yet."


def summary_section(record: Record, sheet: Sheet, computed: tuple[Line, ...] = ()) -> Section:
    """How many readings and how they stand; what was found; what was done. *computed*: of computed values."""
    readings = current(record.readings)
    found = (
        *_deviation_lines(readings, sheet),
        *computed,
        *_as_left_lines(readings, sheet, good_news=not computed),
        *_condition_lines(current(record.conditions), sheet),
    )
    blocks: list[Tally | Prose] = []
    if readings:
        blocks.append(_tally(readings))
    blocks.append(Prose((line(_count_words(readings)), *_open_lines(record))))
    blocks.append(Prose((*found, *_fitted_lines(record, sheet), *_action_lines(record, sheet)), "list"))
    return Section(
        "summary", "Summary", tuple(block for block in blocks if isinstance(block, Tally) or block.lines)
    )


def _tally(readings: Sequence[Reading]) -> Tally:
    settled = [reading for reading in readings if not reading.provisional]
    counts = [Count(len(readings), "readings" if len(readings) != 1 else "reading")]
    labels = {
        "conforms": "conform" if _of(settled, "conforms") != 1 else "conforms",
        "does_not_conform": "do not conform" if _of(settled, "does_not_conform") != 1 else "does not conform",
        "undecided": "undecided",
        "no_limit": "no limit set",
    }
    counts.append(Count(_of(settled, "conforms"), labels["conforms"], "conforms"))
    counts.append(Count(_of(settled, "does_not_conform"), labels["does_not_conform"], "does_not_conform"))
    counts.append(Count(_of(settled, "undecided"), labels["undecided"], "undecided"))
    counts.append(Count(_of(settled, "no_limit"), labels["no_limit"], "no_limit"))
    asking = len(readings) - len(settled)
    counts.append(Count(asking, "still asks" if asking == 1 else "still ask", asks=asking > 0))
    return Tally(tuple(counts))


def _of(readings: Iterable[Reading], decision: str) -> int:
    return sum(reading.decision == decision for reading in readings)


def _count_words(readings: Sequence[Reading]) -> str:
    if not readings:
        return "No readings were recorded."
    settled = [reading for reading in readings if not reading.provisional]
    parts = []
    for decision, one, many in (
        ("conforms", "conforms to its limits", "conform to their limits"),
        ("does_not_conform", "does not conform", "do not conform"),
        ("undecided", "is undecided", "are undecided"),
        ("no_limit", "has no limit", "have no limit"),
    ):
        count = _of(settled, decision)
        if count:
            parts.append(f"{count} {one if count == 1 else many}")
    asking = len(readings) - len(settled)
    if asking:
        parts.append(
            f"{asking} still {'asks' if asking == 1 else 'ask'}, provisional and counted nowhere else"
        )
    verb = "was" if len(readings) == 1 else "were"
    return f"{plural(len(readings), 'reading')} {verb} taken: {listed(parts)}."


def _open_lines(record: Record) -> tuple[Line, ...]:
    waiting = sum(item.explained is None for item in record.open_items)
    explained = len(record.open_items) - waiting
    told = []
    if waiting:
        told.append(f"{plural(waiting, 'open item')} {'waits' if waiting == 1 else 'wait'} for a person")
    if explained:
        told.append(f"{explained} may stay open for a stated reason")
    return (line(sentence(listed(told))),) if told else ()


def _deviation_lines(readings: Sequence[Reading], sheet: Sheet) -> Iterable[Line]:
    for stage, words in STAGE_WORDS.items():
        for decision, verb in (("does_not_conform", "does not conform"), ("undecided", "is undecided")):
            hit = [r for r in readings if r.stage == stage and r.decision == decision and not r.provisional]
            if hit:
                yield _joined(f"{words.capitalize()}, {verb}: ", [_reading_spans(r, sheet) for r in hit])


def _as_left_lines(readings: Sequence[Reading], sheet: Sheet, *, good_news: bool) -> Iterable[Line]:
    """The good news, where all that was read as left conforms and nothing of it asks; and what was found
    out of its limits and not read again, so that the good news hides nothing."""
    left = [r for r in readings if r.stage == "as_left"]
    limited = [r for r in left if r.decision != "no_limit"]
    again = _not_read_again(readings, left) if left else []
    if good_news and limited and all(r.decision == "conforms" and not r.provisional for r in limited):
        many = (
            f"{'the' if again else 'all'} {len(limited)} readings with a limit conform"
            if len(limited) > 1
            else "the one reading with a limit conforms"
        )
        yield line(Span("As left: ", tone="strong"), f"{many}.")
    for decision, verb in (("does_not_conform", "does not conform"), ("undecided", "is undecided")):
        hit = [_reading_spans(r, sheet) for r in again if r.decision == decision]
        if hit:
            yield _joined(f"Not read as left, and as found {verb}: ", hit)


def _not_read_again(readings: Sequence[Reading], left: Sequence[Reading]) -> list[Reading]:
    """What as found does not conform or is undecided, and has no reading as left."""
    read = {(r.component, r.which, r.characteristic, r.place) for r in left}
    return [
        r
        for r in readings
        if r.stage == "as_found"
        and not r.provisional
        and r.decision in ("does_not_conform", "undecided")
        and read.isdisjoint({(r.component, r.which, r.characteristic, place) for place in (r.place, None)})
    ]


def _reading_spans(reading: Reading, sheet: Sheet) -> Line:
    characteristic = sheet.find(reading.component, reading.characteristic)
    shown = thing(sheet, reading.component, reading.which, reading.characteristic)
    limits = limits_text(characteristic)
    return (
        Span(f"{shown} "),
        Span(
            value_text(reading, characteristic),
            tone="figure",
            evidence=evidence(reading),
            provisional=reading.provisional,
        ),
        Span(f" (limit: {limits})" if limits else ""),
        ref(reading),
    )


def _condition_lines(conditions: Sequence[Condition], sheet: Sheet) -> Iterable[Line]:
    """Bad news named, good news and negations left to the table."""
    bad = [c for c in conditions if c.present and not sheet.is_good(c.condition)]
    for stage, words in STAGE_WORDS.items():
        here = [c for c in bad if c.stage == stage]
        if here:
            yield _joined(f"Conditions {words}: ", [_condition_spans(c, sheet) for c in here])


def _condition_spans(condition: Condition, sheet: Sheet) -> Line:
    words = f"{part_text(sheet, condition.component, condition.which)} {condition_words(sheet, condition)}"
    return (Span(words, provisional=waits(condition)), ref(condition))


def _fitted_lines(record: Record, sheet: Sheet) -> Iterable[Line]:
    """The new parts that were said to go on; those told as work stand under what was done."""
    on = {m.id: m for m in record.movements if m.movement == "fitted" and m.part == "new"}
    told = []
    for of in ledger(record, sheet).lines:
        moved = [on[name] for name in of.items if name in on]
        if moved:
            count = f"{of.renewed} × " if of.renewed > 1 else ""
            words = f"{count}{part_text(sheet, of.component, of.which)}"
            told.append((Span(words, provisional=any(waits(m) for m in moved)), *(ref(m) for m in moved)))
    if told:
        yield _joined("New parts fitted: ", told)


def _action_lines(record: Record, sheet: Sheet) -> Iterable[Line]:
    """What was done, what of the proposals still stands, what was decided against."""
    over = settled(record, sheet)
    fitted = settled(record, sheet, renewed=True)
    for status, words in (("done", "Done"), ("proposed", "Still proposed"), ("declined", "Decided against")):
        held = [a for a in current(record.actions) if a.status == status and a.id not in over]
        if held:
            since = {a.id: f"; {NEW_ONE_SINCE}" if a.id in fitted else "" for a in held}
            told = [
                (
                    Span(
                        f"{part_text(sheet, a.component, a.which)}"
                        f" ({sheet.action_label(a.action)}{since[a.id]})",
                        provisional=waits(a),
                    ),
                    ref(a),
                )
                for a in held
            ]
            yield _joined(f"{words}: ", told)


def _joined(start: str, parts: Sequence[Line]) -> Line:
    """The parts after *start*, with commas; beyond a dozen the rest is counted."""
    spans: list[Span] = [Span(start, tone="strong")]
    for number, part in enumerate(parts[:_LISTED]):
        if number:
            spans.append(Span(", "))
        spans.extend(part)
    if len(parts) > _LISTED:
        spans.append(Span(f" and {len(parts) - _LISTED} more"))
    return (*spans, Span("."))
