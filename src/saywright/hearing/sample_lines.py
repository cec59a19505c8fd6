"""Sheet → lines as they may be said, to train a small language model on. Pure and repeatable."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import islice

from saywright.hearing.spoken import ONES, number_words, say_decimal, say_grouped, say_integer
from saywright.hearing.vocabulary import example, phrases, spoken_unit, words_of
from saywright.sheets.model import Characteristic, Component, Sheet

_READINGS_EACH = 30  # sample values for each characteristic
_FURTHER_NAMES_STEP = 7  # of states and verbs, one in so many is tried with a part's second and further names
_FRAMES = (
    "{part}",
    "the {part}",
    "{part} off",
    "{part} out",
    "{part} removed",
    "new {part} fitted",
    "{part} fitted",
    "{part} back in",
    "taking a photo of the {part}",
    "photo of the {part}",
    "order a new {part}",
    "no make that {part}",
    "{part} is good",
    "moving on to the {part}",
)
_READ = (
    "{name} {value}",
    "{name} is {value}",
    "the {name} is {value}",
    "{name} at {value}",
    "i get {value} on the {name}",
    "{value} on the {name}",
    "no make that {value}",
    "{value}",
    "{name} now {value}",
    "{name} {value} as left",
)
_STATED = (
    "{part} is {state}",
    "the {part} is {state}",
    "{part} {state}",
    "{part} is not {state}",
    "no {state} on the {part}",
    "{part} is slightly {state}",
    "{part} are {state}",
)
_DONE = (
    "{action} the {part}",
    "{part} {action}",
    "{action} it",
    "{part} is {action}",
    "no need to {action} the {part}",
)


def sample_lines(sheet: Sheet) -> tuple[str, ...]:
    """Some ten thousand lines: parts, readings over their range, conditions, actions, numbers."""
    lines = [" ".join(words_of(line)) for line in _all(sheet)]
    return tuple(line for line in lines if line)


def _all(sheet: Sheet) -> Iterator[str]:
    for component in sheet.component:
        yield from _about(sheet, component)
    yield from phrases(sheet)
    yield from _numbers()


def _about(sheet: Sheet, component: Component) -> Iterator[str]:
    """Lines on one part. Frames, states and verbs take turns: every pair of neighbours is met."""
    for number, part in enumerate(component.names or (component.label,)):
        yield from (frame.format(part=part) for frame in _FRAMES)
        step = 1 if number == 0 else _FURTHER_NAMES_STEP
        states = [name for one in sheet.condition for name in (*one.names, *one.predicates) or (one.label,)]
        yield from (
            _STATED[(i + number) % len(_STATED)].format(part=part, state=state)
            for i, state in enumerate(states[number::step])
        )
        verbs = [name for action in sheet.action for name in action.names or (action.label,)]
        yield from (
            _DONE[(i + number) % len(_DONE)].format(part=part, action=verb)
            for i, verb in enumerate(verbs[number::step])
        )
        yield from (f"{position} {part}" for position in component.positions)
    for characteristic in component.characteristic:
        yield from _readings(component, characteristic)


def _readings(component: Component, characteristic: Characteristic) -> Iterator[str]:
    what = characteristic.names or (characteristic.label,)
    parts = component.names or (component.label,)
    names = [*what, *(f"{part} {name}" for part in parts for name in what if part not in name), *parts]
    for salt in range(_READINGS_EACH):
        value = example(component, characteristic, salt)
        bare = " ".join(
            word for word in value.split() if word not in spoken_unit(characteristic.unit).split()
        )
        name = names[salt % len(names)]
        for number, frame in enumerate(_READ):
            yield frame.format(name=name, value=value if (salt + number) % 2 else bare)


def _numbers() -> Iterator[str]:
    """Numbers in every form, so that no digit is unlikely after another."""
    yield from (say_integer(n) for n in range(1000))
    yield from (say_grouped(n) for n in range(100, 1000))
    yield from (say_decimal(f"{n // 100}.{n % 100:02d}") for n in range(0, 10000, 7))
    yield from (say_decimal(f"0.{n:03d}") for n in range(0, 1000, 3))
    yield from (f"point {ONES[a]} {ONES[b]}" for a in range(10) for b in range(10))
    yield from (f"{ONES[a]} {ONES[b]} {ONES[c]}" for a in range(10) for b in range(10) for c in range(10))
    for whole in range(13):
        yield from (
            f"{ONES[whole]} and {part} turns out" for part in ("a half", "a quarter", "three quarters")
        )
    yield from islice(number_words(), None)
