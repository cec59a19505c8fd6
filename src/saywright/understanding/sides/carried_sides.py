"""A side that was not said again: the speaker may have changed sides without a word.

A value of a part on a side that was turned to asks where it is not what was read there before, by more than
two readings of one thing differ. Where only the part named last was on that side, any value asks.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise

from saywright.flags import Flag, FlagKind, flag
from saywright.quantity import parse_value
from saywright.sheets.model import Characteristic, Component, Stage
from saywright.understanding.discourse import Hand, ReadingKey
from saywright.understanding.numbers.words import CARDINALS
from saywright.understanding.sides.turning import MODEL
from saywright.understanding.statements import Movement, Reading
from saywright.understanding.tokens import tokenise
from saywright.understanding.working import Working

_SPREAD = Fraction(1, 4)  # of the width between the limits
_SPREAD_OF_VALUE = Fraction(1, 20)  # of the value, where the sheet has no two limits
_THERE = (("in", "there"), ("from", "there"))
_SAME, _PLACES = frozenset({"that", "this", "same"}), frozenset({"side", "end", "wheel", "corner"})
_CARRIED = frozenset({FlagKind.PART_FROM_CONTEXT, FlagKind.WHICH_UNCLEAR})
_EVERY = frozenset({"both", "all", "each", "every"})
_NUMBERED = frozenset({"number", "on", "for", "in", "at"})
_ORDERS = {word: str(n) for n, word in enumerate(CARDINALS, 1)} | {str(n): str(n) for n in range(1, 9)}
_READ_AGAIN = frozenset({"again", "rechecked", "remeasured", "recheck"})
# Where on the same one it was read now.
_ELSEWHERE = frozenset(
    (how, where)
    for how in ("other", "far", "thin", "thick", "wide", "narrow")
    for where in ("end", "edge", "face")
)


def side_doubts(
    work: Working,
    key: ReadingKey,
    stage: Stage,
    characteristic: Characteristic,
    value: str | None,
    *,
    heard: str | None = None,
) -> list[Flag]:
    """A note where the side of *key* was carried, and an ask where *value* does not repeat the one before.

    *value* is in the characteristic's unit; *heard* are the words, where they are more than this utterance.
    """
    side, hand = key[1], work.hand
    spec = work.sheet.get(key[0])
    if spec is not None and side not in spec.stations:
        return []  # "eight studs at twenty": told by number, and at no station
    words = work.texts if heard is None else tuple(token.text for token in tokenise(heard.split()))
    if hand is None or side is None or _is_said(side, words) or not _EVERY.isdisjoint(words):
        return []
    another = _another_said(work.sheet.get(key[0]), side, words)
    if another is not None:  # "left nine clicks, the other eleven" tells which
        other = "other" in words[words.index(another) :]
        doubt = flag(FlagKind.WHICH_UNCLEAR, f"{side}, or {another}")
        return [flag(FlagKind.PART_FROM_CONTEXT, f"{side}, the other one") if other else doubt]
    if hand.side is None or not set(hand.side.split()) <= set(side.split()):
        return []
    if hand.turned:
        again = not _READ_AGAIN.isdisjoint(words) or not _ELSEWHERE.isdisjoint(
            pairwise(word.text for word in work.words)
        )
        before = None if again or value is None else work.first.get((key, stage))
        return _carried(side, characteristic, before, value)
    held = work.before.hand
    if any(two in _THERE or (two[0] in _SAME and two[1] in _PLACES) for two in pairwise(words)):
        return [flag(FlagKind.PART_FROM_CONTEXT, side)]  # "new piston in there", "pads from that wheel"
    if hand.side_at == work.now or (held is not None and _goes_on_with(work, held, key, hand.side)):
        return []
    return [
        flag(FlagKind.PART_FROM_CONTEXT, side),
        flag(FlagKind.WHICH_UNCLEAR, f"{side}, as the part before"),
    ]


def _goes_on_with(work: Working, held: Hand, key: ReadingKey, side: str) -> bool:
    """ "front pads out", then "inner two point one", "outer two": of those, told of together on that side."""
    before = work.before.recent[-1] if work.before.recent else ()
    if (held.component, held.which) == key[:2]:
        carried = held.side == side and held.side_at < held.utterance  # "adjuster in", and nobody said where
        moved = any(isinstance(s, Movement) and (s.component, s.which) == key[:2] for s in before)
        return not (carried and moved and work.stage == "as_left")
    if held.component != key[0] or held.side != side:
        return False
    if held.which is None:
        return held.utterance == held.side_at
    return any(
        isinstance(s, Reading)
        and (s.component, s.which) == (held.component, held.which)
        and [f.kind for f in s.flags if f.kind in _CARRIED] == [FlagKind.PART_FROM_CONTEXT]
        for s in before
    )


def _is_said(side: str, words: Sequence[str]) -> bool:
    """True where *words* name *side*; a station by its number, "on one", "number three"."""
    if set(side.split()) <= set(words):
        return True
    return side.isdigit() and any(
        before in _NUMBERED and _ORDERS.get(one) == side for before, one in pairwise(words)
    )


def _carried(
    side: str, characteristic: Characteristic, before: Reading | None, value: str | None
) -> list[Flag]:
    """That the *side* was carried, and an ask where *value* is not near the one *before*."""
    carried = flag(FlagKind.PART_FROM_CONTEXT, side)
    if before is None or before.in_sheet_unit is None or value is None:
        return [carried]
    first, now = parse_value(before.in_sheet_unit), parse_value(value)
    if abs(first - now) <= _spread(characteristic, first):
        return [carried]
    doubt = flag(FlagKind.WHICH_UNCLEAR, f"{before.value} before on the {side}, {value} now")
    return [carried, doubt]


def _another_said(spec: Component | None, side: str, words: Sequence[str]) -> str | None:
    """A word of another position of the part: "and the outer again 4.2", which no rule gave a place."""
    if spec is None or not set(side.split()).isdisjoint(words):
        return None
    begin = 1 if words[:1] == ("right",) else 0  # "right, inner pad's five": a filler
    words = words[: next((at for at, word in enumerate(words) if word in MODEL), len(words))]
    others = {word for position in spec.positions for word in position.split()} - set(side.split())
    return next((word for word in words[begin:] if word in others), None)


def other_size(
    work: Working,
    at: tuple[ReadingKey, Stage],
    characteristic: Characteristic,
    value: str,
    *,
    named: bool,
    flags: Sequence[Flag],
) -> list[Flag]:
    """An ask where a stamped size goes back in that is not the one found, and its part was not *named*."""
    key, stage = at
    found = work.latest.get((key, "as_found")) if stage == "as_left" and characteristic.is_count else None
    if named or found is None or parse_value(found.value) == parse_value(value):
        return []
    if all(f.kind != FlagKind.PART_FROM_CONTEXT for f in flags):
        return []
    return [flag(FlagKind.STAMP_DIFFERS, f"{found.value} found, {value} now")]


def _spread(characteristic: Characteristic, value: Fraction) -> Fraction:
    """How far two readings of one thing may lie apart, in its unit."""
    lower, upper = characteristic.limits
    if lower is None or upper is None:
        return abs(value) * _SPREAD_OF_VALUE
    return (Fraction(upper) - Fraction(lower)) * _SPREAD
