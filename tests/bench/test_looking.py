"""Pictures read on several cores: the same results in the same order, faults with theirs."""

from __future__ import annotations

from pathlib import Path
from types import ModuleType

import numpy as np
import pytest
from PIL import Image

from saywright.errors import ImageError
from saywright.wiring import looking
from saywright.wiring.looking import Looked, look, look_at, our_command


@pytest.fixture
def files(tmp_path: Path) -> list[Path]:
    """Fifteen pictures of different size, the fifth no picture."""
    made = []
    for number in range(15):
        path = tmp_path / f"c{number}.jpg"
        pixels = np.random.default_rng(number).integers(0, 255, (40 + number, 60, 3), dtype=np.uint8)
        Image.fromarray(pixels).save(path)
        made.append(path)
    made[4].write_text("no picture")
    return made


def told(found: list[Looked | ImageError]) -> list[object]:
    """What can be compared of each."""
    return [str(one) if isinstance(one, ImageError) else one for one in found]


def test_two_processes_give_what_one_gives(files: list[Path]) -> None:
    """Order, bytes, checks and the fault are the same."""
    one, two = list(look_at(files, processes=1)), list(look_at(files, processes=2))
    assert told(one) == told(two)
    assert [4] == [index for index, found in enumerate(two) if isinstance(found, ImageError)]
    heights = [f.checks.height_px for f in two if isinstance(f, Looked)]
    assert [40 + n for n in range(15) if n != 4] == heights


@pytest.mark.parametrize(
    ("file", "expected"), [("/opt/venv/bin/saywright", True), ("/home/ada/script.py", False), (None, False)]
)
def test_a_persons_script_is_not_run_again(file: str | None, expected: bool) -> None:
    """Only our own command starts processes, since each of them runs the main module anew."""
    main = ModuleType("__main__")
    main.__spec__ = None
    main.__file__ = file
    assert expected == our_command(main)


def test_a_dead_process_loses_nothing(files: list[Path], monkeypatch: pytest.MonkeyPatch) -> None:
    """Where processes break after some pictures the rest is read in this one, each once."""

    def breaks(paths, wanted):
        yield look(paths[0])
        yield look(paths[1])
        raise OSError("no processes")

    monkeypatch.setattr(looking, "_in_processes", breaks)
    assert told([look(path) for path in files]) == told(list(look_at(files, processes=2)))
