"""A folder that pictures arrive in while the job runs: a phone that syncs, a card in its reader.

Polled, since network folders and cards tell nothing of changes. A file is whole when its size and time have
stayed the same for a while; one that is still being written is left for the next look.
"""

from __future__ import annotations

import os
import threading
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

SUFFIXES = {".jpg", ".jpeg", ".png", ".heic", ".heif", ".webp", ".tif", ".tiff"}
SETTLED_S = 2.0  # without a change, and the file is whole
EVERY_S = 1.0  # between two looks
DEEPEST = 3  # folders within the folder, as cameras make them


@dataclass(frozen=True, slots=True)
class _Seen:
    size: int  # bytes
    changed_ns: int  # by the file system
    since_s: float  # when it was first seen like this


class FolderWatch:
    """What has arrived in a folder. The time comes in, so that it can be tested."""

    def __init__(self, folder: Path, *, settled_s: float = SETTLED_S) -> None:
        """Watch *folder*, which may come and go: a card is pulled out."""
        self.folder = folder
        self._settled_s = settled_s
        self._seen: dict[Path, _Seen] = {}
        self._given: dict[Path, tuple[int, int]] = {}

    def look(self, now_s: float) -> list[Path]:
        """Pictures that are whole and were not given before, by time; *now_s* must not go back.

        A file that was written anew under the same name is given again.
        """
        there: dict[Path, _Seen] = {}
        ready: list[tuple[int, str, Path]] = []
        for path, size, changed_ns in _files(self.folder, DEEPEST):
            before = self._seen.get(path)
            same = before is not None and (before.size, before.changed_ns) == (size, changed_ns)
            now = before if same and before is not None else _Seen(size, changed_ns, now_s)
            there[path] = now
            if now_s - now.since_s >= self._settled_s and self._given.get(path) != (size, changed_ns):
                self._given[path] = (size, changed_ns)
                ready.append((changed_ns, path.name, path))
        self._seen = there
        return [path for _, _, path in sorted(ready)]


def pictures_in(folder: Path) -> list[Path]:
    """Every picture file in *folder* and the folders in it, by name."""
    return sorted(path for path, _, _ in _files(folder, DEEPEST))


def follow(
    watch: FolderWatch,
    arrived: Callable[[list[Path]], None],
    stop: threading.Event,
    *,
    every_s: float = EVERY_S,
) -> None:
    """Hand what arrives to *arrived* until *stop* is set, which is looked at between two looks."""
    while not stop.is_set():
        found = watch.look(time.monotonic())
        if found:
            arrived(found)
        stop.wait(every_s)


def _files(folder: Path, deep: int) -> Iterator[tuple[Path, int, int]]:
    """Picture files with size and time of change; what vanishes while it is looked at is passed over."""
    try:
        entries = list(os.scandir(folder))
    except OSError:
        return
    for entry in entries:
        if entry.name.startswith("."):
            continue
        try:
            if entry.is_dir():
                if deep > 0:
                    yield from _files(Path(entry.path), deep - 1)
            elif Path(entry.name).suffix.lower() in SUFFIXES:
                stat = entry.stat()
                yield Path(entry.path), stat.st_size, stat.st_mtime_ns
        except OSError:
            continue
