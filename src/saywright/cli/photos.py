"""`photos`: pictures into a job, and to their spoken marks."""

from __future__ import annotations

import contextlib
import threading
from collections.abc import Iterator, Sequence
from pathlib import Path

import click

from saywright.bench import Bench
from saywright.cli.common import bar, by_option, note, now, table, user_store, who
from saywright.cli.compare import compare
from saywright.cli.measure import calibrate, check, debris, measure
from saywright.errors import InputError, SaywrightError
from saywright.record.events import PhotoAdded
from saywright.record.types import Photo
from saywright.wiring.pictures import faults_told, in_bursts, oddities_told
from saywright.wiring.shooting import Camera
from saywright.wiring.watching import pictures_in


@click.group()
def photos() -> None:
    """Pictures into a job, and to their spoken marks.

    \b
    Example:
      saywright photos add 20260301-1 camera/*.jpg
    """


photos.add_command(check)
photos.add_command(measure)
photos.add_command(debris)
photos.add_command(calibrate)
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


@photos.command()
@click.argument("job")
@click.argument("folder", type=click.Path(path_type=Path, file_okay=False, exists=True))
@click.option("--once", is_flag=True, help="Take in what is there, then end.")
def watch(job: str, folder: Path, once: bool) -> None:
    """Take in what arrives in a folder while the job runs, checked at once. Ctrl-C ends it.

    A phone that syncs, or a card in its reader. A file is taken when it no longer grows.

    \b
    Example:
      saywright photos watch 20260301-1 /media/card/DCIM
    """
    with user_store() as store:
        bench = Bench.resume(store, job, clock=now)

        def told(added: list[PhotoAdded], refused: list[SaywrightError]) -> None:
            for line in arrival_lines(bench, added):
                note(line)
            for error in refused:
                note(f"saywright: {error}")

        if once:
            added, refused = bench.take_photos(pictures_in(folder))
            bench.match_photos()
            told(added, refused)
            if refused:
                raise refused[-1]
            return
        note(f"watching {folder} for job {job}; Ctrl-C ends it")
        with contextlib.suppress(KeyboardInterrupt):
            bench.follow_photos(folder, told, threading.Event())


@photos.command()
@click.argument("job")
@click.option("--camera", default="0", show_default=True, help="Number of the camera, or a video file.")
@click.option("--mark", metavar="ID", help="The spoken mark that it is for.")
@by_option
def shoot(job: str, camera: str, mark: str | None, actor: str | None) -> None:
    """Take a picture with a USB camera or microscope, the sharpest of a few.

    \b
    Example:
      saywright photos shoot 20260301-1 --camera 0 --mark s12
    """
    with user_store() as store, Camera(int(camera) if camera.isdigit() else camera) as opened:
        bench = Bench.resume(store, job, clock=now)
        added = bench.shoot(opened, mark=mark, actor=who(actor))
        for line in arrival_lines(bench, [added]):
            note(line)


def arrival_lines(bench: Bench, added: Sequence[PhotoAdded]) -> Iterator[str]:
    """For each picture what is wrong with it, told at once so that it can be shot again."""
    places = {photo.sha256: photo for photo in bench.record().photos if photo.sha256}
    for one in added:
        photo = places.get(one.sha256)
        part = bench.sheet.label(photo.component, photo.which) if photo and photo.component else "no part yet"
        faults = "; ".join(faults_told(one.checks))
        near = "" if one.checks.far is not None else "; without the marker card how near it was is not known"
        told = f"{faults}: shoot it again" if faults else f"good{near}"
        yield "; ".join((f"{one.name}: {part}: {told}", *oddities_told(one.checks)))


def expanded(files: tuple[Path, ...]) -> list[Path]:
    """Folders replaced by the pictures in them, by name; InputError for a folder without any."""
    found: list[Path] = []
    for path in files:
        if path.is_dir():
            inside = pictures_in(path)
            if not inside:
                raise InputError("there is no picture in this folder", where=str(path), to_do="Name another")
            found += inside
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
