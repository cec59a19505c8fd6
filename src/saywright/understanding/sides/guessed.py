"""Where it was not said which of several: the one it seems to be is put down, and asks. Pure.

"expander's free", when work on both sides was planned a moment ago and the right was worked on before: of the
right one, it seems. A guess is never taken up in hand, so what follows is guessed, and asks, by itself.
"""

from __future__ import annotations

from collections.abc import Sequence

from saywright.flags import FlagKind, flag
from saywright.sheets.model import Component, Sheet
from saywright.understanding.discourse import Discourse, Hand
from saywright.understanding.statements import ActionNote, ConditionNote, Movement, Reading, Statement
from saywright.understanding.tokens import tokenise

_OfOne = Reading | ConditionNote | ActionNote | Movement


def with_guesses(statements: Sequence[Statement], after: Discourse, sheet: Sheet) -> tuple[Statement, ...]:
    """*statements* with the place that each seems to be of, where that was not said and can be told."""
    return tuple(_guessed(s, after, sheet) for s in statements)


def last_side(statements: Sequence[Statement], hand: Hand | None, before: str | None) -> str | None:
    """The side in hand, else the place of what was told last, else the one *before*."""
    if hand is not None and hand.side is not None:
        return hand.side
    told = [w for s in statements if (w := getattr(s, "which", None)) is not None]
    return told[-1] if told and len(set(told)) == 1 else before


def _guessed(statement: Statement, after: Discourse, sheet: Sheet) -> Statement:
    if not isinstance(statement, _OfOne) or statement.which is not None:
        return statement
    doubt = next((f for f in statement.flags if f.kind is FlagKind.WHICH_UNCLEAR), None)
    spec = sheet.get(statement.component) if doubt is not None else None
    if spec is None or not spec.positions:
        return statement
    if isinstance(statement, Movement) and statement.count != 1:
        return statement
    which = _seems(statement, spec, after)
    if which is None:
        return statement
    rest = [f for f in statement.flags if f is not doubt]
    told = flag(FlagKind.WHICH_UNCLEAR, f"{spec.label}; {which}, it seems")
    return statement.model_copy(update={"which": which, "flags": (*rest, told)})


def _seems(told: _OfOne, spec: Component, after: Discourse) -> str | None:
    """The one of *spec* that *told* seems to be of: the only one left, or that of the side worked on last."""
    said = {token.text for token in tokenise(told.heard)} & spec.place_words
    left = [w for w in spec.positions if said <= set(w.split())] or list(spec.positions)
    done = after.hand.side_left if after.hand is not None else None
    if done is not None:
        left = [w for w in left if not set(done.split()) <= set(w.split())] or left
    if isinstance(told, Reading):
        read = {w for w in left if ((spec.id, w, told.characteristic), told.stage) in after.latest}
        left = [w for w in left if w not in read] or left
    if len(left) > 1 and after.last_side is not None:
        side = set(after.last_side.split())
        left = [w for w in left if side <= set(w.split()) or side >= set(w.split())]
    return left[0] if len(left) == 1 else None
