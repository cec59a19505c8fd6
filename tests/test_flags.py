"""The closed list of doubts."""

from __future__ import annotations

import pytest
from pydantic import ValidationError

from saywright.flags import REASONS, Flag, FlagKind, flag


def test_every_kind_has_its_reason() -> None:
    """No kind without a level and a reason in plain words, and no two with the same reason."""
    assert set(FlagKind) == set(REASONS)
    assert len(REASONS) == len({reason for _, reason in REASONS.values()})
    assert {"note", "ask"} == {level for level, _ in REASONS.values()}


@pytest.mark.parametrize("kind", FlagKind)
def test_reason_and_detail(kind: FlagKind) -> None:
    """The text is the reason, with what it is about behind it."""
    level, reason = REASONS[kind]
    assert Flag(kind=kind, level=level, text=reason) == flag(kind)
    assert f"{reason}: 125 or 128" == flag(kind, "125 or 128").text


@pytest.mark.parametrize("kind", FlagKind)
def test_reasons_read_well(kind: FlagKind) -> None:
    """A reason begins small, ends without a stop and fits a line, since it is put into sentences."""
    _, reason = REASONS[kind]
    assert reason[0].islower()
    assert reason[-1] not in ".:;,"
    assert len(reason) <= 80


@pytest.mark.parametrize(
    "kind",
    [
        FlagKind.HEARINGS_DISAGREE,
        FlagKind.NUMBER_AMBIGUOUS,
        FlagKind.OUTSIDE_PLAUSIBLE,
        FlagKind.POORLY_HEARD,
        FlagKind.PART_AMBIGUOUS,
        FlagKind.APPROXIMATE,
    ],
)
def test_doubts_about_a_value_ask(kind: FlagKind) -> None:
    """What may make a number wrong waits for a person."""
    assert "ask" == flag(kind).level


def test_flags_cannot_be_changed() -> None:
    """A flag is frozen, and knows no other fields."""
    doubt = flag(FlagKind.HOMOPHONE, "for")
    with pytest.raises(ValidationError):
        doubt.level = "note"
    with pytest.raises(ValidationError):
        Flag.model_validate({**doubt.model_dump(), "colour": "red"})
