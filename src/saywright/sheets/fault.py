"""What is wrong with a sheet, and where."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing wrong with a sheet."""

    line: int | None  # from 1; None where the fault belongs to no line
    key: str  # dotted path of the key, e.g. "component[2].characteristic[1].lower"
    text: str  # what is wrong and what to do

    def __str__(self) -> str:
        place = f"line {self.line}" if self.line is not None else "whole file"
        return f"{place}: {self.key}: {self.text}" if self.key else f"{place}: {self.text}"
