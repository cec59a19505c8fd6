"""What a course of values comes to, in sentences."""

from __future__ import annotations

from datetime import date, timedelta
from fractions import Fraction

from saywright.judging.charts import FEWEST as CHART_FEWEST
from saywright.judging.charts import RULES
from saywright.judging.history import Course
from saywright.judging.trend import FEWEST, HORIZON, Line, Meeting
from saywright.judging.wording import capital, figure, rounded, short, with_unit

YEAR = 365.25  # days


def trend_sentence(course: Course) -> str:
    """Whether the values rise or fall, how fast, and when a limit is met; "" for counted and stamped ones."""
    if course.limits.is_count:
        return ""
    line = course.line
    if line is None:
        return f"No trend is told from fewer than {FEWEST} values since the last change."
    since = _day(line.first_x)
    if line.slope == 0 and line.slope_interval == 0:
        return f"The {line.n} values since {since} are all alike."
    interval = figure(line.slope_interval * YEAR)
    rate = rounded(line.slope * YEAR, line.slope_interval * YEAR).replace("-", "−")
    if not line.shown:
        return (
            f"No trend is shown by {line.n} values since {since}: "
            f"{with_unit(rate, course.unit)} a year, ± {with_unit(interval, course.unit)} (95 %)."
        )
    way = "rises" if line.slope > 0 else "falls"
    head = (
        f"{capital(course.name)} {way} by {with_unit(rate.lstrip('−'), course.unit)} a year, "
        f"± {with_unit(interval, course.unit)} (95 %, {line.n} values since {since})."
    )
    return f"{head} {_meeting(course, line, course.meets)}".strip()


def _meeting(course: Course, line: Line, meets: Meeting | None) -> str:
    if meets is None:
        return ""
    limit = with_unit(_limit_text(course, line), course.unit)
    if meets.at is not None and meets.at <= line.last_x:
        return f"The line is past the limit of {limit}."
    if meets.at is None:
        when = f"At that rate it does not meet the limit of {limit} within {HORIZON / YEAR:.0f} years"
    else:
        when = f"At that rate it meets the limit of {limit} about {_month(meets.at)}"
    if meets.earliest is None:
        return f"{when}."
    if meets.earliest <= line.last_x:
        return f"{when}; a further reading could already be past it (95 %)."
    early = _month(meets.earliest)
    if meets.latest is None:
        return f"{when}; a further reading may meet it from {early} on (95 %)."
    return f"{when}; a further reading may meet it between {early} and {_month(meets.latest)} (95 %)."


def _limit_text(course: Course, line: Line) -> str:
    """The limit the line goes towards, as the sheet has it."""
    lower, upper = course.limits.limits
    limit = upper if line.slope > 0 else lower
    return "" if limit is None else f"{limit:f}"


def chart_sentence(course: Course) -> str:
    """The control limits and each rule broken; "" for counted and stamped values."""
    if course.limits.is_count:
        return ""
    chart = course.chart
    found = [p for p in course.points if p.stage == "as_found" and not p.provisional]
    if chart is None:
        return f"No control chart is drawn for fewer than {CHART_FEWEST} values as found."
    unit = course.unit
    if chart.sigma == 0:
        return f"No control chart is drawn for {len(found)} values as found that are all alike."
    head = (
        f"Control chart of {len(found)} values as found: mean {_figure(chart.mean)}, "
        f"limits {_figure(chart.lower)} to {with_unit(_figure(chart.upper), unit)} "
        f"(individuals and moving range)."
    )
    told = [f"on {found[s.last].day}, {RULES[s.rule]} (Nelson's rule {s.rule})" for s in chart.signals]
    told += [f"on {found[at].day}, a step from the value before that is past its limit" for at in chart.wide]
    if not told:
        return f"{head} No rule is broken."
    return f"{head} Not in control: {'; '.join(told)}."


def _figure(value: float) -> str:
    return short(Fraction(value), 5)


def _day(ordinal: float) -> date:
    return date.fromordinal(round(ordinal))


def _month(ordinal: float) -> str:
    day = date.fromordinal(1) + timedelta(days=ordinal - 1)
    return f"{day:%Y-%m}"
