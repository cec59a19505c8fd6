"""Damage is proposed where it was drawn and nowhere else."""

from __future__ import annotations

from types import ModuleType

import numpy as np
import pytest

from saywright.errors import InputError
from saywright.photos.damage import scoring, slot_damage

from .conftest import tool


@pytest.fixture(scope="module")
def drawn() -> ModuleType:
    """tools/photo_damage.py as a module."""
    return tool("photo_damage")


@pytest.mark.parametrize("finish", ["plain", "brushed", "turned", "cast"])
def test_scratches_are_proposed_where_they_are(drawn: ModuleType, finish: str) -> None:
    """Six deep scratches on each finish: a box with its middle among them, and the measure in words."""
    pixels, (left, top, width, height) = drawn.face(finish, 3, scratches=6, depth=60)
    found = scoring(pixels)
    assert found
    for one in found:
        x, y = one.box[0] + one.box[2] / 2, one.box[1] + one.box[3] / 2
        assert left - 0.05 < x < left + width + 0.05
        assert top - 0.05 < y < top + height + 0.05
        assert "times the face" in one.told


@pytest.mark.parametrize("finish", ["plain", "brushed", "turned", "cast"])
def test_a_sound_face_has_none(drawn: ModuleType, finish: str) -> None:
    """Brush marks, rings of turning, a casting's grain, an edge and a hole are no scoring."""
    for seed in range(4):
        assert () == scoring(drawn.face(finish, seed)[0])


def test_a_box_is_kept_to(drawn: ModuleType) -> None:
    """Only what a person shows is searched; places are still those of the whole picture."""
    pixels, (left, top, width, height) = drawn.face("plain", 3, scratches=6, depth=60)
    box = (max(0.0, left - 0.1), max(0.0, top - 0.1), width + 0.2, height + 0.2)
    (whole, *_), (shown, *_) = scoring(pixels), scoring(pixels, box)
    assert pytest.approx(whole.box, abs=0.06) == shown.box
    assert () == scoring(pixels, (0.1, 0.02, 0.12, 0.15))


def test_a_broken_slot_is_proposed_at_the_break(drawn: ModuleType) -> None:
    """An edge broken out by a third of the width is told with how far, one as sawn is not."""
    for seed in range(4):
        sound, box = drawn.screw(seed)
        assert () == slot_damage(sound, box)
        broken, box = drawn.screw(seed, chipped=0.33)
        found = slot_damage(broken, box)
        assert 1 == len(found)
        assert 0.2 < found[0].score < 0.5
        assert "of the slot's width off its line" in found[0].told
        assert box[0] < found[0].box[0] < box[0] + box[2]


@pytest.mark.parametrize("pixels", [np.full((300, 300, 3), 150, np.uint8), np.zeros((10, 10, 3), np.uint8)])
def test_no_slot_is_told(pixels: np.ndarray) -> None:
    """A plain face has no slot, a sliver no scoring; one line."""
    with pytest.raises(InputError, match="no screw slot"):
        slot_damage(pixels, (0.0, 0.0, 1.0, 1.0))
    assert () == scoring(pixels)
