"""The data key of an instrument: the part of `Bench` that takes values in as an instrument sends them."""

from __future__ import annotations

import re

from saywright.errors import InputError
from saywright.hearing.words import DATA_KEY, Hypothesis, Utterance, Word
from saywright.understanding.statements import Statement
from saywright.wiring.bench_part import Part

_SENT = re.compile(r"([+\-−]?)\s*([0-9]{1,9})(?:[.,]([0-9]{1,9}))?\s*([a-z°µμ\"”″.]*)", re.IGNORECASE)
_SHOWN = 40  # characters of what came, in an error

# What instruments write behind a value → the word for it, as spoken.
_UNITS = {
    "": (),
    "mm": ("mm",),
    "in": ("inches",),
    "inch": ("inches",),
    '"': ("inches",),
    "”": ("inches",),
    "″": ("inches",),
    "um": ("microns",),
    "µm": ("microns",),
    "μm": ("microns",),
    "g": ("grams",),
    "nm": ("newton", "meters"),
    "n.m": ("newton", "meters"),
    "deg": ("degrees",),
    "°": ("degrees",),
}


class WedgePart(Part):
    """Values that come over a keyboard wedge."""

    def measured(self, text: str, *, actor: str | None = None) -> tuple[Statement, ...]:
        """A value as sent, "18.42" or "+0018,42 mm", on the characteristic in hand.

        It is kept like what is said, marked as the instrument's; one that has no place is an open
        item. InputError where it is no value, and then nothing is kept.
        """
        return self._understander().take(sent(text), actor=actor or self._actor)


def sent(text: str) -> Utterance:
    """The utterance of what came: the value with its digits, then the unit where one was sent."""
    shown = " ".join(text.split())[:_SHOWN]
    match = _SENT.fullmatch(text.strip())
    unit = _UNITS.get(match[4].lower()) if match else None
    if match is None or unit is None:
        raise InputError(
            f"“{shown}” is no value of an instrument",
            where="data key",
            to_do="Press the key again, or say the value",
        )
    sign = "-" if match[1] in ("-", "−") else ""
    whole = match[2].lstrip("0") or "0"
    value = sign + whole + (f".{match[3]}" if match[3] else "")
    words = tuple(Word(text=word) for word in (value, *unit))
    return Utterance(hypotheses=(Hypothesis(words=words, probability=1.0),), listener=DATA_KEY)
