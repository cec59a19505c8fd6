"""Raw TOML data → everything wrong with a bench sheet. Pure.

`saywright.sheets.form` asks whether each key may be there and is of the right type. Here is
asked whether the values make sense together. A value with a fault of form is taken as not said.
"""

from __future__ import annotations

from collections.abc import Sequence
from difflib import get_close_matches
from typing import Any

from saywright.sheets.entries import entries, find, first_twice, folded, in_words, names_of
from saywright.sheets.fault import Fault
from saywright.sheets.form import Data, Findings, check_form, hint
from saywright.sheets.formula_check import formula_faults, well_built
from saywright.sheets.locate import Lines, join
from saywright.sheets.merge import merge_entry
from saywright.sheets.word_check import word_faults
from saywright.units import UNITS, spoken_units

_EMPTY: Data = {}
READ_ONLY = ("when", "restore", "instrument", "plausible", "allowed", "places", "max_difference")


def check_sheet(data: Data, *, base: Data | None = None, lines: Lines | None = None) -> list[Fault]:
    """All faults of a sheet's raw data, in the order of its lines.

    *base* is the raw data of the sheet it extends, merged and without faults; *lines* tells
    where each key stands (no fault has a line without it).
    """
    found = Findings(lines.of if lines else lambda _path: None)
    check_form(data, found)
    _Meaning(data, base or _EMPTY, found).check()
    return found.sorted()


