"""Whether a name mended by its sound decided a value: only then the value asks.

The utterance is read once more without the mended words. A value that comes out the same, of the same
part and with no more doubt, was decided by the other words or by what is in hand, and the sound agrees.
"""

from __future__ import annotations

from collections.abc import Hashable

from saywright.flags import Flag, FlagKind, flag
from saywright.understanding.facts import Fact
from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.sounds.sure_numerals import is_surely_said
from saywright.understanding.statements import Reading
from saywright.understanding.working import Working


def may_ease(work: Working) -> bool:
    """True where a value asks for a mended name."""
    return any(isinstance(s, Reading) and FlagKind.PART_MENDED in _asks_for(s) for s in work.out)


def ease(work: Working, bare: Working) -> None:
    """Take that ask from the values of *work* that *bare*, read without the mended words, has too."""
    told = [s for s in bare.out if isinstance(s, Reading) and s.id not in bare.gone]
    for reading in [s for s in work.out if isinstance(s, Reading)]:
        mended = next((f for f in reading.flags if f.kind == FlagKind.PART_MENDED), None)
        fact = work.said.get(reading.id)
        if mended is None or fact is None:
            continue
        if _in_number(fact, work):
            if is_surely_said(reading, fact, work):
                _take_from(reading, mended, work)
            continue
        others = _asks_for(reading) - {FlagKind.PART_MENDED}
        if any(_what(s) == _what(reading) and _asks_for(s) <= others for s in told):
            _take_from(reading, mended, work)


def _take_from(reading: Reading, mended: Flag, work: Working) -> None:
    kept = (f for f in reading.flags if f is not mended)
    note = flag(FlagKind.NAME_MENDED, mended.text.rpartition(": ")[2])
    work.swap(reading, reading.model_copy(update={"flags": (*kept, note)}))


def _in_number(fact: Fact, work: Working) -> bool:
    """True where a numeral was mended: it is the value's own, or tells of which one it is."""
    return any(
        work.texts[at] in CLASSES for at in work.mended if fact.start <= at < max(fact.end, fact.phrase.end)
    )


def _asks_for(reading: Reading) -> set[FlagKind]:
    return {f.kind for f in reading.flags if f.level == "ask"}


def _what(reading: Reading) -> tuple[Hashable, ...]:
    return (
        reading.component,
        reading.which,
        reading.characteristic,
        reading.place,
        reading.value,
        reading.unit,
        reading.stage,
    )
