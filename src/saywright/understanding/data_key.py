"""A value that an instrument sent itself: what its readings carry, and what need not be asked of it."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from saywright.flags import FlagKind, flag
from saywright.hearing.words import DATA_KEY, Utterance
from saywright.quantity import parse_value
from saywright.sheets.model import Characteristic, Sheet
from saywright.understanding.discourse import Discourse
from saywright.understanding.statements import Reading, Remark, Statement, Unclear
from saywright.units import convertible, spoken_units

# How the digits were spoken is no question where nobody spoke.
_NOT_SPOKEN = {FlagKind.FIGURES, FlagKind.HOMOPHONE}


_NEAR = 20  # a value that lies nearer to one that was read may repeat it

_NO_PLACE = "a value from the data key, and nothing in hand that it measures"


def whole(utterance: Utterance, state: Discourse, sheet: Sheet) -> Discourse:
    """*state* as a data key finds it: what it sends is whole, and goes on with no number spoken before.

    Where the part in hand has several measures and all but one of those that the value would fit are
    read, the one left is what is awaited. A value near one that was read may as well repeat it: then
    nothing is awaited, and it asks.
    """
    if utterance.listener != DATA_KEY:
        return state
    state = replace(state, open_number=None, counting=None)
    left = None if state.awaited is not None else _left(utterance, state, sheet)
    return state if left is None else replace(state, awaited=left, awaited_at=state.utterances)


def _left(utterance: Utterance, state: Discourse, sheet: Sheet) -> tuple[str, str] | None:
    """The one measure of the part in hand that the value would fit and that is not read yet."""
    hand = state.hand
    component = sheet.get(hand.component) if hand is not None else None
    if hand is None or component is None or (component.count > 1 and hand.which is None):
        return None
    value = parse_value(utterance.best.words[0].text)
    said = " ".join(word.text for word in utterance.best.words[1:])
    fitting = [one for one in component.characteristic if _fits(one, value, said)]
    read = {
        one.id: state.latest[(component.id, hand.which, one.id), state.stage]
        for one in fitting
        if ((component.id, hand.which, one.id), state.stage) in state.latest
    }
    unread = [one for one in fitting if one.id not in read]
    if not read or len(unread) != 1 or any(_near(value, one) for one in read.values()):
        return None
    return component.id, unread[0].id


def _fits(characteristic: Characteristic, value: Fraction, said: str) -> bool:
    """True where a value in the unit sent, or in the sheet's, may be one of this characteristic."""
    codes = spoken_units().get(said, ())
    if codes and characteristic.unit not in codes:  # how large it may be is asked when it is read
        return any(convertible(code, characteristic.unit) for code in codes)
    bounds = characteristic.plausible
    return bounds is None or Fraction(bounds[0]) <= value <= Fraction(bounds[1])


def _near(value: Fraction, last: Reading) -> bool:
    """True where the value differs from what was read by less than a part in twenty."""
    return abs(value - parse_value(last.value)) * _NEAR < abs(value)


def marked(
    utterance: Utterance, before: Discourse, statements: tuple[Statement, ...]
) -> tuple[Statement, ...]:
    """*statements* of a data key with the note whence they came; others as they are.

    *before* is the state in which the value came. A value equal to what was read last of the same
    thing is not asked about the characteristic: that it fits is no chance. A value without a place
    is no talk: it waits for a person.
    """
    if utterance.listener != DATA_KEY:
        return statements
    if not any(isinstance(one, Reading | Unclear) for one in statements):
        return tuple(_unclear(one) if isinstance(one, Remark) else one for one in statements)
    return tuple(_marked(one, before) if isinstance(one, Reading) else one for one in statements)


def _unclear(remark: Remark) -> Unclear:
    said = {name: value for name, value in remark if name not in ("kind", "reason")}
    return Unclear(reason=_NO_PLACE, **said)


def _marked(reading: Reading, before: Discourse) -> Reading:
    settled = _NOT_SPOKEN
    last = before.latest.get(((reading.component, reading.which, reading.characteristic), reading.stage))
    if last is not None and _amount(last) == _amount(reading):
        settled = settled | {FlagKind.CHARACTERISTIC_AMBIGUOUS}
    kept = tuple(one for one in reading.flags if one.kind not in settled)
    return reading.model_copy(update={"flags": (*kept, flag(FlagKind.BY_INSTRUMENT))})


def _amount(reading: Reading) -> tuple[Fraction, str]:
    """The exact value, in the sheet's unit where it can be told in it, and which unit that is."""
    if reading.in_sheet_unit is not None:
        return parse_value(reading.in_sheet_unit), ""
    return parse_value(reading.value), reading.unit
