"""`photos compare`: before and after at one scale."""

from __future__ import annotations

from pathlib import Path

import click

from saywright.cli.common import note, write_file
from saywright.wiring.comparing import compare_files


@click.command()
@click.argument("before", type=click.Path(path_type=Path))
@click.argument("after", type=click.Path(path_type=Path))
@click.option(
    "--out", type=click.Path(path_type=Path, file_okay=False), default=Path(), help="Folder to write to."
)
def compare(before: Path, after: Path, out: Path) -> None:
    """Lay two pictures of one part over each other: a pair at one scale, a blend, a difference.

    How well they fit is told. Pictures that do not fit are refused: they would look like damage.

    \b
    Example:
      saywright photos compare seat-before.jpg seat-after.jpg --out compared
    """
    found = compare_files(before, after)
    made = {
        "pair.jpg": found.pair_jpeg,
        "blend.jpg": found.blend_jpeg,
        "difference.jpg": found.difference_jpeg,
    }
    for name, content in made.items():
        write_file(out / name, content)
    note(f"{', '.join(made)} in {out}: {found.told}")
