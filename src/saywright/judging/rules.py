"""How decisions are made, in words for the report."""

from __future__ import annotations

from saywright.sheets.model import Rule, Sheet

_RULES: dict[Rule, str] = {
    "iso14253": (
        "A value conforms where it is inside its limits by more than a guard band of 1.65 times its standard "
        "uncertainty, and does not conform where it is outside by more than that: either is then at least "
        "95 % probable (ISO 14253-1:2017). In between it is undecided."
    ),
    "simple": (
        "A value conforms where it is inside its limits, and does not conform where it is outside; no guard "
        "band is kept (simple acceptance, ILAC-G8:09/2019). Close to a limit the risk of a wrong decision "
        "is up to 50 %."
    ),
    "guarded": (
        "A value conforms where it is inside its limits by more than a guard band of {ratio} times its "
        "expanded uncertainty U (k = 2), and does not conform where it is outside by more than that "
        "(JCGM 106:2012; ILAC-G8:09/2019). In between it is undecided."
    ),
}
_UNCERTAINTY = (
    "The uncertainty is made of the resolution of the instrument or of the digits said, whichever is coarser "
    "(step/√12), of the instrument's error limit (limit/√3), and, where a value was read several times, of "
    "the spread of the mean (s/√n) (JCGM 100:2008)."
)
_EXACT = "Counted and stamped values are exact: one of the permitted sizes, or not."
_REPEATS = "A value read several times is judged on its mean."


def how_decided(sheet: Sheet) -> tuple[str, ...]:
    """The sheet's decision rule and how the uncertainty was made, one sentence group an entry."""
    return _RULES[sheet.rule].format(ratio=sheet.guard_ratio), _UNCERTAINTY, _REPEATS, _EXACT
