""" "I'm reading that wrong, 29.96", "let me do the front again, 90.60": one value, read once more."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise
from typing import Final

from saywright.quantity import parse_value
from saywright.understanding.facts import Fact, Told
from saywright.understanding.second_thoughts.put_in_question import in_question, pauses, put_in_question
from saywright.understanding.second_thoughts.restated import just_said
from saywright.understanding.second_thoughts.why_wrong import put_right_between
from saywright.understanding.second_thoughts.words import WHAT_WENT, read_turn, went_wrong
from saywright.understanding.statements import Reading, Remark
from saywright.understanding.subjects.noun_phrases import subject_of_components
from saywright.understanding.tokens import BREAK, tokenise
from saywright.understanding.working import Working

_SPEAKERS: Final = frozenset({"i", "we", "me", "my"})
_AMISS: Final = frozenset(
    ["wrong", "wrongly", "upside", "backwards", "askew", "misread", "glasses", "specs", "crooked", "squint",
     "tilted", "cocked"]
)  # fmt: skip
_AGAIN: Final = frozenset({"again", "properly", "over"})
_READS: Final = frozenset(
    ["do", "doing", "try", "trying", "check", "checking", "read", "reading", "measure", "measuring", "go",
     "going", "take", "taking", "look", "mike", "miking", "redo", "recheck", "remeasure"]
)  # fmt: skip
_SETS: Final = frozenset({"zero", "reset", "set", "clean", "wipe", "square"})  # before it is read once more
OF_ONESELF: Final = _SPEAKERS | {"hang", "hold", "wait"}  # what a number breaks off for
_SHORT: Final = 3  # tokens of a pause alone: "no, hold on"
_HAS_READ: Final = frozenset({"measured", "checked", "miked", "did", "took", "tried", "ran", "gauged"})
_ASKS: Final = frozenset({"let", "i", "just", "try", "going", "check"})  # one of them opens what is done anew
_OPENS: Final = _ASKS | _SETS | {"give"}
_SEES: Final = frozenset(
    (*lead, glasses, "on") for lead in ((), ("with",), ("with", "the")) for glasses in ("glasses", "specs")
)
_ANEW: Final = frozenset({"again", "more", "warm", "hot", "cold"})
_ONCE_MORE: Final = _ANEW | {"and", "then", "now", "once", "one", "time", "so", "running", "still", "when"}
_BECAUSE: Final = frozenset({"because", "cos", "since", "as", "sorry"})
_WENT_WRONG: Final = frozenset({"had", "was", "read", "misread", "held", "left", "forgot", "caught", "got"})
_REACH: Final = 12  # tokens before the value in which it is told why
_NEAR: Final = Fraction(1, 4)  # of the value before
_FAR: Final = Fraction(1, 2)  # the same, where it is told that the one before was wrong


def read_anew(work: Working, fact: Fact, told: Told) -> Reading | None:
    """The reading in whose place the value comes, by what is said before it; None where it says nothing so.

    The value stands alone behind it, without a part's name or another fact, and is near the one before.
    So too where it is told behind the value: "twelve, I had the ruler on the grip".
    """
    return _told_before(work, fact, told) or _told_behind(work, fact, told)


def _told_before(work: Working, fact: Fact, told: Told) -> Reading | None:
    """By what stands before the value."""
    head, measure = work.texts[: _value_start(fact)], fact.phrase.measure
    if not head or len(head) > _REACH or measure is None:
        return None
    last = [s for s in just_said(work) if type(s) is Reading]
    named = fact.characteristics and not (last and (_of(last[-1]),) == fact.characteristics)
    if named:
        return None
    why = _is_amiss(head) or _is_again(head) or _is_turned(head)
    if not why or any(f.phrase.start < fact.phrase.start for f in told.facts if f.kind == "value"):
        return None
    if any(s.components for s in told.subjects if s.start < fact.phrase.start and not s.pronoun):
        return None
    which = {w for s in fact.subjects for w in s.which}
    if which and last:
        alike = [r for r in work.readings() if _of(r) == _of(last[-1])]
        last = [r for r in alike if r.which in which]
    value = measure.readings[0].value
    share = measure.readings[0].how in {"fraction", "mixed"} or any(r.unit == "turn" for r in last[-1:])
    if not last or not _is_near(last[-1], value, _FAR if _is_turned(head) else _NEAR, share=share):
        return None
    same_again = parse_value(value) == parse_value(last[-1].value)  # "let me try again, three and a half"
    return None if same_again else last[-1]


def _of(reading: Reading) -> tuple[str, str]:
    return reading.component, reading.characteristic


def _value_start(fact: Fact) -> int:
    """Where the number of *fact* begins: behind "it again" of "let me do it again 3.62"."""
    return fact.phrase.head.start if fact.phrase.head is not None else fact.phrase.start


def of_the_same_thing(work: Working, fact: Fact, told: Told) -> None:
    """ "I measured that again and it is 14.1": one more reading of what was read last, which holds too.

    So too where the value stands behind nothing else: "and once more 338", "warm three ten".
    """
    head = work.texts[: fact.phrase.start]
    plain = _AGAIN.isdisjoint(head) or _HAS_READ.isdisjoint(head) or len(head) > _REACH
    once_more = _is_once_more(head)
    if plain and not once_more:
        return
    said = just_said(work) if once_more else work.last_group()
    last = [s for s in said if type(s) is Reading]
    asks = any(f.level == "ask" for f in last[-1].flags) if last else False
    plain = plain and (not once_more or asks)
    if plain or fact.characteristics or not last or fact.phrase.measure is None:
        return
    if any(s.components or s.which for s in fact.subjects) or not any(
        _is_near(last[-1], r.value) for r in fact.phrase.measure.readings
    ):
        return
    of = its_own(last, fact, [f for f in told.facts if f.kind == "value"])
    same = subject_of_components((of.component,), fact.start, fact.start)
    fact.subjects = [replace(same, which=(of.which,) if of.which is not None else ())]
    fact.characteristics = ((of.component, of.characteristic),)


def its_own(last: Sequence[Reading], fact: Fact, values: Sequence[Fact]) -> Reading:
    """ "Measured again, three point one and three point oh": of two read in a row each has its own.

    *last* is what was read then, *values* what is read now, *fact* among it.
    """
    of_it = (last[-1].component, last[-1].characteristic)
    row = [s for s in last if (s.component, s.characteristic) == of_it]
    apart = len({s.which for s in row}) == len(row) == len(values)
    return row[values.index(fact)] if apart else last[-1]


def _is_once_more(head: Sequence[str]) -> bool:
    """True for "again", "and once more", "warm" before a value: read anew, or in another state."""
    return bool(head) and _ONCE_MORE.issuperset(head) and not _ANEW.isdisjoint(head)


def _told_behind(work: Working, fact: Fact, told: Told) -> Reading | None:
    """ "front again twelve, I had the ruler on the grip": behind the value, why the one before was wrong."""
    tail = [text for text in work.texts[fact.phrase.end :] if text != BREAK]
    if not tail or not _tells_why(tail) or fact.phrase.measure is None or len(tail) > _REACH:
        return None
    if any(f is not fact and f.kind == "value" for f in told.facts) or any(
        s.components for s in fact.subjects
    ):
        return None
    which = {w for s in fact.subjects for w in s.which}
    last = [s for s in just_said(work) if type(s) is Reading]
    alike = [r for r in last if not which or r.which in which]
    of_it = not fact.characteristics or (
        bool(alike) and (alike[-1].component, alike[-1].characteristic) in fact.characteristics
    )
    if not alike or not of_it or (not which and len(last) > 1 and last[0].which != last[-1].which):
        return None
    measure = fact.phrase.measure
    share = measure.readings[0].how in {"fraction", "mixed"} or alike[-1].unit == "turn"
    return alike[-1] if _is_near(alike[-1], measure.readings[0].value, _FAR, share=share) else None


def _tells_why(tail: Sequence[str]) -> bool:
    """ "I had the jaws skew", "I'd got the ruler on the grip", "it was still climbing"."""
    because = tail[:1] and tail[0] in _BECAUSE
    said = tail[1:] if because else tail
    if len(said) < 3 or said[1] not in _WENT_WRONG:
        return False
    return said[0] in {"i", "we"} or (said[0] == "it" and said[2] == "still")


def hung_on(work: Working) -> None:
    """ "Hang on, lower one's twenty six point nine seven": in the place of what was read there a moment ago.

    So too where the last utterance did no more than pause: "no, hold on, let me zero it", or where it put
    its value in question. Else the value would be one more reading of the same thing.
    """
    put_right_between(work)
    put_in_question(work)
    read = [s for s in work.out if type(s) is Reading and s.id not in work.gone]
    if not read:
        return
    before = [s for s in work.last_group() if type(s) is Reading]
    if not before:
        return
    if not pauses(work.texts) and not _paused_before(work):
        before = [s for s in before if in_question(s)]
    for fresh in read:
        same = [old for old in before if _of_the_same(old, fresh) and old.id not in work.gone]
        last = same[-1] if same else None
        if last is None or last.value == fresh.value:
            continue
        if _is_near(last, fresh.value, share=in_question(last)):
            work.supersede([last.id], fresh.id, 0, 2)


def said_in_full(work: Working, told: Told) -> None:
    """ "eighteen, where's my vernier, eighteen point five": the first broke off, and does not stand."""
    values = [f for f in told.facts if f.kind == "value" and f.phrase.measure is not None]
    for first, then in pairwise(values):
        short, full = (f.phrase.measure.readings[0].value for f in (first, then) if f.phrase.measure)
        gap = work.texts[first.phrase.end : then.phrase.start]
        if (
            full == short
            or not full.startswith(short if "." in short else f"{short}.")
            or OF_ONESELF.isdisjoint(gap)
        ):
            continue
        read = [s for s in work.out if type(s) is Reading and s.id not in work.gone]
        old = next((r for r in read if r.value == short), None)
        new = next((r for r in read if r.value == full), None)
        if old is not None and new is not None and _of_the_same(old, new):
            work.supersede([old.id], new.id, 0, len(work.texts))


def _paused_before(work: Working) -> bool:
    """True where the last utterance was a pause and no more, or one to measure anew."""
    last = work.before.recent[-1] if work.before.recent else ()
    if not last or not all(type(s) is Remark for s in last):
        return False
    texts = tuple(token.text for token in tokenise(last[0].heard.split()))
    anew = len(texts) <= _SHORT or not (_READS | _SETS | _AGAIN).isdisjoint(texts)
    return bool(texts) and anew and pauses(texts) > 0


def _of_the_same(old: Reading, fresh: Reading) -> bool:
    keys = [(r.component, r.which, r.characteristic, r.stage) for r in (old, fresh)]
    return keys[0] == keys[1] and (old.place == fresh.place or (old.place is None and in_question(old)))


def moved_on(work: Working, fact: Fact, last: Reading) -> bool:
    """ "pad one point five … disc scored … no, nineteen point two six": no correction of what was read last.

    The part in hand is another one by now, on which something is read, and the value is a far cry from it.
    """
    held = work.sheet.get(work.hand.component) if work.hand is not None else None
    if held is None or not held.characteristic or held.id == last.component or fact.phrase.measure is None:
        return False
    near = any(_is_near(last, r.value) for r in fact.phrase.measure.readings)
    return not near and last not in work.out and last not in just_said(work)


def _is_amiss(head: Sequence[str]) -> bool:
    """ "no, I'm reading that wrong", "got my glasses on"."""
    if tuple(head) in _SEES:
        return True
    return not _AMISS.isdisjoint(head) and not _SPEAKERS.isdisjoint(head)


def _is_again(head: Sequence[str]) -> bool:
    """ "let me do the front again", "try that again", "going over it again"."""
    at, _ = read_turn(head, 0, len(head))
    anew = not _AGAIN.isdisjoint(head[-2:])
    return anew and not _READS.isdisjoint(head) and not _OPENS.isdisjoint(head[at : at + 1])


def _is_turned(head: Sequence[str]) -> bool:
    """ "no wait, it's slipped, it's a …": a no, and whatever tells why; "hang on, the spring wasn't home"."""
    at, said = read_turn(head, 0, len(head))
    if pauses(head) and head[at : at + 1] and head[at] in WHAT_WENT:
        return went_wrong(head[at:])
    return said and head[0] in {"no", "nope", "sorry", "correction"}


def _is_near(last: Reading, value: str, within: Fraction = _NEAR, *, share: bool = False) -> bool:
    """As many decimals, which shares have as it comes, and no far cry from it."""
    fine = share or len(value.partition(".")[2]) == len(last.value.partition(".")[2])
    if not fine or "/" in value + last.value:
        return False
    before = parse_value(last.value)
    return abs(parse_value(value) - before) <= within * abs(before)
