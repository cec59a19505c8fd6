"""`marker`: the card that gives a picture its scale."""

from __future__ import annotations

from pathlib import Path

import click

from saywright.cli.common import note, write_file
from saywright.wiring.marker import ACROSS_MM, DOWN_MM, card_pdf


@click.command()
@click.option(
    "--out",
    "place",
    type=click.Path(path_type=Path, dir_okay=False),
    default=Path("marker-card.pdf"),
    show_default=True,
    help="Where to write the page.",
)
def marker(place: Path) -> None:
    """The marker card as PDF, to be laid around a part so that its picture gives millimetres.

    Print it at 100 %, not fitted to the page, and measure between its crosses: a picture is measured only
    with these two distances.

    \b
    Example:
      saywright marker --out card.pdf
    """
    write_file(place, card_pdf())
    note(f"{place}: print at 100 %; its crosses are then {ACROSS_MM:.2f} mm apart, {DOWN_MM:.2f} mm down")
