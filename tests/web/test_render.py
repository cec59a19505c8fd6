"""Text as the pages write it."""

from __future__ import annotations

import pytest

from saywright.web.render import clock_text


@pytest.mark.parametrize(
    ("text", "seconds"),
    [("", None), ("0:07", 7.9), ("59:59", 3599.9), ("1:00:00", 3600.0), ("1:15:03", 4503.2)],
)
def test_clock_of_a_recording(text, seconds):
    """Minutes and seconds, hours where there are any, as the report counts them."""
    assert text == clock_text(seconds)
