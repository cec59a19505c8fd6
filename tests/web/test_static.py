"""The style and the script of the desk."""

from __future__ import annotations

import re

import pytest

from saywright.web.render import STATIC

CSS = (STATIC / "look.css").read_text(encoding="utf-8")

# Text on what it stands on. WCAG 2.2, 1.4.3: 4.5 to 1 for text; 1.4.11: 3 to 1 for the edges of inputs.
TEXT = 4.5
EDGES = 3.0
PAIRS = (
    *((ink, ground, TEXT) for ink in ("ink", "quiet", "brass") for ground in ("panel", "ground", "field")),
    *((ink, "panel", TEXT) for ink in ("go", "no-go", "near", "bare")),
    *((ink, "brass-wash", TEXT) for ink in ("ink", "brass")),
    *((f"on-{ground}", ground, TEXT) for ground in ("go", "no-go", "near", "bare", "strip")),
    ("on-brass", "brass-plate", TEXT),
    ("brass-plate", "strip", EDGES),
    *(("edge", ground, EDGES) for ground in ("panel", "ground", "field")),
    *((line, ground, EDGES) for line in ("brass", "go", "no-go", "near") for ground in ("panel", "ground")),
)


def palette(text: str, night: bool) -> dict[str, str]:
    """The colours named in a style, by day or by night."""
    named = re.findall(r"--([\w-]+): light-dark\((#[0-9a-f]{6}), (#[0-9a-f]{6})\);", text)
    return {name: dark if night else light for name, light, dark in named}


LIGHT, DARK = palette(CSS, night=False), palette(CSS, night=True)


def luminance(colour: str) -> float:
    """Relative luminance, 0…1, of "#rrggbb" (WCAG 2.2, definition of relative luminance)."""
    channels = [int(colour[place : place + 2], 16) / 255 for place in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return sum(weight * c for weight, c in zip((0.2126, 0.7152, 0.0722), linear, strict=True))


def contrast(one: str, other: str) -> float:
    """Contrast ratio, 1…21 (WCAG 2.2, definition of contrast ratio)."""
    lighter, darker = sorted((luminance(one), luminance(other)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


def test_the_measure_of_contrast():
    """Black on white is 21 to 1 and a colour on itself 1 to 1, as WCAG 2.2 defines."""
    assert pytest.approx(21) == contrast("#000000", "#ffffff")
    assert pytest.approx(1) == contrast("#7c5a10", "#7c5a10")


@pytest.mark.parametrize("colours", [LIGHT, DARK], ids=["light", "dark"])
@pytest.mark.parametrize(("ink", "ground", "least"), PAIRS)
def test_contrast(colours, ink, ground, least):
    """Every colour of text and edge stands out from what it lies on, light and dark."""
    assert least <= contrast(colours[ink], colours[ground])


def test_every_colour_is_told_by_day_and_by_night():
    """No colour stands outside of a pair, so none is forgotten in the dark."""
    assert 20 < len(LIGHT)
    assert [] == re.findall(r"#[0-9a-f]{3,6}\b", re.sub(r"light-dark\([^)]*\)", "", CSS))


@pytest.mark.parametrize("name", sorted(path.name for path in STATIC.glob("*.css")))
def test_one_set_of_colours(name):
    """No style uses a property that nobody sets, and only one sets colours of its own by name."""
    text = (STATIC / name).read_text(encoding="utf-8")
    used = set(re.findall(r"var\(--([\w-]+)\)", text))
    assert set() == used - LIGHT.keys() - {"face"} - set(re.findall(r"--([\w-]+):", text))
    assert name == "look.css" or not re.search(r"--[\w-]+: *(#|light-dark)", text)


@pytest.mark.parametrize("name", sorted(path.name for path in STATIC.iterdir()))
def test_nothing_is_fetched_from_elsewhere(name):
    """No style and no script names another address, so the pages work without a network."""
    text = (STATIC / name).read_text(encoding="utf-8")
    text = text.replace("http://www.w3.org/2000/svg", "")  # the name of a kind of element, never fetched
    assert "//" not in re.sub(r"^\s*//.*$|; // .*$|[{,)] // .*$", "", text, flags=re.MULTILINE)
    assert "url(" not in text
    assert "@import" not in text
    for address in re.findall(r'from "([^"]+)"|import "([^"]+)"', text):
        assert "".join(address).startswith("./")
