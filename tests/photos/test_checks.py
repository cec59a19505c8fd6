"""Focus and exposure, against published order facts on pictures that scikit-image ships."""

from __future__ import annotations

from types import ModuleType

import cv2
import numpy as np
import pytest
from skimage import data

from saywright.errors import InputError
from saywright.photos.card import picture as card_picture
from saywright.photos.checks import BLURRED, check_picture, lightness, sharpness
from saywright.photos.region import WHOLE

SHIPPED = ["camera", "coins", "gravel", "page", "clock", "moon", "brick", "grass", "coffee", "chelsea"]


def picture(name: str) -> np.ndarray:
    """A shipped picture as (height, width, 3) uint8."""
    loaded = getattr(data, name)()
    return loaded[..., :3] if loaded.ndim == 3 else np.repeat(loaded[..., None], 3, axis=2)


def blurred(pixels: np.ndarray, sigma_px: float) -> np.ndarray:
    """*pixels* with Gaussian blur."""
    return cv2.GaussianBlur(pixels, (0, 0), sigma_px)


def noisy(pixels: np.ndarray, spread: float) -> np.ndarray:
    """*pixels* with sensor noise from a seeded generator."""
    noise = np.random.default_rng(0).normal(0, spread, pixels.shape[:2])[..., None]
    return np.clip(pixels + noise, 0, 255).astype(np.uint8)


@pytest.mark.parametrize("name", SHIPPED)
def test_falls_with_defocus(name: str) -> None:
    """Sharpness falls at each step of a blur ladder: a focus function has one maximum, at best focus.

    J. Biomed. Opt. 17(3) 036008 (2012); measure of Pech-Pacheco et al., ICPR 2000, pp. 314-317.
    """
    ladder = [sharpness(picture(name))] + [sharpness(blurred(picture(name), s)) for s in (1, 2, 4)]
    assert None not in ladder
    assert sorted(ladder, reverse=True) == ladder
    assert len(set(ladder)) == 4


def test_order_of_the_bare_measure() -> None:
    """Variance of the Laplacian falls along the ladder too (values by running OpenCV 5.0)."""
    expected = {"camera": (1133.16, 49.90, 7.45, 1.70), "coins": (1911.65, 85.65, 10.97, 2.58)}
    for name, values in expected.items():
        grey = getattr(data, name)()
        bare = [cv2.Laplacian(grey, cv2.CV_64F).var()]
        bare += [cv2.Laplacian(cv2.GaussianBlur(grey, (0, 0), s), cv2.CV_64F).var() for s in (1, 2, 4)]
        assert pytest.approx(values, rel=0.05) == bare


@pytest.mark.parametrize("name", SHIPPED)
def test_as_shot_is_not_called_blurred(name: str) -> None:
    """A picture as shipped passes; with a blur of sigma 4 pixels it does not."""
    assert not check_picture(picture(name)).blurred
    assert check_picture(blurred(picture(name), 4)).blurred


@pytest.mark.parametrize("name", ["camera", "moon", "coffee", "clock"])
def test_noise_does_not_look_sharp(name: str) -> None:
    """Sensor noise on a blurred picture does not lift it over the limit."""
    assert sharpness(noisy(blurred(picture(name), 4), 3)) < BLURRED


def test_small_sharp_subject_counts() -> None:
    """A close-up with its background out of focus is judged by the part in focus."""
    pixels = blurred(picture("camera"), 6)
    pixels[160:352, 160:352] = picture("camera")[160:352, 160:352]
    assert not check_picture(pixels).blurred


def test_pixel_count_does_not_matter() -> None:
    """The same picture at two and four times the working size gets the same answer."""
    pixels = cv2.resize(picture("coffee"), (1024, 682), interpolation=cv2.INTER_CUBIC)
    larger = [cv2.resize(pixels, None, fx=f, fy=f, interpolation=cv2.INTER_CUBIC) for f in (2, 4)]
    assert pytest.approx([sharpness(pixels)] * 2, rel=0.15) == [sharpness(p) for p in larger]


def test_contrast_does_not_matter() -> None:
    """A flat, dim print of a scene keeps its sharpness within a third; its plainest tiles fall out."""
    pixels = picture("camera")
    dim = (pixels * 0.4 + 20).astype(np.uint8)
    assert pytest.approx(sharpness(pixels), rel=0.33) == sharpness(dim)


def test_plain_picture_is_not_judged() -> None:
    """A picture without detail has no sharpness and is not called blurred."""
    checks = check_picture(np.full((400, 600, 3), 128, dtype=np.uint8))
    assert checks.sharpness is None
    assert not checks.blurred


