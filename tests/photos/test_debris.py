"""Particles on rendered cloths with known sizes."""

from __future__ import annotations

import math
from types import ModuleType

import numpy as np
import pytest

from saywright.errors import InputError
from saywright.photos.debris import Particle, find_debris, overlay
from saywright.photos.scale import Print, Scale, card_scale, two_point_scale

SIZE_PX = (1200, 900)


def scaled(um_per_px: float) -> Scale:
    """A scale without doubt."""
    return two_point_scale((0.0, 0.0), (1000.0, 0.0), um_per_px, u_mm=0.0)


def at(particles: tuple[Particle, ...], x_px: float, y_px: float) -> list[Particle]:
    """Those whose box holds this place."""
    return [
        p
        for p in particles
        if p.shape.left - 1 <= x_px <= p.shape.left + p.shape.width
        and p.shape.top - 1 <= y_px <= p.shape.top + p.shape.height
    ]


def test_every_grain_is_found_and_sized(cloths: ModuleType) -> None:
    """Grains of 12 pixels and more: each found once, both Feret diameters within 1.5 pixels."""
    truth = cloths.grains(60, SIZE_PX, longest_px=60, seed=5)
    found = find_debris(cloths.cloth(SIZE_PX, truth), scaled(10.0))
    large = [grain for grain in truth if grain.long_px >= 12 and grain.short_px >= 6]
    assert 15 < len(large)
    for grain in large:
        (one,) = at(found.particles, grain.x_px, grain.y_px)
        assert pytest.approx(10 * grain.long_px, abs=15) == one.feret_max_um
        assert pytest.approx(10 * grain.short_px, abs=15) == one.feret_min_um
        assert pytest.approx(100 * math.pi / 4 * grain.long_px * grain.short_px, rel=0.15) == one.area_um2
    assert len([g for g in truth if g.long_px >= 9]) >= len(found.particles)


def test_what_is_too_small_is_counted_not_sized(cloths: ModuleType) -> None:
    """Grains of 6 pixels are told as not resolved."""
    dots = [cloths.Grain(100 + 80 * n, 300, 6, 6, 0) for n in range(12)]
    found = find_debris(cloths.cloth(SIZE_PX, dots), scaled(10.0))
    assert ((), 12) == (found.particles, found.not_resolved)
    assert 100.0 == pytest.approx(found.resolved_from_um)


def test_a_clean_cloth_is_clean(cloths: ModuleType) -> None:
    """Weave, uneven light and noise are no particles."""
    found = find_debris(cloths.cloth(SIZE_PX, []), scaled(10.0))
    assert ((), 0) == (found.particles, found.not_resolved)


def test_hairs_are_fibres(cloths: ModuleType) -> None:
    """40 µm wide and 0.5 to 1.5 mm long: the long ones are fibres, stretched length within 5 %."""
    hairs = [cloths.Hair(200 + 250 * n, 400, radius, 5) for n, radius in enumerate((20, 60, 45))]
    found = find_debris(cloths.cloth(SIZE_PX, hairs), scaled(8.0))
    seen = sorted(found.particles, key=lambda p: p.shape.left)
    assert ["compact", "fibre", "fibre"] == [p.form for p in seen]
    for hair, one in zip(hairs, seen, strict=True):
        assert pytest.approx(8 * hair.length_px, rel=0.05) == one.stretched_um


def test_a_hair_too_narrow_to_tell(cloths: ModuleType) -> None:
    """At 50 µm a pixel a hair of 2 pixels is long as a fibre; its width cannot be told, and that is said."""
    found = find_debris(cloths.cloth(SIZE_PX, [cloths.Hair(400, 300, 80, 2)]), scaled(50.0))
    assert ["fibre_wide"] == [p.form for p in found.particles]


def test_classes_begin_where_the_picture_resolves(cloths: ModuleType) -> None:
    """At 10 µm a pixel classes below 100 µm are not shown; the counts add up."""
    found = find_debris(
        cloths.cloth(SIZE_PX, cloths.grains(40, SIZE_PX, longest_px=60, seed=2)), scaled(10.0)
    )
    counts = found.counts()
    assert "F" == counts[0][0]
    assert len(found.particles) == sum(compact + fibres for _, compact, fibres in counts)


def test_only_the_window_of_the_card_is_searched(scenes: ModuleType) -> None:
    """The card's own squares are no debris; two dots in its window are."""
    dots = (scenes.Bore(40, 40, 1.0), scenes.Bore(70, 50, 2.0))
    pixels, _ = scenes.scene(dots, scenes.View(px_per_mm=12, tilt_deg=8, subsamples=2))
    found = find_debris(pixels, card_scale(pixels, Print()))
    assert ["L", "K"] == [p.size for p in found.particles] or ["M", "K"] == [p.size for p in found.particles]
    assert pytest.approx([2000, 1000], rel=0.05) == [p.feret_max_um for p in found.particles]


def test_overlay_draws_on_a_copy(cloths: ModuleType) -> None:
    """The picture stays; the copy differs around each particle."""
    pixels = cloths.cloth(SIZE_PX, [cloths.Grain(600, 450, 40, 30, 0.3)])
    before = pixels.copy()
    drawn = overlay(pixels, find_debris(pixels, scaled(10.0)))
    assert (before == pixels).all()
    assert (drawn != pixels)[400:500, 550:650].any()
    assert not (drawn != pixels)[:300].any()


def test_no_scale_no_sizes() -> None:
    """Without a scale no particle is sized."""
    with pytest.raises(InputError, match="no scale, so particles cannot be sized"):
        find_debris(np.zeros((100, 100, 3), dtype=np.uint8), None)
