"""The units that a value may be in: the one said, one of several it may mean, or the sheet's."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction

from saywright.flags import Flag, FlagKind, flag
from saywright.quantity import parse_value
from saywright.sheets.model import Characteristic
from saywright.understanding.numbers.ranked import NumberReading
from saywright.understanding.quantities.measures import Measure
from saywright.understanding.quantities.plausible import is_inside, is_plausible
from saywright.units import convert, convertible, get_unit

_MORE = ("Hg", "/min")  # left out of a vacuum said in inches, and of a flow said in mil
_TURNS = frozenset({"turn", "turns"})
_WRONG_KIND = 60
_FAR_TIMES = 4  # times over or under the limits: hardly worn or bent so far
_SCALE = 10  # times smaller than the limits: another unit was meant


def _in_full(measure: Measure) -> Iterator[str]:
    """The units that what was said may be short for: "mil" for millilitres a minute."""
    return (f"{code}{more}" for code in (measure.unit, *measure.units) for more in _MORE)


def units_of(
    measure: Measure, reading: NumberReading, characteristic: Characteristic
) -> Iterable[tuple[str, list[Flag], int]]:
    """Unit codes this measure may be in, with what to note and what it costs."""
    if "fraction_or_seconds" in measure.flags and get_unit(characteristic.unit).kind != "time":
        if reading.how in {"fraction", "mixed"}:
            yield characteristic.unit, [flag(FlagKind.UNIT_FROM_SHEET)], 0
        return
    if "tenths" in measure.flags and measure.unit is None and not measure.units:
        yield characteristic.unit, [flag(FlagKind.UNIT_AMBIGUOUS, measure.unit_said or "tenths")], 2
        return
    short = characteristic.unit.endswith(_MORE) and characteristic.unit in _in_full(measure)
    if short or (measure.unit == "turn" and characteristic.unit == "1" and _counts_turns(characteristic)):
        yield characteristic.unit, [flag(FlagKind.UNIT_FROM_SHEET)] if short else [], 0
        return
    if measure.unit is not None:
        wrong = not convertible(measure.unit, characteristic.unit)
        flags = (
            [flag(FlagKind.UNIT_MISMATCH, f"{measure.unit_said} for {characteristic.label}")] if wrong else []
        )
        yield measure.unit, flags, _WRONG_KIND if wrong else 0
        return
    fitting = [code for code in measure.units if convertible(code, characteristic.unit)]
    if measure.units and fitting:
        plausible = _likely(reading.value, fitting, characteristic)
        if len(plausible) == 1 and get_unit(plausible[0]).kind == "length":
            yield plausible[0], [], 0  # "mil" for millimetres and for thousandths
            return
        inches = "thou" if "tenths" in measure.flags and characteristic.unit == "in" else ""  # of a thou
        preferred = next((c for c in (characteristic.unit, inches) if c in fitting), fitting[0])
        clear = get_unit(preferred).kind == "temperature" and preferred in plausible  # "sixty degrees"
        ounces = (measure.unit_said or "").startswith("ounce") and preferred != characteristic.unit
        doubtful = ounces or (len(fitting) > 1 and not clear)  # ounces of a fluid differ by country
        flags = [flag(FlagKind.UNIT_AMBIGUOUS, measure.unit_said or "")] if doubtful else []
        yield preferred, flags, 0
        return
    if measure.units:
        yield (
            measure.units[0],
            [flag(FlagKind.UNIT_MISMATCH, f"{measure.unit_said} for {characteristic.label}")],
            _WRONG_KIND,
        )
        return
    if characteristic.unit == "thou" and reading.value.startswith("0.0"):
        # "Point oh oh nine" on a sheet in thou is said in inches.
        yield "in", [flag(FlagKind.UNIT_AMBIGUOUS, "inches or thou")], 0
        return
    note = [] if characteristic.unit == "1" else [flag(FlagKind.UNIT_FROM_SHEET)]
    yield characteristic.unit, note, 0


def _counts_turns(characteristic: Characteristic) -> bool:
    """True for "turns out" that a sheet has as a plain number."""
    return any(not _TURNS.isdisjoint(name.lower().split()) for name in characteristic.names)


def _likely(value: str, fitting: list[str], characteristic: Characteristic) -> list[str]:
    """The units in which the value is one that the sheet expects, the likely ones alone."""
    plausible = [code for code in fitting if _plausible_in(value, code, characteristic)]
    plausible = [c for c in plausible if not _far_below(value, c, characteristic)] or plausible
    plausible = _nearer(value, plausible, characteristic)
    inside = [code for code in plausible if _inside_in(value, code, characteristic)]
    return inside if len(inside) == 1 else plausible


def _plausible_in(value: str, code: str, characteristic: Characteristic) -> bool:
    """True where *value* in this unit is within what the sheet thinks possible."""
    return is_plausible(characteristic, convert(parse_value(value), code, characteristic.unit))


def _far_below(value: str, code: str, characteristic: Characteristic) -> bool:
    """True where *value* in this unit, not the sheet's, is below a tenth of every limit."""
    bounds = [abs(bound) for bound in characteristic.exact_limits if bound]
    exact = convert(parse_value(value), code, characteristic.unit)
    return code != characteristic.unit and bool(bounds) and exact * _SCALE < min(bounds)


def _nearer(value: str, codes: list[str], characteristic: Characteristic) -> list[str]:
    """ "Thirty one mil" beside fifteen at most: of two units the sheet's alone, where it is by far nearer."""
    if len(codes) < 2 or characteristic.unit not in codes or None in characteristic.limits:
        return codes
    times = {
        c: _times_out(convert(parse_value(value), c, characteristic.unit), characteristic) for c in codes
    }
    own = times.pop(characteristic.unit)
    if own is None or own >= _FAR_TIMES:
        return codes
    apart = all(o is None or o > max(Fraction(_FAR_TIMES), 2 * own) for o in times.values())
    return [characteristic.unit] if apart else codes


def _times_out(exact: Fraction, characteristic: Characteristic) -> Fraction | None:
    """How many times its limit a value is, above or below; 1 within them, None where that has no meaning."""
    lower, upper = characteristic.exact_limits
    if exact <= 0 or lower is None or upper is None or lower <= 0:
        return None
    return max(Fraction(1), exact / upper, lower / exact)


def _inside_in(value: str, code: str, characteristic: Characteristic) -> bool:
    """True where *value* in this unit is within both limits."""
    two_sided = None not in characteristic.limits
    return two_sided and is_inside(characteristic, convert(parse_value(value), code, characteristic.unit))
