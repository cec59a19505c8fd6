"""Sheet → phrases: what may be said at this bench, as words for grammars and as a prompt.

Pure. Values in prompts and sample lines come from a hash of what they are about, so that the
same sheet always gives the same words. They are spread over the plausible range and never
repeat an allowed size or a limit, so that a prompt cannot put a "right" value into the
listener's ear. Number words, never digits: measured on human speech, a prompt with readings
in number words gave 97 % exact numbers, none 63 %, one with digits 39 %.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from decimal import Decimal
from hashlib import sha256

from saywright.hearing.spoken import number_words, say_decimal, say_grouped, say_integer
from saywright.sheets.model import Characteristic, Component, Sheet
from saywright.units import UNITS

BENCH_WORDS = (
    "as found", "as left", "no make that", "correction", "scratch that", "same again", "both", "each",
    "left", "right", "front", "rear", "photo", "picture", "taking a photo", "going back together",
    "fitting", "new", "old", "removed", "fitted", "off", "out", "in", "back where it was",
    "serial number", "part number", "about", "roughly", "just under", "just over", "one", "of", "the",
    "is", "at", "it", "this", "that", "and", "not", "no", "yes", "to",
)  # fmt: skip
COMMANDS = (
    "pause listening",
    "resume listening",
    "read that back",
    "undo that",
    "what is left",
    "what is next",
)
PROMPT_TOKENS = 210  # Whisper keeps at most 223 tokens of prompt; the rest is a margin for rare words
_TOKEN = re.compile(r"[^\W_]+(?:'[^\W_]+)*")


def words_of(text: str) -> list[str]:
    """*text* as a listener would give it: lower case, no punctuation, hyphens split, apostrophes kept."""
    return _TOKEN.findall(text.lower().replace("’", "'").replace("&", " and "))


def phrases(sheet: Sheet) -> tuple[str, ...]:
    """Everything that has a name on the sheet, then number words, units and bench words; each once.

    Hyphens are split and case is lowered, so that the phrases match what listeners give.
    """
    return tuple(dict.fromkeys(" ".join(words_of(phrase)) for phrase in _named(sheet) if words_of(phrase)))


def words(sheet: Sheet) -> tuple[str, ...]:
    """Every single word of `phrases`, each once."""
    return tuple(dict.fromkeys(word for phrase in phrases(sheet) for word in phrase.split()))


def prompt(sheet: Sheet, expected: Iterable[str] = (), *, max_tokens: int = PROMPT_TOKENS) -> str:
    """Example readings in number words that name the job's parts, the *expected* component ids last.

    Last is nearest to what will be said, and the place that survives where a listener keeps only the end.
    Part of the room is kept for conditions, actions and parts that are not measured.
    """
    wanted = list(dict.fromkeys(expected))
    order = sorted(sheet.component, key=lambda c: wanted.index(c.id) if c.id in wanted else len(wanted))
    chosen = _fit(_readings(order, wanted), max_tokens * 3 // 4)
    left = max_tokens - sum(map(tokens, chosen))
    talk = _fit(_talk(sheet, order, chosen), left)
    return " ".join(f"{' '.join(words_of(line))}." for line in reversed([*chosen, *talk]))


def bench_prompt(sheet: Sheet, expected: Iterable[str] = ()) -> str:
    """`prompt` with the commands to the bench before it.

    They take no part's place: a listener that keeps the end of a prompt cuts them off where there is no room.
    """
    commands = COMMANDS if sheet.language.startswith("en") else ()
    return " ".join([*(f"{command}." for command in commands), prompt(sheet, expected)]).strip()


def _fit(lines: Iterable[str], room: int) -> list[str]:
    """The lines, in order, that fit into *room* tokens together."""
    chosen: list[str] = []
    for line in lines:
        if tokens(line) <= room:
            chosen.append(line)
            room -= tokens(line)
    return chosen


def _readings(order: Iterable[Component], wanted: Iterable[str]) -> Iterator[str]:
    """The readings of the parts wanted, twice; then each part's first, each part's second, …."""
    parts = list(order)
    first = [part for part in parts if part.id in wanted]
    yield from (
        _reading(part, what, salt) for salt in (0, 1) for part in first for what in part.characteristic
    )
    others = [part for part in parts if part.id not in wanted]
    for i in range(max((len(part.characteristic) for part in others), default=0)):
        yield from (_reading(part, part.characteristic[i]) for part in others if i < len(part.characteristic))


def _talk(sheet: Sheet, order: Iterable[Component], readings: Iterable[str]) -> Iterator[str]:
    """Bench talk without numbers: the parts that no reading names with a condition, then actions."""
    yield from (word.spoken for word in sheet.word)
    said = " ".join(readings)
    parts = sorted(order, key=lambda component: component.label in said)
    bad = [condition for condition in sheet.condition if not condition.good]
    for i, component in enumerate(parts):
        if component.label in said and i >= len(bad):
            break
        yield f"the {component.label} is {bad[i % len(bad)].label}" if bad else component.label
    if parts and sheet.language.startswith("en"):
        yield f"taking a photo of the {parts[0].label}"
    for i, action in enumerate(sheet.action if parts else ()):
        yield f"{action.label} the {parts[(2 * i + 1) % len(parts)].label}"


def _reading(component: Component, characteristic: Characteristic, salt: int = 0) -> str:
    """As it is said, in words: "air screw two and a quarter turns out"."""
    said = example(component, characteristic, salt)
    if characteristic.unit == "turn":
        way = "in" if characteristic.label.endswith(" in") else "out"
        return f"{component.label} {said} {way}"
    return f"{reading_name(component, characteristic)} {said}"


def reading_name(component: Component, characteristic: Characteristic) -> str:
    """How a reading is introduced: "float height", "main jet", "needle seat bore" (no word twice)."""
    part, what = component.label, characteristic.label
    if part in what:
        return what
    if what in ("size", "number"):
        return part
    first, _, rest = what.partition(" ")
    return f"{part} {rest}" if rest and part.split()[-1] == first else f"{part} {what}"


def example(component: Component, characteristic: Characteristic, salt: int = 0) -> str:
    """A plausible value with its unit in words, the same for the same ids and *salt*."""
    value = sample_value(component, characteristic, salt)
    unit = spoken_unit(characteristic.unit, one=value == 1)
    if characteristic.is_count:
        said = say_grouped(int(value)) if value == value.to_integral_value() else say_decimal(f"{value:f}")
    elif characteristic.unit == "turn":
        said = _say_quarters(value)
    else:
        said = _say_in_turn(value, _real_values(characteristic))
    return f"{said} {unit}".strip()


def _say_in_turn(value: Decimal, real: tuple[Decimal | None, ...]) -> str:
    """A measured value in one of the ways in which people say it, by its last digit.

    Every third gets a zero behind the point, said "oh": measured on made speech, a prompt without
    one had "point oh" heard as "point two" by one voice, and sure of it.
    """
    number = int(value.as_tuple().digits[-1])
    text = f"{value:f}"
    whole, point, decimals = text.partition(".")
    if not point:
        return say_grouped(int(value)) if number % 2 else say_integer(int(value))
    zeroed = f"{whole}.0{decimals[1:]}"
    if number % 3 == 0 and len(decimals) > 1 and Decimal(zeroed) not in real:
        text = zeroed
    said = say_decimal(text)
    if number % 3 == 2:
        return said.removeprefix("zero ")
    head, point, tail = said.partition(" point ")
    return head + point + tail.replace("zero", "oh") if number % 3 == 0 else said


def _real_values(characteristic: Characteristic) -> tuple[Decimal | None, ...]:
    """What a prompt must not put into the listener's ear: limits, nominal and permitted sizes."""
    return (characteristic.lower, characteristic.upper, characteristic.nominal, *characteristic.allowed)


