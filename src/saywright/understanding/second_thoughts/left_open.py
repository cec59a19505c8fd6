"""A value taken back or put in question by the words behind it, and nothing said instead: it asks.

"Main jet's a one two five, no, hang on", "ten point oh four, that can't be right", "eleven, is it".
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import Final

from saywright.flags import Flag, FlagKind, flag
from saywright.quantity import parse_value
from saywright.understanding.aside.meant import may_be_meant
from saywright.understanding.facts import Fact, Told
from saywright.understanding.second_thoughts.corrected_copies import own_fields
from saywright.understanding.second_thoughts.restated import just_said
from saywright.understanding.second_thoughts.words import (
    NO,
    PAUSES,
    TURNING,
    made_excuse,
    only_turns,
    read_turn,
)
from saywright.understanding.statements import Correction, Reading, Remark, Unclear
from saywright.understanding.tokens import BREAK
from saywright.understanding.working import Working
from saywright.units import get_unit

# What the words end with; the word before them is not asked for.
_IN_QUESTION: Final = tuple(
    tuple(said.split())
    for said in (
        "is it", "was it", "is that right", "is that it", "or is it", "or was it", "maybe", "perhaps",
        "possibly", "or something", "or so", "or thereabouts", "question mark", "i think not", "not sure",
        "i am not sure", "not certain", "do not know", "have to check", "need to check", "check that",
        "check again", "can not be right", "can not be", "is not right", "looks wrong", "seems wrong",
        "is wrong", "was wrong",
        "does not look right", "does not seem right", "do not trust that", "do not trust it",
        "do not believe that", "do not believe it", "you say", "you reckon",
    )
)  # fmt: skip
_JUDGED: Final = frozenset({"that", "it", "is", "not", "right", "wrong", BREAK})
_WORDS: Final = 6  # words of the doubt that are told
_LAST: Final = frozenset(said[-1] for said in _IN_QUESTION)
_CUES: Final = TURNING | _LAST
_TALK: Final = frozenset({Remark})
_NOES: Final = tuple([word] for word in NO)
_NOT_A_TURN: Final = frozenset({"make", "rather"})


def doubt_left_open(told: Told, work: Working) -> None:
    """The readings of the last value ask where the words behind take it back and tell no other."""
    for reading in _made(work):
        _doubt_meant(reading, told, work)
    made = _made(work)
    if not made:
        return
    _doubt_denied(made, told, work)
    fact = work.said[made[-1].id]
    end = fact.told_to
    if fact.renamed == "asked":
        _ask(made, fact, work, flag(FlagKind.WHICH_UNCLEAR, "or is it?"))
    if not _CUES.isdisjoint(work.texts) and _is_put_right(work, end):
        _ask(made, fact, work, flag(FlagKind.CORRECTION_UNCLEAR, "a number behind it is not understood"))
    if _CUES.isdisjoint(work.texts) or fact.renamed or told.renamed is not None:
        return
    if any(f.phrase.start >= end for f in told.facts):
        return
    if any(type(s) is Correction for s in work.out) or read_turn(work.texts, 0, fact.start)[1]:
        return  # "correction, it's three point seven, I misread the vernier": of what was said before
    doubt = _doubt(work.texts[end:])
    if doubt is not None and not (_JUDGED.issuperset(work.texts[end:]) and _is_out(made[-1], work)):
        _ask(made, fact, work, doubt)


def _is_put_right(work: Working, end: int) -> bool:
    """ "thirty seven point eight, no, five thirty seven …": a no behind it, and a number of no place."""
    rest = [text for text in work.texts[end : end + 2] if text != BREAK]
    return rest[:1] in _NOES and any(type(s) is Unclear and s.component is not None for s in work.out)


def _is_out(reading: Reading, work: Working) -> bool:
    """ "meter says fourteen ohms, that's not right": past its limit: the part is judged, not the number."""
    spec = work.sheet.find(reading.component, reading.characteristic)
    value = parse_value(reading.in_sheet_unit or reading.value)
    if spec is None or value is None:
        return False
    return (spec.upper is not None and value > spec.upper) or (spec.lower is not None and value < spec.lower)


def _made(work: Working) -> list[Reading]:
    return [s for s in work.out if type(s) is Reading and s.id in work.said and s.id not in work.gone]


def _doubt_denied(made: Sequence[Reading], told: Told, work: Working) -> None:
    """ "Lets through three point four, no, it settled at three point six": the first may not hold."""
    if "no" not in work.texts:
        return
    for first, second in pairwise(made):
        start, end = work.said[first.id].phrase.end, work.said[second.id].phrase.start
        alike = (first.component, first.which, first.characteristic, first.place) == (
            (second.component, second.which, second.characteristic, second.place)
        )
        told_between = any(start <= f.phrase.start < end for f in told.facts)
        if alike and first.value != second.value and "no" in work.texts[start:end] and not told_between:
            _ask([first], work.said[first.id], work, flag(FlagKind.CORRECTION_UNCLEAR, "no"))


def _doubt_meant(reading: Reading, told: Told, work: Working) -> None:
    """ "Banjo bolt goes to twenty": it may be what it ought to be."""
    spec = work.sheet.find(reading.component, reading.characteristic)
    torque = spec is not None and get_unit(spec.unit).kind == "torque"
    why = may_be_meant(work.said[reading.id], told, work.texts, torque=torque)
    if why == "gets" and torque and reading.stage == "as_left":
        return  # "with the wheels back on each nut gets three thirty": as it is done
    if why and not reading.asks:
        doubt = flag(FlagKind.NUMBER_ODD, f"'{why}': it may be what is meant")
        work.swap(reading, reading.model_copy(update={"flags": (*reading.flags, doubt)}))


def _ask(made: Sequence[Reading], fact: Fact, work: Working, doubt: Flag) -> None:
    for reading in made:
        if work.said[reading.id] is fact and not reading.asks:
            work.swap(reading, reading.model_copy(update={"flags": (*reading.flags, doubt)}))


def _doubt(behind: Sequence[str]) -> Flag | None:
    """The doubt that the words *behind* a value and its part leave; None where they leave none."""
    said = [text for text in behind if text not in {"", "then"}]
    for phrase in _IN_QUESTION:
        if tuple(said[-len(phrase) :]) == phrase:
            # "three twenty you say": another read it, and nobody takes it back
            kind = FlagKind.APPROXIMATE if phrase[0] == "you" else FlagKind.CORRECTION_UNCLEAR
            return flag(kind, " ".join(phrase))
    for at, text in enumerate(said):
        if text in PAUSES or text in _NOT_A_TURN:
            continue
        end, turned = read_turn(said, at, len(said))
        if turned and _closes(said, at, end):
            return flag(FlagKind.CORRECTION_UNCLEAR, " ".join(said[at:end]))
        return None
    return None


def _closes(said: Sequence[str], at: int, end: int) -> bool:
    """True where the change of mind ends the talk, or is more than one word: "no, hang on, where's …"."""
    return end == len(said) or (end - at > 1 and said[at : at + 2] != ["no", "but"])


def doubt_last(work: Working) -> None:
    """ "No, that's wrong", "no, I pushed it with my foot", and no other value: what was read last asks."""
    if not _TALK.issuperset(map(type, work.out)) or not (only_turns(work.texts) or made_excuse(work.texts)):
        return
    last = just_said(work)[-1:]
    old = last[0] if last and type(last[0]) is Reading else None
    if old is None or old.asks:
        return
    put_in_doubt(work, old)


def put_in_doubt(work: Working, old: Reading) -> None:
    """What was read is told anew, and asks: these words take it back, and nothing is known in its place."""
    doubt = flag(FlagKind.CORRECTION_UNCLEAR, " ".join(work.texts[:_WORDS]))
    flags = [*old.flags, doubt]
    fresh = work.make(Reading, 0, len(work.texts), flags=flags, stage=old.stage, **own_fields(old))
    work.put(fresh.model_copy(update={"heard": f"{old.heard} … {fresh.heard}", "line": old.line}))
    work.supersede([old.id], fresh.id, 0, len(work.texts))
