"""A sheet's raw data and that of the sheet it extends → one. Pure.

An entry with an id of the base adds its names to it, and overrides what else it says; a new
id is new. A name given by the sheet belongs to the sheet's entry: the base's entry loses it.
A caution never loses the base's text: the sheet's is put behind it.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from saywright.sheets.entries import folded, id_in_words, names_of
from saywright.sheets.form import LISTS, Data

_INHERITED = ("rule", "guard_ratio", "language", "source")  # of [sheet], where the sheet does not say them


def merge(data: Data, base: Data) -> dict[str, Any]:
    """*data* on top of *base*; both free of faults of form."""
    head = {key: base["sheet"][key] for key in _INHERITED if key in base["sheet"]} | dict(data["sheet"])
    merged: dict[str, Any] = {"sheet": head}
    for kind in LISTS:
        own = data.get(kind, ())
        below = [dict(entry) for entry in base.get(kind, ())]
        if kind == "component":
            below = [_with_source(entry, base) for entry in below]
        if kind == "condition":
            own = _with_predicates(own, below)
        if kind in ("condition", "action", "instrument"):
            below = _without_names(below, own)
        if kind == "condition":
            own = [{**entry, "own_names": names_of(entry)} for entry in own]
        merged[kind] = _merge_entries(kind, own, below)
    return merged


def _merge_entries(kind: str, own: Sequence[Data], base: Sequence[Data]) -> list[dict[str, Any]]:
    """The base's entries, each with what the entry of the same id adds, then the new ones."""
    key = {"unit": "code", "word": "say"}.get(kind, "id")
    merged = [dict(entry) for entry in base]
    place = {entry[key]: n for n, entry in enumerate(merged) if key in entry}
    for entry in own:
        n = place.get(entry.get(key))
        if n is None:
            merged.append(dict(entry))
        else:
            merged[n] = merge_entry(kind, entry, merged[n])
    return merged


def merge_entry(kind: str, own: Data, base: Data) -> dict[str, Any]:
    """One entry on top of the base's entry of the same id."""
    merged = {**base, **own}
    for key in ("names", "when") if kind == "caution" else ("names", "predicates"):
        if key in own and key in base:
            merged[key] = _joined(base[key], own[key])
    if "text" in own and "text" in base and own["text"] != base["text"]:
        merged["text"] = f"{base['text']} {own['text']}"
    if "characteristic" in own and "characteristic" in base:
        merged["characteristic"] = _merge_entries(
            "characteristic", own["characteristic"], base["characteristic"]
        )
    if "positions" in own and "count" not in own:
        merged.pop("count", None)
    _drop_other_form(merged, own)
    return merged


def filled_in(entry: Data) -> dict[str, Any]:
    """The entry with what it leaves unsaid: its id, in words, as its name; the count of its positions."""
    filled = dict(entry)
    if not filled.get("names") and not filled.get("predicates"):
        filled["names"] = id_in_words(filled)
    if filled.get("positions"):
        filled.setdefault("count", len(filled["positions"]))
    if "characteristic" in filled:
        filled["characteristic"] = [filled_in(one) for one in filled["characteristic"]]
    return filled


def _drop_other_form(merged: dict[str, Any], own: Data) -> None:
    """Limits said in one form take the place of the base's limits in another."""
    forms = (("lower", "upper"), ("nominal", "tolerance"), ("allowed",))
    said = [form for form in forms if any(key in own for key in form)]
    if said:
        for form in forms:
            if form not in said:
                for key in form:
                    merged.pop(key, None)


def _with_source(component: Data, base: Data) -> dict[str, Any]:
    """A component of the base whose limits keep naming the base's source."""
    source = base["sheet"].get("source")
    entry = dict(component)
    if source and "characteristic" in entry:
        entry["characteristic"] = [{"source": source, **one} for one in entry["characteristic"]]
    return entry


def _without_names(base: Sequence[dict[str, Any]], own: Sequence[Data]) -> list[dict[str, Any]]:
    """The base's entries without the names that *own* gives to an entry of another id."""
    kept = []
    for entry in base:
        others = {folded(name) for one in own if one["id"] != entry["id"] for name in _spoken(one)}
        left = {key: _apart(entry[key], others) for key in ("predicates",) if key in entry}
        names = _apart(names_of(entry), others)
        if names or any(left.values()):
            kept.append({**entry, "names": names, **left})
    return kept


def _spoken(entry: Data) -> list[str]:
    return [*names_of(entry), *entry.get("predicates", ())]


def _apart(names: Sequence[str], others: set[str]) -> list[str]:
    return [name for name in names if folded(name) not in others]


def _with_predicates(own: Sequence[Data], base: Sequence[Data]) -> list[Data]:
    """*own* with what the base has without a name, where the first of its predicates is a name in *own*.

    A sheet that calls it notchy, or rough, has the base's "rough" with all its other words under that id.
    """
    entries = list(own)
    for entry in base:
        said = [] if entry.get("names") else list(entry.get("predicates", ()))
        for n, one in enumerate(entries if said else ()):
            names = {folded(name) for name in names_of(one)}
            if one["id"] != entry["id"] and folded(said[0]) in names:
                entries[n] = {**one, "predicates": [*one.get("predicates", ()), *_apart(said, names)]}
    return entries


def _joined(base: str | Sequence[str], own: str | Sequence[str]) -> list[str]:
    below = [base] if isinstance(base, str) else list(base)
    above = [own] if isinstance(own, str) else list(own)
    known = {folded(name) for name in below}
    return below + [name for name in above if folded(name) not in known]
