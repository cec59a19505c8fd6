"""A course of values as a small drawing: SVG text, made here, legible in grey print.

What was found is a filled dot, what was left an open square; bars are ± U; limits are dashed lines. The
horizontal axis is time, to scale. Nothing in it comes from the record but numbers and days.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from html import escape

from saywright.judging.changed import Point
from saywright.judging.history import Course
from saywright.judging.uncertainty import coverage
from saywright.judging.wording import limits_text
from saywright.units import get_unit

WIDTH, HEIGHT = 340, 150  # in units of the drawing
_LEFT, _RIGHT, _TOP, _BOTTOM = 46.0, 10.0, 10.0, 24.0  # margins
_FONT = 'font-family="Libertinus Serif, Georgia, serif" font-size="10"'
_INK, _SOFT, _RULE = "#1c2226", "#50585e", "#9a958a"
_TICKS = 4  # at most one more than these
_ASIDE = 5.0  # what was left is drawn beside what was found the same day
_ROOM = 0.08  # of the height, above and below what is drawn


@dataclass(frozen=True, slots=True)
class Plot:
    """A drawing with what it shows in words."""

    svg: str
    alt: str  # one line


def course_plot(course: Course) -> Plot:
    """The drawing of a course with at least one point."""
    scale = _Scale(course)
    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {HEIGHT}" role="img">',
        f'<rect width="{WIDTH}" height="{HEIGHT}" fill="#ffffff"/>',
        _frame(scale),
        *(_limit(limit, scale) for limit in scale.limits),
        _thread([p for p in course.points if p.stage == "as_found"], scale),
        *(_mark(point, scale) for point in course.points),
        "</svg>",
    ]
    return Plot("\n".join(part for part in parts if part), _words(course))


class _Scale:
    """Days and values → places in the drawing."""

    def __init__(self, course: Course) -> None:
        self.limits = [float(one) for one in course.limits.limits if one is not None]
        bars = [(float(p.value), coverage(p.degrees) * p.u) for p in course.points]
        values = [v - u for v, u in bars] + [v + u for v, u in bars] + self.limits
        self.low, self.high = min(values), max(values)
        if self.high == self.low:
            self.low, self.high = self.low - 1, self.high + 1
        room = (self.high - self.low) * _ROOM
        self.low, self.high = self.low - room, self.high + room
        days = [p.day.toordinal() for p in course.points]
        self.first, self.last = min(days), max(days)

    def x(self, day: date) -> float:
        """Across."""
        span = self.last - self.first
        share = (day.toordinal() - self.first) / span if span else 0.5
        return _LEFT + 8 + share * (WIDTH - _LEFT - _RIGHT - 20)

    def y(self, value: float) -> float:
        """Down."""
        share = (self.high - value) / (self.high - self.low)
        return _TOP + share * (HEIGHT - _TOP - _BOTTOM)

    def ticks(self) -> list[tuple[float, str]]:
        """Two to five round values along the axis, with their text."""
        span = self.high - self.low
        power = math.floor(math.log10(span / _TICKS))
        step = next(m * 10.0**power for m in (1, 2, 5, 10) if m * 10.0**power >= span / _TICKS)
        places = max(0, -math.floor(math.log10(step)))
        first = math.ceil(self.low / step)
        last = math.floor(self.high / step)
        return [(n * step, f"{n * step:.{places}f}") for n in range(first, last + 1)]


def _frame(scale: _Scale) -> str:
    right, bottom = WIDTH - _RIGHT, HEIGHT - _BOTTOM
    lines = [f'<path d="M{_LEFT} {_TOP}V{bottom}H{right}" fill="none" stroke="{_INK}" stroke-width="0.8"/>']
    for value, text in scale.ticks():
        y = scale.y(value)
        lines.append(f'<path d="M{_LEFT - 3} {y:.1f}H{_LEFT}" stroke="{_INK}" stroke-width="0.8"/>')
        lines.append(
            f'<text x="{_LEFT - 5}" y="{y + 3.4:.1f}" text-anchor="end" fill="{_INK}" {_FONT}>{text}</text>'
        )
    ends = ((scale.first, "start", _LEFT), (scale.last, "end", right))
    for ordinal, anchor, x in ends if scale.first != scale.last else ends[:1]:
        lines.append(
            f'<text x="{x}" y="{HEIGHT - 8}" text-anchor="{anchor}" fill="{_INK}" {_FONT}>'
            f"{date.fromordinal(ordinal).isoformat()}</text>"
        )
    return "\n".join(lines)


def _limit(value: float, scale: _Scale) -> str:
    y = scale.y(value)
    return (
        f'<path d="M{_LEFT} {y:.1f}H{WIDTH - _RIGHT}" stroke="{_SOFT}" stroke-width="1"'
        ' stroke-dasharray="5 3"/>'
    )


def _thread(found: Sequence[Point], scale: _Scale) -> str:
    """A thin line from one found value to the next."""
    if len(found) < 2:
        return ""
    way = " ".join(f"{scale.x(p.day):.1f},{scale.y(float(p.value)):.1f}" for p in found)
    return f'<polyline points="{way}" fill="none" stroke="{_RULE}" stroke-width="0.8"/>'


def _mark(point: Point, scale: _Scale) -> str:
    x, y = scale.x(point.day), scale.y(float(point.value))
    x += _ASIDE if point.stage == "as_left" else 0.0
    half = coverage(point.degrees) * point.u
    bar = ""
    if half:
        top, bottom = scale.y(float(point.value) + half), scale.y(float(point.value) - half)
        bar = f'<path d="M{x:.1f} {top:.1f}V{bottom:.1f}" stroke="{_INK}" stroke-width="0.8"/>'
    dash = ' stroke-dasharray="1.5 1"' if point.provisional else ""
    if point.stage == "as_found":
        fill = "#ffffff" if point.provisional else _INK
        return f'{bar}<circle cx="{x:.1f}" cy="{y:.1f}" r="3" fill="{fill}" stroke="{_INK}"{dash}/>'
    return (
        f'{bar}<rect x="{x - 3:.1f}" y="{y - 3:.1f}" width="6" height="6" fill="#ffffff"'
        f' stroke="{_INK}"{dash}/>'
    )


def in_unit(course: Course) -> str:
    """Like " in mm"; "" for a plain number."""
    symbol = "turns" if course.unit == "turn" else get_unit(course.unit).symbol
    return f" in {symbol}" if symbol else ""


def _words(course: Course) -> str:
    """For those who do not see it."""
    told = ", ".join(
        f"{p.day} {'found' if p.stage == 'as_found' else 'left'} {p.text}" for p in course.points[-6:]
    )
    return escape(f"{course.name}{in_unit(course)}, limits {limits_text(course.limits)}: {told}")
