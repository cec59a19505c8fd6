"""Out: the part of `Bench` that makes reports and exports."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from saywright.record.events import Reported
from saywright.understanding.statements import CommandName
from saywright.wiring import checking, output
from saywright.wiring.bench_part import Part
from saywright.wiring.checking import Moved
from saywright.wiring.log import MACHINE


class OutputPart(Part):
    """What is made of the record of a job."""

    def answer(self, command: CommandName) -> str:
        """What to show or speak when told *command*: plain sentences of the record as it stands."""
        return output.answer(self._log, self.record(), command, hand=self._understander().hand)

    def paused(self) -> bool:
        """True from "pause listening" until "resume": what is heard is kept and not read."""
        return self._understander().paused

    def to_do(self) -> list[dict[str, str | None]]:
        """What the sheet requires and was not said, in hand first: component, which, characteristic, …"""
        return output.to_do(self._log, self.record(), hand=self._understander().hand)

    def parts(self, up_to: str | None = None) -> tuple[Moved, ...]:
        """What came off and went on; with *up_to*, as it was when the item of that id had been said.

        Later corrections count: it is what is known today of that moment.
        """
        return checking.moved(self._log, self.record(), up_to)

    def time_data(self) -> dict[str, Any]:
        """How long each part was worked on, as plain data."""
        return output.time_data(self._log, self.record())

    def report(
        self, formats: Sequence[str] = ("pdf", "html"), *, with_time: bool = False
    ) -> dict[str, bytes]:
        """The report for the customer, by format; with the bench time where wished."""
        made = output.report(self._log, self.record(), formats, with_time=with_time)
        for name, content in made.items():
            self._log.keep(Reported(sha256=self._log.media.put_bytes(content), format=name), actor=MACHINE)
        return made

    def export(self, format_name: str) -> bytes:
        """The record in another form: json, csv, parts, text."""
        return output.export(self._log, self.record(), format_name)
