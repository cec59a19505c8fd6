"""A keyboard that counts, for tests that work the desk by keys alone."""

from __future__ import annotations

JOB_PAGE = "/jobs/20260314-1"


class Keys:
    """A keyboard that counts."""

    def __init__(self, page):
        self.page = page
        self.strokes = 0

    def press(self, *names):
        """Press one key after another."""
        for name in names:
            self.page.keyboard.press(name)
            self.strokes += 1

    def write(self, text):
        """Type letter by letter."""
        self.press(*("Space" if letter == " " else letter for letter in text))

    def reach(self, text, within="body"):
        """Tab until what has the focus says *text*, in *within*; it is on the page, or the test fails."""
        told = (
            "(within) => { const at = document.activeElement; "
            "return at !== document.body && at.closest(within) "
            "? at.innerText || at.value || at.name || '' : '' }"
        )
        for _ in range(150):
            self.press("Tab")
            if text in self.page.evaluate(told, within):
                return
        raise AssertionError(f"no way to {text!r} by keyboard")