@pytest.mark.parametrize(("coded", "expected"), [(0, 0.0), (119, 0.50), (188, 0.76), (255, 1.0)])
def test_lightness_of_greys(coded: int, expected: float) -> None:
    """Grey sRGB 119 is L* 50 (CIE 15 with IEC 61966-2-1; from memory, recomputed)."""
    assert pytest.approx(expected, abs=0.005) == float(lightness(np.full((2, 2, 3), coded, np.uint8)).mean())


def test_dark_and_bright() -> None:
    """A picture at a tenth of its light is dark, one mostly burnt out is bright, as shot neither."""
    pixels = picture("coffee")
    assert check_picture((pixels * 0.18).astype(np.uint8)).dark
    burnt = check_picture(np.clip(pixels.astype(int) * 4 + 60, 0, 255).astype(np.uint8))
    assert burnt.bright
    plain = check_picture(pixels)
    assert (False, False) == (plain.dark, plain.bright)


def _on_cloth(part: np.ndarray, cloth: int) -> np.ndarray:
    """A part of 400 by 300 pixels in the middle of a cloth of this grey, 1000 by 750."""
    pixels = np.full((750, 1000, 3), cloth, dtype=np.uint8)
    pixels[225:525, 300:700] = cv2.resize(part, (400, 300), interpolation=cv2.INTER_AREA)
    return pixels


