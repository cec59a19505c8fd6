"""Before and after of one part: which pictures make a pair, and the section that shows them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from saywright.judging.wording import capital
from saywright.record.types import Photo, Record, waits
from saywright.report.tree import Picture, Pictures, Section, Span, line
from saywright.report.wording import current, evidence, part_text, ref
from saywright.sheets.model import Sheet


@dataclass(frozen=True, slots=True)
class Pair:
    """Two pictures of one part, laid over each other and shown side by side."""

    before: Photo
    after: Photo
    sha256: str  # of the picture that shows both
    told: str  # how well they fit


def to_compare(record: Record) -> tuple[tuple[Photo, Photo], ...]:
    """The first picture as found and the last as left of each part; none that waits for a person."""
    first: dict[tuple[str, str | None], Photo] = {}
    last: dict[tuple[str, str | None], Photo] = {}
    for photo in current(record.photos):
        if photo.sha256 is None or photo.component is None or waits(photo) or not photo.in_report:
            continue
        place = (photo.component, photo.which)
        if photo.stage == "as_found":
            first.setdefault(place, photo)
        else:
            last[place] = photo
    return tuple((photo, last[place]) for place, photo in first.items() if place in last)


def pairs_section(pairs: Sequence[Pair], sheet: Sheet) -> Section | None:
    """Each pair with how well it fits; None where there is none."""
    if not pairs:
        return None
    shown = tuple(_picture(pair, sheet) for pair in pairs)
    return Section("pairs", "Before and after", (Pictures(shown, wide=True),))


def _picture(pair: Pair, sheet: Sheet) -> Picture:
    part = capital(part_text(sheet, pair.before.component, pair.before.which))
    caption = f"{part}: as found on the left, as left on the right, at one scale"
    lines = (
        line(Span(caption, tone="strong"), ref(pair.before), ref(pair.after)),
        line(Span(f"Laid over each other: {pair.told}", tone="small")),
    )
    return Picture(evidence(pair.before), pair.sha256, caption, lines)
