"""Commands that cannot do what was asked: one clear line, an exit code, nothing lost."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from .conftest import SHEET, Ran

Saywright = Callable[..., Ran]


class TestFailures:
    """What goes wrong is one line."""

    @pytest.mark.parametrize(
        ("args", "code", "line"),
        [
            (
                ("export", "20990101-1"),
                5,
                "saywright: 20990101-1: no such job. 'saywright jobs' lists them\n",
            ),
            (("frobnicate",), 2, "saywright: No such command 'frobnicate'. Try 'saywright --help'.\n"),
            (("parse", "x.txt"), 2, "saywright: Name a bench sheet with --sheet; "),
            (("parse", "gone.txt", "--sheet", SHEET), 2, "saywright: gone.txt: "),
            (("parse", "x.txt", "--sheet", "nope"), 5, "saywright: no bench sheet 'nope'"),
            (("demo", "--audio", "nowhere"), 5, "saywright: nowhere: no such folder"),
        ],
    )
    def test_one_line(self, saywright: Saywright, args: tuple[str, ...], code: int, line: str) -> None:
        """Exit code and text of common mistakes."""
        ran = saywright(*args)
        assert (code, 1) == (ran.code, ran.err.count("\n"))
        assert ran.err.startswith(line)

    def test_a_fault_of_ours(
        self, saywright: Saywright, notes: Path, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
    ) -> None:
        """What nobody expected is one line too, and the traceback is in the file it names."""

        def broken(*_: object, **__: object) -> None:
            raise ZeroDivisionError("a gap in the gauge")

        monkeypatch.setattr("saywright.cli.hear.shop_sheet", broken)
        ran = saywright("parse", notes, "--sheet", SHEET)
        assert (70, 1) == (ran.code, ran.err.count("\n"))
        assert (
            "a fault in the program (ZeroDivisionError: a gap in the gauge). What happened is in" in ran.err
        )
        (log,) = (tmp_path / "data" / "logs").iterdir()
        assert "Traceback" in log.read_text()

    def test_a_data_folder_that_is_a_file(self, saywright: Saywright, notes: Path) -> None:
        """A data folder that cannot be is one line."""
        ran = saywright("--data", notes, "jobs")
        assert (2, 1) == (ran.code, ran.err.count("\n"))
