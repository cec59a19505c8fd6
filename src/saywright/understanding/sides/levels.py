"""Two rows of parts, inlet and outlet, each left and right: the row worked on holds until the other is named.

Where the sheet has a part called so ("inlet manifold"), and two kinds of parts in such rows.
"""

from __future__ import annotations

from collections.abc import Iterable

from saywright.sheets.model import Component, Sheet
from saywright.understanding.discourse import Hand

_SIDES = frozenset({"left", "right", "front", "rear", "nearside", "offside", "near", "off", "side", "end"})


def row_of(part: Hand, sheet: Sheet) -> str | None:
    """The row that *part* is in, or is the manifold of; None for others."""
    spec = sheet.get(part.component) if sheet.row_words else None
    if spec is None:
        return None
    if part.which is not None:
        words = part.which.split()
        holders = [c for c in sheet.component if not c.positions] if len(words) > 1 else []
        rows = [w for w in words if any(_is_called(c, w) for c in holders)]
    else:
        rows = [] if spec.positions else spec.label.lower().split()
    return next((w for w in rows if w not in _SIDES and w in sheet.row_words), None)


def row_worked_on(part: Hand, held: Hand | None, sheet: Sheet) -> str | None:
    """The row of what is in hand from *part* on; none where both rows are gone over on the side of *held*."""
    row = row_of(part, sheet)
    if held is None or row in {None, held.row}:
        return row or (held.row if held is not None else None)
    on_side = part.which is not None and held.turned and held.side in part.which.split()
    return None if on_side else row


def in_row(positions: Iterable[str | None], hand: Hand | None) -> tuple[str, ...]:
    """Those of *positions* in the row worked on; () where none is."""
    if hand is None or hand.row is None:
        return ()
    return tuple(p for p in positions if p is not None and hand.row in p.split())


def _is_called(component: Component, word: str) -> bool:
    return word in component.label.lower().split()
