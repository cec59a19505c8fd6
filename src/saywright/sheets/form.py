"""Raw TOML data → faults of form: unknown keys, wrong types, missing ids. Pure.

A key that is not known is a fault, never ignored: a mistyped `lower` would lose a limit in silence.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from datetime import date
from decimal import Decimal
from difflib import get_close_matches
from typing import Any, get_args

from saywright.sheets.fault import Fault
from saywright.sheets.locate import join
from saywright.sheets.model import Rule, Stage

_INDEX = re.compile(r"\[\d+\]")

Data = Mapping[str, Any]  # what the TOML parser gives, floats as Decimal

SHAPES: dict[str, dict[str, str]] = {
    "sheet": {
        "id": "text", "title": "text", "revision": "text", "source": "text", "extends": "text",
        "language": "text", "rule": "rule", "guard_ratio": "number from 0", "note": "text",
    },
    "instrument": {
        "id": "text", "names": "texts", "unit": "text", "resolution": "number above 0",
        "max_permissible_error": "number from 0", "calibration_due": "day",
    },
    "component": {
        "id": "text", "names": "texts", "count": "count", "positions": "texts", "renew": "yes or no",
        "part_number": "text", "inside": "text", "characteristic": "tables", "note": "text",
    },
    "characteristic": {
        "id": "text", "names": "texts", "unit": "text", "lower": "number", "upper": "number",
        "nominal": "number", "tolerance": "number from 0", "allowed": "numbers", "plausible": "pair",
        "places": "texts", "max_difference": "number above 0", "formula": "text",
        "instrument": "text", "when": "stages", "restore": "yes or no", "source": "text", "note": "text",
    },
    "condition": {"id": "text", "names": "texts", "predicates": "texts", "good": "yes or no"},
    "action": {"id": "text", "names": "texts", "order": "yes or no"},
    "caution": {"id": "text", "when": "text or texts", "text": "text"},
    "unit": {"code": "text", "names": "texts"},
    "word": {"say": "text", "means": "text", "sounds": "phones"},
}  # fmt: skip
REQUIRED: dict[str, tuple[str, ...]] = {
    "sheet": ("id", "title"),
    "instrument": ("id",),
    "component": ("id",),
    "characteristic": ("id",),
    "condition": ("id",),
    "action": ("id",),
    "caution": (),
    "unit": ("code", "names"),
    "word": ("say",),
}
# tables a sheet may have several of
LISTS = ("instrument", "component", "condition", "action", "caution", "unit", "word")
# the phones of the CMU pronouncing dictionary
_VOWELS = "AA AE AH AO AW AY EH ER EY IH IY OW OY UH UW"
_CONSONANTS = "B CH D DH F G HH JH K L M N NG P R S SH T TH V W Y Z ZH"
PHONES = frozenset([*_VOWELS.split(), *_CONSONANTS.split()])


class Findings:
    """Faults as they are found, each put on its line."""

    def __init__(self, line_of: Callable[[str], int | None]) -> None:
        self._line_of = line_of
        self._faults: list[Fault] = []

    def add(self, key: str, text: str) -> None:
        """*key* has the fault told by *text*."""
        self._faults.append(Fault(line=self._line_of(key), key=key, text=text))

    def sorted(self) -> list[Fault]:
        """All faults, in the order of the file."""
        return sorted(self._faults, key=lambda fault: fault.line or 0)


def is_number(value: object) -> bool:
    """True for a finite number; yes and no are none."""
    if isinstance(value, Decimal):
        return value.is_finite()
    return isinstance(value, int) and not isinstance(value, bool)


def _is_text(value: object) -> bool:
    return isinstance(value, str) and bool(value.strip())


def _every(value: object, test: Callable[[object], bool]) -> bool:
    return isinstance(value, list) and all(test(one) for one in value)


def _is_stage(value: object) -> bool:
    return value in get_args(Stage)


# what is wanted → (does the value fit, how to write it)
_SORTS: dict[str, tuple[Callable[[Any], bool], str]] = {
    "text": (_is_text, 'must be a text that is not empty, like "main jet"'),
    "texts": (lambda v: _every(v, _is_text), 'must be a list of texts, none empty, like ["main jet"]'),
    "text or texts": (lambda v: _is_text(v) or _every(v, _is_text), "must be a text or a list of texts"),
    "yes or no": (lambda v: isinstance(v, bool), "must be true or false"),
    "count": (lambda v: is_number(v) and isinstance(v, int) and v >= 1, "must be a whole number, 1 or more"),
    "number": (is_number, "must be a number, like 18.40"),
    "number from 0": (lambda v: is_number(v) and v >= 0, "must be a number, 0 or more"),
    "number above 0": (lambda v: is_number(v) and v > 0, "must be a number above 0"),
    "numbers": (lambda v: _every(v, is_number) and bool(v), "must be a list of numbers, like [125, 128]"),
    "day": (lambda v: type(v) is date, "must be a day, written without quotes, like 2027-03-01"),
    "pair": (lambda v: _every(v, is_number) and len(v) == 2, "must be two numbers, like [10, 30]"),
    "stages": (lambda v: _every(v, _is_stage), f"must be a list out of {', '.join(get_args(Stage))}"),
    "rule": (lambda v: v in get_args(Rule), f"must be one of {', '.join(get_args(Rule))}"),
    "phones": (
        lambda v: _is_text(v) and set(v.split()) <= PHONES,
        'must be phones of the CMU dictionary, without stress, like "F L OW T"',
    ),
    "tables": (lambda v: _every(v, lambda one: isinstance(one, dict)), "must be written as tables in [[…]]"),
}


def fits(table: str, key: str, value: object) -> bool:
    """True where *value* is of the sort that *key* of this table wants."""
    return _SORTS[SHAPES[table][key]][0](value)


def well_formed(table: str, entry: Data) -> dict[str, Any]:
    """The keys of an entry that this table knows and that hold what they should."""
    return {key: value for key, value in entry.items() if key in SHAPES[table] and fits(table, key, value)}


def hint(word: str, known: Iterable[str]) -> str:
    """A question for the nearest known word, or the known ones where none is near."""
    words = list(known)
    near = get_close_matches(word, words, n=1)
    if near:
        return f"did you mean '{near[0]}'?"
    return f"known: {', '.join(words)}" if words else "none is defined"


def check_form(data: Data, found: Findings) -> None:
    """Look at every key of a sheet's raw data and report what has no business there."""
    for key in data:
        if key not in ("sheet", *LISTS):
            found.add(key, f"unknown key; {hint(key, ('sheet', *LISTS))}")
    head = data.get("sheet")
    if isinstance(head, Mapping):
        _table("sheet", "sheet", head, found)
    elif head is None:
        found.add("sheet", "missing; a sheet begins with [sheet], with an id and a title")
    else:
        found.add("sheet", "must be a table, written [sheet]")
    for kind in LISTS:
        check_tables(kind, kind, data.get(kind), found)


def check_tables(kind: str, path: str, value: object, found: Findings) -> None:
    """Look at every key of the tables under one key."""
    if value is None:
        return
    if not isinstance(value, list) or not all(isinstance(one, Mapping) for one in value):
        found.add(path, f"must be written as tables, each headed [[{re.sub(_INDEX, '', path)}]]")
        return
    for number, entry in enumerate(value, start=1):
        _table(kind, f"{path}[{number}]", entry, found)


def _table(kind: str, path: str, entry: Data, found: Findings) -> None:
    shape = SHAPES[kind]
    for key, value in entry.items():
        if key not in shape:
            found.add(join(path, key), f"unknown key; {hint(key, shape)}")
        elif shape[key] == "tables":
            check_tables(key, join(path, key), value, found)
        elif not fits(kind, key, value):
            found.add(join(path, key), f"{_SORTS[shape[key]][1]}, not {_shown(value)}")
    for key in REQUIRED[kind]:
        if key not in entry:
            found.add(join(path, key), f"missing; every {kind} needs it")


def _shown(value: object) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    text = repr(value) if isinstance(value, (str, list, dict)) else str(value)
    return text if len(text) <= 40 else f"{text[:37]}..."
