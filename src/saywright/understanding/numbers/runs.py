"""One run of number words as token classes, and where two numbers stand in it: "one fifty one forty"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from saywright.understanding.numbers.words import SMALL


@dataclass(slots=True)
class Run:
    """Token classes of one run of number words."""

    types: list[str] = field(default_factory=list)  # terminals of the grammar
    values: list[str] = field(default_factory=list)  # digits of each
    ends: list[int] = field(default_factory=list)  # index of the word after each
    flags: set[str] = field(default_factory=set)
    shared: bool = False  # a word that can be the lower part of a share is said

    def add(self, kind: str, value: str, end: int) -> None:
        """One more token, up to but without word *end*."""
        self.types.append(kind)
        self.values.append(value)
        self.ends.append(end)

    @property
    def last(self) -> str:
        """The class of the last token; "" where there is none."""
        return self.types[-1] if self.types else ""


def leave_next(run: Run, words: Sequence[str]) -> None:
    """Gives the words before a second point back to the number they begin.

    "Eighteen point four two eighteen point four six" is two numbers. A single digit before the
    second point could belong to either, which is odd, unless both numbers begin with it.
    """
    if "POINT" not in run.types or words[run.ends[-1] : run.ends[-1] + 1] not in (("point",), ["point"]):
        return
    behind = len(run.types) - run.types.index("POINT") - 1
    width = 2 if run.types[-2:] == ["TENS", "DIGIT"] else 1
    if behind <= width or run.last not in SMALL:
        return
    if run.last in ("DIGIT", "ZERO") and width == 1 and run.values[-1] != run.values[0]:
        run.flags.add("odd")
    for column in (run.types, run.values, run.ends):
        del column[-width:]


def leave_twin(run: Run) -> None:
    """Cuts "one fifty one forty" into two numbers: both are groups and begin with the same digit."""
    for at in range(len(run.types) - 2, 1, -1):
        if run.types[at] != "DIGIT" or run.values[at] != run.values[0] or len(run.types) > 6:
            continue
        if all(run.types[group] == "DIGIT" and run.types[group + 1] in ("TEEN", "TENS") for group in (0, at)):
            for column in (run.types, run.values, run.ends):
                del column[at:]
            return


def leave_row(run: Run) -> None:
    """Cuts "twenty three two twenty three one" to its first number: each begins with the same tens."""
    shape = ["TENS", "DIGIT", "DIGIT"]
    count = len(run.types) // 3
    if count < 2 or run.types != shape * count or len(set(run.values[::3])) > 1:
        return
    for column in (run.types, run.values, run.ends):
        del column[3:]