def sample_value(component: Component, characteristic: Characteristic, salt: int = 0) -> Decimal:
    """A value in the plausible range (else around the limits), neither a limit nor an allowed size."""
    low, high = _range(characteristic)
    if characteristic.is_count and low < 100 < high:
        low = Decimal(100)  # "one forty two" shows the way stamped sizes are grouped, "sixty" does not
    step = _step(characteristic, high)
    count = max(1, int((high - low) / step))
    real = _real_values(characteristic)
    value = low
    for attempt in range(20):
        key = f"{component.id}/{characteristic.id}/{salt}/{attempt}"
        number = int.from_bytes(sha256(key.encode()).digest()[:6], "big")
        value = (low + step * (number % (count + 1))).quantize(step)
        if value not in real and (
            count < 20 or number % (count + 1) % 10
        ):  # round figures teach a listener little
            break
    return value


def spoken_unit(code: str, *, one: bool = False) -> str:
    """The unit as it is usually said; "" for a plain number."""
    unit = UNITS.get(code)
    if unit is None or not unit.names:
        return ""
    plural = next((name for name in unit.names if name.endswith("s")), unit.names[0])
    return unit.names[0] if one or code in ("thou", "bar", "mbar") else plural


def _range(characteristic: Characteristic) -> tuple[Decimal, Decimal]:
    if characteristic.plausible is not None:
        return characteristic.plausible
    known = [v for v in (*characteristic.limits, *characteristic.allowed) if v is not None]
    if not known:
        return Decimal(1), Decimal(50)
    low, high = min(known), max(known)
    margin = (high - low) or abs(high) / 2 or Decimal(1)
    return max(Decimal(0), low - margin), high + margin


