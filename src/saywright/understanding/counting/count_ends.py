"""How a count aloud ends: "… and it's seated", "that's it", "so three and a half turns"."""

from __future__ import annotations

from saywright.flags import Flag, FlagKind, flag
from saywright.quantity import parse_value
from saywright.understanding.bench_words import COUNT_TALK, LITTLE
from saywright.understanding.counting.aloud import Count
from saywright.understanding.meanings import Meaning
from saywright.understanding.numbers.words import HOMOPHONES
from saywright.understanding.quantities.hedges import LEADS_TO_CALL
from saywright.understanding.quantities.measures import find_measures
from saywright.understanding.tags import MOVES
from saywright.understanding.tokens import BREAK
from saywright.understanding.working import Working

_ENDS = frozenset({"seated", "seats", "bottomed", "bottoms", "home", "stops", "seat", "bottom"})
_ROUND_A_SUM = (COUNT_TALK | {"yes", "yeah", "at", "a", "total", "again"}) - {"right", "the", "side"}
_FEW = 3  # words around the end of a count
_IT_IS = (("it", "is"), ("that", "is"), ("she", "is"), ("he", "is"))
_TURNS = frozenset({"no", "nope", "wait", "sorry"})
_STOPPED = frozenset({"down", "free", "out", "in", "tight", "loose", "closed", "shut", "bottom", "there"})


_BITS = frozenset(("and", "a", word) for word in LITTLE)


def doubts(rest: tuple[str, ...]) -> tuple[Flag, ...]:
    """What stands behind a count against it: "… one and a square", "… one and a half, to, and that's it"."""
    if rest[:3] in _BITS:
        return (flag(FlagKind.APPROXIMATE, " ".join(rest[:3])),)
    if rest[:2] == ("and", "a"):
        return (flag(FlagKind.NUMBER_ODD, "the count did not end there"),)
    goes_on = rest[1:2] in {(), ("and",), (BREAK,)}
    return (flag(FlagKind.HOMOPHONE, rest[0]),) if rest and rest[0] in HOMOPHONES and goes_on else ()


def puts_right(texts: tuple[str, ...], run: Count) -> bool:
    """ "no, lost a half, three and three quarters": where a count that runs really is."""
    why = texts[1 : run.start]
    return texts[0] in _TURNS and run.end == len(texts) and not COUNT_TALK.issuperset(why)


def is_told(rest: tuple[str, ...], run: Count, work: Working) -> bool:
    """True where *rest* only ends the count, or tells its sum once more: "and stop so nine clicks"."""
    told = without_sum(rest, run, work)
    if stops(told) and work.lexicon.names(told, len(told) - 1).conditions:
        return False  # "and it's free": a finding too
    return only_ends(told) or (len(told) < len(rest) and _touches(told, work))


def sums_up(texts: tuple[str, ...], counted: str | None, work: Working) -> bool:
    """ "Seated at that, so one and a half": what was *counted* is told once more, and nothing else."""
    if counted is None:
        return False
    rest = without_sum(texts, Count(counted, 1, 0, 0), work)
    return len(rest) < len(texts) and _ROUND_A_SUM.issuperset(rest)


def _touches(rest: tuple[str, ...], work: Working) -> bool:
    """ "… and there it bites so", "there's the water so": with the sum told once more, a few idle words.

    They tell how it was seen to end, where they name no part, state or doing.
    """
    others = [at for at, text in enumerate(rest) if text not in COUNT_TALK]
    return 0 < len(others) <= _FEW and all(_is_idle(work.lexicon.names(rest, at)) for at in others)


def _is_idle(said: Meaning) -> bool:
    named = said.parts or said.aliases or said.characteristics or said.conditions or said.acts
    return not named and not said.tags & MOVES


def tells_end(texts: tuple[str, ...]) -> bool:
    """True where the screw is said to be seated; "the bottom cam" is a part."""
    if _ENDS.isdisjoint(texts):
        return stops(texts)
    return any(
        text in _ENDS and (text != "bottom" or COUNT_TALK.issuperset(texts[at + 1 : at + 2]))
        for at, text in enumerate(texts)
    )


def without_sum(rest: tuple[str, ...], run: Count, work: Working) -> tuple[str, ...]:
    """What stands behind a count, without the sum told once more: "that is three and a half turns"."""
    sums = find_measures(rest, work.lexicon.units)
    if len(sums) != 1 or parse_value(sums[0].readings[0].value) != parse_value(run.value):
        return rest
    rest = rest[: sums[0].start] + rest[sums[0].end :]
    return tuple(t for t in rest if not work.lexicon.names((t,), 0).characteristics)


def put_right_at_last(rest: tuple[str, ...], work: Working) -> tuple[str, int] | None:
    """ "… one and a bit, no, one and an eighth": the sum put right at once, and the tokens to its end."""
    at = rest.index("no") + 1 if "no" in rest else 0
    found = (
        find_measures(rest[at:], work.lexicon.units)
        if at and LEADS_TO_CALL.issuperset(rest[: at - 1])
        else ()
    )
    if len(found) != 1 or found[0].start or found[0].hedge or "/" in found[0].readings[0].value:
        return None
    return found[0].readings[0].value, at + found[0].end


def stopped_at(rest: tuple[str, ...], run: Count, work: Working) -> tuple[str, int] | None:
    """ "… two and there she stops two and a quarter": the last step behind its end, and the tokens to it."""
    found = find_measures(rest, work.lexicon.units) if not _ENDS.isdisjoint(rest) else ()
    if len(found) != 1 or found[0].hedge or found[0].unit not in {None, "turn"}:
        return None
    last, led = found[0].readings[0].value, rest[: found[0].start]
    if "/" in last or not COUNT_TALK.issuperset((*led, *rest[found[0].end :])) or not tells_end(led):
        return None
    step = parse_value(last) - parse_value(run.value)
    return (last, found[0].end) if 0 < step < 1 else None


def called_at_last(rest: tuple[str, ...], work: Working) -> tuple[str, int] | None:
    """ "… one and a half and a hair, call it one and five eighths": the sum, and the tokens to its end."""
    found = find_measures(rest, work.lexicon.units) if "call" in rest else ()
    if not found or not (found[0].hedge or "").startswith("call it"):
        return None
    led = LEADS_TO_CALL.issuperset(rest[: found[0].start])
    return (
        (found[0].readings[0].value, found[0].end) if led and "/" not in found[0].readings[0].value else None
    )


def only_ends(rest: tuple[str, ...]) -> bool:
    """True where *rest* is talk of counting and of its end."""
    return all(text in COUNT_TALK for text in (rest[:-3] if stops(rest) else rest))


def ends_first(rest: tuple[str, ...]) -> bool:
    """ "… that's it, same as before": the count ends, and other talk follows."""
    goes_on = rest[:1] == ("and",) and rest[1:3] in _IT_IS  # "… two and a half and it's out of the way"
    ended = rest[:3] == ("that", "is", "it") or rest[:1] in {("seated",), ("bottomed",)}
    return goes_on or ended


def stops(texts: tuple[str, ...]) -> bool:
    """ "… and it's down", "that's it free": the last words tell that it turns no further."""
    return texts[-3:-1] in _IT_IS and texts[-1] in _STOPPED
