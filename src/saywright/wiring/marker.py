"""The marker card for the faces."""

from __future__ import annotations

from saywright.photos import card

ACROSS_MM, DOWN_MM = card.ACROSS_MM, card.DOWN_MM  # between the crosses at full size


def card_pdf() -> bytes:
    """One A4 page with the card at exact size."""
    return card.card_pdf()
