"""A value that an instrument sent itself: what its readings carry, and what need not be asked of it."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from saywright.flags import FlagKind, flag
from saywright.hearing.words import DATA_KEY, Utterance
from saywright.quantity import parse_value
from saywright.understanding.discourse import Discourse
from saywright.understanding.statements import Reading, Remark, Statement, Unclear

# How the digits were spoken is no question where nobody spoke.
_NOT_SPOKEN = {FlagKind.FIGURES, FlagKind.HOMOPHONE}


_NO_PLACE = "a value from the data key, and nothing in hand that it measures"


def whole(utterance: Utterance, state: Discourse) -> Discourse:
    """*state* as a data key finds it: what it sends is whole, and goes on with no number spoken before."""
    if utterance.listener != DATA_KEY:
        return state
    return replace(state, open_number=None, counting=None)


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
