"""The section on earlier visits, and its drawings."""

from __future__ import annotations

import re
from xml.etree import ElementTree

import pytest

from judging.conftest import SHEET
from judging.said import ASK, reading
from judging.test_history import heights, visit
from saywright.judging.history import history
from saywright.report.document import build_document
from saywright.report.html import to_html
from saywright.report.past import past_section
from saywright.report.pdf import to_pdf
from saywright.report.plot import course_plot
from saywright.report.text import to_text
from saywright.report.tree import Drawings, Table, plain

SVG = "{http://www.w3.org/2000/svg}"


def parts(svg: str, name: str) -> list[ElementTree.Element]:
    """The elements of this name."""
    return ElementTree.fromstring(svg).findall(f".//{SVG}{name}")


def three_visits():
    """Found and left three times; the last value found asks."""
    return history(
        [
            visit(
                n, reading("s1", found, flags=ASK if n == 2 else ()), reading("s2", "18.40", stage="as_left")
            )
            for n, found in enumerate(("18.70", "18.60", "18.20"))
        ]
    )


class TestPlot:
    def test_every_point_once(self) -> None:
        """A dot for each value found, a square for each left, bars for both, a line for each limit."""
        (course,) = three_visits()
        svg = course_plot(course).svg
        assert (3, 4) == (len(parts(svg, "circle")), len(parts(svg, "rect")))  # the paper is a square too
        assert 2 == len([p for p in parts(svg, "path") if p.get("stroke-dasharray") == "5 3"])
        assert 1 == len([c for c in parts(svg, "circle") if c.get("stroke-dasharray")])  # the one that asks

    def test_higher_values_are_higher(self) -> None:
        """Values and days are to scale, and within the frame."""
        dots = [(float(c.get("cx", "")), float(c.get("cy", ""))) for c in parts(course_plot(heights(
            "18.10", "18.30", "18.50")).svg, "circle")]  # fmt: skip
        (x1, y1), (x2, y2), (x3, y3) = dots
        assert x2 - x1 == pytest.approx(x3 - x2, abs=0.2)
        assert y1 - y2 == pytest.approx(y2 - y3, abs=0.2)
        assert y1 > y2 > y3
        assert all(46 < x < 330 and 10 < y < 126 for x, y in dots)

    @pytest.mark.parametrize("values", [("18.4",), ("18.4", "18.4"), ("0.0001", "123456.7")])
    def test_odd_courses(self, values: tuple[str, ...]) -> None:
        """One point, equal ones, and wide ones give a drawing with two to six ticks."""
        svg = course_plot(heights(*values, every=0)).svg
        ticks = [t for t in parts(svg, "text") if t.get("text-anchor") == "end" and t.get("x") == "41.0"]
        assert 2 <= len(ticks) <= 6

    def test_no_word_of_the_record_is_in_it(self) -> None:
        """Only numbers and days: nothing that was said can act in the drawing."""
        texts = [text.text or "" for text in parts(course_plot(heights("18.1", "18.3")).svg, "text")]
        assert all(re.fullmatch(r"[-0-9.]+", text) for text in texts)


class TestSection:
    def test_only_this_job_s_changes(self) -> None:
        """The table has what changed up to this job; a first visit has no section."""
        courses = three_visits()
        section = past_section(courses, "j001")
        assert section is not None
        table = section.blocks[0]
        assert isinstance(table, Table)
        cells = [plain(field.lines[0]) for field in table.rows[0].cells[:3]]
        assert ["Float height", "18.40 mm", "18.60 mm"] == [text.replace("\u00a0", " ") for text in cells]
        assert None is past_section((), "j001")
        assert None is past_section(history([visit(0, reading("s1"))]), "j000")

    def test_drawn_from_three_visits(self) -> None:
        """Two visits are told in the table alone."""
        two = past_section((heights("18.1", "18.3"),), "j001")
        three = past_section((heights("18.1", "18.3", "18.2"),), "j002")
        assert two is not None
        assert three is not None
        assert [False, True] == [any(isinstance(b, Drawings) for b in s.blocks) for s in (two, three)]

    def test_set_in_every_form(self) -> None:
        """In the page, in the PDF and as text."""
        courses = three_visits()
        document = build_document(visit(2, reading("s1")).record, SHEET, courses=courses)
        assert b"data:image/svg+xml;base64," in to_html(document)
        assert to_pdf(document).startswith(b"%PDF-")
        assert "2024-09-20 found 18.20" in " ".join(to_text(document).split())
