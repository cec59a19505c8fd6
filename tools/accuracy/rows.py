"""The rows of tests/cases, counted by running their tests."""

from __future__ import annotations

import contextlib
import io
import re
from pathlib import Path

import pytest

from .paths import ROOT


class RowCounter:
    """A pytest plugin that counts the rows of tests/cases that come out as written, by their file."""

    def __init__(self) -> None:
        self.counts: dict[str, tuple[int, int]] = {}  # file → right, all

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        """Count one row."""
        if report.when != "call":
            return
        spoken = re.search(r"\[([\w-]+\.txt)", report.nodeid)
        file = spoken[1] if spoken else Path(report.nodeid.split("::")[0]).stem.removeprefix("test_") + ".tsv"
        right, rows = self.counts.get(file, (0, 0))
        self.counts[file] = (right + (report.outcome == "passed"), rows + 1)


def count_rows() -> dict[str, tuple[int, int]]:
    """Each file of tests/cases with how many of its rows come out as written, and how many it has."""
    counter = RowCounter()
    folder = ROOT / "tests" / "understanding"
    files = [str(folder / f"test_{name}.py") for name in ("cases", "numbers", "measures")]
    with contextlib.redirect_stdout(io.StringIO()):  # rows that fail are counted, not told
        pytest.main([*files, "-k", "test_talk or TestCases", "--tb=no"], plugins=[counter])
    return counter.counts
