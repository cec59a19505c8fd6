"""Values put right with more words between: "no, that's the filter housing, twenty five"."""

from __future__ import annotations

from collections.abc import Sequence, Set
from itertools import pairwise

from saywright.understanding.facts import Fact, Mark, Told
from saywright.understanding.numbers.words import CARDINALS
from saywright.understanding.second_thoughts.number_corrections import DID_WRONG
from saywright.understanding.second_thoughts.put_in_question import is_amiss
from saywright.understanding.second_thoughts.words import NO, read_turn
from saywright.understanding.statements import Reading
from saywright.understanding.tokens import BREAK, HESITATIONS
from saywright.understanding.values.fitting import best_choice
from saywright.understanding.working import Working
from saywright.units import convertible

_WHICH = frozenset(
    {BREAK, "the", "one", "ones", "is", "are", "it", "that", "just", "only", "both", *CARDINALS}
)
_TURNS = NO | (HESITATIONS - {BREAK})
_TURNED = NO | {"wait", "on"}  # "no wait", "hang on"
_MAY_TURN = _TURNS | _TURNED
_WHO = frozenset({"i", "we", "my"})
_WHO_DID = frozenset({"i", "we"})
_SPEAKERS = frozenset({"i", "it", "we"})
_SO_IT_WAS = frozenset({("so", "it", "was"), ("so", "it", "is"), ("so", "that", "is"), ("so", "that", "was")})
_LEADS_TO = frozenset({"to", "at", "after", "by", "of", "for", "with", "than", "about", "as", "on", "over"})
_THAT_IS = ("that", "is", "the")


def is_why(work: Working, fact: Fact, following: Fact) -> bool:
    """ "no, I started the count at a quarter, so it was two turns": the first only tells why.

    It is put aside; *following* puts right what was read before.
    """
    texts = work.texts
    if texts[0] not in NO or texts[1:2] == () or texts[1] not in _SPEAKERS or fact.characteristics:
        return False
    between = tuple(text for text in texts[fact.phrase.end : following.phrase.start] if text.isalpha())
    if between not in _SO_IT_WAS:
        return False
    fact.kind = "aside"
    work.remark(fact.start, fact.end, "why a value was wrong")
    return True


def excused_ahead(texts: Sequence[str], start: int, positions: Set[str]) -> bool:
    """ "no, I had it on the burr, one point eight two": why what was read just now was wrong.

    Not "no, I had the rear one at nineteen", "I let it down to nineteen", "I measured nineteen", where the
    value is of another or what it came to.
    """
    at, said = read_turn(texts, 0, start)
    who, did = (*texts[at : at + 2], "", "")[:2]
    if not (said and at + 2 < start and who in _WHO_DID and did in DID_WRONG):
        return False
    return texts[start - 1] not in _LEADS_TO and positions.isdisjoint(texts[at + 2 : min(start, at + 4)])


def told_of_another(work: Working, fact: Fact, opener: Mark | None) -> None:
    """ "twenty three, no, that's the filter housing, twenty five": what the wrong value was of.

    No such thing is read there; so the right one is of what was spoken of before.
    """
    if opener is None:
        return
    last = next(reversed(work.readings()), None)
    parts = [work.sheet.get(c) for s in fact.subjects for c in s.components]
    begin = opener.end if "that" not in work.texts[opener.start : opener.end] else opener.start
    if last is None or not parts or work.texts[begin : begin + len(_THAT_IS)] != _THAT_IS:
        return
    readable = any(
        convertible(last.unit, c.unit) for part in parts if part is not None for c in part.characteristic
    )
    if not readable and isinstance(last, Reading) and not fact.characteristics:
        fact.subjects = []


def forget_where_wrong(work: Working, told: Told, fact: Fact) -> None:
    """ "fourteen two, no wait, I'm on the gasket face, fourteen six": where it was held, not what is read.

    A part named in the excuse on which no such thing is read; the value is of what was read before.
    """
    texts, start, end = work.texts, fact.phrase.start, fact.phrase.end
    if not fact.subjects or fact.characteristics or _TURNED.isdisjoint(texts):
        return
    turned = [i for i, (one, two) in enumerate(pairwise(texts)) if one in _TURNED and two in _WHO]
    before = max((i for i in turned if i < start), default=start)
    behind = next((i for i in turned if i >= end), len(texts))
    wrong = [s for s in fact.subjects if s.components and (before < s.start < start or s.start > behind)]
    if not wrong or not _reads_such(work) or fact.phrase.measure is None:
        return
    parts = [part for part in (work.sheet.get(c) for s in wrong for c in s.components) if part is not None]
    own = best_choice(
        fact.phrase.measure, [(p.id, c.id) for p in parts for c in p.characteristic], work.sheet
    )
    if own is not None and own[0].fits:
        return
    fact.subjects = [s for s in fact.subjects if s not in wrong]
    told.subjects = [s for s in told.subjects if s not in wrong]


def _reads_such(work: Working) -> bool:
    """True where something is to be read, or was read before."""
    return work.before.awaited is not None or next(reversed(work.readings()), None) is not None


def put_right_between(work: Working) -> None:
    """ "bolts six all four, no, the rear two are seven", "front eleven too, uh, ten": the last one holds.

    Two values of one thing in one breath, and a no or a pause to look again between them.
    """
    read = [s for s in work.out if type(s) is Reading and s.id not in work.gone and s.id in work.said]
    if len(read) < 2 or _MAY_TURN.isdisjoint(work.texts):
        return
    for at, old in enumerate(read):
        for new in read[at + 1 :]:
            between = work.texts[work.said[old.id].phrase.end : work.said[new.id].phrase.start]
            other = old.value != new.value or not NO.isdisjoint(between)  # "both seven, no, left's seven"
            if other and _of_one_thing(old, new) and _turns_between(between, work):
                work.supersede([old.id], new.id, work.said[new.id].start, work.said[new.id].end)
                break


def _turns_between(between: Sequence[str], work: Working) -> bool:
    """True where nothing stands behind the turn but which of them, or why: "no the rear two are"."""
    if is_amiss(between):
        return True
    at = next((i for i, text in enumerate(between) if text in _TURNS), len(between))
    known = _WHICH | work.lexicon.positions
    return at < len(between) and "and" not in between and known.issuperset(between[at + 1 :])


def _of_one_thing(old: Reading, new: Reading) -> bool:
    keys = [(r.component, r.which, r.characteristic, r.place, r.stage, r.unit) for r in (old, new)]
    return keys[0] == keys[1]
