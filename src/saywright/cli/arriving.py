"""Pictures that come while somebody listens: a folder that is watched, a camera that "photo" fires."""

from __future__ import annotations

import queue
import threading
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager
from pathlib import Path
from typing import Any

import click

from saywright.bench import Bench
from saywright.cli.common import note
from saywright.cli.photos import arrival_lines
from saywright.errors import SaywrightError
from saywright.hearing.feed import Live, Settled
from saywright.record.events import PhotoAdded
from saywright.wiring.shooting import Camera, Shooter

_JOIN_S = 10.0  # a picture may still be read


def picture_options(command: Callable[..., Any]) -> Callable[..., Any]:
    """The options that name a folder and a camera."""
    folder = click.option(
        "--photos",
        type=click.Path(path_type=Path, file_okay=False, exists=True),
        metavar="FOLDER",
        help="Take in the pictures that arrive in this folder meanwhile.",
    )
    camera = click.option(
        "--camera", metavar="NUMBER", help="This USB camera takes the picture when a photo is announced."
    )
    return folder(camera(command))


@contextmanager
def opened_camera(camera: str | None) -> Iterator[Camera | None]:
    """The camera that was named; DeviceError where it gives no picture."""
    if camera is None:
        yield None
        return
    with Camera(int(camera) if camera.isdigit() else camera) as opened:
        yield opened


@contextmanager
def pictures_arriving(
    bench: Bench, folder: Path | None, camera: Shooter | None
) -> Iterator[Callable[[Live], None]]:
    """What is to be told all that the session tells. Pictures are taken in in threads of their own."""
    with ExitStack() as stack:
        if folder is not None:
            stack.enter_context(_watching(bench, folder))
        yield stack.enter_context(_shooting(bench, camera)) if camera is not None else _nothing


@contextmanager
def _watching(bench: Bench, folder: Path) -> Iterator[None]:
    stop = threading.Event()

    def told(added: list[PhotoAdded], refused: list[SaywrightError]) -> None:
        for line in (*arrival_lines(bench, added), *map(str, refused)):
            note(line)

    def work() -> None:
        try:
            bench.follow_photos(folder, told, stop)
        except SaywrightError as error:
            note(f"Pictures are no longer taken in: {error}")

    thread = threading.Thread(target=work, name="pictures", daemon=True)
    thread.start()
    try:
        yield
    finally:
        stop.set()
        thread.join(_JOIN_S)


@contextmanager
def _shooting(bench: Bench, camera: Shooter) -> Iterator[Callable[[Live], None]]:
    """Speech goes on while a picture is taken; a camera that fails is told, and tried at the next mark."""
    taker = bench.shot_on_mark(camera)
    heard: queue.SimpleQueue[bool] = queue.SimpleQueue()

    def work() -> None:
        while heard.get():
            try:
                for line in arrival_lines(bench, taker.follow()):
                    note(line)
            except SaywrightError as error:
                note(f"No picture was taken: {error}")

    def tell(told: Live) -> None:
        if isinstance(told, Settled):
            heard.put(True)

    thread = threading.Thread(target=work, name="camera", daemon=True)
    thread.start()
    try:
        yield tell
    finally:
        heard.put(False)
        thread.join(_JOIN_S)


def _nothing(_: Live) -> None:
    """There is no camera to fire."""