def test_exposure_is_that_of_the_part() -> None:
    """Rightly lit on burnt-out cloth it is not told; burnt out it is too bright; dim on grey too dark."""
    part = picture("coffee")
    burnt = np.clip(part.astype(float) * 2.5 + 120, 0, 255).astype(np.uint8)
    seen = [check_picture(_on_cloth(*one)) for one in ((part, 255), (burnt, 255), (part // 8, 110))]
    assert [(False, False), (False, True), (True, False)] == [(c.dark, c.bright) for c in seen]


def test_a_black_part_on_paper_is_not_too_dark() -> None:
    """Rubber is black; the paper beside it shows that there was light."""
    rubber = (picture("gravel") // 8).astype(np.uint8)
    assert not check_picture(_on_cloth(rubber, 235)).dark


def test_size_is_told() -> None:
    """Width and height are those of the picture given."""
    checks = check_picture(picture("coffee"))
    assert (600, 400) == (checks.width_px, checks.height_px)


@pytest.mark.parametrize("shape", [(1, 1, 3), (3, 900, 3), (900, 2, 3)])
def test_tiny_pictures_are_not_judged(shape: tuple[int, int, int]) -> None:
    """A sliver has no sharpness and raises nothing."""
    assert check_picture(np.zeros(shape, np.uint8)).sharpness is None


def test_a_sharp_bench_hides_no_blurred_part(faults: ModuleType) -> None:
    """The part decides, not what lies around it: sharp on a soft bench passes, soft on a sharp one does not.

    The variance of the Laplacian of the whole picture tells the opposite.
    """
    part, bench = faults.shipped("coins"), faults.shipped("gravel")
    sharp = faults.part_on_bench(part, faults.soft(bench, 6))
    soft = faults.part_on_bench(faults.soft(part, 4), bench)
    whole = [cv2.Laplacian(cv2.cvtColor(p, cv2.COLOR_RGB2GRAY), cv2.CV_64F).var() for p in (sharp, soft)]
    assert whole[0] < whole[1]
    assert (False, True) == (check_picture(sharp).blurred, check_picture(soft).blurred)


def test_a_box_that_is_shown_decides() -> None:
    """What a person shows is looked at, and nothing else."""
    pixels = blurred(picture("camera"), 6)
    pixels[:170, :170] = picture("camera")[100:270, 180:350]
    assert check_picture(pixels).blurred
    shown = check_picture(pixels, (0.0, 0.0, 0.33, 0.33))
    assert (False, (0.0, 0.0, 0.33, 0.33)) == (shown.blurred, shown.region)


@pytest.mark.parametrize("box", [(0.5, 0.5, 0.6, 0.2), (0, 0, 0, 1), (-0.1, 0, 0.5, 0.5)])
def test_a_box_outside_is_refused(box: tuple[float, float, float, float]) -> None:
    """Shares of the picture's sides only."""
    with pytest.raises(InputError, match="no part of the picture"):
        check_picture(picture("camera"), box)


def test_without_texture_the_whole_is_looked_at() -> None:
    """A plain picture has no region of its own."""
    assert WHOLE == check_picture(np.full((400, 600, 3), 128, dtype=np.uint8)).region


@pytest.mark.parametrize("name", ["camera", "coins", "coffee", "chelsea"])
@pytest.mark.parametrize("way_deg", [0, 35, 110])
def test_a_moved_camera_is_told(faults: ModuleType, name: str, way_deg: int) -> None:
    """Moved by 25 pixels it is told, and no way stated; out of focus or sharp it is not told."""
    shaken = check_picture(faults.noisy(faults.moved(faults.shipped(name), 25, way_deg), 1.0, way_deg))
    assert shaken.moved
    assert shaken.moved_deg is None
    assert not check_picture(faults.shipped(name)).moved
    assert not check_picture(faults.soft(faults.shipped(name), 3)).moved


def test_highlights_are_told(faults: ModuleType) -> None:
    """Highlights over a fifth of the middle are told, none are not, and a white page is no highlight."""
    assert check_picture(faults.glaring(faults.shipped("coins"), 0.2, 1)).glare
    assert not check_picture(faults.shipped("coins")).glare
    white = np.full((480, 640, 3), 255, dtype=np.uint8)
    white[200:280, 260:380] = faults.shipped("page")[200:280, 260:380]
    assert not check_picture(white).glare


@pytest.mark.parametrize(("px_per_mm", "far"), [(12.0, False), (6.0, True)])
def test_the_card_tells_how_near_it_was(px_per_mm: float, far: bool) -> None:
    """Pixels a millimetre within a twentieth, and whether they are too few."""
    plane = np.kron(card_picture(6), np.ones((2, 2), np.uint8))
    factor = px_per_mm / 12
    pixels = cv2.resize(plane, None, fx=factor, fy=factor, interpolation=cv2.INTER_AREA)
    checks = check_picture(np.repeat(np.asarray(pixels)[..., None], 3, axis=2))
    assert pytest.approx(px_per_mm, rel=0.05) == checks.px_per_mm
    assert far is checks.far


def test_without_a_card_nothing_is_known_of_it() -> None:
    """No card, no distance."""
    checks = check_picture(picture("coins"))
    assert (None, None) == (checks.px_per_mm, checks.far)


def test_a_part_far_out_of_focus_is_told_on_a_sharp_bench(faults: ModuleType) -> None:
    """What is left of its texture is fainter than the bench; the same part in focus is not told."""
    bench = faults.shipped("gravel")
    part = faults.shipped("coins")
    assert check_picture(faults.part_on_bench(faults.soft(part, 6), bench)).blurred
    assert not check_picture(faults.part_on_bench(part, bench)).blurred


def _on_the_card(light: float) -> np.ndarray:
    """The card overexposed to white by *light*, a textured part of 20 by 20 mm in its window."""
    plane = np.minimum(255, card_picture(12.0) * light)
    part = cv2.resize(data.coins()[:240, :240], (240, 240)).astype(float) * 0.6
    plane[450:690, 600:840] = part
    return np.repeat(np.round(plane).astype(np.uint8)[..., None], 3, axis=2)


def test_with_the_card_its_window_is_looked_at() -> None:
    """The region is the part in the window; an unsharp part is told though the frame is sharp."""
    pixels = _on_the_card(0.8)
    height, width = pixels.shape[:2]
    left, top, wide, high = check_picture(pixels).region
    assert pytest.approx((600 / width, 450 / height), abs=0.03) == (left, top)
    assert pytest.approx((240 / width, 240 / height), abs=0.04) == (wide, high)
    assert not check_picture(pixels).blurred
    pixels[440:700, 590:850] = cv2.GaussianBlur(pixels, (0, 0), 8)[440:700, 590:850]
    assert check_picture(pixels).blurred


def test_an_overexposed_card_is_not_the_part() -> None:
    """A card burnt out to white about a part that is rightly lit is not told as too bright."""
    pixels = _on_the_card(1.3)
    assert (pixels == 255).mean() > 0.4
    assert not check_picture(pixels).bright


def test_a_moving_camera_on_a_shipped_photograph() -> None:
    """The wall clock of scikit-image was photographed with a moving camera (its documentation says so)."""
    clock = np.repeat(data.clock()[..., None], 3, axis=2)
    assert check_picture(clock).moved


def test_the_white_of_the_card_is_no_highlight() -> None:
    """Paper without detail around a dark part is not told; a highlight on the part is."""
    pixels = _on_the_card(1.0)
    assert 0 == check_picture(pixels).glare_share
    cv2.circle(pixels, (720, 570), 40, (255, 255, 250), -1)
    assert check_picture(pixels).glare
