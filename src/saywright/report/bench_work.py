"""The refit list and the bench time."""

from __future__ import annotations

from collections.abc import Sequence

from saywright.judging.benchtime import PAUSE_S, BenchTime, TimeLine
from saywright.judging.refit import RefitLine, RefitStep
from saywright.judging.wording import STAGE_WORDS, capital
from saywright.record.types import Item, Record
from saywright.report.tree import Cell, Column, Line, Prose, Row, Section, Span, Table, cell, line
from saywright.report.wording import plural, ref

_REFIT = (Column("State", 1), Column("Part", 3.2), Column("Settings and torques", 6), Column("Said in", 2))
_TIME = (Column("Part", 4), Column("Stage", 2), Column("Time", 2, right=True), Column("Correction", 5))
DONE, TO_DO = "done", "to do"


def refit_section(record: Record, lines: Sequence[RefitLine]) -> Section | None:
    """How it goes back together, with what is done; None where nothing came off."""
    if not lines:
        return None
    items: dict[str, Item] = {item.id: item for item in record.movements}
    items.update({item.id: item for item in record.actions})
    left = sum(not of.done for of in lines)
    head = "All is back, and each setting was said." if not left else f"{plural(left, 'line')} still to do."
    about = f"In the reverse order of removal: what came off last goes on first. {head}"
    rows = tuple(_refit_row(of, items) for of in lines)
    return Section("refit", "Refit list", (Prose((line(about),)), Table(_REFIT, rows)))


def _refit_row(of: RefitLine, items: dict[str, Item]) -> Row:
    count = f"{of.count} × " if of.count > 1 else ""
    notes = ["a new one" if of.count == 1 else "new ones"] if of.renew and of.count else []
    notes += [f"{of.to_do} not back on"] if of.to_do and of.to_do != of.count else []
    notes += ["stayed on"] if not of.count else []
    refs = tuple(ref(items[one]) for one in of.items if one in items)
    return Row(
        (
            cell(_tick(of.done)),
            cell(capital(f"{count}{of.label}"), Span(", ".join(notes), tone="small") if notes else ""),
            Cell(tuple(_step_line(step) for step in of.steps)),
            Cell((refs,) if refs else ()),
        )
    )


def _tick(done: bool) -> Span:
    return Span(DONE, tone="small") if done else Span(TO_DO, tone="strong")


def _step_line(step: RefitStep) -> Line:
    return line(f"{step.name}: {step.target} ", Span(f"({DONE if step.done else TO_DO})", tone="small"))


def time_section(time: BenchTime) -> Section:
    """The time by part and stage."""
    rows = tuple(_time_row(of) for of in time.lines)
    about = f"From when things were said; silences longer than {PAUSE_S / 60:.0f} minutes are left out"
    about += f" ({time.pauses}, {minutes_text(time.pauses_s)} together)." if time.pauses else "."
    if time.untimed:
        about += f" {plural(time.untimed, 'utterance')} had no time."
    total = line(Span(f"Together {minutes_text(time.total_s)}.", tone="strong"))
    head = Prose((line(about),))
    blocks = (head, Table(_TIME, rows), Prose((total,))) if rows else (head,)
    return Section("time", "Bench time", blocks)


def _time_row(of: TimeLine) -> Row:
    told = ""
    if of.corrected_s is not None:
        why = f": {of.why}" if of.why else ""
        told = f"corrected by {of.by} from {minutes_text(of.computed_s)}{why}"
    figure = Span(minutes_text(of.seconds), tone="figure")
    note = Span(told, tone="small") if told else ""
    return Row((cell(capital(of.label)), cell(STAGE_WORDS[of.stage]), cell(figure), cell(note)))


def minutes_text(seconds: float) -> str:
    """Like "12 min 05 s", "1 h 02 min"."""
    whole = round(seconds)
    hours, rest = divmod(whole, 3600)
    if hours:
        return f"{hours} h {rest // 60:02d} min"
    return f"{rest // 60} min {rest % 60:02d} s"
