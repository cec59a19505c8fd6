"""What became of each value since the last visits: changes, trends, charts and drawings."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from saywright.judging.changed import Point
from saywright.judging.course_words import chart_sentence, trend_sentence
from saywright.judging.history import Course
from saywright.judging.wording import capital
from saywright.report.plot import course_plot, in_unit
from saywright.report.tree import (
    Block,
    Cell,
    Column,
    Drawing,
    Drawings,
    Line,
    Prose,
    Row,
    Section,
    Span,
    Table,
    cell,
    line,
)
from saywright.report.wording import limits_text, with_unit

DRAWN_FROM = 3  # visits; a drawing of two says no more than the table
MOST_DRAWN = 12
_COLUMNS = (
    Column("Characteristic", 2.8),
    Column("Last time", 2.4),
    Column("Found now", 1.8),
    Column("Change", 5.4),
)


def past_section(courses: Sequence[Course], job: str) -> Section | None:
    """Each value of this job beside that of the visit before; None where there was no visit before."""
    rows = tuple(row for course in courses if (row := _row(course, job)) is not None)
    told = [sentence for course in courses for sentence in _outlook(course)]
    drawn = [course for course in courses if course.visits >= DRAWN_FROM][:MOST_DRAWN]
    if not rows and not told and not drawn:
        return None
    blocks: list[Block] = [Table(_COLUMNS, rows)] if rows else []
    if told:
        blocks.append(Prose(tuple(line(text) for text in told), "list"))
    if drawn:
        blocks.append(Drawings(tuple(_drawing(course) for course in drawn)))
    return Section("past", "Since the last visits", tuple(blocks))


def _row(course: Course, job: str) -> Row | None:
    change = next((one for one in course.changes if one.after.job == job), None)
    if change is None:
        return None
    before, after = change.before, change.after
    way = "left" if before.stage == "as_left" else "found"
    return Row(
        (
            cell(capital(course.name)),
            cell(_value(before, course), Span(f"{way} {before.day}, {before.job}", tone="small")),
            cell(_value(after, course)),
            Cell((line(Span(change.sentence, tone="strong" if change.real else "small")),)),
        ),
        asks=change.provisional,
    )


def _value(point: Point, course: Course) -> Span:
    text = with_unit(point.text, course.unit)
    return Span(text, tone="figure", provisional=point.provisional)


def _outlook(course: Course) -> Iterable[str]:
    if course.line is not None and course.line.shown:
        yield trend_sentence(course)
    if course.chart is not None and (course.chart.signals or course.chart.wide):
        yield f"{capital(course.name)}: {chart_sentence(course)}"


def _drawing(course: Course) -> Drawing:
    plot = course_plot(course)
    limits = limits_text(course.limits)
    caption: list[Line] = [line(Span(capital(course.name), tone="strong"), in_unit(course))]
    if limits:
        caption.append(line(Span(f"dashed: limits, {limits}", tone="small")))
    caption.append(line(Span("dot: as found; square: as left; bars: ± U", tone="small")))
    return Drawing(plot.svg, plot.alt, tuple(caption))