class _Meaning:
    """One pass over well-formed values; what the base defines counts as defined."""

    def __init__(self, data: Data, base: Data, found: Findings) -> None:
        self.data = data
        self.base = base
        self.found = found
        self.instruments = self._known("instrument")
        self.components = self._known("component")

    def check(self) -> None:
        for kind in ("instrument", "component", "condition", "action", "caution"):
            self._unique(kind, entries(self.data, kind, kind), "id")
        self._unique("unit", entries(self.data, "unit", "unit"), "code")
        for kind in ("instrument", "condition", "action"):
            self._names_apart(entries(self.data, kind, kind), kind)
        for path, instrument in entries(self.data, "instrument", "instrument"):
            self._names(path, instrument)
            self._unit(join(path, "unit"), instrument.get("unit"))
        for path, unit in entries(self.data, "unit", "unit"):
            self._names(path, unit)
            self._unit(join(path, "code"), unit.get("code"))
        for kind in ("condition", "action"):
            for path, entry in entries(self.data, kind, kind):
                self._names(path, entry)
        for path, caution in entries(self.data, "caution", "caution"):
            below = self._below("caution", caution.get("id"))
            if "text" not in caution and "text" not in below:
                self.found.add(join(path, "text"), "missing; a caution says what to beware of")
        for path, component in entries(self.data, "component", "component"):
            self._component(path, component)
        self._formulas()
        words = [entry for _, entry in entries(self.data, "word", "word")]
        for key, text in word_faults(words, self._meanings()):
            self.found.add(key, text)

    # ---- components and characteristics ------------------------------------------------------

    def _component(self, path: str, own: dict[str, Any]) -> None:
        below = self._below("component", own.get("id"))
        component = merge_entry("component", own, below) if below else own
        self._names(path, own)
        self._positions(path, component)
        self._inside(path, component)
        characteristics = entries(own, "characteristic", join(path, "characteristic"))
        self._unique("characteristic", characteristics, "id")
        self._names_apart(characteristics, "characteristic")
        for place, characteristic in characteristics:
            known = find(below.get("characteristic", ()), characteristic.get("id"))
            self._names(place, characteristic)
            whole = merge_entry("characteristic", characteristic, known) if known else characteristic
            self._characteristic(place, whole)
            self._several(place, whole, component)

    def _several(self, path: str, said: dict[str, Any], component: dict[str, Any]) -> None:
        """What belongs to one of several places or parts, or to what is computed."""
        places = said.get("places")
        if places is not None and (len(places) < 2 or first_twice(places)):
            self.found.add(join(path, "places"), "needs two places or more, each with a name of its own")
        fitted = len(component.get("positions") or ()) or component.get("count", 1)
        if "max_difference" in said and fitted < 2:
            self.found.add(join(path, "max_difference"), "stands where only one is fitted; leave it out")
        if "formula" in said:
            beside = [key for key in READ_ONLY if key in said]
            if beside:
                text = (
                    f"stands beside {' and '.join(beside)}; what is computed is not read, so leave that out"
                )
                self.found.add(join(path, "formula"), text)

    def _formulas(self) -> None:
        """Every formula, over what is well-formed."""
        paths = {
            (component.get("id"), one.get("id")): place
            for path, component in entries(self.data, "component", "component")
            for place, one in entries(component, "characteristic", join(path, "characteristic"))
        }
        for place, text in formula_faults(well_built(self.components)):
            self.found.add(join(paths.get(place, "component"), "formula"), text)

    def _positions(self, path: str, component: dict[str, Any]) -> None:
        positions = component.get("positions")
        if positions is None:
            return
        key = join(path, "positions")
        count = component.get("count")
        if not positions:
            self.found.add(key, "is empty; name each one that is fitted, or leave it out")
        elif count is not None and count != len(positions):
            self.found.add(key, f"names {len(positions)}, but count is {count}; make them agree")
        twice = first_twice(positions)
        if twice:
            self.found.add(key, f"'{twice}' is there twice; each position needs its own name")

    def _inside(self, path: str, component: dict[str, Any]) -> None:
        inside = component.get("inside")
        if inside is None:
            return
        key = join(path, "inside")
        if inside not in self.components:
            self.found.add(key, f"no component '{inside}'; {hint(inside, self.components)}")
            return
        seen = [component.get("id")]
        while inside is not None and inside not in seen:
            seen.append(inside)
            inside = self.components.get(inside, _EMPTY).get("inside")
        if inside is not None and inside == seen[0]:
            circle = " in ".join(f"'{one}'" for one in [*seen, inside])
            self.found.add(key, f"a part cannot sit in itself: {circle}")

    def _characteristic(self, path: str, said: dict[str, Any]) -> None:
        unit = said.get("unit", "1")
        self._unit(join(path, "unit"), unit)
        self._limits(path, said)
        self._allowed(path, said)
        self._plausible(path, said)
        instrument = said.get("instrument")
        if instrument is None:
            return
        key = join(path, "instrument")
        if instrument not in self.instruments:
            self.found.add(key, f"no instrument '{instrument}'; {hint(instrument, self.instruments)}")
            return
        reads = self.instruments[instrument].get("unit", "mm")
        if unit in UNITS and reads in UNITS and UNITS[unit].kind != UNITS[reads].kind:
            both = f"'{instrument}' reads {in_words(reads)}, and this is in {in_words(unit)}"
            self.found.add(key, f"{both}; name another instrument")

    def _limits(self, path: str, said: dict[str, Any]) -> None:
        lower, upper = said.get("lower"), said.get("upper")
        nominal, tolerance = said.get("nominal"), said.get("tolerance")
        if lower is not None and upper is not None and lower > upper:
            self.found.add(join(path, "lower"), f"{lower} is above the upper limit {upper}; mend one")
        if tolerance is not None and nominal is None:
            self.found.add(join(path, "tolerance"), "needs a nominal beside it")
        if nominal is not None and tolerance is None:
            self.found.add(join(path, "nominal"), "needs a tolerance beside it; or give lower and upper")
        if nominal is not None and (lower is not None or upper is not None):
            self.found.add(join(path, "nominal"), "stands beside lower or upper; use one form of limits")

    def _allowed(self, path: str, said: dict[str, Any]) -> None:
        allowed = said.get("allowed")
        if allowed is None:
            return
        key = join(path, "allowed")
        others = [name for name in ("lower", "upper", "nominal", "tolerance") if name in said]
        if others:
            self.found.add(key, f"stands beside {' and '.join(others)}; use allowed sizes or limits")
        twice = first_twice(allowed)
        if twice is not None:
            self.found.add(key, f"{twice} is there twice")

    def _plausible(self, path: str, said: dict[str, Any]) -> None:
        plausible = said.get("plausible")
        if plausible is None:
            return
        low, high = plausible
        if low >= high:
            self.found.add(join(path, "plausible"), f"{low} is not below {high}; write the smaller first")
            return
        ends: list[tuple[str, Any]] = [(name, said[name]) for name in ("lower", "upper") if name in said]
        if "nominal" in said and "tolerance" in said:
            nominal, tolerance = said["nominal"], said["tolerance"]
            ends += [("nominal", nominal - tolerance), ("nominal", nominal + tolerance)]
        ends += [("allowed", size) for size in said.get("allowed", ())]
        for name, value in ends:
            if not low <= value <= high:
                text = f"{value} is outside plausible, {low} to {high}; every good reading there would ask"
                self.found.add(join(path, name), text)

    # ---- names, ids, units -------------------------------------------------------------------

    def _unit(self, key: str, code: str | None) -> None:
        if code is not None and code not in UNITS:
            spoken = spoken_units()
            near = get_close_matches(code.lower(), spoken, n=1, cutoff=0.8)
            known = spoken[near[0]] if near else tuple(get_close_matches(code, UNITS, n=1))
            meant = f"did you mean '{known[0]}'? " if known else ""
            self.found.add(key, f"unknown unit '{code}'; {meant}known: {', '.join(UNITS)}")

    def _names(self, path: str, entry: dict[str, Any]) -> None:
        names = entry.get("names")
        if names is None:
            return
        twice = first_twice(names)
        if not names:
            self.found.add(join(path, "names"), "is empty; say how people call it, or leave it out")
        elif twice:
            self.found.add(join(path, "names"), f"'{twice}' is there twice")

    def _names_apart(self, entries: Sequence[tuple[str, dict[str, Any]]], kind: str) -> None:
        """No two entries share a name: speech could not tell them apart."""
        holder: dict[str, tuple[str, object]] = {}
        for path, entry in entries:
            for name in names_of(entry):
                word = folded(name)
                other, other_id = holder.setdefault(word, (path, entry.get("id")))
                if other != path and other_id != entry.get("id"):
                    text = f"'{name}' is also a name of {kind} '{other_id}'; keep one"
                    self.found.add(join(path, "names"), text)

    def _unique(self, kind: str, entries: Sequence[tuple[str, dict[str, Any]]], key: str) -> None:
        first: dict[object, str] = {}
        for path, entry in entries:
            value = entry.get(key)
            if value is not None and first.setdefault(value, path) != path:
                text = f"{kind} '{value}' is there already, as {first[value]}; rename one"
                self.found.add(join(path, key), text)

    def _known(self, kind: str) -> dict[str, dict[str, Any]]:
        """Entries of the base and of the sheet by id; the sheet's on top."""
        known = {entry["id"]: dict(entry) for entry in self.base.get(kind, ())}
        for _, entry in entries(self.data, kind, kind):
            if "id" in entry:
                below = known.get(entry["id"])
                known[entry["id"]] = merge_entry(kind, entry, below) if below else entry
        return known

    def _meanings(self) -> list[str]:
        """Every id that a word can mean."""
        kinds = [self.components, self._known("condition"), self._known("action"), self.instruments]
        inner = ((part, one) for part in self.components.values() for one in part.get("characteristic", ()))
        return [*(key for kind in kinds for key in kind), *(f"{p.get('id')}.{o.get('id')}" for p, o in inner)]

    def _below(self, kind: str, entry_id: str | None) -> dict[str, Any]:
        """The base's entry of this id; empty where there is none."""
        return find(self.base.get(kind, ()), entry_id) or {}