def _step(characteristic: Characteristic, high: Decimal) -> Decimal:
    """The step in which values are made: the digits of the sheet's limits, two or three below 100."""
    if characteristic.unit == "turn":
        return Decimal("0.25")
    if characteristic.is_count:
        return Decimal(1)
    shown = [v for v in (*characteristic.limits, characteristic.nominal) if v is not None]
    places = max((-int(v.as_tuple().exponent) for v in shown), default=1)
    return Decimal(1).scaleb(-(min(places, 1) if high >= 100 else min(max(places, 2), 3)))


def _say_quarters(value: Decimal) -> str:
    whole, quarter = divmod(value, 1)
    part = {0: "", 1: "a quarter", 2: "a half", 3: "three quarters"}.get(int(quarter * 4), "")
    if not part:
        return say_integer(int(whole))
    return f"{say_integer(int(whole))} and {part}" if whole else part


def _named(sheet: Sheet) -> Iterator[str]:
    for component in sheet.component:
        yield from component.names or (component.label,)
        yield from component.positions
    for component, characteristic in sheet.characteristics():
        yield from characteristic.names or (characteristic.label,)
        yield from UNITS[characteristic.unit].names if characteristic.unit in UNITS else ()
        yield reading_name(component, characteristic)
    for instrument in sheet.instrument:
        yield from instrument.names
    for condition in sheet.condition:
        yield from (*condition.names, *condition.predicates) or (condition.label,)
    for action in sheet.action:
        yield from action.names or (action.label,)
    for caution in sheet.caution:
        yield from caution.triggers
    for unit in sheet.unit:
        yield from unit.names
    yield from (word.spoken for word in sheet.word)
    yield from number_words() if sheet.language.startswith("en") else ()
    yield from (*BENCH_WORDS, *COMMANDS) if sheet.language.startswith("en") else ()


def tokens(text: str) -> int:
    """Tokens *text* costs a Whisper tokenizer, estimated: 1 a short word, more for a long one."""
    return 1 + sum(1 + max(0, len(word) - 4) // 4 for word in words_of(text))
