"""What the commands share."""

from __future__ import annotations

import pytest

from saywright.cli.common import clock_text
from saywright.report import wording


@pytest.mark.parametrize("seconds", [0.0, 59.96, 252.6, 3599.99, 4503.2])
def test_terminal_and_report_tell_one_time(seconds):
    """A moment of a recording reads the same on both."""
    assert wording.clock_text(seconds) == clock_text(seconds)


def test_a_time_not_known_keeps_its_column():
    """Blanks, as wide as a time."""
    assert len(clock_text(0.0)) == len(clock_text(None))
    assert not clock_text(None).strip()
