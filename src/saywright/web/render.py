"""Templates → HTML. Everything put into a template is escaped."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from starlette.responses import HTMLResponse

HERE = Path(__file__).parent
STATIC = HERE / "static"

_ENVIRONMENT = Environment(
    loader=FileSystemLoader(HERE / "templates"),
    autoescape=True,
    undefined=StrictUndefined,
    trim_blocks=True,
    lstrip_blocks=True,
)


def clock_text(seconds: float | None) -> str:
    """Seconds from the start of the recording as m:ss, from an hour on h:mm:ss; "" where not known."""
    if seconds is None:
        return ""
    minutes, rest = divmod(int(seconds), 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours}:{minutes:02d}:{rest:02d}" if hours else f"{minutes}:{rest:02d}"


def sentence(text: str) -> str:
    """*text* with its first letter large."""
    return text[:1].upper() + text[1:]


_ENVIRONMENT.filters |= {"clock": clock_text, "sentence": sentence}


def filled(template: str, **values: Any) -> str:
    """The filled template."""
    return _ENVIRONMENT.get_template(template).render(**values)


def page(template: str, *, status_code: int = 200, **values: Any) -> HTMLResponse:
    """The filled template as an answer."""
    return HTMLResponse(filled(template, **values), status_code=status_code)
