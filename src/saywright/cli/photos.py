"""`photos`: pictures into a job, and to their spoken marks."""

from __future__ import annotations

from pathlib import Path

import click

from saywright.bench import Bench
from saywright.cli.common import bar, note, now, table, user_store
from saywright.cli.compare import compare
from saywright.cli.measure import debris, measure
from saywright.record.types import Photo
from saywright.wiring.pictures import in_bursts

SUFFIXES = {".jpg", ".jpeg", ".png", ".heic", ".heif", ".webp", ".tif", ".tiff"}  # looked for in folders


@click.group()
def photos() -> None:
    """Pictures into a job, and to their spoken marks.

    \b
    Example:
      saywright photos add 20260301-1 camera/*.jpg
    """


photos.add_command(measure)
photos.add_command(debris)
photos.add_command(compare)


@photos.command()
@click.argument("job")
@click.argument("files", nargs=-1, required=True, type=click.Path(path_type=Path))
def add(job: str, files: tuple[Path, ...]) -> None:
    """Take pictures in, check them, and bring them to the marks spoken for them.

    A folder stands for the pictures in it. Pictures already in the job are passed over.

    \b
    Example:
      saywright photos add 20260301-1 camera/*.jpg
    """
    paths = expanded(files)
    with user_store() as store:
        bench = Bench.resume(store, job, clock=now)
        with bar("Taking in pictures") as step:
            added, refused = bench.take_photos(paths, progress=step)
        bench.match_photos()
        names = {photo.sha256 for photo in added}
        shown = [photo for photo in bench.record().photos if photo.sha256 in names]
        if shown:
            click.echo(table(("Picture", "Mark", "Part", "Notes"), [_row(bench, photo) for photo in shown]))
        _tell_bursts(bench.record().photos, {photo.id for photo in shown})
        passed = len(paths) - len(added) - len(refused)
        note(f"{len(added)} taken in, {passed} already there, {len(refused)} refused")
        for error in refused[:-1]:
            note(f"saywright: {error}")
        if refused:
            raise refused[-1]


def expanded(files: tuple[Path, ...]) -> list[Path]:
    """Folders replaced by the pictures in them, by name."""
    found: list[Path] = []
    for path in files:
        if path.is_dir():
            found += sorted(
                f for f in path.iterdir() if f.suffix.lower() in SUFFIXES and not f.name.startswith(".")
            )
        else:
            found.append(path)
    return found


def _tell_bursts(photos: tuple[Photo, ...], shown: set[str]) -> None:
    """A line for each picture of which a sharper one was taken in the same go."""
    names = {photo.id: photo.name or photo.id for photo in photos}
    for blunt, sharp in in_bursts(photos).items():
        if blunt in shown:
            note(f"{names[blunt]} shows what {names[sharp]} shows, which is sharper or first; withdraw one")


def _row(bench: Bench, photo: Photo) -> tuple[str, str, str, str]:
    part = bench.sheet.label(photo.component, photo.which) if photo.component else ""
    mark = photo.id if photo.heard else "none"
    return photo.name or "", mark, part, "; ".join(flag.text for flag in photo.flags)
