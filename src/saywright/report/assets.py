"""The templates that ship inside the package, as text."""

from __future__ import annotations

from importlib.resources import files


def template(name: str) -> str:
    """The text of the template with this file name."""
    return files("saywright.report").joinpath("templates", name).read_text(encoding="utf-8")
