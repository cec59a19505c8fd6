""" "Undo": what the last utterance gave is withdrawn, and what it had replaced holds again.

Each utterance that gave something, turned the stage or went on with a count leaves a step. An undo
takes the newest that still holds, so a second undo goes further back. Plain talk leaves no step.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from saywright.sheets.model import Stage
from saywright.understanding.discourse import Counting, Discourse, Step
from saywright.understanding.statements import Correction, Reading, Remark, Statement

_STEPS: Final = 12  # how far back one can undo
_TELL_NOTHING: Final = frozenset({Remark, Correction})


def stepped(
    before: Discourse, stage: Stage, counting: Counting | None, statements: Sequence[Statement]
) -> tuple[Step, ...]:
    """The steps of *before* with one for the utterance that gave *statements*, where it changed anything.

    *stage* and *counting* are those behind it.
    """
    told = not _TELL_NOTHING.issuperset(map(type, statements))
    turned = stage != before.stage or counting != before.counting
    if not told and not turned:
        return before.steps
    given = frozenset([s.id for s in statements if type(s) is not Remark])
    replaced = frozenset([one for s in statements if type(s) is Correction for one in s.supersedes])
    step = Step(
        given=given,
        replaced=replaced - {s.id for s in statements},
        stage=before.stage,
        turned=turned,
        counting=before.counting,
        first=before.first,
        latest=before.latest,
        seen=before.seen,
        off=before.off,
        refitted=before.refitted,
        came_off=before.came_off,
        planned=before.planned,
    )
    return (*before.steps, step)[-_STEPS:]


def newest(state: Discourse) -> Step | None:
    """The newest step of which anything still holds; None where there is nothing to undo."""
    return next((s for s in reversed(state.steps) if s.turned or s.given - state.gone), None)


def undone(state: Discourse, step: Step) -> Discourse:
    """*state* as if the utterance of *step* had not been said; numbers go on, the part stays in hand."""
    at = state.steps.index(step)
    readings = [s for group in state.recent for s in group if isinstance(s, Reading) and s.id in step.given]
    asked = (readings[0].component, readings[0].characteristic) if len(readings) == 1 else None
    return replace(
        state,
        stage=step.stage,
        counting=step.counting,
        first=step.first,
        latest=step.latest,
        seen=step.seen,
        off=step.off,
        refitted=step.refitted,
        came_off=step.came_off,
        planned=step.planned,
        open_number=None,
        awaited=asked,
        awaited_at=state.utterances,
        steps=state.steps[:at],
        gone=(state.gone | step.given) - step.replaced,
    )


def withdrawn_by(step: Step, state: Discourse) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Ids that an undo of *step* withdraws and those that hold again, each in the order said."""
    return _in_order(step.given - state.gone), _in_order(step.replaced)


def _in_order(ids: frozenset[str]) -> tuple[str, ...]:
    return tuple(sorted(ids, key=lambda one: (int("".join(c for c in one if c.isdigit()) or 0), one)))
