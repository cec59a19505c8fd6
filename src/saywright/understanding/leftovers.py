"""What no statement covers: small words go with what is said beside them, the rest is kept as a remark.

"there is no fuel in the float": "there" belongs to the quote of what was found. "with compressed air" is
a remark of its own. No word is lost either way.
"""

from __future__ import annotations

from collections.abc import Sequence
from collections.abc import Set as AbstractSet

from saywright.understanding.statements import Correction, Reading, Remark, Statement
from saywright.understanding.tags import Tag
from saywright.understanding.tokens import BREAK
from saywright.understanding.working import Working

# Words that say nothing by themselves: who speaks, helping words, articles, joining words.
_SMALL = frozenset(
    ["i", "you", "he", "she", "it", "we", "they", "me", "us", "them", "this", "that", "these", "those",
     "there", "here", "am", "is", "are", "was", "were", "be", "been", "has", "have", "had", "a", "an", "the",
     "some", "and", "but", "so", "then", "though", "too", "also", "again", "just", "please"]
)  # fmt: skip
_TALK = frozenset({Remark})
_SAY_NOTHING = frozenset({"MOD", "AUX", "LINK", "BREAK", "PRON"})  # kinds of tags
_BEHIND = frozenset({"too", "also", "though", "again", "please"})  # go with what was said before them


def keep_rest(work: Working, tags: Sequence[Tag]) -> None:
    """Keep what is left, word for word; talk without any statement is one remark.

    No remark is made on tokens that say nothing by their *tags*.
    """
    for start in sorted(set(work.ages) - work.aged) if work.ages else ():
        work.remark(start, work.ages[start][0])
    if work.out and _TALK.issuperset(map(type, work.out)):
        reasons = [s.reason for s in work.out if type(s) is Remark and s.reason]
        work.begin_anew()
        work.remark(0, len(work.tokens), reasons[0] if reasons else "")
        return
    taken: set[int] = set()
    for start, end in work.covered:
        taken.update(range(*work.word_span(start, end)))
    if taken.issuperset([token.word for token in work.tokens]):
        return
    fillers = _fillers(tags) - _unplaced(work)
    run: list[int] = []
    for at, token in enumerate(work.tokens):
        if token.word not in taken:
            run.append(at)
        elif run:
            _keep(work, run, fillers)
            run = []
    if run:
        _keep(work, run, fillers)


def _fillers(tags: Sequence[Tag]) -> set[int]:
    """Tokens that say nothing by themselves: fillers, articles, helping words, links."""
    found: set[int] = set()
    for one in tags:
        if one.kind in _SAY_NOTHING or "FILLER" in one.tags:
            found.update(range(one.start, one.end))
    return found


def _unplaced(work: Working) -> frozenset[int]:
    """Tokens of places that no value was read at: their words are kept."""
    return frozenset(at for s in work.spots if s not in work.placed for at in range(s.start, s.end))


def _keep(work: Working, run: list[int], fillers: AbstractSet[int]) -> None:
    said = [at for at in run if at not in fillers and work.texts[at] != BREAK]
    if not said:
        return
    small = _SMALL.issuperset([work.texts[at] for at in said])
    if not (small and _quoted(work, said[0], run[0], run[-1] + 1)):
        work.remark(run[0], run[-1] + 1)


def _quoted(work: Working, said: int, start: int, end: int) -> bool:
    """Put tokens [start, end) into the quotes of what begins behind them, or else ends before them.

    False where nothing stands there. *said*: the first of them that is no filler.
    """
    first, last = work.word_span(start, end)
    told = [s for s in work.out if type(s) is not Correction and s.id in work.quoted]
    behind = [s for s in told if work.quoted[s.id][0] == last and _is_here(work, s)]
    before = [s for s in told if work.quoted[s.id][1] == first and _is_here(work, s)]
    with_them = before or behind if work.texts[said] in _BEHIND else behind or before
    for one in with_them:
        begin, stop = work.quoted[one.id]
        _requote(work, one, min(first, begin), max(last, stop))
    return bool(with_them)


def _is_here(work: Working, one: Statement) -> bool:
    """True where its quote is of this utterance alone: "eighteen … point four two" began in another."""
    span = work.quoted.get(one.id)
    return span is not None and one.heard == work.quote(*span)[0]


def _requote(work: Working, one: Statement, first: int, last: int) -> None:
    heard, start_s, end_s = work.quote(first, last)
    told = one.model_copy(update={"heard": heard, "start_s": start_s, "end_s": end_s})
    work.quoted[one.id] = first, last
    if isinstance(one, Reading) and isinstance(told, Reading):
        work.swap(one, told)
    else:
        work.out = [told if s is one else s for s in work.out]
