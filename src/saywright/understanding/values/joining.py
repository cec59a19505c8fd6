"""A reading split by a pause: "eighteen" … "point four two" is one number.

Only while nothing else came between and the pause was short.
"""

from __future__ import annotations

from dataclasses import replace

from saywright.flags import FlagKind, flag
from saywright.quantity import parse_value
from saywright.sheets.model import Characteristic
from saywright.understanding.discourse import OpenNumber, placed_key
from saywright.understanding.meanings import CharacteristicKey
from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.quantities.measures import Measure, find_measures
from saywright.understanding.quantities.plausible import is_inside, is_plausible
from saywright.understanding.statements import Reading
from saywright.understanding.tokens import HESITATIONS
from saywright.understanding.values.fitting import Choice, best_choice
from saywright.understanding.values.place_taking import named_place
from saywright.understanding.working import Working
from saywright.units import convert, convertible

_LONGEST_PAUSE_S = 8.0
_NAMED = 2  # tokens behind the number in which something else may be named
_GOES_ON = frozenset({"point", "decimal", "dot"})
_DIGITS = frozenset(
    ["zero", "oh", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "niner"]
)
# Doubts about the part do not go away because the number went on.
_KEPT = frozenset(
    {
        FlagKind.PART_AMBIGUOUS,
        FlagKind.WHICH_UNCLEAR,
        FlagKind.PART_FROM_CONTEXT,
        FlagKind.PART_MENDED,
        FlagKind.CHARACTERISTIC_AMBIGUOUS,
    }
)


def join(work: Working) -> int:
    """Join the head of this utterance to the number that ended the last one; tokens used, 0 for none."""
    pending = work.before.open_number
    if pending is None or pending.utterance != work.now - 1 or _too_long(pending, work):
        return 0
    skip = next((i for i, text in enumerate(work.texts) if text not in HESITATIONS), len(work.texts))
    rest = work.texts[skip : skip + 8]
    full = _in_full(pending, rest)
    pending = replace(pending, words=()) if full else pending
    if not rest or not (full or _may_join(pending, rest, work)):
        return 0
    whole, choice = _whole(pending, rest, work)
    if choice is None and pending.words[:1] == ("one",):  # "other one twenty four point eight" … "six"
        pending = replace(pending, words=pending.words[1:])
        whole, choice = _whole(pending, rest, work)
    if whole is None or choice is None or not (full or _must_join(pending, rest, choice, work)):
        return 0
    end = skip + whole.end - len(pending.words)
    if _names_another(work, end, choice):
        return 0
    _put(work, pending, whole, choice, end)
    return end


def _in_full(pending: OpenNumber, rest: tuple[str, ...]) -> bool:
    """ "trailing five point" … "five point eight": the number once more from its beginning, and whole."""
    head = pending.words[:-1]
    return pending.words[-1:] == ("point",) and bool(head) and rest[: len(head) + 1] == (*head, "point")


def _whole(pending: OpenNumber, rest: tuple[str, ...], work: Working) -> tuple[Measure | None, Choice | None]:
    """The number that *pending* and *rest* make together, and what it is a value of."""
    found = find_measures((*pending.words, *rest), work.lexicon.units)
    whole = next((m for m in found if m.start == 0 or m.end > len(pending.words) > m.start), None)
    if whole is None or whole.end <= len(pending.words) or not whole.readings:
        return None, None
    return whole, _choice(pending, whole, work)


def _names_another(work: Working, end: int, choice: Choice) -> bool:
    """ "main jet one thirty two" … "point nine rod clearance": the number is of what is named behind it."""
    for at in range(end, min(end + _NAMED, len(work.texts))):
        said = work.lexicon.names(work.texts, at)
        if said.characteristics:
            return choice.key not in said.characteristics
        if said.parts:
            return choice.key[0] not in said.parts
    return False


def _too_long(pending: OpenNumber, work: Working) -> bool:
    start = (
        work.words[0].start_s if work.words and work.words[0].start_s is not None else work.utterance.start_s
    )
    return pending.end_s is not None and start is not None and start - pending.end_s > _LONGEST_PAUSE_S


def _choice(pending: OpenNumber, whole: Measure, work: Working) -> Choice | None:
    keys: list[CharacteristicKey] = []
    if pending.component is not None and pending.characteristic is not None:
        keys = [(pending.component, pending.characteristic)]
    elif pending.component is not None:
        component = work.sheet.get(pending.component)
        keys = [(component.id, c.id) for c in component.characteristic] if component else []
    found = best_choice(whole, keys, work.sheet)
    return found[0] if found is not None and found[0].fits else None


