"""Whose turns are counted aloud: the part named, the one being counted, or the one in hand."""

from __future__ import annotations

from saywright.sheets.model import Characteristic, Component
from saywright.understanding.counting.aloud import is_counted
from saywright.understanding.discourse import Counting
from saywright.understanding.sides.hand_sides import on_the_side
from saywright.understanding.working import Working

_SEATS = frozenset({"seat", "seats"})


def turn_characteristic(component: Component | None) -> Characteristic | None:
    if component is None:
        return None
    return next((c for c in component.characteristic if is_counted(c)), None)


def counted_part(
    work: Working, texts: tuple[str, ...], running: Counting | None
) -> tuple[Component, str | None] | None:
    """The component whose turns are counted: named here, being counted, or in hand."""
    named = _named_component(work, texts)
    if named is not None:
        which = _place_said(texts, named) or _side_turned_to(work, named)
        return (named, which) if turn_characteristic(named) is not None else None
    held = work.hand
    for component_id, which in (
        (running.component, running.which) if running else (None, None),
        (held.component, held.which) if held else (None, None),
    ):
        component = work.sheet.get(component_id)
        if component is not None and turn_characteristic(component) is not None:
            return component, _place_said(texts, component) or which
    return None


def _side_turned_to(work: Working, component: Component) -> str | None:
    """ "Now the left one" … "air screw, counting in": the left one's."""
    here = on_the_side(component.stations, work.hand)
    return here[0] if len(here) == 1 else None


def _named_component(work: Working, texts: tuple[str, ...]) -> Component | None:
    """The part with the longest name among *texts*."""
    best: tuple[int, str] | None = None
    for at in range(len(texts)):
        found = work.lexicon.match(texts, at) if texts[at] not in _SEATS else None  # "there she seats"
        if found is not None and found[1].parts and (best is None or found[0] > best[0]):
            best = (found[0], found[1].parts[0])
    if best is None:
        counted = _told_apart(work, texts)
        best = (1, counted.pop()) if len(counted) == 1 else None
    return work.sheet.get(best[1]) if best is not None else None


def _told_apart(work: Working, texts: tuple[str, ...]) -> set[str]:
    """ "the high one": the high speed screw; "low screw": the mixture screw of which there is a low one."""
    told: set[str] = set()
    for at in range(len(texts) - 1):
        head = work.lexicon.heads.get(texts[at], ()) if texts[at + 1] == "one" else ()
        short = work.lexicon.names(texts, at + 1).aliases
        placed = [c for c in short if (part := work.sheet.get(c)) is not None and texts[at] in part.positions]
        told.update(c for c in (*head, *placed) if turn_characteristic(work.sheet.get(c)) is not None)
    return told


def _place_said(texts: tuple[str, ...], component: Component) -> str | None:
    """Which of several *texts* name by its position; None where they name none, or more than one."""
    said = [p for p in component.positions if set(p.split()) <= set(texts)]
    return said[0] if len(said) == 1 else None
