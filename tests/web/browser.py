"""Debian's Chromium at a real server: for tests that see the pages as a person does.

`chromium` is one browser for the whole run; `Server` serves an app on a free port; `Screen` is a
window of its own (its own storage and cookies) that remembers what its console complained of.
"""

from __future__ import annotations

import socket
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import pytest
import uvicorn
from playwright.sync_api import sync_playwright

EXECUTABLE = Path("/usr/bin/chromium")
ARGUMENTS = (
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)
SCREENSHOTS = Path(__file__).parent.parent.parent / "build" / "screenshots"
# Width and height in CSS pixels of what stands in a workshop.
SIZES = {
    "1920x1080": (1920, 1080),
    "1280x800": (1280, 800),
    "tablet": (820, 1180),
    "phone": (390, 844),
}


@pytest.fixture(scope="session")
def chromium() -> Iterator[Any]:
    """One headless browser, its data folder fresh and gone afterwards; skipped where there is none."""
    if not EXECUTABLE.exists():
        pytest.skip(f"no browser at {EXECUTABLE}")
    with sync_playwright() as playwright:
        # One that is there and does not start fails every test that asks for it.
        browser = playwright.chromium.launch(executable_path=str(EXECUTABLE), args=list(ARGUMENTS))
        yield browser
        browser.close()


@dataclass
class Screen:
    """A window, and what went wrong in it."""

    page: Any
    address: str  # without a path
    complaints: list[str] = field(default_factory=list)

    def open(self, path: str) -> int:
        """Go to *path* of the server; the status of the answer."""
        answer = self.page.goto(self.address + path)
        return int(answer.status) if answer is not None else 0

    def shoot(self, name: str) -> Path:
        """A screenshot, kept as build output."""
        SCREENSHOTS.mkdir(parents=True, exist_ok=True)
        place = SCREENSHOTS / f"{name}.png"
        self.page.screenshot(path=str(place))
        return place

    def violations(self) -> list[str]:
        """What axe-core finds against WCAG 2.2 A and AA and its own best practices, a line each."""
        from axe_playwright_python.sync_playwright import Axe

        found = Axe().run(self.page).response["violations"]
        return [
            f"{one['id']}: {one['help']} ({node['html'][:120]}; {node['failureSummary'][:300]})"
            for one in found
            for node in one["nodes"]
        ]


@contextmanager
def screen(
    browser: Any,
    address: str,
    *,
    width: int = 1920,
    height: int = 1080,
    dark: bool = False,
    still: bool = False,
    **more: Any,
) -> Iterator[Screen]:
    """A window of this size; *dark* and *still* as the system's settings say. Closed afterwards."""
    context = browser.new_context(
        viewport={"width": width, "height": height},
        color_scheme="dark" if dark else "light",
        reduced_motion="reduce" if still else "no-preference",
        **more,
    )
    try:
        shown = Screen(context.new_page(), address)
        shown.page.on(
            "console",
            lambda said: shown.complaints.append(said.text) if said.type in ("error", "warning") else None,
        )
        shown.page.on("pageerror", lambda error: shown.complaints.append(str(error)))
        yield shown
    finally:
        context.close()


@contextmanager
def serving(app: Any, *, streams: Any = None) -> Iterator[str]:
    """The app on a free port of loopback, in a thread; its address. *streams* are ended first."""
    listening = socket.create_server(("127.0.0.1", 0))
    config = uvicorn.Config(app, log_level="warning", timeout_graceful_shutdown=2)
    server = uvicorn.Server(config)
    thread = threading.Thread(target=server.run, kwargs={"sockets": [listening]}, daemon=True)
    thread.start()
    try:
        yield f"http://127.0.0.1:{listening.getsockname()[1]}"
    finally:
        if streams is not None:
            streams.close()
        server.should_exit = True
        thread.join(10)
        listening.close()
