"""The record as a timeline by component, a page at a time. Pure."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from saywright.hearing.words import Utterance
from saywright.record.types import Item, Record, waits
from saywright.sheets.model import Sheet
from saywright.web import describe
from saywright.web.view import Line, line_of

PAGE_LINES = 150
LOOSE, TALK = "loose", "talk"  # ids of the groups that are no component
SHOWN = {
    "all": "In force",
    "asks": "What asks",
    "reading": "Readings",
    "condition": "Conditions",
    "action": "Actions",
    "movement": "Parts off and on",
    "photo": "Pictures",
    "gone": "No longer in force",
}


@dataclass(frozen=True)
class Group:
    """What is on record about one component, oldest first."""

    id: str
    name: str
    total: int  # lines on all pages
    lines: tuple[Line, ...]  # on this page
    continued: bool  # true where some stand on the page before


@dataclass(frozen=True)
class Timeline:
    """One page of the record."""

    groups: tuple[Group, ...]
    parts: tuple[tuple[str, str, int], ...]  # every group there is: id, shown, lines
    page: int  # from 1
    pages: int
    total: int  # lines that fit what is asked for
    part: str  # asked for; "" for all
    show: str  # key of SHOWN


def timeline(
    record: Record,
    sheet: Sheet,
    utterances: Mapping[int, Utterance],
    pictures: Mapping[str, str],
    *,
    part: str = "",
    show: str = "all",
    page: int = 1,
) -> Timeline:
    """The lines that fit, by component in the sheet's order; what is tied to none comes last, then talk."""
    show = show if show in SHOWN else "all"
    grouped = _grouped((item for item in describe.items_of(record) if _shown(item, show)), sheet)
    parts = tuple((key, _name(key, sheet), len(items)) for key, items in grouped.items() if items)
    part = part if part in {key for key, _, _ in parts} else ""
    wanted = [(key, item) for key, items in grouped.items() if part in ("", key) for item in items]
    pages = max(1, -(-len(wanted) // PAGE_LINES))
    page = min(max(1, page), pages)
    first = (page - 1) * PAGE_LINES
    found: dict[str, list[Item]] = {}
    for key, item in wanted[first : first + PAGE_LINES]:
        found.setdefault(key, []).append(item)
    before = wanted[first - 1][0] if first else None
    groups = tuple(
        Group(
            id=key,
            name=_name(key, sheet),
            total=len(grouped[key]),
            lines=tuple(line_of(item, sheet, utterances, pictures) for item in items),
            continued=key == before,
        )
        for key, items in found.items()
    )
    return Timeline(groups, parts, page, pages, len(wanted), part, show)


def _shown(item: Item, show: str) -> bool:
    if (item.superseded_by is not None) != (show == "gone"):
        return False
    if show == "asks":
        return item.kind == "unclear" or waits(item)
    return show in ("all", "gone", item.kind)


def _grouped(items: Iterable[Item], sheet: Sheet) -> dict[str, list[Item]]:
    found: dict[str, list[Item]] = {component.id: [] for component in sheet.component}
    loose: list[Item] = []
    talk: list[Item] = []
    for item in items:
        component = describe.component_of(item)
        if item.kind == "remark":
            talk.append(item)
        elif component is None:
            loose.append(item)
        else:
            found.setdefault(component, []).append(item)
    return {key: sorted(group, key=_moment) for key, group in {**found, LOOSE: loose, TALK: talk}.items()}


def _moment(item: Item) -> tuple[float, int]:
    """The order of speech: the utterance, then the number in the id."""
    digits = "".join(character for character in item.id if character.isdigit())
    return (float(item.utterance or item.event or 0), int(digits or 0))


def _name(key: str, sheet: Sheet) -> str:
    if key == LOOSE:
        return "Not tied to a part"
    return "Talk, not for the record" if key == TALK else sheet.label(key)
