"""Record against expected record: what is right, what is missed, what is wrong and does not say so.

Pure. Items are compared as multisets of keys, so that each expected item answers for one found item.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from saywright.quantity import parse_value
from saywright.record.types import Photo, Reading, Record, waits

Expected = Mapping[str, Sequence[Mapping[str, Any]]]  # kind → items, as in the record's JSON
Key = tuple[Any, ...]

# What must agree for an item to be right.
KEYS: dict[str, tuple[str, ...]] = {
    "readings": ("stage", "component", "which", "characteristic", "value", "unit"),
    "conditions": ("component", "which", "condition", "present"),
    "actions": ("component", "which", "action", "status"),
    "movements": ("component", "which", "count", "movement", "part"),
    "identifiers": ("kind", "component", "value"),
    "photos": ("stage", "component", "which"),  # the spoken marks; their pictures: `score_photos`
}
_DEFAULTS: dict[str, Any] = {"present": True, "stage": "as_found", "unit": "1", "count": 1}


@dataclass(frozen=True, slots=True)
class Score:
    """How many of one kind are right."""

    kind: str
    right: int
    found: int  # in the record
    expected: int
    missed: tuple[Key, ...] = ()  # expected, not found
    surplus: tuple[Key, ...] = ()  # found, not expected

    @property
    def precision(self) -> float:
        """Share of what was found that is right; 1 where nothing was found."""
        return self.right / self.found if self.found else 1.0

    @property
    def recall(self) -> float:
        """Share of what was expected that was found; 1 where nothing was expected."""
        return self.right / self.expected if self.expected else 1.0

    @property
    def f1(self) -> float:
        """Harmonic mean of precision and recall; 1 where there was nothing and nothing was found."""
        total = self.found + self.expected
        return 2 * self.right / total if total else 1.0


@dataclass(frozen=True, slots=True)
class Silent:
    """A reading that is wrong and does not ask."""

    id: str
    component: str
    which: str | None
    characteristic: str
    value: str
    unit: str
    heard: str


@dataclass(frozen=True, slots=True)
class Result:
    """A record compared with what it should be."""

    scores: tuple[Score, ...]
    silent: tuple[Silent, ...]
    right_readings: int
    right_that_ask: int  # of `right_readings`: the price of caution

    def of(self, kind: str) -> Score:
        """The score of one kind."""
        return next(score for score in self.scores if score.kind == kind)

    @property
    def ask_share(self) -> float:
        """Share of the right readings that ask; 0 where none is right."""
        return self.right_that_ask / self.right_readings if self.right_readings else 0.0


def compare(record: Record, expected: Expected) -> Result:
    """*record* against *expected*. Superseded items do not count.

    Kinds that *expected* lacks are left out.
    """
    plain = record.as_json()
    scores = tuple(
        score_keys(
            kind,
            [_key(kind, item) for item in plain[kind] if _counts(kind, item)],
            [_key(kind, item) for item in expected[kind]],
        )
        for kind in KEYS
        if kind in expected
    )
    live = [reading for reading in record.readings if reading.superseded_by is None]
    wanted = expected.get("readings", ())
    right = _answered(live, Counter(_key("readings", item) for item in wanted))
    return Result(
        scores=scores,
        silent=silent_errors(live, wanted),
        right_readings=len(right),
        right_that_ask=sum(1 for reading in right if waits(reading)),
    )


def score_keys(kind: str, found: Sequence[Key], expected: Sequence[Key]) -> Score:
    """Multiset comparison of keys."""
    have, want = Counter(found), Counter(expected)
    right = have & want
    return Score(
        kind=kind,
        right=right.total(),
        found=have.total(),
        expected=want.total(),
        missed=tuple((want - right).elements()),
        surplus=tuple((have - right).elements()),
    )


def silent_errors(found: Iterable[Reading], expected: Sequence[Mapping[str, Any]]) -> tuple[Silent, ...]:
    """Readings wrong in value, part, which of several, characteristic or unit, that do not ask.

    Digits count as a number here ("18.4" for "18.40" is no wrong value), and the stage is left out.
    """
    left = Counter(_meaning(item) for item in expected)
    wrong: list[Silent] = []
    # What asks takes its answer last, so that a doubtful double does not make the sure one look wrong.
    for reading in sorted(found, key=waits):
        key = _meaning(reading.model_dump())
        if left[key] > 0:
            left[key] -= 1
        elif not waits(reading):
            wrong.append(
                Silent(
                    reading.id,
                    reading.component,
                    reading.which,
                    reading.characteristic,
                    reading.value,
                    reading.unit,
                    reading.heard,
                )
            )
    return tuple(wrong)


def score_photos(photos: Iterable[Photo], expected: Mapping[str, Mapping[str, Any] | None]) -> Score:
    """Pictures by file name against the component and stage of their mark; None for a picture without one."""
    placed = [
        (photo.name, photo.component, photo.stage) if photo.component else (photo.name, None, None)
        for photo in photos
        if photo.sha256 is not None and photo.superseded_by is None
    ]
    wanted = [
        (name, mark["component"], mark.get("stage", "as_found")) if mark else (name, None, None)
        for name, mark in expected.items()
    ]
    return score_keys("pictures", placed, wanted)


def _counts(kind: str, item: Mapping[str, Any]) -> bool:
    """False for what was replaced, and for pictures that nobody announced."""
    return item["superseded_by"] is None and (kind != "photos" or bool(item["heard"]))


def _answered(found: Iterable[Reading], want: Counter[Key]) -> list[Reading]:
    right: list[Reading] = []
    for reading in sorted(found, key=waits):
        key = _key("readings", reading.model_dump())
        if want[key] > 0:
            want[key] -= 1
            right.append(reading)
    return right


def _key(kind: str, item: Mapping[str, Any]) -> Key:
    return tuple(item.get(field, _DEFAULTS.get(field)) for field in KEYS[kind])


def _meaning(item: Mapping[str, Any]) -> Key:
    value = parse_value(str(item["value"]))
    return (item["component"], item.get("which"), item["characteristic"], value, item.get("unit", "1"))
