"""What one part has, told of another: "idler gear eleven teeth", "the nut has half a mil of play"."""

from __future__ import annotations

from typing import Final

from saywright.flags import Flag, FlagKind, flag
from saywright.understanding.facts import Fact
from saywright.understanding.values.by_place import same_doubt
from saywright.understanding.values.fitting import Choice
from saywright.understanding.working import Working

_HAS: Final = frozenset({"has", "had", "have", "got"})
_BETWEEN: Final = _HAS | {"is", "a", "an", "some", "of", "the", "about"}


def named_fellow(work: Working, fact: Fact, best: Choice) -> list[Flag]:
    """ "idler gear eleven teeth", where teeth are counted on the drive gear only: an ask."""
    if not fact.characteristics:
        return same_doubt(work, fact, best)
    before = range(fact.phrase.start)
    named = [c for i in before for c in work.lexicon.names(work.texts, i).parts]
    if not named or best.key[0] in named:
        return []
    last, chosen = work.sheet.get(named[-1]), work.sheet.get(best.key[0])
    if last is None or chosen is None:
        return []
    if _has_it(work, fact, max(i for i in before if work.lexicon.names(work.texts, i).parts)):
        return [flag(FlagKind.PART_AMBIGUOUS, f"{last.label} was named")]
    heads = [{name.split()[-1] for name in part.names} for part in (last, chosen)]
    return [] if heads[0].isdisjoint(heads[1]) else [flag(FlagKind.PART_AMBIGUOUS, f"{last.label} was named")]


def _has_it(work: Working, fact: Fact, at: int) -> bool:
    """ "Left hub nut has play, half a mil": said to be of the part named at *at*."""
    if _HAS.isdisjoint(work.texts[at : fact.phrase.end]):
        return False
    named = work.lexicon.match(work.texts, at)
    begin = at + (named[0] if named is not None else 1)
    end = fact.start if fact.start > begin else fact.phrase.start
    between = work.texts[begin:end]
    return not _HAS.isdisjoint(between) and _BETWEEN.issuperset(between)