def _may_join(pending: OpenNumber, rest: tuple[str, ...], work: Working) -> bool:
    """A point or a fraction always goes on; bare digits only where the first number made no sense alone.

    Or where they bring it to the sheet's decimals: "point eight seven" … "four four".
    """
    if _goes_on(pending, rest):
        return True
    before, spec = _before(pending, work)
    if before is None or _is_torn(pending, rest, before):
        return True
    if spec is None or not convertible(before.unit, spec.unit):
        return False
    exact = convert(parse_value(before.value), before.unit, spec.unit)
    only_digits = all(text in _DIGITS or text in HESITATIONS for text in rest)
    return (only_digits and 0 < _places(before.value) < spec.limit_places) or not is_plausible(spec, exact)


def _must_join(pending: OpenNumber, rest: tuple[str, ...], choice: Choice, work: Working) -> bool:
    """The same, with the *choice* that the whole number leaves: it has no more decimals than the sheet."""
    before, spec = _before(pending, work)
    if _goes_on(pending, rest) or before is None or spec is None:
        return True
    if _is_torn(pending, rest, before):
        alone = find_measures(rest, work.lexicon.units)[0].readings
        return choice.inside and bool(alone) and not is_inside(spec, parse_value(alone[0].value))
    exact = convert(parse_value(before.value), before.unit, spec.unit)
    return not is_plausible(spec, exact) or _places(choice.value) <= spec.limit_places


def _is_torn(pending: OpenNumber, rest: tuple[str, ...], before: Reading) -> bool:
    """ "I get thirty" … "four point two ohms": tens without a unit, and what they go on with has a point."""
    tens = bool(pending.words) and CLASSES.get(pending.words[-1], ("",))[0] == "TENS"
    return tens and before.unit_said is None and rest[0] in _DIGITS and rest[1:2] == ("point",)


def _goes_on(pending: OpenNumber, rest: tuple[str, ...]) -> bool:
    """True for "point four", "and a half", and behind a number that ends in "point" or "and"."""
    if rest[0] in _GOES_ON or (
        rest[0] == "and" and len(rest) > 1 and rest[1] in {"a", "half", "one", "three", "quarter"}
    ):
        return True
    return bool(pending.words) and pending.words[-1] in {*_GOES_ON, "and"}


def _before(pending: OpenNumber, work: Working) -> tuple[Reading | None, Characteristic | None]:
    """The reading that was made of the number so far, and what the sheet has of it."""
    before = next((s for s in work.newest() if s.id == pending.reading), None)
    if not isinstance(before, Reading):
        return None, None
    return before, work.sheet.find(before.component, before.characteristic)


def _places(text: str) -> int:
    return len(text.partition(".")[2])


def _put(work: Working, pending: OpenNumber, whole: Measure, choice: Choice, end: int) -> None:
    before = next((s for s in work.newest() if s.id == pending.reading), None)
    stage = before.stage if before is not None else work.stage
    component, characteristic = choice.key
    which = pending.which
    spec = work.sheet.find(component, characteristic)
    flags = [flag(FlagKind.JOINED), *choice.flags]
    if isinstance(before, Reading):
        flags += [f for f in before.flags if f.kind in _KEPT]
        work.gone.add(before.id)
    kept_first = {k: r for k, r in work.first.items() if before is None or r.id != before.id}
    work.first = kept_first
    place = named_place(work, [(0, end)], (0, end), choice.key)
    if place is None and isinstance(before, Reading):
        place = before.place
    repeat_of, more = work.repeat(
        placed_key((component, which, characteristic), place),
        stage,
        choice.value,
        exact=spec is not None and spec.is_count,
    )
    reading = work.make(
        Reading,
        0,
        end,
        flags=[*flags, *more],
        stage=stage,
        component=component,
        which=which,
        characteristic=characteristic,
        place=place,
        value=choice.value,
        unit=choice.unit,
        unit_said=whole.unit_said,
        in_sheet_unit=choice.in_sheet_unit,
        approximate=whole.approximate,
        repeat_of=repeat_of,
    )
    heard = f"{pending.heard} … {reading.heard}" if pending.heard else reading.heard
    reading = reading.model_copy(
        update={
            "heard": heard,
            "start_s": pending.start_s if pending.start_s is not None else reading.start_s,
        }
    )
    work.put(reading)
    if before is not None:
        work.supersede([before.id], reading.id, 0, end)
    work.named(component, which)
