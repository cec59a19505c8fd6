"""Rings, arrows and captions on pictures."""

from __future__ import annotations

import numpy as np
import pytest

from saywright.errors import InputError
from saywright.photos.annotate import annotated

GREY = np.full((300, 400, 3), 120, dtype=np.uint8)
RING = {"kind": "ring", "x": 0.5, "y": 0.5, "radius": 0.2}


def changed(annotation: dict[str, object]) -> np.ndarray:
    """Where drawing changed the picture, (height, width) bool."""
    return (annotated(GREY, [annotation]) != GREY).any(axis=2)


def test_original_is_left_alone() -> None:
    """Drawing is on a copy."""
    before = GREY.copy()
    result = annotated(GREY, [RING])
    assert (before == GREY).all()
    assert result is not GREY
    assert (300, 400, 3) == result.shape


def test_ring_is_round_its_place() -> None:
    """A ring leaves its middle free and has the radius asked for."""
    where = changed(RING)
    assert not where[150, 200]
    rows, columns = np.nonzero(where)
    radius_px = np.hypot(rows - 150, columns - 200)
    assert pytest.approx(60, abs=5) == float(radius_px.mean())


def test_arrow_ends_at_its_place() -> None:
    """The arrow's tip is at the place, its tail where it comes from."""
    where = changed({"kind": "arrow", "x": 0.75, "y": 0.5, "from_x": 0.25, "from_y": 0.5})
    columns = np.nonzero(where)[1]
    assert pytest.approx(100, abs=4) == columns.min()
    assert pytest.approx(300, abs=4) == columns.max()


@pytest.mark.parametrize("at", [(0.0, 0.0), (1.0, 1.0)])
def test_caption_stays_within(at: tuple[float, float]) -> None:
    """A caption at the edge is moved in, whole."""
    middle = changed({"kind": "text", "x": 0.3, "y": 0.3, "text": "worn ring"}).sum()
    edge = changed({"kind": "text", "x": at[0], "y": at[1], "text": "worn ring"}).sum()
    assert pytest.approx(middle, rel=0.02) == edge


@pytest.mark.parametrize(
    ("annotation", "line"),
    [
        ({"kind": "star"}, "no such annotation: 'star'. Use one of ring, arrow, box, line, text"),
        ({"kind": "ring", "x": 0.5, "y": 0.5}, "the ring needs 'radius' as a share from 0 to 1, not None"),
        (
            {"kind": "ring", "x": 1.5, "y": 0.5, "radius": 0.1},
            "the ring needs 'x' as a share from 0 to 1, not 1.5",
        ),
        ({"kind": "text", "x": 0.5, "y": 0.5, "text": " "}, "the text needs 'text' as words, not ' '"),
    ],
)
def test_what_cannot_be_drawn(annotation: dict[str, object], line: str) -> None:
    """An annotation that cannot be drawn is refused in one line, before anything is drawn."""
    with pytest.raises(InputError) as caught:
        annotated(GREY, [annotation])
    assert line == str(caught.value)


@pytest.mark.parametrize("ground", [0, 128, 255])
@pytest.mark.parametrize(
    ("annotation", "on_it"),
    [
        ({"kind": "ring", "x": 0.5, "y": 0.5, "radius": 0.25}, (300, 450)),
        ({"kind": "arrow", "x": 0.5, "y": 0.5, "from_x": 0.2, "from_y": 0.5}, (300, 200)),
        ({"kind": "box", "x": 0.7, "y": 0.7, "to_x": 0.3, "to_y": 0.3}, (180, 300)),
        ({"kind": "line", "x": 0.2, "y": 0.5, "to_x": 0.8, "to_y": 0.5, "text": "12 mm"}, (300, 300)),
    ],
)
def test_it_reads_in_grey_print(annotation: dict[str, object], on_it: tuple[int, int], ground: int) -> None:
    """Across the stroke lightness steps by more than half of black to white, whatever lies below it."""
    plain = np.full((600, 600, 3), ground, dtype=np.uint8)
    grey = annotated(plain, [annotation]) @ np.array([0.299, 0.587, 0.114])
    row, column = on_it
    around = grey[row - 8 : row + 9, column - 8 : column + 9]
    assert around.max() - around.min() > 128


def test_a_line_has_its_ends_where_it_was_drawn() -> None:
    """A tick stands across each end and nothing lies beyond it."""
    plain = np.full((400, 600, 3), 255, dtype=np.uint8)
    drawn = annotated(plain, [{"kind": "line", "x": 0.2, "y": 0.5, "to_x": 0.8, "to_y": 0.5}])
    changed = np.flatnonzero((drawn != 255).any(axis=(0, 2)))
    assert pytest.approx([120, 480], abs=3) == [changed[0], changed[-1]]
