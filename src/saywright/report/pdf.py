"""The document as a PDF, set by Typst: A4, tagged, PDF/A, the same bytes for the same record on one machine.

And its pages as pictures, to be looked at where no PDF can be shown.

The record's texts reach Typst as JSON strings, never as source, so nothing in them can act as
markup. Pictures lie in a folder of their own for the time of the run; Typst sees that folder only.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from dataclasses import asdict, dataclass
from datetime import UTC, datetime
from errno import ENOSPC
from pathlib import Path
from tempfile import TemporaryDirectory, gettempdir
from typing import Any, Literal, TypeVar

import typst

from saywright.errors import DiskFullError, SaywrightError
from saywright.report.assets import template
from saywright.report.html import image_type
from saywright.report.tree import Document, Table, plain

_SUFFIX = {"image/jpeg": ".jpg", "image/png": ".png", "image/gif": ".gif", "image/webp": ".webp"}
_LONGEST_WORD = 16  # letters; a longer one gets places where it may break, so that no column overflows

_NO_GLYPH = (
    "Some letters have no font on this machine and are shown here as empty boxes."
    " The HTML report holds them; so does this one when a font of that script is installed."
)


T = TypeVar("T")


@dataclass(frozen=True)
class Pages:
    """A report as it will be printed."""

    pdf: bytes
    pictures: tuple[bytes, ...]  # each page of it as PNG, in order


@dataclass(frozen=True)
class _Run:
    """What Typst was given when the pages came out."""

    data: Mapping[str, Any]
    images: Mapping[str, str]  # SHA-256 → file name
    pdf: bytes


def to_pdf(document: Document, pictures: Mapping[str, bytes] | None = None, *, language: str = "en") -> bytes:
    """The PDF. *pictures*: SHA-256 of the original → JPEG, PNG, GIF or WebP bytes to show.

    A picture that is not handed over, of another kind or damaged is named as absent. Letters that no
    font on the machine has are told of on the first page.
    SaywrightError, one line, when the pages cannot be set.
    """
    return _laid_out(pictures or {}, lambda folder, images: _run(folder, document, images, language).pdf)


def to_pages(
    document: Document,
    pictures: Mapping[str, bytes] | None = None,
    *,
    language: str = "en",
    dots_per_inch: float = 110.0,
) -> Pages:
    """The PDF as `to_pdf` gives it, and each of its pages as a PNG. *dots_per_inch* is that of the PNG."""

    def made(folder: Path, images: Mapping[str, str]) -> Pages:
        run = _run(folder, document, images, language)
        drawn = typst.compile(
            folder / "report.typ",
            root=folder,
            format="png",
            ppi=dots_per_inch,
            sys_inputs=_inputs(run.data, run.images),
            timestamp=_timestamp(document.made_at),
        )
        return Pages(run.pdf, tuple(drawn) if isinstance(drawn, list) else (drawn,))

    return _laid_out(pictures or {}, made)


def _laid_out(pictures: Mapping[str, bytes], make: Callable[[Path, Mapping[str, str]], T]) -> T:
    """What *make* gives in a folder with the template and the pictures, which is gone afterwards."""
    try:
        with TemporaryDirectory(prefix="saywright-report-") as folder:
            images = _lay_out(Path(folder), pictures)
            (Path(folder) / "report.typ").write_text(template("report.typ"), encoding="utf-8")
            return make(Path(folder), images)
    except OSError as error:
        kind = DiskFullError if error.errno == ENOSPC else SaywrightError
        raise kind(
            f"the pages could not be laid out ({error.strerror})",
            where=error.filename or gettempdir(),
            to_do="Make room there, or name another place in TMPDIR",
        ) from error


def _run(folder: Path, document: Document, images: Mapping[str, str], language: str) -> _Run:
    """The pages with all pictures; where that fails, without the damaged ones."""
    try:
        return _set(folder, document, images, language)
    except typst.TypstError as error:
        usable = {sha: name for sha, name in images.items() if _can_be_shown(folder, name)}
        if usable != images:
            return _set(folder, document, usable, language)
        raise SaywrightError(
            f"the PDF could not be set: {error.message}", where=document.job, to_do="Take the HTML report"
        ) from error


def _set(folder: Path, document: Document, images: Mapping[str, str], language: str) -> _Run:
    """PDF/A-2u (ISO 19005-2), which holds only where each letter has a glyph; else a PDF that says so."""
    data = _data(document, language)
    try:
        return _Run(data, images, _compile(folder, data, images, document.made_at, "a-2u"))
    except typst.TypstError as error:
        lacking = "could not be displayed" in error.message
        data = {**data, "warning": _NO_GLYPH if lacking else ""}
        return _Run(data, images, _compile(folder, data, images, document.made_at, "1.7"))


def _compile(
    folder: Path,
    data: Mapping[str, Any],
    images: Mapping[str, str],
    made_at: datetime,
    standard: Literal["a-2u", "1.7"],
) -> bytes:
    """One run of Typst over the template in *folder*."""
    return typst.compile(
        folder / "report.typ",
        root=folder,
        format="pdf",
        pdf_standards=standard,
        sys_inputs=_inputs(data, images),
        timestamp=_timestamp(made_at),
    )


def _inputs(data: Mapping[str, Any], images: Mapping[str, str]) -> dict[str, str]:
    return {"document": json.dumps(data, ensure_ascii=False), "images": json.dumps(images)}


def _timestamp(made_at: datetime) -> int:
    return int(made_at.astimezone(UTC).timestamp())


def _can_be_shown(folder: Path, name: str) -> bool:
    """False for a picture whose first bytes are right and whose rest is not."""
    probe = folder / "probe.typ"
    probe.write_text(f'#image("{name}")', encoding="utf-8")
    try:
        typst.compile(probe, root=folder, format="pdf")
    except typst.TypstError:
        return False
    return True


def _lay_out(folder: Path, pictures: Mapping[str, bytes]) -> dict[str, str]:
    """Write the pictures into *folder*; SHA-256 → file name of those that can be shown."""
    names: dict[str, str] = {}
    for number, (sha256, content) in enumerate(sorted(pictures.items()), start=1):
        suffix = _SUFFIX.get(image_type(content) or "")
        if suffix:
            names[sha256] = f"picture-{number}{suffix}"
            (folder / names[sha256]).write_bytes(content)
    return names


def _data(document: Document, language: str) -> dict[str, Any]:
    """The tree as plain data."""
    tables = [block for section in document.sections for block in section.blocks if isinstance(block, Table)]
    data = _breakable(asdict(document))
    data["made_at"] = document.made_at.isoformat()
    data["title"] = _breakable(plain(document.head.title), "text")
    data["warning"] = ""
    data["job"] = _breakable(document.job, "text")
    subtag = language.partition("-")[0].lower()
    data["language"] = subtag if subtag.isascii() and subtag.isalpha() and len(subtag) in (2, 3) else "en"
    data["anchors"] = [row.anchor for table in tables for row in table.rows if row.anchor]
    return dict(data)


def _breakable(value: Any, key: str = "") -> Any:
    """*value* with places to break in words that are longer than a column is wide; ids stay as they are."""
    if isinstance(value, dict):
        return {name: _breakable(inner, name) for name, inner in value.items()}
    if isinstance(value, (list, tuple)):
        return [_breakable(inner, key) for inner in value]
    if isinstance(value, str) and key == "text":
        return " ".join(_with_breaks(word) for word in value.split(" "))
    return value


def _with_breaks(word: str) -> str:
    if len(word) <= _LONGEST_WORD:
        return word
    return "\u200b".join(word[at : at + 6] for at in range(0, len(word), 6))
