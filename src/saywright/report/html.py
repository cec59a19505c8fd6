"""The document as one self-contained HTML file: style inside, pictures inside, no script, nothing fetched.

Everything from the record goes through the template engine's escaping. The page forbids scripts
and foreign addresses by its own policy as well.
"""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Mapping, Sequence

import jinja2
from markupsafe import Markup

from saywright.report.assets import template
from saywright.report.tree import Column, Document, Table, plain


def to_html(
    document: Document, pictures: Mapping[str, bytes] | None = None, *, language: str = "en"
) -> bytes:
    """The page, UTF-8. *pictures*: SHA-256 of the original → JPEG, PNG, GIF or WebP bytes to show.

    A picture that is not handed over is named as absent.
    """
    environment = jinja2.Environment(
        autoescape=True, undefined=jinja2.StrictUndefined, trim_blocks=True, lstrip_blocks=True
    )
    environment.filters["share"] = _percent
    environment.filters["svg_uri"] = _svg_uri
    page = environment.from_string(template("report.html.j2")).render(
        document=document,
        title=plain(document.head.title),
        language=language,
        css=Markup(template("report.css")),  # our own file, no user text
        images={sha: _data_uri(content) for sha, content in (pictures or {}).items()},
        anchors=_anchors(document),
    )
    return page.encode("utf-8")


def image_type(content: bytes) -> str | None:
    """The media type by the first bytes of the file; None for what is no picture a page can show."""
    if content.startswith(b"\xff\xd8\xff"):
        return "image/jpeg"
    if content.startswith(b"\x89PNG\r\n\x1a\n"):
        return "image/png"
    if content.startswith((b"GIF87a", b"GIF89a")):
        return "image/gif"
    if content[:4] == b"RIFF" and content[8:12] == b"WEBP":
        return "image/webp"
    return None


def _data_uri(content: bytes) -> str:
    kind = image_type(content) or "application/octet-stream"
    return f"data:{kind};base64,{b64encode(content).decode('ascii')}"


def _svg_uri(svg: str) -> str:
    return f"data:image/svg+xml;base64,{b64encode(svg.encode('utf-8')).decode('ascii')}"


def _percent(share: float, columns: Sequence[Column]) -> str:
    return f"{100 * share / sum(column.share for column in columns):.2f}"


def _anchors(document: Document) -> frozenset[str]:
    """Ids of the items that have a row to lead to."""
    tables = [block for section in document.sections for block in section.blocks if isinstance(block, Table)]
    return frozenset(row.anchor for table in tables for row in table.rows if row.anchor)
