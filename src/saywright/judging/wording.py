"""Names and figures as they are told to people."""

from __future__ import annotations

import math
from fractions import Fraction

from saywright.quantity import decimal_text
from saywright.sheets.model import Characteristic, Sheet, Stage
from saywright.units import UNITS

STAGE_WORDS: dict[Stage, str] = {"as_found": "as found", "as_left": "as left"}


def with_unit(text: str, unit: str) -> str:
    """A number with its unit behind it."""
    known = UNITS.get(unit)
    symbol = known.symbol if known else unit
    if unit == "turn" and text not in ("1", "-1"):
        symbol = "turns"
    if not symbol:
        return text
    return f"{text}{symbol}" if symbol in ("°", "%") else f"{text} {symbol}"


def number(value: Fraction) -> str:
    """An exact number as decimal text, at most six places."""
    return decimal_text(value, 6)


def figure(value: float, digits: int = 2) -> str:
    """A figure of uncertainty to *digits* significant digits, rounded up (JCGM 100, 7.2.6)."""
    if value <= 0:
        return "0"
    step = Fraction(10) ** (math.floor(math.log10(value)) - digits + 1)
    # A float such as 0.30000000000000004 must not be rounded up to 0.31.
    steps = math.ceil(round(float(Fraction(value) / step), 9))
    return decimal_text(steps * step, 12)


def rounded(value: float, doubt: float) -> str:
    """A signed value to as many places as two digits of its doubt have."""
    if doubt <= 0:
        return decimal_text(Fraction(value), 6)
    places = max(0, 1 - math.floor(math.log10(doubt)))
    return f"{value:.{places}f}"


def mean_text(value: Fraction, u: float) -> str:
    """A mean to as many places as two digits of its standard uncertainty have, without superfluous zeros."""
    return decimal_text(value, max(0, 1 - math.floor(math.log10(u)))) if u > 0 else number(value)


def short_float(value: float, digits: int = 4) -> str:
    """A float to *digits* significant digits, without an exponent."""
    return short(Fraction(value), digits)


def percent(probability: float) -> str:
    """A probability as told to people: never 0 % or 100 %, which would claim too much."""
    if probability > 0.999:
        return "more than 99.9 %"
    if probability < 0.001:
        return "less than 0.1 %"
    return f"{100 * probability:.1f} %"


def thing(
    sheet: Sheet,
    component: str | None,
    which: str | None,
    characteristic: str | None,
    place: str | None = None,
) -> str:
    """What a reading is of: "float height", "upper shaft bush bore", "cylinder bore at top"."""
    name = _thing(sheet, component, which, characteristic)
    return f"{name} at {place}" if place is not None else name


def _thing(sheet: Sheet, component: str | None, which: str | None, characteristic: str | None) -> str:
    part = sheet.label(component, which)
    found = sheet.find(component, characteristic) if characteristic else None
    if characteristic is None:
        return part
    label = found.label if found else characteristic.replace("_", " ")
    return joined_name(sheet, component, which, label, part)


def joined_name(sheet: Sheet, component: str | None, which: str | None, label: str, part: str) -> str:
    """Part and characteristic in one name; the part is not said twice."""
    plain = sheet.label(component)
    if plain not in label:
        last, _, rest = part.rpartition(" ")[2], *label.partition(" ")[1:]
        if rest and label.startswith(f"{last} "):
            return f"{part} {rest}"
        return f"{part} {label}"
    return label if which is None else label.replace(plain, part, 1)


def limits_text(characteristic: Characteristic) -> str:
    """The limits as the sheet has them: "18.0 to 18.8 mm", "at most 8.06 mm", "125, 128 or 130"."""
    unit = characteristic.unit
    if characteristic.allowed:
        sizes = [f"{size:f}" for size in characteristic.allowed]
        return with_unit(" or ".join(filter(None, (", ".join(sizes[:-1]), sizes[-1]))), unit)
    lower, upper = (None if limit is None else f"{limit:f}" for limit in characteristic.limits)
    if lower is not None and upper is not None:
        return with_unit(f"{lower} to {upper}", unit)
    if upper is not None:
        return f"at most {with_unit(upper, unit)}"
    return f"at least {with_unit(lower, unit)}" if lower is not None else "no limit"


def capital(text: str) -> str:
    """*text* with a capital first letter."""
    return text[:1].upper() + text[1:]


def short(value: Fraction, digits: int = 4) -> str:
    """An exact number to *digits* significant digits, without superfluous zeros."""
    if value == 0:
        return "0"
    places = digits - 1 - math.floor(math.log10(abs(float(value))))
    return decimal_text(value, max(0, places))
