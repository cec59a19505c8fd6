"""How the desk looks: no violation that axe-core knows, nothing wider than its window, screenshots kept."""

from __future__ import annotations

import pytest

from .keys import JOB_PAGE

PAGES = {
    "jobs": "/",
    "record": JOB_PAGE,
    "asks": f"{JOB_PAGE}/asks",
    "check": f"{JOB_PAGE}/check",
    "sign": f"{JOB_PAGE}/sign",
    "printed": f"{JOB_PAGE}/preview/pages",
    "enter": f"{JOB_PAGE}/add",
    "item": f"{JOB_PAGE}/items/s1",
    "pictures": f"{JOB_PAGE}/pictures",
    "picture": f"{JOB_PAGE}/pictures/p1",
    "compare": f"{JOB_PAGE}/pictures/p1/with/p2",
}


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
def test_the_pages_are_accessible(desk, dark):
    """axe-core finds nothing on any page, in light and in dark; the consoles stay free of errors."""
    desk.bench().accept("s1", actor="Ada")
    with desk.screen(width=1280, height=800, dark=dark, still=True) as screen:
        for name, path in PAGES.items():
            assert 200 == screen.open(path), name
            assert [] == screen.violations(), name
        screen.open(f"{JOB_PAGE}/items/s2")
        for summary in screen.page.locator("details.act > summary").all():
            summary.click()
        assert [] == screen.violations()
        assert [] == screen.complaints


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
def test_what_is_not_there_is_told_accessibly(desk, dark):
    """The page of a job that is not there, in light and in dark."""
    with desk.screen(width=1280, height=800, dark=dark, still=True) as screen:
        assert 404 == screen.open("/jobs/20260101-9")
        assert "Nothing here" == screen.page.inner_text("h1")
        assert [] == screen.violations()
        screen.shoot(f"desk-error-{'dark' if dark else 'light'}")


@pytest.mark.parametrize("size", ["1920x1080", "1280x800", "tablet", "phone"])
def test_pictures_of_the_pages(desk, size):
    """Kept as build output, to be looked at; no page is wider than its window."""
    from desk_browser import SIZES

    width, height = SIZES[size]
    touch = {"has_touch": True, "is_mobile": True} if size in ("tablet", "phone") else {}
    with desk.screen(width=width, height=height, still=True, **touch) as screen:
        for name, path in PAGES.items():
            assert 200 == screen.open(path), name
            assert screen.shoot(f"desk-{name}-{size}").stat().st_size > 0
            if size in ("1280x800", "phone"):
                screen.page.emulate_media(color_scheme="dark")
                assert screen.shoot(f"desk-{name}-{size}-dark").stat().st_size > 0
                screen.page.emulate_media(color_scheme="light")
            assert width >= screen.page.evaluate("() => document.documentElement.scrollWidth"), name
        if touch:
            screen.open(PAGES["asks"])
            assert 0 == screen.page.locator("kbd:visible, .keys:visible").count()
