"""Whatever stands in a sheet: faults or a sheet, never a crash."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from saywright.sheets.check import check_sheet
from saywright.sheets.form import LISTS, SHAPES
from saywright.sheets.merge import filled_in, merge
from saywright.sheets.model import Sheet

WORDS = st.sampled_from(["a", "b", "mm", "psi", "1", "as_found", "iso14253", " ", "pad"])
NUMBERS = st.one_of(st.integers(-3, 30), st.decimals(-3, 30, places=2), st.just(Decimal("NaN")))
VALUES = st.one_of(
    WORDS,
    NUMBERS,
    st.booleans(),
    st.lists(WORDS, max_size=3),
    st.lists(NUMBERS, max_size=3),
    st.just({"a": 1}),
)
# Values of the right sort, so that meaning is reached too.
NAMES = st.text("abcdefgh", min_size=1, max_size=3)
SIZES = st.integers(1, 30).map(Decimal)
SORTS: dict[str, st.SearchStrategy[Any]] = {
    "text": NAMES,
    "texts": st.lists(NAMES, min_size=1, max_size=3, unique=True),
    "text or texts": st.one_of(NAMES, st.lists(NAMES, max_size=2)),
    "yes or no": st.booleans(),
    "count": st.integers(1, 3),
    "number": SIZES,
    "number from 0": SIZES,
    "number above 0": SIZES,
    "numbers": st.lists(SIZES, min_size=1, max_size=3, unique=True),
    "day": st.dates(),
    "pair": st.just([0, 40]),
    "stages": st.lists(st.sampled_from(["as_found", "as_left"]), max_size=2),
    "rule": st.sampled_from(["simple", "guarded"]),
    "phones": st.sampled_from(["F L OW T", "P IH N"]),
}
KEYS = {
    "unit": st.sampled_from(["mm", "um"]),
    "code": st.sampled_from(["mm", "psi"]),
    "inside": st.just("pad"),
    "instrument": st.just("a"),
}
# Keys that exclude each other are left to the odd entries and to the tests of each fault.
LEFT_OUT = {"nominal", "tolerance", "allowed", "upper", "count"}


def _entries(table: str) -> st.SearchStrategy[dict[str, Any]]:
    """Entries of this table: any of its keys, mostly with a fitting value."""
    shape = SHAPES[table].items()
    keys = {
        key: KEYS.get(key, SORTS[sort]) for key, sort in shape if sort != "tables" and key not in LEFT_OUT
    }
    if "characteristic" in SHAPES[table]:
        keys["characteristic"] = st.lists(_entries("characteristic"), max_size=2)
    must = {"caution": ("text",), "unit": ("code", "names"), "word": ("say",)}.get(table, ("id",))
    needed = {key: keys.pop(key) for key in must}
    plain = st.fixed_dictionaries(needed, optional=keys)
    odd = st.dictionaries(st.sampled_from([*SHAPES[table], "odd"]), VALUES, max_size=3)
    return st.integers(0, 19).flatmap(lambda n: plain if n else odd)


SHEETS = st.fixed_dictionaries(
    {"sheet": st.fixed_dictionaries({"id": NAMES, "title": NAMES})},
    optional={kind: st.lists(_entries(kind), max_size=2) for kind in LISTS},
)
BASE: dict[str, Any] = {
    "sheet": {"id": "b", "title": "B", "source": "S"},
    "instrument": [{"id": "a", "names": ["a"], "unit": "mm"}],
    "component": [{"id": "pad", "characteristic": [{"id": "a", "unit": "mm", "lower": Decimal(1)}]}],
    "condition": [{"id": "a", "names": ["a"]}, {"id": "b", "names": ["b", "worn"]}],
}


def _built(data: dict[str, Any]) -> Sheet:
    plain = dict(data["sheet"])
    for kind in LISTS:
        entries = data.get(kind, [])
        bare = kind in ("caution", "unit", "word")
        plain[kind] = entries if bare else [filled_in(entry) for entry in entries]
    return Sheet.model_validate(plain)


@settings(max_examples=150, deadline=None)
@given(data=SHEETS)
def test_without_faults_it_is_a_sheet(data: dict[str, Any]) -> None:
    """What the check lets pass the types accept; what they would refuse the check has told."""
    if not check_sheet(data):
        sheet = _built(data)
        assert len(data.get("component", [])) == len(sheet.component)
        for component, characteristic in sheet.characteristics():
            assert characteristic.names
            assert len(component.whiches) in (0, component.count)


@settings(max_examples=150, deadline=None)
@given(data=SHEETS)
def test_without_faults_it_extends_another(data: dict[str, Any]) -> None:
    """The same on top of a base: what passes merges into a sheet that has all parts of both."""
    if not check_sheet(data, base=BASE):
        sheet = _built(merge(data, BASE))
        assert {"pad"} | {one["id"] for one in data.get("component", [])} == {c.id for c in sheet.component}
        names = [name for condition in sheet.condition for name in condition.names]
        assert len(set(names)) == len(names)


@settings(max_examples=100, deadline=None)
@given(data=st.dictionaries(st.sampled_from(["sheet", *LISTS, "odd"]), VALUES, max_size=5))
def test_nonsense_has_faults(data: dict[str, Any]) -> None:
    """A file of other things is no sheet, and that is told without a crash."""
    assert check_sheet(data)
