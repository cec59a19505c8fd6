"""The rows of tests/cases, counted by running their tests."""

from __future__ import annotations

import contextlib
import io
import re
from dataclasses import dataclass
from pathlib import Path

import pytest

from .paths import ROOT


@dataclass(slots=True)
class Rows:
    """The rows of one file, those of its namesake in not_yet with them."""

    right: int = 0  # come out as written
    rows: int = 0
    not_yet: int = 0  # of `rows`, those known not to be understood yet


class RowCounter:
    """A pytest plugin that counts the rows of tests/cases that come out as written, by their file."""

    def __init__(self) -> None:
        self.counts: dict[str, Rows] = {}

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        """Count one row."""
        if report.when != "call":
            return
        spoken = re.search(r"\[([\w-]+\.txt)", report.nodeid)
        file = spoken[1] if spoken else Path(report.nodeid.split("::")[0]).stem.removeprefix("test_") + ".tsv"
        found = self.counts.setdefault(file, Rows())
        found.right += report.outcome == "passed"
        found.rows += 1
        found.not_yet += "::test_not_yet[" in report.nodeid


def count_rows() -> dict[str, Rows]:
    """Each file of tests/cases with how many of its rows come out as written, and how many it has."""
    counter = RowCounter()
    folder = ROOT / "tests" / "understanding"
    files = [str(folder / f"test_{name}.py") for name in ("cases", "numbers", "measures")]
    with contextlib.redirect_stdout(io.StringIO()):  # rows that fail are counted, not told
        pytest.main([*files, "-k", "test_talk or test_not_yet or TestCases", "--tb=no"], plugins=[counter])
    return counter.counts
