"""Picture files read and checked, on several cores where there are many of them."""

from __future__ import annotations

import multiprocessing
import os
import sys
from collections import deque
from collections.abc import Iterator, Sequence
from concurrent.futures import Future, ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from types import ModuleType

from saywright.errors import ImageError
from saywright.photos.checks import check_picture
from saywright.photos.cores import one_core
from saywright.photos.intake import IntakeResult, read_photo
from saywright.photos.region import Box
from saywright.record.types import PhotoChecks

# Processes, not threads: the JPEG decoder holds the interpreter's lock, and two threads gained nothing.
MOST_PROCESSES = 4  # each holds one decoded picture, up to 180 MB
FEWEST_PICTURES = 12  # for fewer, starting the processes costs more than it gains


@dataclass(frozen=True, slots=True)
class Looked:
    """A picture as it came and what was found about it, its pixels let go."""

    sha256: str  # of the original bytes, hex
    original: bytes
    taken_at: datetime | None
    file_time: datetime | None
    checks: PhotoChecks


def checked(taken: IntakeResult, box: Box | None = None) -> PhotoChecks:
    """What is found about the picture, in *box* where a person shows it, and what is odd about its file."""
    odd = taken.odd
    told = {
        "frames": odd.frames,
        "print_colours": odd.print_colours,
        "bits": odd.bits,
        "odd_date": odd.date,
    }
    return check_picture(taken.pixels, box).model_copy(update=told)


def look(path: Path) -> Looked | ImageError:
    """One picture; the error is given back, so that the others go on."""
    try:
        taken = read_photo(path)
    except ImageError as error:
        return error
    return Looked(taken.sha256, taken.original, taken.taken_at, taken.file_time, checked(taken))


def look_at(paths: Sequence[Path], *, processes: int | None = None) -> Iterator[Looked | ImageError]:
    """Every picture, in the order given. *processes*: None for as many as there are cores, to MOST_PROCESSES,
    when our own command runs, and one otherwise.

    Where the system gives no processes, or one of them dies, the rest is read in this one.
    """
    own = min(MOST_PROCESSES, cores()) if our_command(sys.modules.get("__main__")) else 1
    wanted = own if processes is None else processes
    done = 0
    if wanted > 1 and len(paths) >= FEWEST_PICTURES:
        try:
            for found in _in_processes(paths, wanted):
                done += 1
                yield found
        except (BrokenProcessPool, OSError):
            pass
    for path in paths[done:]:
        yield look(path)


def cores() -> int:
    """Cores that this process may run on; where the system does not tell, those of the machine."""
    try:
        return len(os.sched_getaffinity(0))
    except AttributeError:
        return os.cpu_count() or 1


def our_command(main: ModuleType | None) -> bool:
    """True where *main* is the `saywright` command.

    A new process runs the main module again. Ours is guarded; a person's script may not be, and would open
    its job a second time.
    """
    spec = getattr(main, "__spec__", None)
    if spec is not None:
        return bool(spec.name == "saywright.__main__")
    return Path(getattr(main, "__file__", None) or "").name == "saywright"


def _in_processes(paths: Sequence[Path], wanted: int) -> Iterator[Looked | ImageError]:
    """A few ahead of the one that is taken, so that no core waits and no more lies in memory."""
    # Started afresh: a fork would take along the open log and whatever a thread holds.
    context = multiprocessing.get_context("spawn")
    with ProcessPoolExecutor(wanted, mp_context=context, initializer=one_core) as pool:
        running: deque[Future[Looked | ImageError]] = deque()
        for path in paths:
            running.append(pool.submit(look, path))
            if len(running) > 2 * wanted:
                yield running.popleft().result()
        while running:
            yield running.popleft().result()
