"""Number and letter drills: their diameter in inches, after ASME B94.11M.

A higher number is a smaller drill. A jet's stamped number is no drill unless its sheet says so,
therefore nothing here is applied on its own. Thirty values are tested against published charts; the
others are from memory and tested for their order only.
"""

from __future__ import annotations

from decimal import Decimal
from typing import Final

# Diameters in units of 0.0001 in, from number 1 to number 80.
_NUMBERED: Final = (
    2280, 2210, 2130, 2090, 2055, 2040, 2010, 1990, 1960, 1935, 1910, 1890, 1850, 1820, 1800, 1770, 1730,
    1695, 1660, 1610, 1590, 1570, 1540, 1520, 1495, 1470, 1440, 1405, 1360, 1285, 1200, 1160, 1130, 1110,
    1100, 1065, 1040, 1015, 995, 980, 960, 935, 890, 860, 820, 810, 785, 760, 730, 700, 670, 635, 595,
    550, 520, 465, 430, 420, 410, 400, 390, 380, 370, 360, 350, 330, 320, 310, 292, 280, 260, 250, 240,
    225, 210, 200, 180, 160, 145, 135,
)  # fmt: skip
# Diameters in units of 0.001 in, from A to Z.
_LETTERED: Final = (
    234, 238, 242, 246, 250, 257, 261, 266, 272, 277, 281, 290, 295, 302, 316, 323, 332, 339, 348, 358,
    368, 377, 386, 397, 404, 413,
)  # fmt: skip


def drill_diameter_in(name: str) -> Decimal | None:
    """Diameter in inches of the drill *name* ("60", "#60", "F"); None where there is no such drill."""
    text = name.strip().removeprefix("#").casefold()
    if text.isascii() and text.isdigit() and len(text) <= 2 and 1 <= int(text) <= len(_NUMBERED):
        return Decimal(_NUMBERED[int(text) - 1]).scaleb(-4)
    if len(text) == 1 and "a" <= text <= "z":
        return Decimal(_LETTERED[ord(text) - ord("a")]).scaleb(-3)
    return None
