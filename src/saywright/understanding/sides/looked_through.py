"""Numbered parts of one kind looked at one by one: "number two's scored … off comes number three". Pure."""

from __future__ import annotations

from collections.abc import Sequence

from saywright.understanding.statements import ConditionNote, Movement, Reading, Statement


def looked_through(off: Sequence[Statement], recent: Sequence[Sequence[Statement]]) -> bool:
    """True where others of the numbered part that came *off* were read or found so or so just before.

    The work goes by kinds of parts then, and no station is turned to.
    """
    gone = {(m.component, m.which) for m in off if isinstance(m, Movement) and (m.which or "").isdigit()}
    if not gone:
        return False
    parts = {component for component, _ in gone}
    told = (s for group in recent for s in group if isinstance(s, (Reading, ConditionNote)))
    return any(s.component in parts and s.which and (s.component, s.which) not in gone for s in told)
